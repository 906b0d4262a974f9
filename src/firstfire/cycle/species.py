"""The molecules of burned gas and air, in the order every array of this room keeps."""

from __future__ import annotations

from typing import Final

SPECIES: Final = ("O2", "N2", "Ar", "CO2", "H2O", "CO", "H2", "OH", "H", "O", "NO", "N")
"""The twelve molecules of burned gas; the order of every array of mole fractions."""

O2, N2, AR, CO2, H2O, CO, H2, OH, H, O, NO, N = range(12)  # noqa: E741 - oxygen atoms

UNIVERSAL_GAS_CONSTANT: Final = 8.31446261815324
"""J/(mol K), exact since the SI of 2019."""

STANDARD_PRESSURE: Final = 1.0e5
"""Pa; the pressure at which NASA TM-4513 tabulates entropy."""

REFERENCE_TEMPERATURE: Final = 298.15
"""K; where heats of formation and heating values are stated."""

ATOMIC_WEIGHTS: Final = {
    "C": 12.011e-3,
    "H": 1.008e-3,
    "O": 15.999e-3,
    "N": 14.007e-3,
    "Ar": 39.95e-3,
}
"""kg/mol. Abridged standard atomic weights, IUPAC 2021."""

DRY_AIR: Final = {"O2": 0.20946, "N2": 0.78084, "Ar": 0.00934, "CO2": 0.00036}
"""Mole fractions of dry air.

References
----------
ISO 2533:1975, Standard Atmosphere, Table 1, gives 0.20948, 0.78084, 0.00934 and 0.00031 (from
memory); carbon dioxide has risen since and oxygen fallen by as much.
"""
