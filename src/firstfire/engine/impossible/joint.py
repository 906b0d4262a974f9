"""What can't be of joints: pins without room, plates thicker than cheeks, holes into each other."""

from __future__ import annotations

import math
from collections.abc import Iterator
from types import SimpleNamespace

from firstfire.engine.impossible.fault import Check, Fault, mm
from firstfire.engine.joint_room import no_room
from firstfire.engine.values import Values

_READ = ("kind", "diameter", "cross_pins", "cross_pin_diameter", "pins_run")
_LEAST_WALL = 1e-3


def wheel_outside(teeth: float, pitch: float) -> float:
    """Root of a toothed wheel on the crank, m: its pitch diameter less a pitch.

    Teeth of belt wheels are half a pitch deep or less (common practice, no source).

    Examples
    --------
    >>> round(wheel_outside(18, 3e-3) * 1e3, 1)
    14.2
    """
    return teeth * pitch / math.pi - pitch


def _pins(ask: Values) -> Iterator[Fault]:
    cheek = ask.number("crank.cheek_width")
    yield from _in_hub(ask, "crank.joint", _engaged(ask, "crank.joint"), cheek)
    yield from _in_hub(ask, "crank.journal.joint", _engaged(ask, "crank.journal.joint"), cheek)
    if ask.number("flywheel.thickness") > 0:
        thick = min(ask.number("flywheel.joint.length"), ask.number("flywheel.thickness"))
        yield from _in_hub(ask, "flywheel.joint", thick, ask.number("flywheel.diameter"))
    outside = wheel_outside(ask.number("cam_drive.teeth_crank"), ask.number("cam_drive.pitch"))
    if any(ask.said(f"cam_drive.joint.{name}") for name in ("kind", *_READ)):
        long = ask.number("cam_drive.joint.length")
        yield from _in_hub(ask, "cam_drive.joint", long, outside)


def _engaged(ask: Values, path: str) -> float:
    plate, long = ask.number(f"{path}.plate_thickness"), ask.number(f"{path}.length")
    return min(plate, long) if ask[f"{path}.plate"] is not None and plate > 0 else long


def _in_hub(ask: Values, path: str, length: float, outside: float) -> Iterator[Fault]:
    joint = SimpleNamespace(**{name: ask[f"{path}.{name}"] for name in _READ})
    found = no_room(joint, length, outside)  # type: ignore[arg-type]
    if found is not None:
        yield (f"{path}.{found.field}", found.fault, found.cure)


def _plates(ask: Values) -> Iterator[Fault]:
    cheek = ask.number("crank.cheek_thickness")
    for path in ("crank.joint", "crank.journal.joint"):
        plate = ask.number(f"{path}.plate_thickness")
        if ask[f"{path}.plate"] is not None and plate >= cheek:
            yield (
                f"{path}.plate_thickness",
                f"is {mm(plate)}: the plate is let into a cheek of {mm(cheek)}",
                f"Leave at least half of the cheek: {mm(0.5 * cheek)} or less.",
            )


def _in_cheek(ask: Values) -> Iterator[Fault]:
    """A cheek no wider than what it holds; holes for pin and journal that meet."""
    pin, journal = ask.number("crank.crankpin_diameter"), ask.number("crank.main_journal_diameter")
    larger, width = max(pin, journal), ask.number("crank.cheek_width")
    if width < larger + 2 * _LEAST_WALL - 1e-9:
        yield (
            "crank.cheek_width",
            f"is {mm(width)}: no wall is left round {mm(larger)}",
            f"As much wall as the pin is thick, nearly: {mm(2.2 * larger)}.",
        )
    if "solid" in (ask["crank.joint.kind"], ask["crank.journal.joint.kind"]):
        return
    throw = ask.number("cylinder.stroke") / 2
    left = throw - (pin + journal) / 2
    if left < _LEAST_WALL - 1e-9:
        yield (
            "crank.main_journal_diameter",
            f"is {mm(journal)}: on a throw of {mm(throw)} its hole in the cheek leaves "
            f"{mm(max(left, 0.0))} to that of a {mm(pin)} crankpin",
            "Make one of them thinner, or the crank of one piece.",
        )


def _in_bearing(ask: Values) -> Iterator[Fault]:
    """A bearing that was chosen, and not one that stands in for another kind."""
    if not ask.said("crank.main_bearing"):
        return
    journal, bore = ask.number("crank.main_journal_diameter"), ask.number("crank.main_bearing_bore")
    if abs(journal - bore) > 0.3e-3:
        yield (
            "crank.main_journal_diameter",
            f"is {mm(journal)}, but the bearing's bore is {mm(bore)}",
            f"Make it {mm(bore)}, or choose another crank.main_bearing.",
        )


def _rod_in_journal(ask: Values) -> Iterator[Fault]:
    rod, journal = ask.number("crank.journal.rod_diameter"), ask["crank.main_journal_diameter"]
    if rod and rod >= journal:
        yield (
            "crank.journal.rod_diameter",
            f"is {mm(rod)}: as thick as the journal around it",
            "Make it thinner, or the journal itself of steel.",
        )


CHECKS: tuple[Check, ...] = (_pins, _plates, _in_cheek, _in_bearing, _rod_in_journal)
