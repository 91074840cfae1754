"""What the panel on keeping a limit says: four readings and one sentence."""

from __future__ import annotations

from dataclasses import dataclass

from linelib.panels.frame import Reading
from linelib.studies.keeping import Keeping
from linelib.studies.outcome_words import unit, words_of
from linelib.studies.outcomes import ANCHOR_A, DROP, PERSON


@dataclass(frozen=True, kw_only=True)
class KeepingReadings:
    """What is read off: the `found` choices, and the sentence under the picture."""

    found: Keeping
    sentence: str

    @property
    def strip(self) -> tuple[Reading, ...]:
        """What is asked now, your limit, and two of what pays."""
        found = self.found
        asked = "load over strength" if unit(found.outcome) == "" else found.outcome
        others = [name for name in (PERSON, DROP, ANCHOR_A) if name != found.outcome][:2]
        limit = "–" if found.limit is None else words_of(found.outcome, found.limit)
        return (
            Reading(f"{asked}, now", words_of(found.outcome, found.now[found.outcome])),
            Reading("your limit" if found.limit is not None else "your limit: blank", limit),
            *(Reading(f"{name}, now", words_of(name, found.now[name])) for name in others),
        )
