"""What moves: masses that go up and down or round, what is left unbalanced, moments of inertia."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.engine import geometry
from firstfire.engine.resolve import PlainEngine


def reciprocating_mass(engine: PlainEngine, cylinder: int) -> float:
    """Piston, shield, pin, rings and the rod's share, kg; cylinders counted from 0."""
    return geometry.reciprocating_mass(engine, engine.cylinders[cylinder])


def rotating_rod_mass(engine: PlainEngine, cylinder: int) -> float:
    """The rod's share that goes round with the crankpin, kg."""
    rod = engine.cylinders[cylinder].rod
    return (1.0 - rod.reciprocating_fraction) * rod.mass


def unbalance(engine: PlainEngine, cylinders: Sequence[int]) -> float:
    """Mass times radius left on a throw, along the pin, kg·m; negative is opposite to the pin.

    Each throw's counterweight is taken to carry all that goes round there (crankpin, cheeks,
    the rods' rotating share) and `crank.balance_factor` times the reciprocating mass of *one*
    of the cylinders on it, their mean.

    Parameters
    ----------
    engine
        The engine.
    cylinders
        Those on this throw, counted from 0.
    """
    mean = sum(reciprocating_mass(engine, c) for c in cylinders) / len(cylinders)
    return -engine.crank.balance_factor * mean * throw_radius(engine, cylinders[0])


def throw_radius(engine: PlainEngine, cylinder: int) -> float:
    """Crank radius of a cylinder, m."""
    return geometry.mechanism(engine.cylinders[cylinder])[0]


def throw_inertia(engine: PlainEngine, cylinders: Sequence[int]) -> float:
    """Moment of inertia of one throw about the crank axis, kg·m².

    Two cheeks as bars of solid material from half a width beyond the crank axis to half a
    width beyond the pin, the pin, the rods' rotating share, half of what goes up and down (its
    mean over a turn, r/l neglected), and the counterweight, taken at the throw's radius. A
    print's infill makes the cheeks lighter than this.

    Parameters
    ----------
    engine
        The engine.
    cylinders
        Those on this throw, counted from 0.

    References
    ----------
    W. Ker Wilson, *Practical Solution of Torsional Vibration Problems*, for half of the
    reciprocating mass (from memory).
    """
    radius = throw_radius(engine, cylinders[0])
    swinging = 0.5 * sum(reciprocating_mass(engine, c) for c in cylinders)
    return rotating_inertia(engine, cylinders) + swinging * radius**2


def rotating_inertia(engine: PlainEngine, cylinders: Sequence[int]) -> float:
    """Moment of inertia of what only goes round on one throw, kg·m²: `throw_inertia` of it.

    Parameters
    ----------
    engine
        The engine.
    cylinders
        Those on this throw, counted from 0.
    """
    radius = throw_radius(engine, cylinders[0])
    at_pin = _pin_mass(engine) + sum(rotating_rod_mass(engine, c) for c in cylinders)
    cheek_mass, cheek_inertia = _cheek(engine, radius)
    balanced = at_pin * radius + cheek_mass * radius - unbalance(engine, cylinders)
    return 2.0 * cheek_inertia + at_pin * radius**2 + balanced * radius


def flywheel_inertia(engine: PlainEngine) -> float:
    """Of flywheel and load together, on one end of the crank, kg·m²."""
    return engine.flywheel.inertia + engine.load.inertia


def _pin_mass(engine: PlainEngine) -> float:
    crank = engine.crank
    held = 2.0 * crank.joint.length if crank.built == "built_up" else 0.0
    length = crank.crankpin_length + held
    density = engine.materials[crank.crankpin_material]["density"]
    return density * math.pi / 4 * crank.crankpin_diameter**2 * length


def _cheek(engine: PlainEngine, radius: float) -> tuple[float, float]:
    """Mass of one cheek, kg, and its moment of inertia about the crank axis, kg·m²."""
    crank = engine.crank
    length = radius + crank.cheek_width
    mass = engine.materials[crank.material]["density"] * length * crank.cheek_width
    mass *= crank.cheek_thickness
    own = mass * (length**2 + crank.cheek_width**2) / 12.0
    return mass, own + mass * (radius / 2.0) ** 2
