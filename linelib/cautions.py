"""The cautions, in one place: every panel, sheet and notebook takes its words from here."""

CAUTION = "A teaching model. It approves no rig and replaces no backup; local codes and qualified riggers decide."

SLIP = "A slipping lock is a fault: stop and re-rig."

HELD = "A held fall proves nothing about the next one. No change noticed is not evidence that nothing broke."

RETENSION = (
    "Re-tensioning can raise the number at the anchor. It gives back drop, the backup's reserve and, where the line had gone "
    "slack, force on the person; set tension within what every link allows."
)

LIMITS = "No published limit listed here fits a fall on a highline leash; limits are entered by the user and start blank."

LEFT_OUT = (
    "Left out: wind and flutter, a second walker, a pull sideways, a body that is more than a point, a ring sliding along the "
    "webbing, wet or aged webbing, knots and bends, heat, recoil of a broken end."
)

INVENTED = "Crews, places and rigs are invented."
