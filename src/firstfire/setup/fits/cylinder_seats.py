"""Seats of a cylinder: liner, piston pin, con rod, valve guides and seats, plug."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.catalog import Catalog
from firstfire.engine.description import CylinderParts
from firstfire.engine.moment import Moment
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections import joint as said
from firstfire.engine.sections.valves import Valve
from firstfire.errors import OutsideValidity
from firstfire.formulas.fits import GROUND_BAR
from firstfire.parts.joint_parts import Hub, Seat
from firstfire.parts.softness import is_metal
from firstfire.parts.valve_seats import holder
from firstfire.setup.fits.drawing_for import drawn
from firstfire.setup.fits.pressing import liner_pressing, pressing
from firstfire.setup.fits.seat import Drawn, Pressing, SeatFit
from firstfire.setup.item import PRACTICE
from firstfire.setup.standing import standing
from firstfire.setup.words import mm

_REAMED = 0.3e-3
"""What is left in a printed hole for a reamer, m (common practice, no source)."""
GUIDE_PLAY = 0.04e-3
"""Of a stem in its guide, m: 0.03 to 0.05 mm (common practice, no source)."""
_RING_OVER_HEAD = 1.1
_RING_HEIGHT = 0.2
# Outside and height of a seat ring over the valve's head: the first as `parts.valve_seats` takes
# it, the second common practice, no source
_RUNS_IN_PRINT, _RUNS_IN_METAL = "E9", "F8"


@dataclass(frozen=True)
class _Cylinder:
    plain: PlainEngine
    catalog: Catalog
    place: int
    mark: str

    @property
    def parts(self) -> CylinderParts:
        return self.plain.cylinders[self.place]

    @property
    def moment(self) -> Moment:
        return standing(self.plain, self.place)

    def metal(self, material: str) -> bool:
        return is_metal(self.plain.materials[material])


def cylinder_seats(
    plain: PlainEngine, catalog: Catalog, place: int, mark: str
) -> Iterator[SeatFit]:
    """Every seat of one cylinder.

    Parameters
    ----------
    plain, catalog
        The engine, and where threads stand.
    place
        Of the cylinder, from 0.
    mark
        Behind each id, where there are more: ``-2``.
    """
    one = _Cylinder(plain, catalog, place, mark)
    yield from _liner(one)
    yield from _pin(one)
    yield from _big_end(one)
    for name in ("inlet", "exhaust"):
        valve = getattr(one.parts.valves, name)
        yield _guide(one, name, valve)
        yield _seat_ring(one, name, valve)
    yield from _plug(one)


def _liner(one: _Cylinder) -> Iterator[SeatFit]:
    liner, body = one.parts.liner, one.parts.body
    if liner.kind == "bare_print":
        return
    tight, across = liner.fit_interference, liner.outside_diameter
    printed = body.made == "printed"
    pressed, why_not = None, ""
    if tight > 0:
        try:
            pressed = liner_pressing(one.plain, one.place)
        except OutsideValidity as why:
            why_not = str(why)
    turned = not printed and liner.kind == "metal"
    yield SeatFit(
        f"liner{one.mark}", "liner.fit_interference", "liner", "body", 1, across, tight,
        "JS7" if turned else "", "h7" if turned else "",
        drawn(one.plain, hole=across - tight if printed else None,
              shaft=across if liner.made == "printed" else None),
        pressed,
        f"a bought tube is never a fit: measure it, hole {mm(across - tight)} for one of "
        f"{mm(across)}; press cold and straight, soap and water",
        why_not,
    )  # fmt: skip


def _pin(one: _Cylinder) -> Iterator[SeatFit]:
    """In the bosses and in the small end, which runs on it unless the pin is pressed there."""
    pin, piston, rod = one.parts.pin, one.parts.piston, one.parts.rod
    printed = piston.made == "printed"
    yield SeatFit(
        f"pin-in-piston{one.mark}", "pin.diameter", "piston pin", "piston", 2, pin.diameter, 0.0,
        "H7", GROUND_BAR, _reamed(one, pin.diameter, printed), None,
        "ream by hand through both bosses at once; pushes in by thumb, does not rattle",
    )  # fmt: skip
    if rod.small_end in ("plain", "bush"):
        yield _running(one, "small-end", "pin.diameter", ("piston pin", "small end"), pin.diameter)


def _big_end(one: _Cylinder) -> Iterator[SeatFit]:
    crank = one.plain.crank
    if one.parts.rod.big_end in ("plain", "bush"):
        yield _running(one, "big-end", "crank.crankpin_diameter", ("crankpin", "big end"),
                       crank.crankpin_diameter)  # fmt: skip


def _running(
    one: _Cylinder, ident: str, path: str, words: tuple[str, str], across: float
) -> SeatFit:
    rod = one.parts.rod
    code = _RUNS_IN_METAL if one.metal(rod.material) else _RUNS_IN_PRINT
    return SeatFit(
        f"{ident}{one.mark}", path, *words, 1, across, None, code, GROUND_BAR,
        _reamed(one, across, rod.made == "printed"), None,
        "runs: closer in metal, wider in plastic, which swells; turns by its own weight, oiled",
    )  # fmt: skip


def _reamed(one: _Cylinder, across: float, printed: bool) -> Drawn:
    return drawn(one.plain, hole=across, ream=_REAMED) if printed else Drawn()


def _guide(one: _Cylinder, name: str, valve: Valve) -> SeatFit:
    return SeatFit(
        f"{name}-guide{one.mark}", f"valves.{name}.stem_diameter", f"{name} stem", "guide", 1,
        valve.stem_diameter, -GUIDE_PLAY, "", "", Drawn(), None,
        f"ream to {mm(valve.stem_diameter + GUIDE_PLAY)}: 0.03 to 0.05 mm of play ({PRACTICE}). "
        "The guide's outside is not in the file: press it into metal (H7/p6), bond it into a print",
    )  # fmt: skip


def _seat_ring(one: _Cylinder, name: str, valve: Valve) -> SeatFit:
    across, tight = _RING_OVER_HEAD * valve.head_diameter, valve.seat_interference
    around = holder(one.moment)
    side = one.parts.valves.placed == "side"
    made = (one.parts.body if side else one.parts.head).made
    hole = not is_metal(around) and made == "printed"
    pressed, why_not = _ring_pressing(one, valve, across)
    return SeatFit(
        f"{name}-seat{one.mark}", f"valves.{name}.seat_interference", f"{name} seat ring",
        "body" if side else "head", 1, across, tight, "" if hole else "H7", "",
        drawn(one.plain, hole=across - tight if hole else None), pressed,
        f"{mm(across)} outside is 1.1 x the valve's head ({PRACTICE}): measure yours. Ring in the "
        "freezer, metal head in the oven (100 °C), then it drops in",
        why_not,
    )  # fmt: skip


def _ring_pressing(one: _Cylinder, valve: Valve, across: float) -> tuple[Pressing | None, str]:
    if valve.seat_interference <= 0:
        return None, ""
    around, ring = holder(one.moment), one.plain.materials[valve.seat_material]
    joint = said.Seat.model_construct(
        kind="plain_press", diameter=across, length=_RING_HEIGHT * valve.head_diameter,
        interference=valve.seat_interference, glued=False, cross_pins=0,
    )  # fmt: skip
    metal = is_metal(around)
    hub = Hub(
        around, around.key, metal, not metal, joint.length,
        across + 2 * one.parts.head.valve_bridge,
    )  # fmt: skip
    seat = Seat(
        prefix="valves.seat.", joint=joint, pin=ring, key=ring.key, layered=False, rod=0.0, hub=hub,
        words=("seat ring", "hole of the seat ring"), pin_path="",
        temperature=one.plain.surroundings.air_temperature,
    )  # fmt: skip
    try:
        return pressing(one.plain, seat, one.place), ""
    except OutsideValidity as why:
        return None, str(why)


def _plug(one: _Cylinder) -> Iterator[SeatFit]:
    row = one.catalog.row("thread", one.parts.plug.thread)
    across = row.si("diameter")
    core = row.si("tap_drill") if "tap_drill" in row.data else across - row.si("pitch")
    printed = one.parts.head.made == "printed" and one.parts.head.chamber_plate is None
    yield SeatFit(
        f"plug{one.mark}", "plug.thread", f"plug {row.key}", "head", 1, across, None, "", "",
        _reamed(one, core, printed), None,
        f"drill {mm(core)}, tap {row.key} (6H, ISO 965-1) into metal: a plate, or a bushing bonded "
        "into the print; a thread in plastic softens round the plug",
    )  # fmt: skip
