"""What temperature and time leave of a material: its curves, and where they end.

Curves are straight between their points, from 1 at 23 °C. Beyond the last point strength falls
straight to nothing at melting, or within 20 K where no melting point is known: such a part counts
as lost.
"""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.catalog import CurvePoint
from firstfire.engine.materials import Material
from firstfire.formulas import creep, softening
from firstfire.formulas.softening import ROOM

_AFTER_THE_LAST = 20.0
_METAL = 40e9


def is_metal(material: Material) -> bool:
    """Whether it is as stiff as a metal."""
    return material["modulus_in_plane"] > _METAL


def strength_left(material: Material, temperature: float) -> float:
    """Strength at a temperature over that at 23 °C, 0 to 1; never rises with temperature.

    Parameters
    ----------
    material
        From the plain engine. Without a curve of its own an amorphous plastic follows
        `firstfire.formulas.softening.glassy_strength`; without a glass transition either, what is
        known ends at its continuous-use temperature.
    temperature
        K.
    """
    curve = material.curves.get("strength")
    if curve:
        return _along(curve, temperature, material.get("melting"))
    glass = material.get("glass_transition")
    if glass is not None and glass > ROOM:
        share = softening.glass_share(temperature, glass)
        return softening.glassy_strength(max(share, 0.0)) if share < 1 else 0.0
    limit = material.get("continuous_use")
    return 1.0 if limit is None or temperature <= limit else 0.0


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
        return max(_along(curve, temperature, material.get("melting")), 1e-3)
    return max(strength_left(material, temperature), 1e-3)


def softens_at(material: Material, share: float) -> float:
    """Temperature at which only this share of its strength is left, K.

    Parameters
    ----------
    material
        As `strength_left`.
    share
        0 to 1.
    """
    low, high = ROOM, 3000.0
    curve = material.curves.get("strength")
    if curve:
        before, kept = ROOM, 1.0
        for point in curve:
            if point.value <= share:
                return before + (point.at - before) * (kept - share) / (kept - point.value)
            before, kept = point.at, point.value
        end = _end(before, material.get("melting"))
        return before + (end - before) * (kept - share) / kept
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if strength_left(material, middle) > share else (low, middle)
    return high


def last_known(material: Material) -> float:
    """Temperature of the last point of its strength curve, K; beyond it a part counts as lost."""
    curve = material.curves.get("strength")
    return curve[-1].at if curve else softens_at(material, 0.0)


def stress_left(
    material: Material, hours: float, temperature: float, *, press_fit: bool = False
) -> float:
    """Share of a stress at fixed strain that creep leaves after some hours, above 0 to 1.

    Parameters
    ----------
    material
        Without a creep factor (a metal) all of it stays.
    hours
        Since assembly.
    temperature
        K, now; its effect is counted as if it had held all the while.
    press_fit
        Whether the strain is that of a press fit, 1 to 2 %.
    """
    factor = material.get("creep_factor_1000h")
    if factor is None:
        return 1.0
    seconds = min(max(hours * 3600.0, 60.0), 3.6e7)
    law = creep.stress_left_in_press_fit if press_fit else creep.stress_left
    return law(factor, seconds) * _warm_factor(material, temperature)


def _warm_factor(material: Material, temperature: float) -> float:
    curve = material.curves.get("relaxation_warm")
    glass = material.get("glass_transition")
    if not curve or glass is None:
        return 1.0
    # Glass transition for amorphous plastics, HDT at 0.45 MPa for semi-crystalline ones.
    soft = max(glass, material.get("hdt_045") or 0.0)
    if soft <= ROOM:
        return 1.0
    return _between(curve, (temperature - ROOM) / (soft - ROOM), 0.0)


def _along(curve: Sequence[CurvePoint], at: float, melting: float | None) -> float:
    last = curve[-1]
    if at > last.at:
        end = _end(last.at, melting)
        return max(0.0, last.value * (end - at) / (end - last.at))
    return _between(curve, at, ROOM)


def _end(last: float, melting: float | None) -> float:
    return melting if melting is not None and melting > last else last + _AFTER_THE_LAST


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
