"""Knock delay against Douaud and Eyzat, and its integral against Livengood and Wu.

Sources: A. M. Douaud, P. Eyzat, SAE 780080, 1978, as J. B. Heywood, *Internal Combustion Engine
Fundamentals*, 1988, Eq. 9.61 (constants and units read in three independent public sources that
cite the paper). J. C. Livengood, P. C. Wu, Fifth Symposium on Combustion, 1955; integrals by
scipy 1.17.1 `quad`. Tolerance 0.1 % of a delay (four figures), 0.2 % of an integral.
"""

import math
from collections.abc import Callable

import pytest

from firstfire.formulas import knock
from firstfire.formulas.slider_crank import piston_travel

ATM = 101_325.0


@pytest.mark.parametrize(
    ("octane", "atmospheres", "temperature", "milliseconds"),
    [
        (95.0, 30.0, 800.0, 5.290),
        (87.0, 20.0, 750.0, 10.73),
        (95.0, 40.0, 900.0, 1.914),
        (100.0, 20.0, 700.0, 24.74),
    ],
)
def test_delay(octane: float, atmospheres: float, temperature: float, milliseconds: float) -> None:
    delay = knock.douaud_eyzat(octane, atmospheres * ATM, temperature)
    assert 1e3 * delay == pytest.approx(milliseconds, rel=1e-3)


def integral(delay: Callable[[float], float], end: float, steps: int = 2000) -> float:
    times = [end * i / steps for i in range(steps + 1)]
    return knock.livengood_wu(times, [delay(t) for t in times])


def test_warming_end_gas_just_does_not_knock() -> None:
    def delay(time: float) -> float:
        return knock.douaud_eyzat(95.0, 30 * ATM, 700 + 200 * time / 5e-3)

    assert integral(delay, 5e-3) == pytest.approx(0.9771, rel=2e-3)


@pytest.mark.parametrize(("rpm", "expected"), [(1000, 0.20504), (3000, 0.06835)])
def test_motored_compression(rpm: float, expected: float) -> None:
    speed = rpm * math.pi / 30

    def delay(time: float) -> float:
        angle = -math.pi + speed * time
        travel = piston_travel(angle, 1.0, 3.5, 0.0)
        volume = 1 + 8 * travel / 2
        ratio = 9 / volume
        return knock.douaud_eyzat(95.0, 1e5 * ratio**1.33, 330 * ratio**0.33)

    assert integral(delay, math.radians(240) / speed) == pytest.approx(expected, rel=2e-3)
