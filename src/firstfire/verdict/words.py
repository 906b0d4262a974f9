"""Every sentence a person reads about a result, made in one place from its records."""

from __future__ import annotations

import math

from firstfire.engine.geometry import Geometry
from firstfire.verdict.numbers import shown
from firstfire.verdict.result import Result

_LAYOUTS = {
    "single": "single",
    "parallel_twin": "parallel twin",
    "v_twin": "V-twin",
    "opposed_twin": "opposed twin",
}


def listed(parts: list[str]) -> str:
    """Words joined as one says them.

    Examples
    --------
    >>> listed(["power", "heat", "life"])
    'power, heat and life'
    """
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def sentence(result: Result) -> str:
    """The one sentence that stands above everything."""
    subjects = listed([u.subject for u in result.unjudged[:4]])
    return f"{result.engine.name} is understood: {described(result)}. Not judged yet: {subjects}."


def described(result: Result) -> str:
    """The engine in half a sentence."""
    parts = result.plain.cylinders[0]
    size = f"{shown(parts.cylinder.bore, 'mm')[:-3]} × {shown(parts.cylinder.stroke, 'mm')}"
    volume = shown(result.geometry.displacement, "cm^3")
    layout = _LAYOUTS[result.plain.layout.kind]
    article = "an" if layout[0] in "aeiou" else "a"
    return f"{article} {layout} of {size}, {volume}, which fires {firing(result.geometry)}"


def firing(shape: Geometry) -> str:
    """How it fires, in words."""
    gaps = [round(math.degrees(gap), 1) for gap in shape.firing_intervals if gap > 1e-9]
    if len(shape.firing_intervals) > len(gaps):
        return "both cylinders at once, every 720°"
    if max(gaps) - min(gaps) < 0.5:
        return f"every {gaps[0]:g}°"
    return f"{listed([f'{gap:g}°' for gap in gaps])} apart"
