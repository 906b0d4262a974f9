"""A number of the fits, opened to its arithmetic by the laws' own workings."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.engine.resolve import resolve
from firstfire.engine.working import Wanted, recorded, working
from firstfire.errors import FirstfireError
from firstfire.formulas import press_fit
from firstfire.parts import joint_friction, seats
from firstfire.parts.fasteners import slackens
from firstfire.parts.joint_parts import SHIGLEY, Seat, hub_strength
from firstfire.parts.seal import blows_out
from firstfire.setup.fits.pressing import nearest_to_giving
from firstfire.setup.standing import FRESH, NIGHT, standing
from firstfire.verdict.explain.numbers_put import numbers_put
from firstfire.verdict.explain.opened import NumberPut, WorkLine
from firstfire.verdict.explain.working import followed

_SEATS: Mapping[str, Callable[[Moment], Seat]] = {
    "crankpin": seats.crankpin, "journal": seats.journal, "flywheel": seats.flywheel,
    "cam-wheel": seats.cam_wheel,
}  # fmt: skip
IDS = (*_SEATS, "liner", "head", "sealant")
"""What can be opened."""


class Opened(NamedTuple):
    """A number opened.

    Attributes
    ----------
    id, title
        Which, and what it asks.
    formula, source
        In words.
    numbers, lines
        What is put in, and what follows from it.
    """

    id: str
    title: str
    formula: str
    source: str
    numbers: tuple[NumberPut, ...]
    lines: tuple[WorkLine, ...]


def opened(engine: Engine, ident: str) -> Opened:
    """A seat's pressing, what is left of the head's preload, or what its sealant stands.

    Raises
    ------
    FirstfireError
        For another id, and where it isn't judged of this engine, with why.
    """
    if ident not in IDS:
        raise FirstfireError(f'"{ident}" can\'t be opened. These can: {", ".join(IDS)}.')
    plain = resolve(engine)
    title, way = _way(standing(plain, hours=NIGHT), standing(plain, hours=FRESH), ident)
    if not way.judged:
        raise FirstfireError(f"{ident} is not judged of this engine: {way.why_not}")
    work = followed(way)
    numbers = tuple(numbers_put(engine, plain, way, work.digits))
    return Opened(ident, title, way.formula, way.source, numbers, work.lines)


def _way(rested: Moment, fresh: Moment, ident: str) -> tuple[str, Way]:
    if ident == "head":
        return "what a night leaves of a head screw's pull", slackens(recorded(rested))
    if ident == "sealant":
        _refuse(rested.parts.gasket.kind != "cured_sealant", ident, "nothing cures under its head")
        return "what the bead stands", blows_out(recorded(rested))
    if ident == "liner":
        liner = rested.parts.liner
        loose = liner.kind == "bare_print" or liner.fit_interference <= 0
        _refuse(loose, ident, "no liner is pressed in")
        what, way = nearest_to_giving(recorded(fresh), recorded(rested))
        return f"what its fit does to the {what}", way
    return "what its fit does to the hub", _press(recorded(fresh), recorded(rested), ident)


def _press(fresh: Moment, rested: Moment, ident: str) -> Way:
    """Pull and pressure in a hub of a fit a minute old, against what it bears for a night."""
    seat = _SEATS[ident](fresh)
    slides = seat.joint.kind in ("solid", "clamped", "polygon", "splined", "bonded")
    _refuse(slides or seat.joint.interference <= 0, ident, "nothing is pressed there")
    by_fit = joint_friction.pressed(fresh, seat).by_fit
    stress = press_fit.hub_hoop_stress(by_fit, seat.joint.diameter, seat.hub.outside) + by_fit
    bears = hub_strength(rested, _SEATS[ident](rested), "lasting").value
    inputs, lines = working(
        Wanted("demand", stress, "Pa", "pull round the hole and pressure together"),
        Wanted("capacity", bears, "Pa", "what the hub bears"),
    )
    return Way(
        id=ident, part=seat.words[1], failure="is pulled by its fit", demand=float(stress),
        capacity=float(bears), unit="Pa", hazard=False, governs="section",
        temperature=None,
        formula="pressure of the fit × ((outside² + hole²)/(outside² - hole²) + 1), against "
        "strength under lasting load",
        source=f"{SHIGLEY}, Eq. 3-56, 3-58; smoothing DIN 7190-1 (from memory)",
        inputs=inputs, working=lines,
    )  # fmt: skip


def _refuse(wrong: bool, ident: str, why: str) -> None:
    if wrong:
        raise FirstfireError(f"{ident} is not judged of this engine: {why}.")


def opened_lines(one: Opened, *, width: int) -> Iterator[str]:
    """It on the terminal."""
    from firstfire.verdict.explain.text import number_lines, working_lines
    from firstfire.verdict.words.text.lines import heading, wrapped

    yield from wrapped(f"{one.id}: {one.title}. Estimates.", width=width)
    yield from wrapped(f"{one.formula}.", width=width)
    yield from heading("Numbers put in")
    yield from number_lines(one.numbers, width=width)
    yield from heading("Worked out")
    yield from working_lines(one.lines, width=width)
    yield from heading("Where the formula is from")
    yield from wrapped(one.source, 2, width=width)
