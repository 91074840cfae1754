"""The panel on which choice drove it: how strong each choice was, and its share of the demand and of load over strength."""

from __future__ import annotations

from linelib.checks import one_of
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.which_choice_figure import WhichChoiceFigure
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.which_choice_settings import VISIBLE, WhichChoice, numbers_of, which_choice_controls
from linelib.studies.attribution import Attribution, attribute
from linelib.studies.attribution_words import attribution_text
from linelib.studies.case_rig import LINKS, PLANNED, Numbers, case_choices, case_rig
from linelib.tables import webbings

CHOICES = ("insert", "tension", "mass", "leash", "stance", "seating")


class WhichChoicePanel(Panel):
    """Sliders, readings and picture of what each choice adds; keyword arguments set the sliders (screen units)."""

    refusal = "No shares can be given here:"

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: int | None = None
        self._kept: tuple[Numbers, Attribution] | None = None
        self.figure = WhichChoiceFigure(rows=len(CHOICES))
        super().__init__(controls=which_choice_controls(), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.set(**values)

    def predict(self, choice: str) -> WhichChoicePanel:
        """Put a guess of the choice that drove it into the picture, as a hollow dot at its row."""
        self.guess = CHOICES.index(one_of("choice", choice, CHOICES))
        self.redraw()
        return self

    def readings(self, **values: Value) -> WhichChoice:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming the mix that is not possible.
        """
        return self._find({**self.values, **values})

    def text(self) -> str:
        """All shares of all outcomes as a plain table."""
        return attribution_text(self._find(self.values).found)

    def compute(self) -> None:
        """All mixes as one batch; kept while only a list moves."""
        self.found = self._find(self.values)

    def draw(self) -> WhichChoice:
        """Draw the bars."""
        found = self.found
        demand, place = ((name, found.bars(name)) for name in (found.demand, found.place))
        names = found.found.of(found.demand).names
        self.figure.draw(names=names, demand=demand, place=place, lines=found.lines, guess=self.guess)
        return found

    def _find(self, values: dict[str, Value]) -> WhichChoice:
        rigged = numbers_of(values, self.controls)
        if self._kept is None or self._kept[0] != rigged:
            reference = case_rig(numbers=PLANNED, table=self.table)
            choices = case_choices(rigged=rigged, table=self.table)
            self._kept = rigged, attribute(reference=reference, choices=choices, links=LINKS)
        return WhichChoice(found=self._kept[1], demand=str(values["demand"]), place=str(values["place"]))
