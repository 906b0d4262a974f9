"""How a blended fuel boils: Reid's vapour pressure, distillation, petrol by season.

Petrol stands as six hydrocarbons, its light and heavy ends among them. Five are fixed, chosen once
for the shares distilled by 70, 100 and 150 °C, the density and the hydrogen of petrol; butane makes
the season, as in a refinery.

References
----------
EN 228 (from memory): vapour pressure 45 to 60 kPa in summer, 60 to 90 in winter; distilled by
volume 20 to 50 % at 70 °C, 46 to 71 % at 100 °C, at least 75 % at 150 °C; 720 to 775 kg/m³. ASTM
D 86 (distillation) and D 323 (Reid's bomb: 37.8 °C, four volumes of air to one of liquid), from
memory. Lord Rayleigh, *Philosophical Magazine* 4, 1902, 521: batch distillation.
"""

from __future__ import annotations

from firstfire.errors import OutsideValidity
from firstfire.formulas.fuel_mix import AIR_MOLAR_MASS
from firstfire.formulas.validity import require_within
from firstfire.formulas.vapour_pressure import (
    LIQUIDS,
    PETROL,
    Blend,
    given_off,
    partial_pressures,
)

ATMOSPHERE = 101_325.0
"""Pa."""
REID_TEMPERATURE = 310.93
"""K: 100 °F, 37.8 °C."""
_REID_AIR = 4.0
_GAS = 8.314462618
_COLDEST, _HOTTEST = 230.0, 450.0
_STEPS = 200


def volume(blend: Blend) -> float:
    """Volume of a liquid at 20 °C, m³, if volumes add.

    Examples
    --------
    >>> round(1.0 / volume(PETROL))
    721
    """
    return sum(mass / LIQUIDS[name].density for name, mass in blend.items())


def boiling_point(blend: Blend, pressure: float = ATMOSPHERE) -> float:
    """Temperature at which a liquid starts to boil, K.

    Parameters
    ----------
    blend
        By mass.
    pressure
        Pa.

    Raises
    ------
    OutsideValidity
        Where it boils outside of 230 to 450 K.

    Examples
    --------
    >>> round(boiling_point({"ethanol": 1.0}) - 273.15, 1)
    78.3
    """
    low, high = _COLDEST, _HOTTEST

    def over(temperature: float) -> float:
        return sum(partial_pressures(blend, temperature).values())

    if over(low) > pressure or over(high) < pressure:
        raise OutsideValidity(
            f"At {pressure / 1e5:.3g} bar this liquid does not boil between 230 and 450 K."
        )
    while high - low > 1e-6:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if over(middle) < pressure else (low, middle)
    return 0.5 * (low + high)


def reid_pressure(blend: Blend) -> float:
    """Vapour pressure as Reid's bomb shows it, Pa: at 37.8 °C, with four volumes of air.

    A little of the light ends goes into the air and is missing from the liquid.

    Examples
    --------
    >>> round(reid_pressure(PETROL) / 1e3, 1)
    58.8
    """
    # one litre of liquid with four of air, which was let in dry at 1 atm and the same warmth
    air = _REID_AIR * volume(blend) * ATMOSPHERE / (_GAS * REID_TEMPERATURE) * AIR_MOLAR_MASS
    low, high = ATMOSPHERE, 20.0 * ATMOSPHERE
    while high - low > 1e-3:
        middle = 0.5 * (low + high)
        off = given_off(blend, air, REID_TEMPERATURE, middle)
        moles = sum(mass / LIQUIDS[name].molar_mass for name, mass in off.items())
        # what its vapour adds, in the room that air has
        adds = moles * _GAS * REID_TEMPERATURE / (_REID_AIR * volume(blend))
        low, high = (middle, high) if middle - ATMOSPHERE < adds else (low, middle)
    return 0.5 * (low + high) - ATMOSPHERE


def petrol(season: float) -> dict[str, float]:
    """Petrol of a vapour pressure, by mass: more butane for winter, less for summer.

    Parameters
    ----------
    season
        Vapour pressure at 37.8 °C, Pa; 50 to 90 kPa.

    Raises
    ------
    OutsideValidity
        Outside of that: EN 228 allows down to 45 kPa, but the other five then distil too late.

    Examples
    --------
    >>> [round(petrol(season)["butane"], 3) for season in (50e3, 90e3)]
    [0.013, 0.101]
    """
    require_within(50e3, 90e3, because="EN 228's petrol is so volatile", season=season)
    rest = {name: share for name, share in PETROL.items() if name != "butane"}
    whole = sum(rest.values())
    low, high = 1e-6, 0.2

    def of(butane: float) -> dict[str, float]:
        others = {name: share * (1.0 - butane) / whole for name, share in rest.items()}
        return {"butane": butane, **others}

    while high - low > 1e-12:
        middle = 0.5 * (low + high)
        reached = sum(partial_pressures(of(middle), REID_TEMPERATURE).values())
        low, high = (middle, high) if reached < season else (low, middle)
    return of(0.5 * (low + high))


def distilled(blend: Blend, temperature: float, pressure: float = ATMOSPHERE) -> float:
    """Share by volume that has boiled off once the boiling liquid has a temperature.

    Lord Rayleigh's still: vapour in equilibrium with what is left is taken away as it comes. A
    thermometer in the neck of ASTM D 86's flask shows less than the liquid does, mostly at first.

    Parameters
    ----------
    blend
        By mass.
    temperature
        Of the liquid, K, up to 450.
    pressure
        Pa.

    Examples
    --------
    >>> [round(100 * distilled(PETROL, 273.15 + warm)) for warm in (70, 100, 150)]
    [24, 58, 90]
    """
    require_within(
        _COLDEST, _HOTTEST, because="liquids were fitted so far", temperature=temperature
    )
    left, first = dict(blend), volume(blend)
    step = first / _STEPS
    before = (boiling_point(left, pressure), 0.0)
    if before[0] >= temperature:
        return 0.0
    while volume(left) > 1.5 * step:
        over = partial_pressures(left, before[0])
        going = {name: one * LIQUIDS[name].molar_mass for name, one in over.items()}
        part = step / volume(going)
        left = {n: m - part * going[n] for n, m in left.items() if m > part * going.get(n, 0.0)}
        now = (boiling_point(left, pressure), 1.0 - volume(left) / first)
        if now[0] >= temperature:
            share = (temperature - before[0]) / (now[0] - before[0])
            return before[1] + share * (now[1] - before[1])
        before = now
    return 1.0
