"""How a plastic softens toward its glass transition, and what a deflection temperature says."""

from __future__ import annotations

from firstfire.formulas.validity import require_ordered, require_positive, require_within

ROOM = 296.15
"""Temperature, K, at which strength and modulus are tabled: 23 °C."""


def glass_share(temperature: float, glass_transition: float) -> float:
    """How far a plastic is on its way to softening: x = (T - 23 °C)/(T_g - 23 °C).

    Parameters
    ----------
    temperature, glass_transition
        Temperature and glass transition, K.

    Raises
    ------
    OutsideValidity
        If the glass transition is not above 23 °C (a rubber).

    References
    ----------
    Common practice: amorphous plastics alike at like x.

    Examples
    --------
    >>> glass_share(322.15, 348.15)
    0.5
    """
    require_ordered(room_temperature=ROOM, glass_transition=glass_transition)
    return (temperature - ROOM) / (glass_transition - ROOM)


def temperature_alike(
    temperature: float, glass_transition: float, tabled_glass_transition: float
) -> float:
    """Temperature at which the tabled plastic of this kind is as soft as this one, K.

    T' = 23 °C + (T - 23 °C)(T_g' - 23 °C)/(T_g - 23 °C); look T' up in the table.

    Parameters
    ----------
    temperature
        Temperature of this plastic, K.
    glass_transition, tabled_glass_transition
        Glass transition of this one and of the tabled one, K.

    Raises
    ------
    OutsideValidity
        As `glass_share`.

    References
    ----------
    As `glass_share`; for amorphous plastics only.

    Examples
    --------
    >>> round(temperature_alike(322.15, 348.15, 333.15), 2)
    314.65
    """
    share = glass_share(temperature, glass_transition)
    require_ordered(room_temperature=ROOM, tabled_glass_transition=tabled_glass_transition)
    return ROOM + share * (tabled_glass_transition - ROOM)


def glassy_modulus(share: float) -> float:
    """Short-time modulus of an amorphous plastic over that at 23 °C: 1 - 0.45 x.

    Parameters
    ----------
    share
        x of `glass_share`, -0.5 to 0.65; below 23 °C nothing is gained.

    Raises
    ------
    OutsideValidity
        If x is outside its range: beyond 0.65 the modulus falls faster, and a deflection
        temperature tells more.

    References
    ----------
    Drawn through PC and PVC (slopes 0.41 to 0.48), not measured on prints: assumed.

    Examples
    --------
    >>> round(glassy_modulus(0.3), 3)
    0.865
    """
    require_within(-0.5, 0.65, because="the straight fall ends there", glass_share=share)
    return 1 - 0.45 * max(0.0, share)


def glassy_strength(share: float) -> float:
    """Strength of an amorphous plastic over that at 23 °C: 1 - 0.62 x, then to 0.1 at x = 1.

    Parameters
    ----------
    share
        x of `glass_share`, -0.5 to 1.

    Raises
    ------
    OutsideValidity
        If x is outside its range: above its glass transition the plastic is a rubber.

    References
    ----------
    Drawn through PC (slopes 0.42 to 0.58) and PVC (about 0.8), not measured on prints:
    assumed.

    Examples
    --------
    >>> round(glassy_strength(0.5), 3), round(glassy_strength(0.9), 3)
    (0.69, 0.302)
    """
    require_within(-0.5, 1.0, because="above it the plastic is a rubber", glass_share=share)
    if share <= 0.8:
        return 1 - 0.62 * max(0.0, share)
    knee = 1 - 0.62 * 0.8
    return knee + (0.1 - knee) * (share - 0.8) / 0.2


def modulus_at_deflection_temperature(test_stress: float, room_modulus: float) -> float:
    """Modulus at a heat deflection temperature over that at 23 °C: s/(s + 0.002 E).

    The bar's outer-fibre strain has grown by 0.2 % since it was loaded at room temperature.

    Parameters
    ----------
    test_stress
        Stress s of the test, Pa: 1.80 MPa (method A) or 0.45 MPa (method B).
    room_modulus
        Young's modulus E at 23 °C, Pa.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    ISO 75-1 and -2, from the definition. A value for minutes; a gas pulse meets a stiffer
    plastic.

    Examples
    --------
    >>> round(modulus_at_deflection_temperature(1.8e6, 3.0e9), 3)
    0.231
    """
    require_positive(test_stress=test_stress, room_modulus=room_modulus)
    return test_stress / (test_stress + 0.002 * room_modulus)
