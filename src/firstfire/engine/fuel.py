"""A fuel as the gas side burns it: atoms, heat, and the gases that its vapour is reckoned with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from firstfire.catalog import Catalog, Row, mixture
from firstfire.errors import CatalogError

_DEEPEST = 8


@dataclass(frozen=True)
class Fuel:
    """What of a fuel's row the gas side needs.

    Attributes
    ----------
    key
        Of the row.
    vapours
        Gas data that the vapour's heat capacity and flame are reckoned with, by name, each with
        its share by mass; they add up to one.
    carbon, hydrogen, oxygen
        Atoms a (mean) molecule.
    heating_value
        Lower, of the vapour at 25 °C, J/kg.
    gas
        Whether the engine takes it as a gas.
    """

    key: str
    vapours: tuple[tuple[str, float], ...]
    carbon: float
    hydrogen: float
    oxygen: float
    heating_value: float
    gas: bool = False


def fuel(catalog: Catalog, key: str) -> Fuel:
    """The fuel of that row: shipped, or a person's own.

    Raises
    ------
    CatalogError
        Where a mixture is made of itself.
    """
    row = catalog.row("fuel", key)
    known = {other.key: other for other in catalog.rows("fuel")}
    carbon = row.si("carbon_atoms")
    return Fuel(
        key=row.key,
        vapours=tuple(sorted(_vapours(row, known).items())),
        carbon=carbon,
        hydrogen=carbon * row.si("hydrogen_per_carbon"),
        oxygen=carbon * row.si("oxygen_per_carbon"),
        heating_value=row.si("heating_value_vapour"),
        gas=row.texts.get("state") == "gas",
    )


def _vapours(row: Row, known: Mapping[str, Row], depth: int = 0) -> dict[str, float]:
    """Shares by mass of the gas data behind a fuel, through all that it is mixed of."""
    if depth > _DEEPEST:
        raise CatalogError(f'fuel "{row.name}" is made of itself: say of what else it is mixed.')
    if "made_of" not in row.texts:
        return {row.texts["vapour"]: 1.0}
    found: dict[str, float] = {}
    for part, share in mixture(row, known):
        for name, inner in _vapours(part, known, depth + 1).items():
            found[name] = found.get(name, 0.0) + share * inner
    return found
