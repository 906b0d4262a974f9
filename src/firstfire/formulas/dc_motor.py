"""A brushed motor on a battery: its line of torque over speed, and the voltage that its current
leaves.

The motor is a resistance and a voltage that grows with speed, ``U = k ω + I R``, and gives
``T = k I``; its iron and brushes take nothing. At a voltage that holds, its torque falls straight
from a stand to its free speed. A battery's own resistance stands in series: the free speed, with no
current, stays, and the line falls more steeply.

References
----------
A. E. Fitzgerald, C. Kingsley, S. D. Umans, *Electric Machinery*, McGraw-Hill, chapter on DC
machines, permanent-magnet motors (``E_a = K_m ω``, ``T = K_m I_a``, ``V_t = E_a + I_a R_a``; from
memory). Motor makers write the line as ``n = n_0 - (Δn/ΔM) M`` with ``Δn/ΔM = R / k²``.
"""

from __future__ import annotations

from firstfire.formulas.validity import require_not_negative, require_positive


def winding_resistance(voltage: float, stall_torque: float, free_speed: float) -> float:
    """Resistance between a motor's terminals, from its line at a voltage that holds, ohm.

    ``R = U² / (T_0 ω_0)``: at a stand all voltage falls on it, ``I_0 = U/R``, and ``T_0 = k I_0``
    with ``k = U/ω_0``. Torque and speed may be those behind a gear.

    Parameters
    ----------
    voltage
        At its terminals, V.
    stall_torque, free_speed
        N·m and rad/s.

    Raises
    ------
    OutsideValidity
        Unless all are positive.

    Examples
    --------
    A starter motor of 8 N·m and 157 rad/s on 12 V draws 105 A at a stand:

    >>> round(winding_resistance(12.0, 8.0, 157.08), 4)
    0.1146
    """
    require_positive(voltage=voltage, stall_torque=stall_torque, free_speed=free_speed)
    return voltage**2 / (stall_torque * free_speed)


def stall_share(winding: float, added: float) -> float:
    """Share of its torque at a stand that a motor keeps with more resistance in series.

    ``R / (R + R_b)``, also of its current.

    Parameters
    ----------
    winding, added
        Of the motor, and of battery and leads, ohm.

    Raises
    ------
    OutsideValidity
        If the winding has none, or what is added is negative.

    Examples
    --------
    >>> round(stall_share(0.1146, 0.025), 3)
    0.821
    """
    require_positive(winding=winding)
    require_not_negative(added=added)
    return winding / (winding + added)


def voltage_left(
    voltage: float, speed: float, free_speed: float, winding: float, added: float
) -> float:
    """Voltage at a motor's terminals while it turns, V.

    ``U - I R_b`` with ``I = (U - k ω) / (R + R_b)``; from the free speed on, where no current
    flows or it is kept from flowing back, all of it. Turned backwards it draws more than at a
    stand, and the voltage may be gone.

    Parameters
    ----------
    voltage
        Of the battery without current, V.
    speed, free_speed
        rad/s.
    winding, added
        Of the motor, and of battery and leads, ohm.

    Raises
    ------
    OutsideValidity
        Unless voltage, free speed and winding are positive.

    Examples
    --------
    >>> round(voltage_left(12.0, 0.0, 157.08, 0.1146, 0.025), 2)
    9.85
    """
    require_positive(voltage=voltage, free_speed=free_speed)
    draws = max(1.0 - speed / free_speed, 0.0)
    return voltage * max(1.0 - draws * (1.0 - stall_share(winding, added)), 0.0)
