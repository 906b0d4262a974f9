"""Numbers of the fits that the parts' own laws find, with the laws' workings."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.working import Wanted, recorded, working
from firstfire.errors import FirstfireError
from firstfire.formulas import press_fit
from firstfire.parts import joint_friction, seats
from firstfire.parts.fasteners import slackens
from firstfire.parts.joint_parts import SHIGLEY, Seat, hub_strength
from firstfire.parts.seal import blows_out
from firstfire.setup.fits.pressing import nearest_to_giving
from firstfire.setup.number import Number
from firstfire.setup.opened.by_law import ByLaw
from firstfire.setup.opened.sheet import Sheet
from firstfire.setup.standing import FRESH, NIGHT, standing

_SEATS: Mapping[str, Callable[[Moment], Seat]] = {
    "crankpin": seats.crankpin, "journal": seats.journal, "flywheel": seats.flywheel,
    "cam-wheel": seats.cam_wheel,
}  # fmt: skip
IDS = (*_SEATS, "liner", "head", "sealant")
"""What can be opened."""


def law_sheets(engine: Engine) -> dict[str, tuple[Number, Sheet | ByLaw]]:
    """What each seat's pressing, a night and the pressure do, by its id.

    What isn't judged says why, with an empty working.
    """
    plain = resolve(engine)
    return {ident: _of(engine, plain, ident) for ident in IDS}


def _of(engine: Engine, plain: PlainEngine, ident: str) -> tuple[Number, Sheet | ByLaw]:
    try:
        title, way = _way(standing(plain, hours=NIGHT), standing(plain, hours=FRESH), ident)
        why = way.why_not
    except FirstfireError as not_judged:
        title, way, why = ident, None, str(not_judged)
    if way is None or not way.judged:
        return Number(ident, title, math.nan, "Pa", why=why), Sheet(engine.values(1))
    return _number(ident, title, way, metal=_metal(plain, ident)), ByLaw(plain, way)


def _metal(plain: PlainEngine, ident: str) -> bool:
    """Whether what a seat presses on is a metal, which yields a little and does not crack."""
    return ident in _SEATS and _SEATS[ident](standing(plain, hours=FRESH)).hub.metal


def _number(ident: str, title: str, way: Way, *, metal: bool) -> Number:
    """The hub is held against what it bears; of head and bead it is told what they hold."""
    if ident in ("head", "sealant"):
        least = float(way.demand) if way.demand > 0 else None
        return Number(ident, title, float(way.capacity), way.unit, least,
                      "at least" if least else "", way.formula, way.source)  # fmt: skip
    if metal:
        why = f"{way.formula}; a metal that bears less yields a little, which caps its grip"
        return Number(ident, title, float(way.demand), way.unit, why=why, source=way.source)
    return Number(ident, title, float(way.demand), way.unit, float(way.capacity), "at most",
                  way.formula, way.source)  # fmt: skip


def _way(rested: Moment, fresh: Moment, ident: str) -> tuple[str, Way]:
    if ident == "head":
        return "what a night leaves of a head screw's pull", slackens(recorded(rested))
    if ident == "sealant":
        _refuse(rested.parts.gasket.kind != "cured_sealant", "nothing cures under its head")
        return "what the bead stands", blows_out(recorded(rested))
    if ident == "liner":
        liner = rested.parts.liner
        loose = liner.kind == "bare_print" or liner.fit_interference <= 0
        _refuse(loose, "no liner is pressed in")
        what, way = nearest_to_giving(recorded(fresh), recorded(rested))
        return f"what its fit does to the {what}", way
    return "what its fit does to the hub", _press(recorded(fresh), recorded(rested), ident)


def _press(fresh: Moment, rested: Moment, ident: str) -> Way:
    """Pull and pressure in a hub of a fit a minute old, against what it bears for a night."""
    seat = _SEATS[ident](fresh)
    slides = seat.joint.kind in ("solid", "clamped", "polygon", "splined", "bonded")
    _refuse(slides or seat.joint.interference <= 0, "nothing is pressed there")
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


def _refuse(wrong: bool, why: str) -> None:
    if wrong:
        raise FirstfireError(f"{why[:1].upper()}{why[1:]}.")
