"""Strength of spring wire, which falls as the wire thickens."""

from __future__ import annotations

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_within

# Strength of wire S_ut = A/d^m: A in MPa·mm^m, m, least and largest wire in mm.
# Shigley, 9th ed., Table 10-4 (music wire checked against a solved problem, the rest from memory).
_WIRES = {
    "music wire": (2211.0, 0.145, 0.10, 6.5),
    "oil-tempered wire": (1855.0, 0.187, 0.5, 12.7),
    "hard-drawn wire": (1783.0, 0.190, 0.7, 12.7),
    "chrome-vanadium wire": (2005.0, 0.168, 0.8, 11.1),
    "chrome-silicon wire": (1974.0, 0.108, 1.6, 9.5),
    "stainless 302 wire": (1867.0, 0.146, 0.3, 2.5),
}
WIRES = tuple(_WIRES)
"""The kinds of spring wire known here."""


def wire_strength(kind: str, wire_diameter: float) -> float:
    """Tensile strength of spring wire, Pa: S_ut = A/d^m. It yields in shear at about 0.45 of it.

    Parameters
    ----------
    kind
        One of `WIRES`.
    wire_diameter
        Wire diameter d, m.

    Raises
    ------
    OutsideValidity
        If the kind is unknown or the wire outside its tabled sizes.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 10-14,
    Table 10-4.

    Examples
    --------
    >>> round(wire_strength("music wire", 2.5e-3) / 1e6)
    1936
    """
    if kind not in _WIRES:
        raise OutsideValidity(f'"{kind}" is no wire known here. Known are {", ".join(WIRES)}.')
    intercept, exponent, thin, thick = _WIRES[kind]
    require_within(
        thin, thick, because="the table of wires ends there", wire_in_mm=wire_diameter * 1e3
    )
    return float(intercept * 1e6 / (wire_diameter * 1e3) ** exponent)
