"""The words of the evidence form. Our own, for teaching; what to preserve and how to ask are common practice, no source."""

from __future__ import annotations

PURPOSE = (
    "To be filled in by hand, as soon as people are safe. It collects what is known and how it is known. It blames "
    "nobody. An empty field is an answer too: write 'not known' rather than a guess."
)
WHO_AND_WHERE = (
    "Date and time of the event",
    "Place, in words that find it again",
    "Weather: wind, rain, temperature",
    "Form written by, and when begun",
    "Further sheets and drawings: how many",
)
FIRST = (
    "Everybody is off the line and cared for. Nobody walks on this line again before a cause is found.",
    "After an unknown noise: stop; walker in gently; recoil line clear.",
    "The load comes off only with independent tackle. Before that: photograph and write down what will move.",
    "Nobody re-tensions, slackens, swaps, cuts, washes or tidies anything that is not in the way of a rescue.",
    "Nobody repeats the fall to see what happens.",
)
KEEP = "Tick when it is secured, photographed from three sides with a scale beside it, and labelled with where it was."
PRESERVE = (
    "Webbing ends: uncut and untied, bagged dry and dark; which end was at which anchor is marked.",
    "Locks: left closed until photographed from both sides, with the lie of the webbing and the tail; opened before a witness.",
    "Length of every tail, measured before a lock is opened; marks on the webbing that show slip.",
    "Covers, padding, tape and wrapping, each with its place on the line or at the edge.",
    "Leash, rings and knots as they were tied, harness; the length with and without load.",
    "Backup: its joints, its extra length in each bay, whether it was ever loaded.",
    "Anchors, slings and shackles: position, angles, gates, and what moved.",
    "Rig notes, plans, messages, check lists, gear records and receipts: the originals or photographs of them.",
    "Load-cell files as recorded, unopened by other programs, with the clock of the device beside a known clock; its settings.",
    "Photographs and films of everybody present, originals with their times, before, during and after.",
)
ORDER = "One thing a row, as small as possible. Sure: yes, likely, or order not known. Order it later on a new sheet."
EVIDENCE = (
    "Write each thing under one kind only. If a thing was told and also measured, it is two things. In the last column say "
    "whether it is believed (yes, doubted, wrong) and why. What was found wrong stays on the sheet."
)
KINDS_IN_WORDS = {
    "told": "In the words of who said it, also when it does not fit.",
    "photographed": "What the picture shows, not what it means.",
    "measured": "With what, by whom, and how far off it can be.",
    "inferred": "Concluded from something else: name what from. An inference is no observation.",
    "missing": "What should be there and is not: lost, cut, opened, washed, overwritten, never recorded.",
}
EVIDENCE_HEADS = {
    "told": ("What", "Who said it, when, to whom", "Believed? Why"),
    "photographed": ("What it shows", "File, by whom, when", "Believed? Why"),
    "measured": ("What, value and unit", "With what, give or take", "Believed? Why"),
    "inferred": ("What", "Concluded from", "Believed? Why"),
    "missing": ("What", "Last seen, why missing", "Who could still have it"),
}
MEASURED = (
    "Give or take: within which the true value lies in your opinion. Known from: measured, told, read from notes, inferred. A "
    "number everybody knows is told, until somebody measures it."
)
QUANTITIES = (
    "Span between the anchors",
    "Height of anchor B over anchor A",
    "Main webbing: fibre, width, age, mass per metre",
    "Insert or further pieces, each with its length",
    "Tension before the walk, and how it was found",
    "Sag in the middle, with whom on the line",
    "Backup: webbing, number of joints, extra length of a bay",
    "Lock at A: tail before, tail after, slip",
    "Lock at B: tail before, tail after, slip",
    "Width torn at the lock or elsewhere, and where",
    "Leash: length, material, ring",
    "Mass of the walker with harness",
    "Tie-in above the line at the step off",
    "Place on the line, distance from anchor A",
    "Number of falls on this rig before, and where",
    "Load-cell peaks: place, sampling rate, value",
)
ASKING = (
    "One person at a time, before they have compared their stories, in a quiet place. Open questions; let them finish; write "
    "their own words. Ask 'what did you see' and 'what made sense then', not 'why did you not'. Nobody is asked for a verdict."
)
QUESTIONS = {
    "The walker": (
        "Tell what you remember, from the moment you went out to the moment you were back.",
        "Where were you, how did you stand, what did the line feel like before, and what did you feel in the catch?",
        "What did you hear or feel that was different from other days?",
    ),
    "The rigger": (
        "Tell how the line was put up, in order, and what was different from your plan.",
        "How did you find the tension, how was each lock loaded, what did you look at before the first walk?",
        "What did this webbing and these locks do before today?",
    ),
    "People who heard or saw": (
        "Where were you, what did you see, and what did you hear? What came first?",
        "What did others say right after? Which of it did you see yourself?",
        "Which pictures, films or messages do you have?",
    ),
}
OPEN = "What do we not know, who could know it, and what would show that our first story is wrong?"
