"""What becomes of a preload: settling, creep of the clamped plastic, heat."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.stiffness import in_series
from firstfire.formulas.validity import require_not_negative, require_positive, require_within


def preload_after_settling(
    preload: float, settled: float, bolt_stiffness: float, parts_stiffness: float
) -> float:
    """Preload once rough faces have settled, N: F - f k_b k_m/(k_b + k_m), not below zero.

    Parameters
    ----------
    preload
        Preload F as tightened, N.
    settled
        Sum f of the settling of all faces, m: 2 to 4 µm a machined metal face; more as
        printed.
    bolt_stiffness, parts_stiffness
        Stiffness of the bolt and of the clamped parts, N/m.

    Raises
    ------
    OutsideValidity
        If preload or settling is negative, or a stiffness not above zero.

    References
    ----------
    VDI 2230-1, embedding (values from memory).

    Examples
    --------
    >>> round(preload_after_settling(3000.0, 20e-6, 60e6, 15e6))
    2760
    """
    require_not_negative(preload=preload, settled=settled)
    return math.most(0.0, preload - settled * _joint(bolt_stiffness, parts_stiffness))


def preload_after_creep(
    preload: float, stress_left: float, bolt_stiffness: float, parts_stiffness: float
) -> float:
    """Preload once the clamped plastic has crept for some time, N.

    F(t) = F₀ (1/k_b + 1/k_m)/(1/k_b + 1/(k_m m)), where m is the share of stress that the
    plastic would keep at fixed strain. The stretch of the bolt is shared between it and the
    parts; a stiff bolt therefore loses all of the plastic's loss, a springy one less.

    Parameters
    ----------
    preload
        Preload F₀ after tightening, N.
    stress_left
        m of the plastic at that time and temperature, above 0 to 1.
    bolt_stiffness, parts_stiffness
        Short-time stiffness of the bolt and of the clamped plastic, N/m. Springs under the
        head belong in the bolt's.

    Raises
    ------
    OutsideValidity
        If m is outside 0 to 1, the preload negative, or a stiffness not above zero.

    References
    ----------
    Quasi-elastic method: creep as a falling modulus in the elastic solution; S. Turner in
    R. M. Ogorkiewicz (ed.), *Engineering Properties of Thermoplastics* (from memory).

    Examples
    --------
    >>> round(preload_after_creep(3000.0, 0.6, 60e6, 15e6))
    1957
    """
    require_not_negative(preload=preload)
    require_positive(stress_left=stress_left)
    require_within(0.0, 1.0, because="it is a share of the stress", stress_left=stress_left)
    crept = in_series(bolt_stiffness, parts_stiffness * stress_left)
    crept = found("crept_stiffness", crept, "N/m", "that stiffness once the parts have crept")
    return preload * crept / _joint(bolt_stiffness, parts_stiffness)


def preload_change_by_heat(
    grip: float,
    *,
    parts_rise: float,
    bolt_rise: float,
    parts_expansion: float,
    bolt_expansion: float,
    bolt_stiffness: float,
    parts_stiffness: float,
) -> float:
    """Change of preload as the parts and the bolt warm, N; positive tightens.

    ΔF = L (α_m ΔT_m - α_b ΔT_b) k_b k_m/(k_b + k_m). Plastic under a steel bolt tightens as it
    warms, then creeps under the higher load and is loose when cold again.

    Parameters
    ----------
    grip
        Clamped length L, m.
    parts_rise, bolt_rise
        Temperature rise of parts and of bolt, K.
    parts_expansion, bolt_expansion
        Expansion coefficients along the bolt, 1/K.
    bolt_stiffness, parts_stiffness
        Stiffness of each at that temperature, N/m.

    Raises
    ------
    OutsideValidity
        If grip or a stiffness is not above zero.

    References
    ----------
    Linear expansion into two springs in series; VDI 2230-1, thermal load (from memory).

    Examples
    --------
    >>> round(preload_change_by_heat(30e-3, parts_rise=40.0, bolt_rise=40.0,
    ...     parts_expansion=70e-6, bolt_expansion=12e-6, bolt_stiffness=60e6,
    ...     parts_stiffness=15e6))
    835
    """
    require_positive(grip=grip)
    growth = grip * (parts_expansion * parts_rise - bolt_expansion * bolt_rise)
    growth = found("grows_beyond", growth, "m", "what warmth lengthens the parts beyond the bolt")
    return growth * _joint(bolt_stiffness, parts_stiffness)


def _joint(bolt_stiffness: float, parts_stiffness: float) -> float:
    """Stiffness of bolt and parts in a row, N/m."""
    joint = in_series(bolt_stiffness, parts_stiffness)
    return found("joint_stiffness", joint, "N/m", "stiffness of fastener and parts in a row")


def stress_left_by_preload(
    share_left: float, bolt_stiffness: float, parts_stiffness: float
) -> float:
    """Share of stress that the plastic would keep at fixed strain, by what is left of a preload.

    m = s k_b/(k_b + k_m (1 - s)), `preload_after_creep` turned round.

    Parameters
    ----------
    share_left
        Preload left over preload after tightening s, above 0 to 1.
    bolt_stiffness, parts_stiffness
        As `preload_after_creep`.

    Raises
    ------
    OutsideValidity
        If the share is outside 0 to 1, or a stiffness not above zero.

    References
    ----------
    As `preload_after_creep`.

    Examples
    --------
    >>> round(stress_left_by_preload(1957 / 3000, 60e6, 15e6), 3)
    0.6
    """
    require_positive(
        share_left=share_left, bolt_stiffness=bolt_stiffness, parts_stiffness=parts_stiffness
    )
    require_within(0.0, 1.0, because="a bolt does not tighten itself", share_left=share_left)
    lost = 1 - share_left
    return share_left * bolt_stiffness / (bolt_stiffness + parts_stiffness * lost)
