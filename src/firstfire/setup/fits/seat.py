"""One seat: what goes into what, how large both are asked and drawn, what pressing takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas import fits


class Drawn(NamedTuple):
    """What to draw so that it comes out right on this printer, m; None where it isn't printed.

    Attributes
    ----------
    hole, shaft
        Diameters.
    words
        What to mind; "" where nothing.
    """

    hole: float | None = None
    shaft: float | None = None
    words: str = ""


class Pressing(NamedTuple):
    """What a press fit asks and does.

    Attributes
    ----------
    force
        To press it home, N.
    stress, bears
        What the fit does to what is nearest to giving way, and what that bears for a night, Pa.
    what
        What that is: *hub*, *liner*.
    night
        Share of the grip that a night's creep leaves.
    frees
        Temperature at which it no longer grips, K, when both are as warm; None where it never
        lets go by growing.
    softens
        Temperature at which half of the hub's strength is left, K; None where it isn't known.
    ductile
        Whether what is nearest to giving way is a metal, which yields and does not crack.
    """

    force: float
    stress: float
    bears: float
    what: str
    night: float
    frees: float | None
    softens: float | None
    ductile: bool

    @property
    def yields(self) -> bool:
        """Whether metal gives way a little by the fit alone, which caps its grip."""
        return self.ductile and self.stress > self.bears

    @property
    def cracks(self) -> bool:
        """Whether what is no metal gives way by the fit alone."""
        return not self.ductile and self.stress > self.bears


@dataclass(frozen=True)
class SeatFit:
    """One seat.

    Attributes
    ----------
    id
        Fixed: ``crankpin``; of a cylinder with its number behind it: ``liner-2``.
    path
        What the fit is said by in the engine file; "" where it is common practice alone.
    pin, hub
        What goes into what, in words.
    count
        How many.
    nominal
        Diameter, or width of a key, m.
    tight
        How much larger the pin is than its hole, m; negative: play. None: held by its form only.
    hole, shaft
        ISO 286 classes; "" where a print, a tube or a thread has none.
    drawn
        For this printer.
    pressing
        None where nothing is pressed.
    how
        How to make and measure it.
    why_not
        Why pressing is not judged; "" where it is, or where nothing is pressed.
    """

    id: str
    path: str
    pin: str
    hub: str
    count: int
    nominal: float
    tight: float | None
    hole: str
    shaft: str
    drawn: Drawn
    pressing: Pressing | None
    how: str
    why_not: str = ""

    @property
    def play(self) -> fits.Fit | None:
        """Least and most clearance by both classes, m; None where the table has none.

        The hole's class is of its own nominal size: the pin's less what it is tight by.
        """
        if not self.hole or not self.shaft:
            return None
        tight = self.tight or 0.0
        try:
            by_class = fits.fit(
                fits.hole_limits(self.nominal - tight, self.hole),
                fits.shaft_limits(self.nominal, self.shaft),
            )
        except OutsideValidity:
            return None
        return fits.Fit(by_class.least - tight, by_class.most - tight)
