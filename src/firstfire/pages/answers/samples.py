"""A computed sound as a browser plays it: whole numbers of sixteen bits, as loud as they go."""

from __future__ import annotations

import base64
from typing import Any

import numpy as np

from firstfire.formulas.sound_level import Sound

AWAY = 1.0
"""Where all sounds of the pages are listened to, m."""
_FULL = 32767
_LOUD = 0.8
"""Share of full scale that the loudest sample has."""


def samples(sound: Sound) -> dict[str, Any]:
    """Samples in base 64, as 16 bits each with the low byte first, and their rate, 1/s.

    Examples
    --------
    >>> samples(Sound(0.0, 8000.0, np.array([0.0, 2.0, -1.0])))
    {'samples': 'AABmZs3M', 'rate': 8000.0}
    """
    most = float(np.max(np.abs(sound.pressure))) or 1.0
    scaled = np.round(sound.pressure / most * _LOUD * _FULL).astype("<i2")
    return {"samples": base64.b64encode(scaled.tobytes()).decode(), "rate": sound.rate}
