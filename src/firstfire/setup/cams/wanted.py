"""From wanted events to the values of the engine file that give such a cam."""

from __future__ import annotations

import math

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import OutsideValidity
from firstfire.formulas import cam_law, cam_lobe
from firstfire.setup.cams.events import EVENTS, Wanted, flanks, seat
from firstfire.setup.cams.impossible_events import faults

_ROWS = 32
_ALIKE = math.radians(0.5)  # of crank: flanks no more unequal than this are made equal


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
    up, down = flanks(asked)
    opens, closes = seat(asked)
    here, names = f"valves.{asked.which}.", EVENTS[asked.which]
    found: dict[str, object] = {
        here + names[0]: f"{math.degrees(opens):.2f} deg",
        here + names[1]: f"{math.degrees(closes):.2f} deg",
        here + "lift": f"{1e3 * asked.lift:.4g} mm",
        here + "cam_law": asked.law,
    }
    if abs(up - down) > _ALIKE:
        found[here + "cam_law"] = "table"
        found[here + "lift_table"] = _rows(getattr(cam_law, asked.law), asked.lift, up, down)
    return found


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
