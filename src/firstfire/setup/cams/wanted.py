"""From wanted events to the values of the engine file that give such a cam."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import OutsideValidity
from firstfire.formulas import cam_law, cam_lobe
from firstfire.loads.cam_profile import Which

_EVENTS = {
    "inlet": ("opens_before_top", "closes_after_bottom"),
    "exhaust": ("opens_before_bottom", "closes_after_top"),
}
_ROWS = 32
_ALIKE = math.radians(0.5)  # of crank: flanks no more unequal than this are made equal
LAWS = ("polynomial_4567", "polynomial_345", "modified_sine", "cycloidal")
"""Families by their smoothness, smoothest first."""


@dataclass(frozen=True)
class Wanted:
    """A cam that someone asks for; angles of the crank, rad.

    Attributes
    ----------
    which
        Inlet or exhaust.
    opens, closes
        As in the engine file: before and after the dead centres of that valve.
    at_lift
        Lift at which these are stated, m; 0 as it leaves its seat.
    lift
        Greatest lift, m.
    law
        Of the flanks, by its name in the engine file.
    centre
        Of the lobe from the top centre between exhaust and intake: after it for an inlet, before
        it for an exhaust; None: midway.
    """

    which: Which
    opens: float
    closes: float
    at_lift: float
    lift: float
    law: str
    centre: float | None = None


def as_it_is(plain: PlainEngine, which: Which, law: str | None = None) -> Wanted:
    """What the file has, as something asked for; a table asks for the smoothest law."""
    valve = getattr(plain.cylinders[0].valves, which)
    opens, closes = (float(getattr(valve, name)) for name in _EVENTS[which])
    kept = LAWS[0] if valve.cam_law == "table" else valve.cam_law
    return Wanted(which, opens, closes, 0.0, float(valve.lift), law or kept)


def faults(asked: Wanted) -> Iterator[str]:
    """Everything about wanted events that no cam can do, with what would be right."""
    least = math.radians(60.0)
    if asked.at_lift >= asked.lift:
        yield (
            f"The events are stated at {1e3 * asked.at_lift:.3g} mm, and it never lifts higher "
            f"than {1e3 * asked.lift:.3g} mm. State them at "
            f"{1e3 * min(1e-3, 0.2 * asked.lift):.2g} mm."
        )
    span = asked.opens + math.pi + asked.closes
    if span < least:
        yield (
            f"From opening to closing are {math.degrees(span):.0f}° of crank: a valve is open for "
            "200° to 280°. Open earlier or close later."
        )
    early, late = _apart(asked)
    if min(early, late) <= 0.2 * (early + late):
        middle = math.degrees(0.5 * (math.pi + asked.opens + asked.closes) - asked.opens)
        if asked.which == "exhaust":
            middle = math.degrees(0.5 * (math.pi + asked.opens + asked.closes) - asked.closes)
        yield (
            "The lobe's centre leaves one flank hardly any room between its event and the nose. "
            f"Midway is {middle:.0f}°."
        )


def _apart(asked: Wanted) -> tuple[float, float]:
    """Crank angle from the opening to the nose, and from there to the closing."""
    span = asked.opens + math.pi + asked.closes
    if asked.centre is None:
        return span / 2, span / 2
    if asked.which == "inlet":
        return asked.opens + asked.centre, span - asked.opens - asked.centre
    return span - asked.closes - asked.centre, asked.closes + asked.centre


def values(asked: Wanted) -> dict[str, object]:
    """Values of the engine file, by path, that give the cam.

    A cam with equal flanks goes in as its law and its two angles, any other as a table.

    Raises
    ------
    OutsideValidity
        With everything about it that no cam can do.
    """
    wrong = list(faults(asked))
    if wrong:
        raise OutsideValidity("\n".join(wrong))
    law: cam_law.RiseLaw = getattr(cam_law, asked.law)
    early, late = _apart(asked)
    up, down = (
        cam_lobe.flank_for_event(law, asked.lift, asked.at_lift, apart) for apart in (early, late)
    )
    opens, closes = asked.opens + up - early, asked.closes + down - late
    here, names = f"valves.{asked.which}.", _EVENTS[asked.which]
    _require_in_a_file(asked, opens, closes)
    found: dict[str, object] = {
        here + names[0]: f"{math.degrees(opens):.2f} deg",
        here + names[1]: f"{math.degrees(closes):.2f} deg",
        here + "lift": f"{1e3 * asked.lift:.4g} mm",
        here + "cam_law": asked.law,
    }
    if abs(up - down) > _ALIKE:
        found[here + "cam_law"] = "table"
        found[here + "lift_table"] = _rows(law, asked.lift, up, down)
    return found


def _require_in_a_file(asked: Wanted, opens: float, closes: float) -> None:
    """Refuse a cam whose valve would leave its seat earlier or be back later than any does."""
    beyond = max(opens, closes)
    if not -_EARLIEST <= min(opens, closes) <= beyond <= _LATEST:
        raise OutsideValidity(
            f"To be at {1e3 * asked.at_lift:.3g} mm when it is asked to, with "
            f"{1e3 * asked.lift:.3g} mm of lift and this law, it would be off its seat until "
            f"{math.degrees(beyond):.0f}° "
            f"past the dead centre: {math.degrees(_LATEST):.0f}° is the most. State it at less "
            "lift, lift it higher, or open it for less long."
        )


_EARLIEST, _LATEST = math.radians(60.0), math.radians(120.0)  # as an engine file may have them


def _rows(law: cam_law.RiseLaw, lift: float, up: float, down: float) -> list[list[str]]:
    """Crank angle after opening and lift of the valve, all along both flanks."""
    lobe = cam_lobe.Lobe(law, lift, up, down, 0.1, 0.0)
    places = np.concatenate([
        np.linspace(-up, 0.0, _ROWS + 1), np.linspace(0.0, down, _ROWS + 1)[1:]
    ])  # fmt: skip
    return [
        [f"{math.degrees(a + up):.4f} deg", f"{1e3 * cam_lobe.lobe_motion(lobe, a).rise:.6f} mm"]
        for a in places.tolist()
    ]


def with_cam(engine: Engine, asked: Wanted) -> PlainEngine:
    """The engine with the wanted cam in it, as plain numbers."""
    return resolve(with_values(engine, values(asked)))
