"""Fuels that are mixed of others: what their row says of the mixture, and what follows from it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from firstfire.catalog.entry import Refused
from firstfire.catalog.found import find
from firstfire.catalog.properties import properties
from firstfire.catalog.reader import Parts
from firstfire.catalog.row import Datum, Row
from firstfire.errors import Problem
from firstfire.units import to_si

#: Rows of a mixture with their shares by mass, which add up to one.
Mixed = Sequence[tuple[Row, float]]

_PART = re.compile(r"^([0-9]+(?:\.[0-9]+)?)\s*%\s+(.+)$")
_BY = re.compile(r"\s+by\s+(volume|mass)\s*$")
_FORM = 'Write it like "85 % ethanol, 15 % petrol by volume".'
_WHOLE = 0.5  # per cent that the shares may miss a hundred by
_AGREE = 0.005  # share by which figures of one row may disagree

# Air that just burns a fuel, from its atoms: g/mol (IUPAC), and dry air by mole.
_CARBON, _HYDROGEN, _OXYGEN = 12.011, 1.008, 15.999
_AIR, _OXYGEN_IN_AIR = 28.966, 0.20946


def mixture(row: Row, known: Mapping[str, Row]) -> Mixed:
    """Rows a fuel is made of, each with its share by mass; the fuel itself where it is no mixture.

    Raises
    ------
    Refused
        Where `made_of` can't be read, or names a fuel that there is not.
    """
    text = row.texts.get("made_of")
    if text is None:
        return ((row, 1.0),)
    by = _BY.search(text)
    if by is None:
        raise Refused(f'is "{text}", which says neither by volume nor by mass', _FORM)
    shares = [_part(part.strip(), row, known) for part in text[: by.start()].split(",")]
    total = sum(share for _, share in shares)
    if abs(total - 100.0) > _WHOLE:
        raise Refused(f"adds up to {total:g} %", "The shares of a mixture add up to 100 %.")
    heavy = by[1] == "volume"
    weights = [share * (one.si("density") if heavy else 1.0) for one, share in shares]
    return tuple(
        (one, weight / sum(weights)) for (one, _), weight in zip(shares, weights, strict=True)
    )


def _part(text: str, row: Row, known: Mapping[str, Row]) -> tuple[Row, float]:
    read = _PART.match(text)
    if read is None:
        raise Refused(f'has "{text}", which is no share of a fuel', _FORM)
    found = find(known, read[2])
    if found is None or found.key == row.key:
        raise Refused(f'names "{read[2]}", which is no other fuel', f"Fuels: {', '.join(known)}.")
    return found, float(read[1])


def settled(row: Row, said: Parts, known: Mapping[str, Row]) -> tuple[Row, list[Problem]]:
    """A fuel's row with what follows from what it says, and what is wrong with it.

    Parameters
    ----------
    row
        With what it takes over from the row it is like.
    said
        What its own file says of it.
    known
        Fuels that it may be made of.
    """
    place = f"fuel.{row.key}"
    try:
        if "made_of" in said.texts:
            row = replace(row, data={**row.data, **_mixed(row, known), **said.data})
        elif "made_of" not in row.texts and "vapour" not in row.texts:
            raise Refused(
                "doesn't say what its vapour is like",
                'Give like = "petrol" or another fuel, or made_of, a mixture of fuels.',
            )
        elif "vapour" in said.texts and row.origin != "catalog":
            _known_vapour(said.texts["vapour"], known)
    except Refused as why:
        return row, [Problem(f"{place}.made_of", why.fault, why.cure)]
    row = replace(row, data={**row.data, **dict(_partners(row, said))})
    return row, list(_disagreeing(row, place))


def _known_vapour(name: str, known: Mapping[str, Row]) -> None:
    """Refuse a vapour that no shipped fuel has: there are no gas data for it."""
    vapours = {row.texts["vapour"] for row in known.values() if "vapour" in row.texts}
    if name not in vapours:
        raise Refused(
            f'says vapour = "{name}", of which there are no gas data',
            f"There are: {', '.join(sorted(vapours))}; or say made_of, a mixture of fuels.",
        )


def _mixed(row: Row, known: Mapping[str, Row]) -> dict[str, Datum]:
    """Numbers of a mixture: heats, air and heat capacity by mass; the others by what they count."""
    parts = mixture(row, known)
    moles = [share / one.si("molar_mass") for one, share in parts]
    carbon = [n * one.si("carbon_atoms") for n, (one, _) in zip(moles, parts, strict=True)]
    mass = [share for _, share in parts]
    volume = [share / one.si("density") for one, share in parts]
    weights = {
        "hydrogen_per_carbon": carbon, "oxygen_per_carbon": carbon, "carbon_atoms": moles,
        "molar_mass": moles, "air_fuel_ratio": mass, "heating_value": mass,
        "heating_value_vapour": mass, "latent_heat": mass, "density": volume,
        "specific_heat": mass,
    }  # fmt: skip
    rows = [one for one, _ in parts]
    return {
        name: _mean(name, rows, weight)
        for name, weight in weights.items()
        if all(name in one.data for one in rows)
    }


def _mean(name: str, rows: Sequence[Row], weights: Sequence[float]) -> Datum:
    def mean(end: str) -> float:
        found = [getattr(row[name], end) * w for row, w in zip(rows, weights, strict=True)]
        return float(sum(found) / sum(weights))

    made_of = " and ".join(row.name for row in rows)
    return _computed(name, [mean(end) for end in ("si", "si_low", "si_high")], f"mixed: {made_of}")


def _computed(name: str, si: Sequence[float], source: str) -> Datum:
    """A number in its property's own unit, in five figures."""
    unit = properties("fuel")[name].unit
    value, low, high = (float(f"{x / to_si(1.0, unit):.5g}") for x in si)
    exact, least, most = (to_si(x, unit) for x in (value, low, high))
    return Datum(value, low, high, unit, exact, least, most, source, "computed")


def _partners(row: Row, said: Parts) -> Iterator[tuple[str, Datum]]:
    """What follows from numbers that a row says of its own, where it leaves their partners out."""
    latent = row.get("latent_heat")
    for own, other, sign in (
        ("heating_value", "heating_value_vapour", 1.0),
        ("heating_value_vapour", "heating_value", -1.0),
    ):
        if own in said.data and other not in said.data and latent is not None:
            heat = said.data[own]
            ends = [x + sign * latent.si for x in (heat.si, heat.si_low, heat.si_high)]
            yield other, _computed(other, ends, "the other heating value and the latent heat")
    atoms = "hydrogen_per_carbon" in said.data or "oxygen_per_carbon" in said.data
    if atoms and "air_fuel_ratio" not in said.data:
        air = _air(row)
        yield "air_fuel_ratio", _computed("air_fuel_ratio", [air] * 3, "from its atoms")


def _air(row: Row) -> float:
    """Stoichiometric air over fuel by mass, from the atoms."""
    hydrogen, oxygen = row.si("hydrogen_per_carbon"), row.si("oxygen_per_carbon")
    need = (1 + hydrogen / 4 - oxygen / 2) / _OXYGEN_IN_AIR * _AIR
    return need / (_CARBON + hydrogen * _HYDROGEN + oxygen * _OXYGEN)


def _disagreeing(row: Row, place: str) -> Iterator[Problem]:
    """Figures of one row that can't be true together."""
    needed = [name for name, prop in properties("fuel").items() if prop.needed]
    if any(name not in row.data for name in needed):
        return
    heat, vapour = row.si("heating_value"), row.si("heating_value_vapour")
    if abs(vapour - heat - row.si("latent_heat")) > _AGREE * vapour:
        yield Problem(
            f"{place}.heating_value_vapour",
            f"is {vapour / 1e6:.4g} MJ/kg, which is not heating_value and latent_heat together",
            "Give one of the two heating values and leave the other out, or all three rightly.",
        )
    air = _air(row)
    if abs(row.si("air_fuel_ratio") / air - 1) > _AGREE:
        yield Problem(
            f"{place}.air_fuel_ratio",
            f"is {row.si('air_fuel_ratio'):.4g}, but its atoms take {air:.4g}",
            "Give hydrogen_per_carbon and oxygen_per_carbon, and leave the air to follow.",
        )
