"""Which values of the engine file may have their own 5 and 95 %: those that are uncertain."""

from __future__ import annotations

from fnmatch import fnmatchcase

SPANNED = (
    "leak.*",
    "doubt.*",
    "intake.equivalence_ratio",
    "surroundings.air_temperature",
    "surroundings.air_pressure",
    "cylinder.bore",
    "piston.skirt_clearance",
    "rings.groove_depth",
    "rings.section",
    "valves.*.spring_rate",
    "valves.*.spring_preload",
    "valves.exhaust.lash",
    "valves.*.mass",
    "*interference",
    "*.clamp_screw_force",
    "cam_drive.tension",
    "head.fasteners.torque",
    "gasket.cure_temperature",
    "starter.decompression_*",
    "starter.battery_resistance",
)
"""Patterns of paths, cylinder left out; a material's properties come on top."""

_NOT = ("doubt.strength_bias", "starter.decompression_shuts")
"""The span of a bias is that of the material's strengths; a hole's edge lies where it was made."""


def takes_span(path: str) -> bool:
    """Whether ``low`` and ``high`` may stand beside a value.

    Examples
    --------
    >>> takes_span("leak.ring"), takes_span("valves.inlet.mass"), takes_span("cylinder.stroke")
    (True, True, False)
    """
    return path not in _NOT and any(fnmatchcase(path, pattern) for pattern in SPANNED)
