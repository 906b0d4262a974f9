"""Mixed fuels and moist air against Cantera, run live on the same NASA TM-4513 data.

What a row of the catalog says in words (*85 % ethanol, 15 % petrol by volume*) is mixed here by
hand, molecule by molecule, and burned by Cantera. Tolerances: 0.03 % of the rise of temperature
and pressure, for a row has five figures and its petrol 43.44 MJ/kg for 43.443.
"""

from __future__ import annotations

from typing import Any

import cantera
import pytest

from firstfire.catalog import Catalog
from firstfire.cycle.equilibrium_states import burn_at_constant_volume
from firstfire.cycle.species import DRY_AIR, SPECIES
from firstfire.engine.fuel import fuel

OCTANE, TOLUENE, ETHANOL = "C8H18,isooctane", "C7H8", "C2H5OH"
PROPANE, BUTANE = "C3H8", "C4H10,n-butane"
PETROL = {OCTANE: 509.0, TOLUENE: 304.0}  # by mole; its 745 kg/m³, ethanol's 789.3
MASS = {OCTANE: 114.232, TOLUENE: 92.141, ETHANOL: 46.069, PROPANE: 44.097, BUTANE: 58.124}


def petrol_with(share: float) -> dict[str, float]:
    """Moles in a kilogram of petrol with a share of ethanol by volume."""
    ethanol = share * 789.3 / (share * 789.3 + (1 - share) * 745.0)
    whole = sum(n * MASS[name] for name, n in PETROL.items())
    rest = {name: (1 - ethanol) * n / whole for name, n in PETROL.items()}
    return rest | {ETHANOL: ethanol / MASS[ETHANOL]}


MIXED = {
    "petrol": PETROL,
    "e5": petrol_with(0.05),
    "e10": petrol_with(0.10),
    "e85": petrol_with(0.85),
    "butane": {BUTANE: 1.0},
    "butane_propane": {BUTANE: 0.7 / MASS[BUTANE], PROPANE: 0.3 / MASS[PROPANE]},
}


@pytest.fixture(scope="module")
def phase() -> Any:
    wanted = (*SPECIES, *MASS)
    found = [s for s in cantera.Species.list_from_file("nasa_gas.yaml") if s.name in wanted]
    return cantera.Solution(thermo="ideal-gas", species=found)


@pytest.mark.parametrize("key", MIXED)
@pytest.mark.parametrize("phi", [0.85, 1.1])
@pytest.mark.parametrize("steam", [0.0, 0.03])
def test_burned_at_constant_volume(phase: Any, key: str, phi: float, steam: float) -> None:
    moles, need = MIXED[key], 0.0
    for name, n in moles.items():
        atoms = phase.species(name).composition
        need += n * (atoms["C"] + atoms["H"] / 4 - atoms.get("O", 0.0) / 2)
    air = {name: x * (1 - steam) for name, x in DRY_AIR.items()} | {"H2O": steam}
    each = phi * (1 - steam) * DRY_AIR["O2"] / need
    phase.TPX = 620.0, 15e5, air | {name: n * each for name, n in moles.items()}
    phase.equilibrate("UV", rtol=1e-10)
    ours = burn_at_constant_volume(fuel(Catalog(), key), phi, 620.0, 15e5, steam)
    assert ours.temperature == pytest.approx(phase.T, abs=3e-4 * (phase.T - 620.0) + 0.7)
    assert ours.pressure == pytest.approx(phase.P, rel=5e-4)
