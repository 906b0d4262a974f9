"""Where an axis has its ticks, and what stands at them."""

from __future__ import annotations

import math

_NICE = (1.0, 2.0, 2.5, 5.0, 10.0)


def even_ticks(low: float, high: float, most: int = 6) -> tuple[float, ...]:
    """Round values from `low` to `high`, evenly apart, at most so many.

    Examples
    --------
    >>> even_ticks(0.0, 29.0)
    (0.0, 5.0, 10.0, 15.0, 20.0, 25.0)
    >>> even_ticks(-1.2, 2.4, 5)
    (-1.0, 0.0, 1.0, 2.0)
    """
    if not high > low:
        return (low,)
    rough = (high - low) / most
    power = 10.0 ** math.floor(math.log10(rough))
    step = next((n * power for n in _NICE if n * power >= rough * (1 - 1e-9)), 10 * power)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return tuple(round(n * step, 12) + 0.0 for n in range(first, last + 1))


def log_ticks(low: float, high: float, steps: tuple[int, ...] = (1, 2, 5)) -> tuple[float, ...]:
    """Round values from `low` to `high` for a logarithmic axis.

    Examples
    --------
    >>> log_ticks(0.25, 12.0)
    (0.5, 1.0, 2.0, 5.0, 10.0)
    """
    powers = range(math.floor(math.log10(low)), math.floor(math.log10(high)) + 1)
    found = (n * 10.0**p for p in powers for n in steps)
    return tuple(float(f"{x:.6g}") for x in found if low * (1 - 1e-9) <= x <= high * (1 + 1e-9))


def tick_text(value: float) -> str:
    """A tick's number, with a true minus sign.

    Examples
    --------
    >>> tick_text(2.5), tick_text(-90.0), tick_text(0.0)
    ('2.5', '−90', '0')
    """
    return f"{value:g}".replace("-", "−")
