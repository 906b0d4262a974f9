"""How much of its squeeze a rubber ring has lost for good, by time and temperature."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import beside
from firstfire.formulas.validity import require_not_negative, require_positive, require_within


def squeeze_lost(
    tested_set: float,
    test_temperature: float,
    test_seconds: float,
    temperature: float,
    seconds: float,
) -> float:
    """Share of the squeeze that has become lasting, 0 to 1.

    s = s₀ √(t/t₀) 2^((T - T₀)/20 K), not above 1: ageing goes twice as fast for every 10 K, and
    with the root of time.

    Parameters
    ----------
    tested_set
        Set s₀ of the test, 0 to 1.
    test_temperature, test_seconds
        Temperature T₀, K, and time t₀, s, of the test.
    temperature, seconds
        Temperature T, K, and time t, s, in question.

    Raises
    ------
    OutsideValidity
        If the set is outside 0 to 1, a time is negative, or a test value not above zero.

    References
    ----------
    Test after ISO 815-1. Doubling for every 10 K: rule of thumb after Arrhenius, from memory;
    root of time: shape of set against time in seal makers' handbooks, from memory.

    Examples
    --------
    Ten minutes at the temperature of a 22 h test that left 20 %:

    >>> round(squeeze_lost(0.20, 473.15, 22 * 3600.0, 473.15, 600.0), 3)
    0.017
    """
    require_within(0.0, 1.0, because="it is a share of the squeeze", tested_set=tested_set)
    require_positive(
        test_temperature=test_temperature, test_seconds=test_seconds, temperature=temperature
    )
    require_not_negative(seconds=seconds)
    doubles = beside(temperature, "ten_kelvin", 10.0)
    aged = (seconds / test_seconds) * 2 ** ((temperature - test_temperature) / doubles)
    return math.least(1.0, tested_set * aged**0.5)
