"""Every sentence a person reads about a result, made in one place from its records."""

from __future__ import annotations

import math

from firstfire.engine.geometry import Geometry
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.numbers import THIN, figures, shown
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
    best = strongest(result)
    subjects = listed([u.subject for u in result.unjudged[:3]])
    if best is None:
        return f"{result.engine.name} is understood: {described(result)}. Not judged: {subjects}."
    if best.brake_power <= 0:
        made = (
            f"doesn't turn by itself at any speed asked: friction and pumping take more than its "
            f"gas gives, {_power(best)} at {_speed(best)}"
        )
    else:
        made = f"makes about {_power(best)} at {_speed(best)}"
    return f"{result.engine.name}, {described(result)}, {made}. Not judged yet: {subjects}."


def strongest(result: Result) -> OperatingPoint | None:
    """The fired point of most power, or None where nothing was fired."""
    fired = [point for point in result.points if point.spark is not None]
    return max(fired, key=lambda point: point.brake_power, default=None)


def _power(point: OperatingPoint) -> str:
    return power(point.brake_power)


def power(watts: float) -> str:
    """A power in watts, or kilowatts from one on.

    Examples
    --------
    >>> power(768.7).replace(THIN, " "), power(1854.0).replace(THIN, " ")
    ('769 W', '1.85 kW')
    """
    if abs(watts) >= 1000:
        return f"{figures(watts / 1000)}{THIN}kW"
    return f"{figures(watts)}{THIN}W"


def _speed(point: OperatingPoint) -> str:
    return f"{point.speed * 30 / math.pi:.0f}{THIN}rpm"


def described(result: Result) -> str:
    """The engine in half a sentence."""
    parts = result.plain.cylinders[0]
    size = f"{shown(parts.cylinder.bore, 'mm')[:-3]} × {shown(parts.cylinder.stroke, 'mm')}"
    volume = shown(result.geometry.displacement, "cm^3")
    layout = _LAYOUTS[result.plain.layout.kind]
    article = "an" if layout[0] in "aeiou" else "a"
    return f"{article} {layout} of {size} ({volume}) that fires {firing(result.geometry)}"


def firing(shape: Geometry) -> str:
    """How it fires, in words."""
    gaps = [round(math.degrees(gap), 1) for gap in shape.firing_intervals if gap > 1e-9]
    if len(shape.firing_intervals) > len(gaps):
        return "both cylinders at once, every 720°"
    if max(gaps) - min(gaps) < 0.5:
        return f"every {gaps[0]:g}°"
    return f"{listed([f'{gap:g}°' for gap in gaps])} apart"
