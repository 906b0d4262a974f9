"""Prints the polynomials of the nozzle law (src/firstfire/cycle/nozzle.py) and how good they are.

    .venv/bin/python scripts/fit_nozzle.py

Each runs through a function at Chebyshev's points, where interpolation is all but the best there
is.
"""

from collections.abc import Callable

import numpy as np
from numpy.polynomial import chebyshev, polynomial

LARGEST_DROP, LARGEST_EXPONENT = 0.53, 0.98


def through(function: Callable[..., np.ndarray], high: float, degree: int) -> np.ndarray:
    """Coefficients by rising powers of the polynomial through a function on 0 to high."""
    points = np.cos(np.pi * (np.arange(degree + 1) + 0.5) / (degree + 1))
    found = chebyshev.cheb2poly(
        chebyshev.chebfit(points, function(high * (points + 1) / 2), degree)
    )
    total, power = np.zeros(1), np.ones(1)
    for coefficient in found:
        total = polynomial.polyadd(total, coefficient * power)
        power = polynomial.polymul(power, [-1.0, 2.0 / high])
    return total


def logarithm(w: np.ndarray) -> np.ndarray:
    z = np.sqrt(np.maximum(w, 1e-12))
    return np.where(w < 1e-12, 1.0, np.arctanh(z) / z)


def exponential(x: np.ndarray) -> np.ndarray:
    x = np.maximum(x, 1e-12)
    return -np.expm1(-x) / x


if __name__ == "__main__":
    largest = LARGEST_DROP / (2 - LARGEST_DROP)
    spans = (
        ("LOG", logarithm, largest**2, 6),
        ("EXP", exponential, LARGEST_EXPONENT * 2 * np.arctanh(largest), 7),
    )
    for name, function, high, degree in spans:
        fit = through(function, high, degree)
        even = np.linspace(0.0, high, 20001)
        worst = np.abs(polynomial.polyval(even, fit) / function(even) - 1).max()
        print(name, [float(c) for c in fit], f"within {worst:.1e}")
