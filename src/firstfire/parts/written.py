"""Values as a person writes them after ``--set``."""

from __future__ import annotations

import math


def mm(value: float, step: float = 0.5) -> str:
    """A length in mm, rounded up to a step a person would choose.

    Parameters
    ----------
    value
        m.
    step
        mm.

    Examples
    --------
    >>> mm(0.00721), mm(0.00721, 0.01)
    ('7.5 mm', '7.21 mm')
    """
    return f"{math.ceil(value * 1e3 / step - 1e-6) * step:.6g} mm"


def mm_down(value: float, step: float = 0.01) -> str:
    """A length in mm, rounded down.

    Examples
    --------
    >>> mm_down(0.001999)
    '1.99 mm'
    """
    return f"{math.floor(value * 1e3 / step + 1e-6) * step:.6g} mm"


def newton(value: float) -> str:
    """A force rounded to two figures.

    Examples
    --------
    >>> newton(26.7)
    '27 N'
    """
    return f"{float(f'{value:.2g}'):g} N"


def newton_per_mm(value: float) -> str:
    """A spring rate, from N/m.

    Examples
    --------
    >>> newton_per_mm(3125.0)
    '3.1 N/mm'
    """
    return f"{float(f'{value * 1e-3:.2g}'):g} N/mm"


def newton_metre(value: float) -> str:
    """A torque rounded to two figures.

    Examples
    --------
    >>> newton_metre(3.29)
    '3.3 N*m'
    """
    return f"{float(f'{value:.2g}'):g} N*m"


def rpm(value: float) -> str:
    """A speed, rounded down to 50 rpm, from rad/s; a hair below a step is that step.

    Examples
    --------
    >>> rpm(314.2), rpm(1.4 * 500 * math.pi / 30)
    ('3000 rpm', '700 rpm')
    """
    return f"{math.floor(value * 30 / math.pi / 50 + 1e-9) * 50:g} rpm"
