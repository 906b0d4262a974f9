"""Writes src/firstfire/cycle/nasa7.toml: the polynomials of the species firstfire needs.

Run with Cantera installed (a development dependency only): ``python scripts/extract_species.py``.
Cantera's file `nasa_gas.yaml` holds the whole of NASA TM-4513; its standard pressure is left at
Cantera's default of 1 atm, while the report tabulates at 1 bar (the entropy of O2 at 298.15 K comes
out as 205.148 J/(mol K), the 1 bar value), so the extract says 1 bar.
"""

from __future__ import annotations

from pathlib import Path

import cantera

SPECIES = {
    "O2": "O2",
    "N2": "N2",
    "Ar": "Ar",
    "CO2": "CO2",
    "H2O": "H2O",
    "CO": "CO",
    "H2": "H2",
    "OH": "OH",
    "H": "H",
    "O": "O",
    "NO": "NO",
    "N": "N",
    "iso_octane": "C8H18,isooctane",
    "n_heptane": "C7H16,n-heptane",
    "toluene": "C7H8",
    "propane": "C3H8",
    "butane": "C4H10,n-butane",
    "ethanol": "C2H5OH",
    "methanol": "CH3OH",
}

HEAD = """\
# NASA 7-coefficient polynomials of ideal gases. Written by scripts/extract_species.py.
# cp/R = a1 + a2 T + a3 T^2 + a4 T^3 + a5 T^4
# h/(R T) = a1 + a2 T/2 + a3 T^2/3 + a4 T^3/4 + a5 T^4/5 + a6/T, with the heat of formation
# s/R = a1 ln T + a2 T + a3 T^2/2 + a4 T^3/3 + a5 T^4/4 + a7
source = "B. J. McBride, S. Gordon, M. A. Reno, NASA TM-4513, 1993"
title = "Coefficients for Calculating Thermodynamic and Transport Properties of Individual Species"
standard_pressure = 100000.0
lowest_temperature = 200.0
middle_temperature = 1000.0
highest_temperature = 6000.0
"""


def row(name: str, species: cantera.Species) -> str:
    """One species as a TOML table."""
    thermo = species.input_data["thermo"]
    ranges, (low, high) = thermo["temperature-ranges"], thermo["data"]
    if ranges != [200.0, 1000.0, 6000.0] and low != high:  # argon's cp has one value throughout
        raise SystemExit(f"{name}: polynomials run over {ranges}, not 200, 1000, 6000 K")
    elements = ", ".join(f"{e} = {int(n)}" for e, n in species.composition.items())
    note = " ".join(str(thermo.get("note", "")).split())
    return (
        f"\n[species.{name}]\nelements = {{ {elements} }}\n"
        f'source = "TM-4513, data {note}"\nlow = {list(low)}\nhigh = {list(high)}\n'
    )


def main() -> None:
    """Write the extract beside the code that reads it."""
    found = {s.name: s for s in cantera.Species.list_from_file("nasa_gas.yaml")}
    text = HEAD + "".join(row(ours, found[theirs]) for ours, theirs in SPECIES.items())
    target = Path(__file__).parents[1] / "src/firstfire/cycle/nasa7.toml"
    target.write_text(text, encoding="utf-8")
    print(f"{target.name}: {len(SPECIES)} species, Cantera {cantera.__version__}")


if __name__ == "__main__":
    main()
