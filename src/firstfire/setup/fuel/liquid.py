"""A fuel as injectors, jets and hoses meet it."""

from __future__ import annotations

import re
from typing import NamedTuple

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import fuel_mix

_GAS = 8.314462618
_THIN, _THICK = 0.6e-6, 1.5e-6
"""Of petrol and of ethanol at 20 °C, m²/s (handbooks, from memory)."""
_ALCOHOL = 0.1
"""Share of oxygen by mass from which a fuel is taken to be as thick as ethanol."""


class Liquid(NamedTuple):
    """A fuel.

    Attributes
    ----------
    name, gas
        What it is called in short, and whether it is metered as a gas.
    density, viscosity
        Where it is metered, kg/m³, and kinematic, m²/s (of a liquid).
    latent
        Heat that evaporates it, J/kg.
    """

    name: str
    gas: bool
    density: float
    viscosity: float
    latent: float


def liquid(engine: Engine, plain: PlainEngine) -> Liquid:
    """The fuel of an engine; a gas at the air's temperature and pressure."""
    row = engine.catalog.row("fuel", plain.intake.fuel)
    atoms = fuel_mix.Atoms(plain.fuel.carbon, plain.fuel.hydrogen, plain.fuel.oxygen)
    around = plain.surroundings
    density = row.si("density")
    if plain.fuel.gas:
        mass = fuel_mix.molar_mass(atoms)
        density = around.air_pressure * mass / (_GAS * around.air_temperature)
    thick = fuel_mix.oxygen_fraction(atoms) > _ALCOHOL
    return Liquid(
        re.split(r" \(|,", row.name)[0].lower(),
        plain.fuel.gas,
        density,
        _THICK if thick else _THIN,
        row.si("latent_heat"),
    )
