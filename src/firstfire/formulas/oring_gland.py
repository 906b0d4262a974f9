"""An O-ring in its groove: stretch, section when stretched, squeeze, fill, and groove depth."""

from __future__ import annotations

from firstfire.errors import OutsideValidity
from firstfire.formulas import mathematics as math


def stretch(inside_diameter: float, groove_diameter: float) -> float:
    """Stretch of the ring on its groove, as a fraction of the free inside diameter.

    s = (d_g - d_i) / d_i; negative if the ring is loose. Handbooks keep 0 to 0.05.

    Parameters
    ----------
    inside_diameter
        Free inside diameter d_i of the ring, m.
    groove_diameter
        Diameter d_g of the groove's bottom, m.

    Raises
    ------
    OutsideValidity
        If a diameter is not positive.

    References
    ----------
    Common practice of the seal handbooks; ISO 3601-2 limits stretch likewise (from memory).

    Examples
    --------
    >>> round(stretch(37.77e-3, 39.40e-3), 4)
    0.0432
    """
    if inside_diameter <= 0 or groove_diameter <= 0:
        raise OutsideValidity("The ring's inside diameter and the groove's are more than zero.")
    return (groove_diameter - inside_diameter) / inside_diameter


def stretched_section(section: float, inside_diameter: float, groove_diameter: float) -> float:
    """Section of the ring once on its groove, its volume kept, m.

    w' = w √((d_i + w) / (d_g + w)): the centre line grows, the section thins. The thinning
    of w inside the root is left out, which is worth less than 0.1 % of w.

    Parameters
    ----------
    section
        Free section w, m.
    inside_diameter, groove_diameter
        Free inside diameter and groove diameter, m.

    Raises
    ------
    OutsideValidity
        If the section is not positive, or the stretch is outside -0.05 to 0.25: a ring that
        loose buckles, one that taut does not keep a round section.

    References
    ----------
    Rubber keeps its volume (Poisson's ratio near 0.5).

    Examples
    --------
    >>> round(stretched_section(2.62e-3, 37.77e-3, 39.40e-3) * 1e3, 3)
    2.569
    """
    fraction = stretch(inside_diameter, groove_diameter)
    if section <= 0 or not -0.05 <= fraction <= 0.25:
        raise OutsideValidity(
            f"A ring stretched by {fraction:.1%} is outside -5 % to 25 %, where its section "
            "stays round."
        )
    return section * math.sqrt((inside_diameter + section) / (groove_diameter + section))


def squeeze(section: float, gland_depth: float) -> float:
    """Squeeze of the section between groove and bore, as a fraction of the section.

    c = 1 - h/w; zero or negative where the ring does not touch.

    Parameters
    ----------
    section
        Section w as fitted (stretched), m.
    gland_depth
        Distance h from the groove's bottom to the bore, m: groove depth plus clearance.

    Raises
    ------
    OutsideValidity
        If the section or the depth is not positive.

    References
    ----------
    Common practice of the seal handbooks: 9 to 25 % for a moving ring, less for a thicker one.

    Examples
    --------
    >>> round(squeeze(2.569e-3, 2.30e-3), 4)
    0.1047
    """
    if section <= 0 or gland_depth <= 0:
        raise OutsideValidity("The ring's section and the gland's depth are more than zero.")
    return 1 - gland_depth / section


def fill(section: float, gland_depth: float, groove_width: float) -> float:
    """Share of the gland's area that the ring takes, as a fraction.

    φ = (π/4) w² / (h b). Handbooks keep 0.60 to 0.85, so that heat and swelling have room;
    above 1 the ring does not go in.

    Parameters
    ----------
    section
        Section w as fitted (stretched), m.
    gland_depth
        Distance h from the groove's bottom to the bore, m.
    groove_width
        Width b of the groove, m.

    Raises
    ------
    OutsideValidity
        If a size is not positive.

    References
    ----------
    Common practice of the seal handbooks.

    Examples
    --------
    >>> round(fill(2.569e-3, 2.30e-3, 3.6e-3), 3)
    0.626
    """
    if section <= 0 or gland_depth <= 0 or groove_width <= 0:
        raise OutsideValidity("The section, the gland's depth and its width are more than zero.")
    return math.pi / 4 * section**2 / (gland_depth * groove_width)


def gland_depth_for_squeeze(section: float, squeeze: float) -> float:
    """Gland depth that gives a wanted squeeze, m.

    h = w (1 - c)

    Parameters
    ----------
    section
        Section w as fitted (stretched), m.
    squeeze
        Wanted squeeze c, fraction from 0 up to 0.5.

    Raises
    ------
    OutsideValidity
        If the section is not positive or the squeeze is outside 0 to 0.5.

    References
    ----------
    `squeeze`, turned round.

    Examples
    --------
    >>> round(gland_depth_for_squeeze(2.569e-3, 0.10) * 1e3, 3)
    2.312
    """
    if section <= 0 or not 0 <= squeeze <= 0.5:
        raise OutsideValidity(f"A squeeze of {squeeze:.1%} is outside 0 to 50 %.")
    return section * (1 - squeeze)


def groove_diameter_for_squeeze(
    bore: float, inside_diameter: float, section: float, squeeze: float
) -> float:
    """Diameter of a piston groove's bottom that gives a wanted squeeze in a bore, m.

    Solves d_g = B - 2 w'(d_g) (1 - c), because the groove itself stretches the ring thinner.

    Parameters
    ----------
    bore
        Bore diameter B, m.
    inside_diameter, section
        Free inside diameter and section of the ring, m.
    squeeze
        Wanted squeeze c, fraction from 0 up to 0.5.

    Raises
    ------
    OutsideValidity
        If the ring does not suit the bore: stretch outside -5 to 25 %.

    References
    ----------
    `stretched_section` and `squeeze`, solved together.

    Examples
    --------
    >>> round(groove_diameter_for_squeeze(44e-3, 37.77e-3, 2.62e-3, 0.1046) * 1e3, 2)
    39.4
    """
    groove = bore - 2 * gland_depth_for_squeeze(section, squeeze)
    # The section changes by w/2d of a change in the groove, so each round gains over a decimal.
    for _ in range(40):
        fitted = stretched_section(section, inside_diameter, groove)
        following = bore - 2 * gland_depth_for_squeeze(fitted, squeeze)
        if abs(following - groove) < 1e-12:
            return following
        groove = following
    raise OutsideValidity("No groove diameter gives this squeeze with this ring in this bore.")
