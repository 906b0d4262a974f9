"""A thick-walled cylinder under pressure, alone or with a body round it: liners and barrels."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_ordered, require_positive, require_within


def hoop_stress(
    pressure: float,
    bore: float,
    outer_diameter: float,
    *,
    at_diameter: float | None = None,
    outside_pressure: float = 0.0,
) -> float:
    """Hoop stress in the wall, Pa, tension positive; largest at the bore.

    σ = (p a² - p_o b² + (p - p_o) a²b²/r²)/(b² - a²)

    Parameters
    ----------
    pressure, outside_pressure
        Pressure inside and outside, Pa.
    bore, outer_diameter
        Diameters 2a and 2b, m.
    at_diameter
        Diameter 2r where it is asked, m; the bore if left out.

    Raises
    ------
    OutsideValidity
        If the diameters are not in order.

    References
    ----------
    Lamé; R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.,
    Eq. 3-49.

    Examples
    --------
    >>> round(hoop_stress(3e6, 44e-3, 50e-3) / 1e6, 2)
    23.6
    >>> round(hoop_stress(3e6, 44e-3, 50e-3, at_diameter=50e-3) / 1e6, 2)
    20.6
    """
    mean, swing = _lame(pressure, outside_pressure, bore, outer_diameter)
    return mean + swing / _place(bore, outer_diameter, at_diameter) ** 2


def growth_of_bore(
    pressure: float, bore: float, outer_diameter: float, modulus: float, poisson: float
) -> float:
    """Growth of the bore's diameter under inside pressure, m, ends free.

    Δd = d p ((b² + a²)/(b² - a²) + ν)/E

    Parameters
    ----------
    pressure, bore, outer_diameter
        As `hoop_stress`.
    modulus, poisson
        Young's modulus, Pa, and Poisson's ratio.

    Raises
    ------
    OutsideValidity
        If the diameters are not in order or the modulus is not above zero.

    References
    ----------
    Lamé, plane stress.

    Examples
    --------
    >>> round(growth_of_bore(3e6, 44e-3, 72e-3, 2.0e9, 0.38) * 1e6, 1)
    169.8
    """
    require_positive(modulus=modulus)
    require_ordered(zero=0.0, bore=bore, outer_diameter=outer_diameter)
    a, b = bore**2, outer_diameter**2
    return bore * pressure * ((b + a) / (b - a) + poisson) / modulus


def shrinking_of_outside(
    pressure: float, bore: float, outer_diameter: float, modulus: float, poisson: float
) -> float:
    """How much smaller pressure from outside makes a tube's outside diameter, m, ends free.

    Δd = d p ((b² + a²)/(b² - a²) - ν)/E

    Parameters
    ----------
    pressure, bore, outer_diameter
        Pressure on its outside, Pa, and diameters 2a and 2b, m.
    modulus, poisson
        Young's modulus, Pa, and Poisson's ratio.

    Raises
    ------
    OutsideValidity
        As `growth_of_bore`.

    References
    ----------
    Lamé, plane stress.

    Examples
    --------
    >>> round(shrinking_of_outside(10e6, 40e-3, 44e-3, 110e9, 0.26) * 1e6, 1)
    41.1
    """
    require_positive(modulus=modulus)
    require_ordered(zero=0.0, bore=bore, outer_diameter=outer_diameter)
    a, b = bore**2, outer_diameter**2
    return outer_diameter * pressure * ((b + a) / (b - a) - poisson) / modulus


def pressure_passed_on(
    pressure: float,
    *,
    bore: float,
    interface: float,
    outer_diameter: float,
    liner_modulus: float,
    liner_poisson: float,
    body_modulus: float,
    body_poisson: float,
    interference: float = 0.0,
) -> float:
    """Pressure that a liner passes on to the body round it, Pa; zero while a gap stays open.

    The liner's outside and the body's bore move alike once they touch. Plane stress.

    Parameters
    ----------
    pressure
        Gas pressure in the bore, Pa.
    bore, interface, outer_diameter
        Liner bore, liner outside (the body's bore) and body outside, m.
    liner_modulus, liner_poisson, body_modulus, body_poisson
        Young's modulus, Pa, and Poisson's ratio of each.
    interference
        On diameter when at rest, m; negative for a gap.

    Raises
    ------
    OutsideValidity
        If the diameters are not in order or a modulus is not above zero.

    References
    ----------
    Compound cylinder from Lamé's displacements; S. Timoshenko, *Strength of Materials*,
    part II.

    Examples
    --------
    An aluminium liner 44/50 in a printed body of 80 mm under 3 MPa:

    >>> p = pressure_passed_on(3e6, bore=44e-3, interface=50e-3, outer_diameter=80e-3,
    ...     liner_modulus=69e9, liner_poisson=0.33, body_modulus=2.0e9, body_poisson=0.38)
    >>> round(p / 1e6, 4)
    0.2073
    >>> round(hoop_stress(3e6, 44e-3, 50e-3, outside_pressure=p) / 1e6, 2)
    21.76
    """
    require_ordered(zero=0.0, bore=bore, interface=interface, outer_diameter=outer_diameter)
    require_positive(liner_modulus=liner_modulus, body_modulus=body_modulus)
    a, b = bore**2, interface**2
    free = found("liner_grows", interface * 2 * a * pressure / (liner_modulus * (b - a)), "m",
                 "what gas alone would widen the liner")  # fmt: skip
    gives = give_of_both(
        bore=bore, interface=interface, outer_diameter=outer_diameter, liner_modulus=liner_modulus,
        liner_poisson=liner_poisson, body_modulus=body_modulus, body_poisson=body_poisson,
    )  # fmt: skip
    return math.most(0.0, (free + interference) / gives)


def give_of_both(
    *,
    bore: float,
    interface: float,
    outer_diameter: float,
    liner_modulus: float,
    liner_poisson: float,
    body_modulus: float,
    body_poisson: float,
) -> float:
    """Interference that a pressure between liner and body takes up, by that pressure, m/Pa.

    d ((b² + a²)/(b² - a²) - ν)/E of the liner, and d ((c² + b²)/(c² - b²) + ν)/E of the body.

    Parameters
    ----------
    bore, interface, outer_diameter, liner_modulus, liner_poisson, body_modulus, body_poisson
        As `pressure_passed_on`.

    Raises
    ------
    OutsideValidity
        As `pressure_passed_on`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 3-56, turned round.

    Examples
    --------
    Steel in steel, 40/50/80 mm, 0.05 mm larger than its hole:

    >>> gives = give_of_both(bore=40e-3, interface=50e-3, outer_diameter=80e-3,
    ...     liner_modulus=207e9, liner_poisson=0.29, body_modulus=207e9, body_poisson=0.29)
    >>> round(0.05e-3 / gives / 1e6, 2)
    30.27
    """
    require_ordered(zero=0.0, bore=bore, interface=interface, outer_diameter=outer_diameter)
    require_positive(liner_modulus=liner_modulus, body_modulus=body_modulus)
    a, b, c = bore**2, interface**2, outer_diameter**2
    liner = found("liner_gives", interface / liner_modulus * ((b + a) / (b - a) - liner_poisson),
                  "m/Pa", "what the liner gives way, for each MPa between them")  # fmt: skip
    body = found("body_gives", interface / body_modulus * ((c + b) / (c - b) + body_poisson),
                 "m/Pa", "what the body gives way, for each MPa")  # fmt: skip
    return liner + body


def _lame(inside: float, outside: float, bore: float, outer_diameter: float) -> tuple[float, float]:
    require_ordered(zero=0.0, bore=bore, outer_diameter=outer_diameter)
    a, b = bore**2, outer_diameter**2
    even = found("even_pull", (inside * a - outside * b) / (b - a), "Pa",
                 "pull that is the same all through the wall")  # fmt: skip
    return even, (inside - outside) * a * b / (b - a)


def _place(bore: float, outer_diameter: float, at_diameter: float | None) -> float:
    if at_diameter is None:
        return bore
    require_within(bore, outer_diameter, because="the wall lies there", at_diameter=at_diameter)
    return at_diameter
