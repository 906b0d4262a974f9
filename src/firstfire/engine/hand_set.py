"""What comes out as hands and printer made it: fits, tightening, belt tension, warmth of curing.

Only what is judged by such a number is listed: the fit of a pressed joint, not of a keyed one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.grammar import leaves
from firstfire.engine.layers import Entry
from firstfire.engine.rules.cylinder import is_metal
from firstfire.engine.sections.joint import has_bond
from firstfire.engine.unknown import Unknown
from firstfire.engine.values import Values
from firstfire.formulas.fits import LARGEST, tolerance

SEATS = ("crank.joint", "crank.journal.joint", "flywheel.joint", "cam_drive.joint")
"""Joints of the shaft, each with its hub's material and way of making as the file has it."""

_NO_SOURCE = "common practice, no source"
_BY_FEEL = 0.25
"""By feel a pull is +-35 % off, by torque wrench +-25 %: NASA RP-1228, *Fastener Design Manual*,
1990, from memory. The wrench's share is in ``doubt.nut_factor``; what is left over is
sqrt(0.35**2 - 0.25**2)."""
_CLAMP = 0.35
"""Of a screw whose pull, not its torque, is said: all of it."""
_TENSION = 0.3
_WORKSHOP = 5.0
"""K, of the place where a bead cures."""
_FEELER = 0.03e-3
"""m, of a lash set by hand."""
_TUBE = 0.05e-3
"""Outside of a drawn tube, m."""


def of_the_shaft(values: Values) -> Iterator[Unknown]:
    """Fits and screws of the shaft's joints, and the belt's tension."""
    for seat in SEATS:
        kind = values[f"{seat}.kind"]
        if kind == "plain_press":
            yield _fit(values, f"{seat}.interference", _in_the_seat(values, seat))
        if kind == "clamped":
            yield _share(values, f"{seat}.clamp_screw_force", _CLAMP,
                         "a screw done up by feel, +-35 %: NASA RP-1228, from memory")  # fmt: skip
    if values["cam_drive.kind"] == "belt" and values.number("cam_drive.tension") > 0:
        yield _share(values, "cam_drive.tension", _TENSION,
                     f"a belt tightened by thumb; {_NO_SOURCE}")  # fmt: skip


def of_a_cylinder(values: Values, prefix: str) -> Iterator[Unknown]:
    """Fits of liner and seat ring, the head's screws and the warmth a bead cured at."""
    if values["liner.kind"] != "bare_print":
        yield _fit(values, "liner.fit_interference", _in_the_body(values), prefix)
    holder = "body" if values["valves.placed"] == "side" else "head"
    if is_metal(values, f"{holder}.material"):
        size = 1.1 * values.number("valves.exhaust.head_diameter")
        yield _fit(values, "valves.exhaust.seat_interference", _machined(size), prefix)
    if values.number("valves.exhaust.lash") > 0:
        yield _normal(values, "valves.exhaust.lash", _FEELER,
                      f"a feeler gauge by hand; {_NO_SOURCE}", prefix)  # fmt: skip
    if values.number("head.fasteners.torque") > 0:
        yield _share(values, "head.fasteners.torque", _BY_FEEL,
                     "a screw done up by feel, besides the nut factor: NASA RP-1228, from memory",
                     prefix)  # fmt: skip
    if values["gasket.kind"] == "cured_sealant":
        yield _normal(values, "gasket.cure_temperature", _WORKSHOP,
                      f"a workshop; {_NO_SOURCE}", prefix)  # fmt: skip


def glues(values: Values) -> dict[str, tuple[str, ...]]:
    """What sticks something here, each with its numbers that are judged by.

    Beads under a head cure from the edge inward or by the hour; bonds of joints are taken as cured.
    """
    found: dict[str, set[str]] = {}
    for seat in SEATS:
        if has_bond(values[f"{seat}.kind"], values[f"{seat}.glued"]):
            metal = all(is_metal(values, path) for path in _hub_and_pin(values, seat))
            found.setdefault(values[f"{seat}.bond"], set()).add(_shear(metal))
    if values["gasket.kind"] == "cured_sealant":
        metal = is_metal(values, "head.material") and is_metal(values, "body.material")
        bead = values["gasket.material"]
        by_air = values.catalog.row("material", bead).texts.get("structure") == "elastomer"
        cures = {"skin_time", "cure_depth_per_day" if by_air else "cure_time"}
        found.setdefault(bead, set()).update(cures, {_shear(metal)})
    return {glue: tuple(sorted(numbers)) for glue, numbers in found.items()}


def _shear(metal: bool) -> str:
    return "shear_strength" if metal else "shear_strength_on_plastic"


Off = tuple[float, str]
"""Half width, 5-95 %, in SI, and where it is from."""


def _in_the_seat(values: Values, seat: str) -> Off:
    """What a fit of pin and hub may be off: each printed one by the printer's own error."""
    hub, pin = _hub_and_pin(values, seat)
    size = values.number(f"{seat}.diameter")
    return _together(values, _is_print(values, hub), _is_print(values, pin), size)


def _hub_and_pin(values: Values, seat: str) -> tuple[str, str]:
    """Paths of both materials; a plate on the cheek is then the hub."""
    hub, pin = _HUB_AND_PIN[seat]
    plate = f"{seat}.plate"
    plated = plate in leaves() and values[plate] and values.number(f"{plate}_thickness") > 0
    return (plate if plated else hub), pin


_HUB_AND_PIN = {
    "crank.joint": ("crank.material", "crank.crankpin_material"),
    "crank.journal.joint": ("crank.material", "crank.journal.material"),
    "flywheel.joint": ("flywheel.material", "crank.journal.material"),
    "cam_drive.joint": ("cam_drive.wheel_material", "crank.journal.material"),
}


def _is_print(values: Values, material: str) -> bool:
    """Whether what has its material at a path is printed; a crank may be cut from plastic rod."""
    cut = material.startswith("crank.") and values["crank.made"] != "printed"
    return not cut and not is_metal(values, material)


def _together(values: Values, hole_printed: bool, pin_printed: bool, size: float) -> Off:
    """Hole and pin, each off by itself: in a print by the printer, in metal by ISO 286."""
    at = min(size, LARGEST)
    hole, why = (
        _printed(values, "hole") if hole_printed else (0.5 * tolerance(at, 7), "a hole to IT7")
    )
    pin, also = (
        _printed(values, "shaft") if pin_printed else (0.5 * tolerance(at, 6), "a pin to IT6")
    )
    metal = "" if hole_printed and pin_printed else ", ISO 286-1; grades common practice"
    return math.hypot(hole, pin), f"{why}, {also}{metal}"


def _printed(values: Values, what: str) -> Off:
    """A printed size from print to print, and as far as its usual error is known."""
    entry = values.spoken(f"printing.{what}_error")
    known = entry.error or 0.0
    if entry.low is not None and entry.high is not None:
        known = (entry.high - entry.low) / 2
    scatter = values.number("printing.repeatability")
    return math.hypot(scatter, known), f"a printed {what} as printing.repeatability has it"


def _in_the_body(values: Values) -> Off:
    hole, why = (
        _printed(values, "hole")
        if values["body.made"] == "printed"
        else (0.5 * tolerance(min(values.number("liner.outside_diameter"), LARGEST), 7),
              "a hole to IT7, ISO 286-1")
    )  # fmt: skip
    if values["liner.kind"] == "metal":
        size = min(values.number("liner.outside_diameter"), LARGEST)
        tube, also = 0.5 * tolerance(size, 6), f"a liner turned to IT6 ({_NO_SOURCE})"
    elif values["liner.made"] == "printed":
        tube, also = _printed(values, "shaft")
    else:
        tube, also = _TUBE, f"a drawn tube ({_NO_SOURCE})"
    return math.hypot(hole, tube), f"{why}, {also}"


def _machined(size: float) -> Off:
    """A ring to IT6 in a hole to IT7."""
    at = min(size, LARGEST)
    half = 0.5 * math.hypot(tolerance(at, 7), tolerance(at, 6))
    return half, "a hole to IT7, a ring to IT6, ISO 286-1; grades common practice"


def _fit(values: Values, path: str, off: Off, prefix: str = "") -> Unknown:
    return _normal(values, path, *off, prefix)


def _normal(values: Values, path: str, half: float, source: str, prefix: str = "") -> Unknown:
    entry = values.spoken(path)
    if entry.error is not None:
        half, source = entry.error, entry.note
    centre = float(entry.value)
    return Unknown(prefix + path, "normal", centre, centre - half, centre + half,
                   _origin(entry), source)  # fmt: skip


def _share(values: Values, path: str, share: float, source: str, prefix: str = "") -> Unknown:
    """What hands may be off by, as a share either way."""
    entry = values.spoken(path)
    if entry.error is not None:
        return _normal(values, path, entry.error, entry.note, prefix)
    centre, times = float(entry.value), 1 + share
    return Unknown(prefix + path, "lognormal", centre, centre / times, centre * times,
                   _origin(entry), source)  # fmt: skip


def _origin(entry: Entry) -> str:
    return f"{entry.layer}, {entry.kind}"
