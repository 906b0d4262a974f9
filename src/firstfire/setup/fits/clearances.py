"""Clearances that are set by hand: end float, side play, lash, skirt."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.item import PRACTICE

_CASE_WARMS = 40.0
"""Rise of the case over the air that end float is left for, K (estimate)."""
_LEAST_FLOAT, _FLOAT_OVER = 0.05e-3, 0.2e-3
_SIDE_PLAY = (0.2e-3, 1.0e-3)
_FEELER = 0.03e-3
_PIN_OFF = 0.4e-3
# m: all common practice, no source


class Clearance(NamedTuple):
    """One clearance.

    Attributes
    ----------
    id
        Fixed; of a cylinder with its number behind it.
    what
        In words.
    as_filed
        What the file has, m; None where it has none.
    least, most
        What it should be, m.
    how
        How to measure it, and what hangs on it.
    path
        In the engine file; "" where it has none.
    """

    id: str
    what: str
    as_filed: float | None
    least: float
    most: float
    how: str
    path: str = ""

    @property
    def within(self) -> bool:
        """Whether the file's number is within what it should be, or none is said."""
        slack = 1e-9
        return self.as_filed is None or self.least - slack <= self.as_filed <= self.most + slack


def clearances(plain: PlainEngine) -> tuple[Clearance, ...]:
    """Every clearance of an engine, of twins each cylinder's where they differ."""
    found = [_end_float(plain)]
    first = list(_of(plain, plain.cylinders[0]))
    for number, parts in enumerate(plain.cylinders[1:], 2):
        for one in _of(plain, parts):
            if one not in first:
                found.append(one._replace(id=f"{one.id}-{number}"))
    return (*found[:1], *first, *found[1:])


def _end_float(plain: PlainEngine) -> Clearance:
    """What the case outgrows the shaft between its bearings, or the shaft the case."""
    crank = plain.crank
    case, shaft = plain.materials[plain.case.material], plain.materials[crank.journal.material]
    grows = (case["expansion"] - shaft["expansion"]) * crank.bearing_span * _CASE_WARMS
    least = max(-grows, 0.0) + _LEAST_FLOAT
    other = "opens" if grows > 0 else "closes"
    return Clearance(
        "end-float", "end float of the crank", None, least, least + _FLOAT_OVER,
        f"dial indicator on the shaft's end, pushed and pulled; one bearing held, the other free "
        f"to slide. {_CASE_WARMS:.0f} K of warmth {other} it by {1e3 * abs(grows):.2f} mm "
        f"({PRACTICE})",
    )  # fmt: skip


def _of(plain: PlainEngine, parts: CylinderParts) -> Iterator[Clearance]:
    yield Clearance(
        "rod-side", "side play of the con rod on its pin",
        plain.crank.crankpin_length - parts.rod.big_end_width, *_SIDE_PLAY,
        f"feeler gauge between rod and cheek; closer rubs, wider lets it rock ({PRACTICE})",
        "crank.crankpin_length",
    )  # fmt: skip
    yield Clearance(
        "pin-end", "piston pin's ends to the bore, together",
        parts.cylinder.bore - parts.pin.length, _PIN_OFF, parts.cylinder.bore / 4,
        f"by its length; an end that touches saws the bore open ({PRACTICE})", "pin.length",
    )  # fmt: skip
    skirt = parts.piston.skirt_clearance
    yield Clearance(
        "skirt", "skirt in the bore", skirt, skirt * 2 / 3, skirt * 4 / 3,
        "the thickest leaf that slides in beside the skirt, no rings on; `check` is reckoned with "
        "the file's", "piston.skirt_clearance",
    )  # fmt: skip
    for name in ("inlet", "exhaust"):
        valve = getattr(parts.valves, name)
        if valve.worked == "cam":
            yield Clearance(
                f"{name}-lash", f"{name} lash, cold", valve.lash, max(valve.lash - _FEELER, 0.0),
                valve.lash + _FEELER,
                "at firing top: the leaf that just drags; none keeps it open when warm",
                f"valves.{name}.lash",
            )  # fmt: skip
    yield Clearance(
        "plug-gap", "plug gap", parts.plug.gap, parts.plug.gap - 0.05e-3, parts.plug.gap + 0.05e-3,
        "wire or feeler gauge; bend the outer electrode only. Narrower where the coil asks it: "
        "what surely jumps stands under the spark", "plug.gap",
    )  # fmt: skip
