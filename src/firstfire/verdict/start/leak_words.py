"""What is said of leaks: what two tests show, and where each leak is heard or seen."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from firstfire.formulas.leak_down import ORIFICE, SUPPLY
from firstfire.runs.start.leaks import LeakPath, Path, Tightness
from firstfire.verdict.numbers import THIN, figures

_SHOWN = 0.01
"""Less than that a tester's gauge does not show."""
_ALIKE = 0.02


@dataclass(frozen=True)
class Sign:
    """How a leak gives itself away in a cylinder that stands under pressure.

    Attributes
    ----------
    where, sign
        Where the gas goes, and what tells of it.
    oil_helps
        Whether oil on the rings closes most of it.
    """

    where: str
    sign: str
    oil_helps: bool = False


SIGNS: Mapping[Path, Sign] = {
    "ring": Sign("past the rings", "hiss at the breather or oil filler", oil_helps=True),
    "inlet_seat": Sign("inlet seat", "hiss at the intake, throttle open"),
    "exhaust_seat": Sign("exhaust seat", "hiss at the exhaust's end"),
    "gasket": Sign("head gasket", "soap water bubbles along the head's joint"),
    "plug": Sign("plug", "soap water bubbles round the plug or its adapter"),
    "wall": Sign("printed wall", "soap water bubbles on the print itself, between its lines"),
}

PRESSED_AIR = (
    "Air pressed into a cylinder bursts what is weak, and turns the crank: only after that "
    "cylinder has held liquid (see the plan), at its top, crank held by a bar, from behind the "
    "shield, little pressure first."
)


def supplied() -> str:
    """The tester that a loss is told of.

    Examples
    --------
    >>> supplied().replace(THIN, " ")
    '5.5 bar through 1.02 mm'
    """
    return f"{figures(SUPPLY / 1e5, 2)}{THIN}bar through {figures(1e3 * ORIFICE, 3)}{THIN}mm"


def per_cent(share: float) -> str:
    """A loss, as a tester's gauge has it.

    Examples
    --------
    >>> per_cent(0.0597).replace(THIN, " "), per_cent(0.002).replace(THIN, " ")
    ('6 %', 'under 1 %')
    """
    if share < _SHOWN:
        return f"under 1{THIN}%"
    return f"{figures(100 * share, 2)}{THIN}%"


def seconds(value: float) -> str:
    """How long a thumb holds."""
    return f"{figures(value, 2)}{THIN}s" if math.isfinite(value) else "for good"


def tight(each: tuple[Tightness, ...]) -> str:
    """The card's line: what a tester loses, how long a thumb holds; the leakiest cylinder's."""
    worst = max(each, key=lambda one: one.area)
    which = "" if alike(each) else f"cylinder {worst.cylinder}: "
    orifice = f"{figures(1e3 * ORIFICE, 1)}{THIN}mm orifice"
    at = f"at {figures(SUPPLY / 1e5, 2)}{THIN}bar, {orifice}"
    return f"{which}{_span(worst)} {at}; thumb {seconds(worst.thumb)}"


def alike(each: tuple[Tightness, ...]) -> bool:
    """Whether all cylinders leak as much and in the same places."""
    first = each[0]
    return all(
        abs(one.area - first.area) <= _ALIKE * first.area
        and {way.path for way in one.paths} == {way.path for way in first.paths}
        for one in each
    )


def _span(one: Tightness) -> str:
    middle, low, high = (per_cent(loss) for loss in (one.loss, one.loss_low, one.loss_high))
    if middle == high:
        return middle
    if one.loss_low < _SHOWN:
        return f"{middle} (up to {high})"
    return f"{middle} ({low.removesuffix(f'{THIN}%')} to {high})"


def leaking(one: Tightness) -> Iterator[str]:
    """A cylinder's two tests in full sentences, dry and oiled."""
    yield (
        f"Leak-down, piston still at its firing top, {supplied()}: it loses {_span(one)} of the "
        f"pressure; with oil on the rings {per_cent(one.loss_oiled)}. Oil changes no other leak."
    )
    begins = f"{figures(one.thumb_begins / 1e5, 2)}{THIN}bar"
    if not math.isfinite(one.thumb):
        yield f"A thumb on the plug hole, turned up to the top at once: {begins}, and it stays."
        return
    yield (
        f"A thumb on the plug hole, turned up to the top at once: {begins}, half of it after "
        f"{seconds(one.thumb)}, oiled after {seconds(one.thumb_oiled)}."
    )


def path_words(way: LeakPath) -> str:
    """One way out: where, how large, its sign, and whether oil helps.

    Examples
    --------
    >>> path_words(LeakPath("ring", 1.23e-8, 0.28)).replace(THIN, " ")
    'past the rings, 0.012 mm²: hiss at the breather or oil filler; oil quiets it'
    >>> path_words(LeakPath("plug", 2e-9, 0.05)).replace(THIN, " ")
    'plug, 0.002 mm²: soap water bubbles round the plug or its adapter'
    """
    sign = SIGNS[way.path]
    oil = "; oil quiets it" if sign.oil_helps else ""
    return f"{sign.where}, {figures(1e6 * way.area, 2)}{THIN}mm²: {sign.sign}{oil}"
