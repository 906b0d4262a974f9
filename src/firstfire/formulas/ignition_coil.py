"""What an ignition coil holds after current has flowed into it for a while.

References
----------
Rise of a coil's current ``I = U/R (1 - e^(-t R/L))`` and its energy ``L I²/2``: any text on
electric circuits.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive


def energy_at(full: float, voltage: float, rated: float) -> float:
    """Energy that a coil comes to at another voltage than it is rated for, J.

    ``E (U/U_0)²``: the current that a winding's resistance lets through goes with the voltage, and
    so does how fast it rises, ``U/L``; the time constant stays.

    Parameters
    ----------
    full
        At the rated voltage, J.
    voltage, rated
        V.

    Raises
    ------
    OutsideValidity
        Without energy or rated voltage, or at a negative one.

    Examples
    --------
    A coil of 30 mJ at 12 V, with 9 V left while it is cranked:

    >>> round(1e3 * energy_at(30e-3, 9.0, 12.0), 3)
    16.875
    """
    require_positive(full_energy=full, rated_voltage=rated)
    require_not_negative(voltage=voltage)
    return full * (voltage / rated) ** 2


def coil_energy(full: float, charging: float, time_constant: float) -> float:
    """Energy that a coil holds after current has flowed into it for a time, J.

    ``E = E_full (1 - e^(-t/τ))²``, the current rising as its winding and its iron let it.

    Parameters
    ----------
    full
        Of the coil once its current rises no more, J.
    charging
        How long current has flowed, s.
    time_constant
        Inductance over resistance, s.

    Raises
    ------
    OutsideValidity
        For a negative time, or no time constant.

    Examples
    --------
    After one time constant, four tenths:

    >>> round(1e3 * coil_energy(30e-3, 2e-3, 2e-3), 2)
    11.99
    """
    require_positive(full_energy=full, time_constant=time_constant)
    require_not_negative(charging_time=charging)
    return full * math.expm1(-charging / time_constant) ** 2


def stored_energy(inductance: float, current: float) -> float:
    """Energy of a coil that a current flows through, L I²/2, J.

    Examples
    --------
    6 mH at 3 A:

    >>> round(1e3 * stored_energy(6e-3, 3.0), 3)
    27.0
    """
    require_positive(inductance=inductance)
    return 0.5 * inductance * current**2


def rising_current(voltage: float, resistance: float, inductance: float, charging: float) -> float:
    """Current in a coil after a time on a voltage, ``U/R (1 - e^(-t R/L))``, A.

    Parameters
    ----------
    voltage
        V; what a driver keeps is taken off.
    resistance
        Of winding, resistor and leads, ohm.
    inductance
        H; of iron that isn't full yet.
    charging
        How long current has flowed, s.

    Examples
    --------
    12 V on 3 ohms and 6 mH, after 4 ms:

    >>> round(rising_current(12.0, 3.0, 6e-3, 4e-3), 3)
    3.459
    """
    require_positive(resistance=resistance, inductance=inductance)
    require_not_negative(charging_time=charging, voltage=voltage)
    return -voltage / resistance * math.expm1(-charging * resistance / inductance)


def charging_heat(voltage: float, resistance: float, inductance: float, charging: float) -> float:
    """Heat that one charging leaves in a coil's resistance, J.

    Integral of ``I² R``: ``U²/R [t - 2τ(1 - e^(-t/τ)) + τ/2 (1 - e^(-2t/τ))]`` with τ = L/R.

    Examples
    --------
    Long on, nearly U²/R times t:

    >>> round(charging_heat(12.0, 3.0, 6e-3, 1.0), 2)
    47.86
    """
    require_positive(resistance=resistance, inductance=inductance)
    require_not_negative(charging_time=charging, voltage=voltage)
    constant = inductance / resistance
    once, twice = (math.expm1(-n * charging / constant) for n in (1.0, 2.0))
    flown = charging + 2.0 * constant * once - 0.5 * constant * twice
    return voltage**2 / resistance * flown


def secondary_voltage(
    energy: float, capacitance: float, condenser: float = 0.0, turns_ratio: float = 1.0
) -> float:
    """Highest voltage that a coil's energy lifts its secondary to before any spark, V.

    All energy in the capacities of both sides, the primary's seen through the turns:
    ``V = √(2 E/(C_2 + C_1/N²))``.

    Parameters
    ----------
    energy
        That reaches the secondary, J.
    capacitance
        Of secondary winding, lead and plug, F.
    condenser
        Across the points, F; 0 for a transistor.
    turns_ratio
        Secondary over primary.

    Examples
    --------
    18 mJ in 100 pF, with 0.22 uF across the points and 80 turns to one:

    >>> round(secondary_voltage(18e-3, 100e-12, 0.22e-6, 80.0) / 1e3, 1)
    16.4
    """
    require_positive(capacitance=capacitance, turns_ratio=turns_ratio)
    require_not_negative(energy=energy, condenser=condenser)
    return math.sqrt(2.0 * energy / (capacitance + condenser / turns_ratio**2))


def energy_for_voltage(
    voltage: float, capacitance: float, condenser: float = 0.0, turns_ratio: float = 1.0
) -> float:
    """Energy that has to reach the secondary for a voltage, J: `secondary_voltage` turned round.

    Examples
    --------
    >>> round(1e3 * energy_for_voltage(16.4e3, 100e-12, 0.22e-6, 80.0), 1)
    18.1
    """
    require_positive(capacitance=capacitance, turns_ratio=turns_ratio)
    require_not_negative(voltage=voltage, condenser=condenser)
    return 0.5 * (capacitance + condenser / turns_ratio**2) * voltage**2


def dwell_for_current(
    current: float, voltage: float, resistance: float, inductance: float
) -> float:
    """Time in which a coil comes to a current, s; infinite where it never does.

    Examples
    --------
    >>> round(1e3 * dwell_for_current(3.459, 12.0, 3.0, 6e-3), 2)
    4.0
    """
    require_positive(resistance=resistance, inductance=inductance)
    require_not_negative(current=current, voltage=voltage)
    if current * resistance >= voltage:
        return math.inf
    return -inductance / resistance * math.log1p(-current * resistance / voltage)
