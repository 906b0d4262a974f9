"""What a notch takes off a brittle part: its stress is asked a little way in, not at its very edge.

Theory of critical distances, point method: a part cracks when the elastic stress at half of a
length of the material from the notch's root reaches its strength. So a small hole hurts less than
a large one of the same shape, and a sharp corner not without end.
"""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

# K = A (r/d)^b by D/d, flat bar with shoulder fillets in bending; fits to Peterson's charts, R. L.
# Norton, *Machine Design*, appendix C, from memory. From D/d = 3 on it hardly rises.
_STEEPEST = (0.90720, -0.33333)
_NEAR = "nearness to the edge of a hole pulled {}"


def material_length(toughness: float, strength: float) -> float:
    """Length L of a material at which cracks take over from strength, m: (K_Ic/σ)²/π.

    Parameters
    ----------
    toughness
        Fracture toughness K_Ic, Pa·√m.
    strength
        Tensile strength σ, Pa.

    Raises
    ------
    OutsideValidity
        If one is not above zero.

    References
    ----------
    D. Taylor, *The Theory of Critical Distances*, Elsevier 2007; for printed PLA A. A. Ahmed,
    L. Susmel, *Fatigue Fract. Eng. Mater. Struct.* 41 (2018) 2071 (both from memory).

    Examples
    --------
    A cross-linked resin of 0.8 MPa·√m and 50 MPa:

    >>> round(material_length(0.8e6, 50e6) * 1e3, 4)
    0.0815
    """
    require_positive(toughness=toughness, strength=strength)
    length = (toughness / strength) ** 2 / math.pi
    return found("notch_length", length, "m", "length at which cracks take over")


def yielding_thickness(toughness: float, strength: float) -> float:
    """Thickness below which a notched section yields before it cracks, m: 2.5 (K_Ic/σ)².

    Parameters
    ----------
    toughness, strength
        As `material_length`, σ its yield strength.

    Raises
    ------
    OutsideValidity
        As `material_length`.

    References
    ----------
    Size criterion of a valid test of K_Ic: ISO 13586 (plastics), ASTM E399 (metals).

    Examples
    --------
    A tough polyamide of 4 MPa·√m and 45 MPa:

    >>> round(yielding_thickness(4e6, 45e6) * 1e3, 1)
    19.8
    """
    return 2.5 * math.pi * material_length(toughness, strength)


def hole_pulled(radius: float, length: float) -> float:
    """Share by which a hole in a wide plate raises a pull one way, as strength feels it.

    (2 + ξ² + 3 ξ⁴)/2, ξ = R/(R + L/2): 3 for a large hole, 1 for one that is lost in the material.

    Parameters
    ----------
    radius
        Hole's radius R, m.
    length
        `material_length` L, m; 0 for an ideally brittle one.

    Raises
    ------
    OutsideValidity
        If the radius is not above zero, or the length negative.

    References
    ----------
    J. M. Whitney, R. J. Nuismer, *J. Composite Materials* 8 (1974) 253, point stress criterion,
    d₀ = L/2 (from memory).

    Examples
    --------
    >>> round(hole_pulled(2.75e-3, 0.0815e-3), 3), hole_pulled(1.0, 0.0)
    (2.9, 3.0)
    """
    xi = found("pulled_near", _near(radius, length), "", _NEAR.format("one way"))
    return (2 + xi**2 + 3 * xi**4) / 2


def hole_stretched(radius: float, length: float) -> float:
    """As `hole_pulled`, of a pull alike in all directions: 1 + ξ², 2 for a large hole.

    Parameters
    ----------
    radius, length
        As `hole_pulled`.

    Raises
    ------
    OutsideValidity
        As `hole_pulled`.

    References
    ----------
    Lamé about a hole in a wide plate, asked at L/2 from its edge.

    Examples
    --------
    >>> round(hole_stretched(5e-3, 0.0815e-3), 3)
    1.984
    """
    xi = found("stretched_near", _near(radius, length), "", _NEAR.format("all ways"))
    return 1 + xi**2


def notch_felt(peak_factor: float, radius: float, length: float) -> float:
    """Share by which a notch raises stress, as strength feels it; 1 at the least.

    K √s (1 + s)/2, s = ρ/(ρ + L)

    Parameters
    ----------
    peak_factor
        Elastic factor K at its root.
    radius
        Root's radius ρ, m.
    length
        `material_length` L, m.

    Raises
    ------
    OutsideValidity
        If K is below 1, the radius not above zero, or the length negative.

    Notes
    -----
    Of a slit of length a, K = 1 + 2 √(a/ρ), a vanishing radius leaves √(a/L): then the part breaks
    at σ √(π a) = K_Ic, as fracture mechanics has it.

    References
    ----------
    M. Creager, P. C. Paris, *Int. J. Fracture Mechanics* 3 (1967) 247, stress ahead of a rounded
    slit, at L/2 from its root (from memory).

    Examples
    --------
    >>> round(notch_felt(2.08, 0.5e-3, 0.0815e-3), 3)
    1.794
    """
    require_positive(radius=radius)
    require_not_negative(length=length)
    require_within(1.0, math.inf, because="a notch does not relieve", peak_factor=peak_factor)
    share = found("edge_share", radius / (radius + length), "", "nearness to the notch's very edge")
    return math.most(1.0, peak_factor * math.sqrt(share) * (1 + share) / 2)


def corner_in_bending(fillet: float, thickness: float) -> float:
    """Elastic factor at the fillet where a flange grows out of a wall, in bending.

    K = 0.9072 (r/t)^-1/3, of a bar that thickens threefold or more

    Parameters
    ----------
    fillet
        Fillet's radius r, m. Below 0.01 t the factor of 0.01 t counts: asked a little way in, a
        sharper corner is felt no more.
    thickness
        Of the flange t, m; r/t up to 0.3.

    Raises
    ------
    OutsideValidity
        If a size is not above zero, or the fillet above 0.3 t.

    References
    ----------
    R. E. Peterson, *Stress Concentration Factors*; fit of R. L. Norton, *Machine Design*,
    appendix C, flat bar in bending, D/d = 3 (from memory).

    Examples
    --------
    >>> round(corner_in_bending(0.5e-3, 6e-3), 2), round(corner_in_bending(1e-9, 6e-3), 2)
    (2.08, 4.21)
    """
    require_positive(fillet=fillet, thickness=thickness)
    share = fillet / thickness
    require_within(0.0, 0.3, because="the charts end there", fillet_over_thickness=share)
    scale, power = _STEEPEST
    return math.number(scale * math.most(share, 0.01) ** power)


def _near(radius: float, length: float) -> float:
    require_positive(radius=radius)
    require_not_negative(length=length)
    return radius / (radius + length / 2)
