"""When an injector's fuel is wanted at the valve, and when it must be switched off for that."""

from __future__ import annotations

import math

from firstfire.engine.cam_lift import bottom_after_top, spans
from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine

OVERLAP = 2.0 * math.pi
"""Crank angle of the top of gas exchange after a cylinder's firing top, rad."""


def arrives(plain: PlainEngine, parts: CylinderParts) -> float:
    """Crank angle after its firing top at which a cylinder's last fuel is to be at its valve, rad.

    On a shut valve when that opens; into an open one by the bottom, while the piston still draws.

    Parameters
    ----------
    plain, parts
        Plain numbers of the engine, and of the cylinder.
    """
    if plain.injector.ends == "while_inlet_open":
        return OVERLAP + bottom_after_top(parts)
    found = spans(parts)
    return found["inlet"].opens if "inlet" in found else OVERLAP


def end_angle(plain: PlainEngine, parts: CylinderParts, speed: float, spray: float) -> float:
    """Crank angle after its firing top at which a cylinder's injector is shut, rad.

    Parameters
    ----------
    plain, parts
        As `arrives` takes them.
    speed, spray
        Of the crank, rad/s, and of the spray, m/s.
    """
    return arrives(plain, parts) - speed * plain.injector.distance / spray
