"""The crank as a torsional spring: its parts in series, and its first natural frequency."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import shaft
from firstfire.formulas.stiffness import in_series
from firstfire.formulas.validity import require_positive
from firstfire.loads.crank_layout import throws, to_bearing
from firstfire.loads.masses import flywheel_inertia, throw_inertia, throw_radius

#: Shear modulus of carbon steel, Pa: *Shigley's*, 9th ed., Table A-5.
_STEEL_SHEAR_MODULUS = 79.3e9


@dataclass(frozen=True)
class Torsion:
    """A crank between its flywheel and its throws.

    Attributes
    ----------
    stiffnesses
        Of each part from the flywheel's middle to the last throw's, by name, N·m/rad.
    stiffness
        All of them in series, N·m/rad.
    flywheel_inertia
        Flywheel and load, kg·m².
    throw_inertias
        From the flywheel on, kg·m².
    frequency
        First natural frequency, Hz.
    """

    stiffnesses: Mapping[str, float]
    stiffness: float
    flywheel_inertia: float
    throw_inertias: tuple[float, ...]
    frequency: float

    def resonant_speed(self, order: float) -> float:
        """Crank speed at which an order excites the first frequency, rad/s.

        Parameters
        ----------
        order
            Pulses a turn: 0.5, 1, 1.5 ... for a four-stroke.
        """
        require_positive(order=order)
        return 2 * math.pi * self.frequency / order


def torsion(engine: PlainEngine) -> Torsion:
    """Torsional stiffness and first natural frequency of a crank on its flywheel.

    Each throw by Carter's form: journals with 0.8 of the cheeks, 0.75 of the pin, and both
    cheeks bending with 1.5 of the throw. The journal reaches from the cheek through the main
    bearing to the middle of a flywheel that stands against it; two pins closer than two cheeks
    share one. All at 23 °C, solid, joints tight: a printed crank is softer when warm, and along
    its layers. The form was found on metal cranks and is *extrapolated* here.

    Parameters
    ----------
    engine
        The engine.

    Raises
    ------
    OutsideValidity
        If there is no flywheel or load to swing against, the crank's length does not go between
        its bearings, or a material's stiffness isn't known.

    References
    ----------
    B. C. Carter, *Engineering*, 1928, as given by W. Ker Wilson, *Practical Solution of
    Torsional Vibration Problems* (from memory).
    """
    wheel = flywheel_inertia(engine)
    if wheel <= 0.0:
        raise OutsideValidity(
            "There is no flywheel and no load with inertia on the crank: nothing for it to twist "
            "against. Say flywheel.inertia or load.inertia."
        )
    inertias = tuple(throw_inertia(engine, throw.cylinders) for throw in throws(engine))
    spans = _spans(engine)
    return Torsion(
        stiffnesses={name: each for span in spans for name, each in span.items()},
        stiffness=in_series(*(each for span in spans for each in span.values())),
        flywheel_inertia=wheel,
        throw_inertias=inertias,
        frequency=first_frequency(
            [in_series(*span.values()) for span in spans], [wheel, *inertias]
        ),
    )


def first_frequency(stiffnesses: Sequence[float], inertias: Sequence[float]) -> float:
    """First natural frequency of discs on a shaft, free at both ends, Hz.

    Parameters
    ----------
    stiffnesses
        Between neighbours, N·m/rad.
    inertias
        Of each disc, kg·m², one more than there are stiffnesses.

    References
    ----------
    J. P. Den Hartog, *Mechanical Vibrations*, torsional vibration of many discs.

    Examples
    --------
    >>> round(first_frequency([1466.0], [2e-5, 1.1e-3]))
    1375
    """
    count = len(inertias)
    matrix = np.zeros((count, count))
    for i, stiffness in enumerate(stiffnesses):
        matrix[i : i + 2, i : i + 2] += stiffness * np.array([[1.0, -1.0], [-1.0, 1.0]])
    scale = 1.0 / np.sqrt(np.array(inertias))
    squares = np.linalg.eigvalsh(matrix * np.outer(scale, scale))
    # The smallest is the whole shaft turning freely.
    return math.sqrt(float(squares[1])) / (2 * math.pi)


def _spans(engine: PlainEngine) -> list[dict[str, float]]:
    """Parts in series from the flywheel to the first throw, then from each throw to the next."""
    crank, pins = engine.crank, throws(engine)
    to_wheel = to_bearing(engine) + (crank.main_bearing_width + engine.flywheel.thickness) / 2
    cheek, pin = _cheek(engine), _half_pin(engine)
    spans = [
        {
            "journal": _journal(engine, to_wheel + 0.4 * crank.cheek_thickness),
            "cheek 1": cheek,
            "pin 1": pin,
        }
    ]
    for number in range(2, len(pins) + 1):
        span = {
            f"pin {number - 1}, far half": pin,
            f"cheek {2 * number - 2}": cheek,
            f"cheek {2 * number - 1}": cheek,
            f"pin {number}": pin,
        }
        between = _between_pins(engine) - 2 * crank.cheek_thickness
        if between > 0.0:
            length = between + 0.8 * crank.cheek_thickness
            span[f"journal {number}"] = _journal(engine, length)
        spans.append(span)
    return spans


def _between_pins(engine: PlainEngine) -> float:
    """Room between two pins for the cheek or cheeks that join them, m."""
    room = engine.layout.cylinder_spacing - engine.crank.crankpin_length
    if room <= 0.0:
        raise OutsideValidity(
            f"layout.cylinder_spacing is {1e3 * engine.layout.cylinder_spacing:.4g} mm and a "
            f"crankpin {1e3 * engine.crank.crankpin_length:.4g} mm long: no room is left for a "
            "cheek between the two pins. Say a spacing of pin and cheek together."
        )
    return room


def _journal(engine: PlainEngine, length: float) -> float:
    """A journal; a steel rod in it works beside it."""
    crank = engine.crank
    return _with_rod(
        engine, crank.journal.material, crank.main_journal_diameter, crank.journal.rod_diameter,
        length,
    )  # fmt: skip


def _half_pin(engine: PlainEngine) -> float:
    """Half a pin; a steel rod in it works beside it."""
    crank = engine.crank
    return _with_rod(
        engine, crank.crankpin_material, crank.crankpin_diameter, crank.through_rod_diameter,
        0.75 * crank.crankpin_length / 2,
    )  # fmt: skip


def _with_rod(
    engine: PlainEngine, material: str, diameter: float, rod: float, length: float
) -> float:
    if rod >= diameter:
        return shaft.torsional_stiffness(_STEEL_SHEAR_MODULUS, rod, length)
    around = shaft.torsional_stiffness(shear_modulus(engine, material), diameter, length, rod)
    if rod <= 0.0:
        return around
    return around + shaft.torsional_stiffness(_STEEL_SHEAR_MODULUS, rod, length)


def _cheek(engine: PlainEngine) -> float:
    crank = engine.crank
    modulus = shear_modulus(engine, crank.material)
    section = crank.cheek_thickness * crank.cheek_width**3
    return math.pi / 32 * modulus * section / (0.75 * throw_radius(engine, 0))


def shear_modulus(engine: PlainEngine, material: str) -> float:
    """Shear modulus of a material at 23 °C, Pa: ``E/(2(1 + ν))``, in a print's plane.

    Raises
    ------
    OutsideValidity
        If its modulus or Poisson's ratio isn't known.
    """
    row = engine.materials[material]
    modulus, poisson = row.get("modulus_in_plane"), row.get("poisson")
    if modulus is None or poisson is None:
        raise OutsideValidity(
            f"The catalog has no modulus or no Poisson's ratio of {row.name}: a crank of it can't "
            "be judged in torsion."
        )
    return modulus / (2 * (1 + poisson))
