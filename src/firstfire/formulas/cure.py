"""How far a sealant or glue has cured after a time at a temperature."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import beside, found
from firstfire.formulas.validity import require_not_negative, require_ordered, require_positive

ROOM = 296.15
"""Temperature, K, at which strength and modulus are tabled: 23 °C."""

_DAY = 86400.0


def pace(temperature: float) -> float:
    """How much faster than at 23 °C curing goes: twice as fast for every 10 K.

    Parameters
    ----------
    temperature
        Temperature T, K.

    Raises
    ------
    OutsideValidity
        If the temperature is not above zero.

    References
    ----------
    Rule of thumb of glue makers' data sheets for 5 to 50 °C, from memory.

    Examples
    --------
    >>> pace(306.15)
    2.0
    """
    require_positive(temperature=temperature)
    room = beside(temperature, "room_temperature", ROOM)
    step = beside(temperature, "curing_step", 10.0)
    return math.number(2 ** ((temperature - room) / step))


def depth_cured(depth_per_day: float, seconds: float, temperature: float = ROOM) -> float:
    """Depth that a moisture-curing sealant has cured from its open edge, m: d = d₁ √(t/1 day).

    Water has to pass through what has cured already, so depth goes with the root of time.

    Parameters
    ----------
    depth_per_day
        Depth d₁ of the first 24 h at 23 °C, m.
    seconds
        Time t, s.
    temperature
        K; `pace` stretches the time.

    Raises
    ------
    OutsideValidity
        If depth or temperature is not above zero, or the time is negative.

    References
    ----------
    Diffusion-limited cure of one-part silicone; sealant makers' data sheets, from memory
    (2 to 3 mm in the first 24 h).

    Examples
    --------
    Twenty minutes, of a bead that needs a day for 2.5 mm:

    >>> round(depth_cured(2.5e-3, 1200.0) * 1e3, 2)
    0.29
    """
    require_positive(depth_per_day=depth_per_day)
    require_not_negative(seconds=seconds)
    return depth_per_day * math.sqrt(_aged(seconds, temperature) / beside(seconds, "day", _DAY))


def share_cured(
    set_time: float, cure_time: float, seconds: float, temperature: float = ROOM
) -> float:
    """Share of its strength that a setting glue has: 0 until it sets, 1 when cured.

    Straight over log time between the two.

    Parameters
    ----------
    set_time, cure_time
        Times at 23 °C at which it sets and at which it has its full strength, s.
    seconds
        Time since it was mixed, s.
    temperature
        K; `pace` stretches the time.

    Raises
    ------
    OutsideValidity
        If the times are not in order, or the time is negative.

    References
    ----------
    Shape of strength against time in glue makers' data sheets, from memory.

    Examples
    --------
    >>> share_cured(600.0, 60000.0, 6000.0)
    0.5
    """
    require_ordered(zero=0.0, set_time=set_time, cure_time=cure_time)
    require_not_negative(seconds=seconds)
    aged = _aged(seconds, temperature)
    if aged <= set_time:
        return 0.0
    return math.least(1.0, math.log(aged / set_time) / math.log(cure_time / set_time))


def _aged(seconds: float, temperature: float) -> float:
    """Time at 23 °C that cures as much, s."""
    aged = seconds * pace(temperature)
    return found("aged", aged, "s", "time at 23 °C that cures as much")
