"""What temperature and time leave of a material: its curves, and where they end.

Curves are straight between their points, from 1 at 23 °C. Beyond the last point strength falls
straight to nothing at melting, or within 20 K in what has no melting point: such a part counts as
lost. What a row doesn't tell is never taken as the better case: it raises `OutsideValidity`.
"""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.catalog import CurvePoint
from firstfire.engine.materials import Material
from firstfire.errors import OutsideValidity
from firstfire.formulas import creep
from firstfire.formulas.cure import ROOM

_AFTER_THE_LAST = 20.0
_NEAR_ROOM = 2.0  # K: ISO 291 tests at 23 ± 2 °C
_SOFT = {
    "semi-crystalline": "hdt_045", "elastomer": "continuous_use", "composite": "continuous_use",
}  # fmt: skip
"""Where a structure goes soft; all others at their glass transition. Rubber and fibre sheet have no
such point above room: where they may no longer be held (our own choice, the earlier of what can
be)."""
_NO_MELTING = ("amorphous", "cross-linked", "elastomer", "composite")


def is_metal(material: Material) -> bool:
    """Whether it is a metal."""
    return material.metal


def strength_left(material: Material, temperature: float) -> float:
    """Strength at a temperature over that at 23 °C, 0 to 1; never rises with temperature.

    Parameters
    ----------
    material
        From the plain engine.
    temperature
        K.

    Raises
    ------
    OutsideValidity
        Where it is warmer than a test at room and its row tells no curve.
    """
    curve = material.curves.get("strength")
    if curve:
        return _along(curve, temperature, material)
    if temperature <= ROOM + _NEAR_ROOM:
        return 1.0
    raise OutsideValidity(material.untold("curve of strength over temperature"))


def modulus_left(material: Material, temperature: float) -> float:
    """Stiffness at a temperature over that at 23 °C, above 0 to 1.

    Parameters
    ----------
    material, temperature
        As `strength_left`. A thousandth is left at least: what is softer counts as lost by its
        strength.
    """
    curve = material.curves.get("modulus")
    if curve:
        return max(_along(curve, temperature, material), 1e-3)
    if temperature <= ROOM + _NEAR_ROOM:
        return 1.0
    raise OutsideValidity(material.untold("curve of modulus over temperature"))


def softens_at(material: Material, share: float) -> float:
    """Temperature at which only this share of its strength is left, K.

    Parameters
    ----------
    material
        As `strength_left`.
    share
        0 to 1.
    """
    before, kept = ROOM, 1.0
    for point in material.curve("strength"):
        if point.value <= share:
            return before + (point.at - before) * (kept - share) / (kept - point.value)
        before, kept = point.at, point.value
    end = _end(before, material)
    return before + (end - before) * (kept - share) / kept


def last_known(material: Material) -> float:
    """Temperature of the last point of its strength curve, K; beyond it a part counts as lost."""
    return material.curve("strength")[-1].at


def stress_left(
    material: Material, hours: float, temperature: float, *, press_fit: bool = False
) -> float:
    """Share of a stress at fixed strain that creep leaves after some hours, above 0 to 1.

    Parameters
    ----------
    material
        In a metal all of it stays.
    hours
        Since assembly.
    temperature
        K, now; its effect is counted as if it had held all the while.
    press_fit
        Whether the strain is that of a press fit, 1 to 2 %.
    """
    if material.metal:
        return 1.0
    factor = material["creep_factor_1000h"]
    seconds = min(max(hours * 3600.0, 60.0), 3.6e7)
    law = creep.stress_left_in_press_fit if press_fit else creep.stress_left
    return law(factor, seconds) * _warm_factor(material, temperature)


def _warm_factor(material: Material, temperature: float) -> float:
    if temperature <= ROOM:
        return 1.0
    curve = material.curve("relaxation_warm")
    prop = _SOFT.get(material.structure, "glass_transition")
    soft = material[prop]
    if soft <= ROOM:
        raise OutsideValidity(f"{material.name} is soft at room by its {prop.replace('_', ' ')}.")
    return _between(curve, (temperature - ROOM) / (soft - ROOM), 0.0)


def _along(curve: Sequence[CurvePoint], at: float, material: Material) -> float:
    last = curve[-1]
    if at > last.at:
        end = _end(last.at, material)
        return max(0.0, last.value * (end - at) / (end - last.at))
    return _between(curve, at, ROOM)


def _end(last: float, material: Material) -> float:
    """Where nothing is left; what has no melting point goes within 20 K of the last point."""
    if material.structure in _NO_MELTING:
        return last + _AFTER_THE_LAST
    return max(material["melting"], last + 1e-6)


def _between(curve: Sequence[CurvePoint], at: float, start: float) -> float:
    """Straight between points, 1 at the start and before."""
    before, kept = start, 1.0
    for point in curve:
        if at <= point.at:
            if at <= before:
                return kept
            return kept + (point.value - kept) * (at - before) / (point.at - before)
        before, kept = point.at, point.value
    return kept
