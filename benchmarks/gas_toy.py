"""A toy of six states, stepped by classical Runge-Kutta and compiled as the kernel is."""

import math

import numba
import numpy as np

STEPS = 2_000

alike = numba.njit(error_model="numpy", nogil=True, fastmath={"contract", "arcp"})
"""As the kernel's own functions are compiled."""


@alike
def rates(y: np.ndarray, out: np.ndarray) -> None:
    """Six states, three coupled oscillators, the first a pendulum: one sine a call."""
    out[0], out[2], out[4] = y[1], y[3], y[5]
    out[1] = -math.sin(y[0]) - 0.1 * y[3]
    out[3] = -2.0 * y[2] - 0.1 * y[5]
    out[5] = -3.0 * y[4] - 0.1 * y[1]


@alike
def run(steps: int, h: float) -> float:
    """Classical fourth-order Runge-Kutta."""
    y = np.linspace(0.1, 0.6, 6)
    k1, k2, k3, k4, z = np.empty(6), np.empty(6), np.empty(6), np.empty(6), np.empty(6)
    for _ in range(steps):
        rates(y, k1)
        for i in range(6):
            z[i] = y[i] + 0.5 * h * k1[i]
        rates(z, k2)
        for i in range(6):
            z[i] = y[i] + 0.5 * h * k2[i]
        rates(z, k3)
        for i in range(6):
            z[i] = y[i] + h * k3[i]
        rates(z, k4)
        for i in range(6):
            y[i] += h / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i])
    return float(y[0])
