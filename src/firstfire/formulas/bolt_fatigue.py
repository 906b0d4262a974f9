"""The swing of stress that a screw's thread bears for a number of loads."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import beside, found
from firstfire.formulas.validity import require_positive, require_within

_ENDURED = 2e6
_FEWEST = 1e4


def thread_amplitude(diameter: float, cycles: float = _ENDURED) -> float:
    """Stress amplitude in the stress area that a rolled thread bears, Pa.

    σ_A = 0.85 (150 mm/d + 45) MPa for 2·10⁶ loads and more, whatever its property class from 8.8
    to 12.9; for fewer σ_A (2·10⁶/N)^(1/3).

    Parameters
    ----------
    diameter
        Nominal diameter d, m, 3 to 40 mm (fitted from 4 up).
    cycles
        Number of loads N, above zero. Below 10⁴ the value at 10⁴ is given.

    Raises
    ------
    OutsideValidity
        If the diameter is outside 3 to 40 mm.

    References
    ----------
    VDI 2230-1, fatigue of threads rolled before heat treatment (from memory).

    Examples
    --------
    >>> round(thread_amplitude(5e-3) / 1e6, 2), round(thread_amplitude(5e-3, 250e3) / 1e6, 1)
    (63.75, 127.5)
    """
    require_within(3e-3, 40e-3, because="the fit to tests ends there", diameter=diameter)
    require_positive(cycles=cycles)
    stress = beside(diameter, "thread_fatigue", 0.85e6)
    length = beside(diameter, "thread_fatigue_length", 0.150)
    endured = stress * (length / diameter + 45)
    endured = found("endured", endured, "Pa", "half swing that two million loads allow")
    counted = found("cycles_counted", math.least(math.most(cycles, _FEWEST), _ENDURED), "",
                    "cycles, counted from ten thousand to two million")  # fmt: skip
    return math.number(endured * (_ENDURED / counted) ** (1 / 3))
