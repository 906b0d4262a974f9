"""A person's own fuel is burned as its row says, or refused in words."""

import pytest

from firstfire.catalog import Catalog, load
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.thermo_data import fuel_vapour
from firstfire.engine.fuel import fuel
from firstfire.engine.read import understand
from firstfire.engine.resolve import resolve
from firstfire.errors import CatalogError

NUMBER = (
    '{{ value = {0}, low = {0}, high = {0}, unit = "{1}", source = "the can", sure = "measured" }}'
)
HEAT, HEAT_44 = (NUMBER.format(heat, "MJ/kg") for heat in (40, 44))
AIR = NUMBER.format(12, "dimensionless")
FINCH = """
name = "finch"
[layout]
kind = "single"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[printing]
material = "petg"
[intake]
fuel = "FUEL"
"""


def own(tmp_path, text):
    path = tmp_path / "catalog.toml"
    path.write_text(text, encoding="utf-8")
    return load([path])


def refusal(tmp_path, text):
    with pytest.raises(CatalogError) as why:
        own(tmp_path, text)
    return str(why.value)


@pytest.mark.parametrize("key", [row.key for row in Catalog().rows("fuel")])
def test_catalog_and_gas_side_have_one_heat_and_one_need_of_air(key):
    row = Catalog().row("fuel", key)
    tables = gas_tables(fuel(Catalog(), key), 1.0)
    assert tables.lower_heating_value == pytest.approx(row.si("heating_value_vapour"), rel=1e-12)
    # The last of a row's figures.
    air = row.si("air_fuel_ratio")
    assert tables.stoichiometric_air_fuel_ratio == pytest.approx(air, rel=2e-4)


@pytest.mark.parametrize(
    "key", ["petrol", "iso_octane", "ethanol", "methanol", "propane", "butane"]
)
def test_rows_of_the_librarys_vapours_are_those_vapours(key):
    said, raw = fuel_vapour(fuel(Catalog(), key)), fuel_vapour(key)
    # Four figures of a row.
    assert said.lower_heating_value == pytest.approx(raw.lower_heating_value, rel=3e-4)
    assert said.molar_mass == pytest.approx(raw.molar_mass, rel=1e-4)


def test_a_mixture_of_ones_own_is_mixed(tmp_path):
    text = '[fuel.e20]\nname = "pump E20"\nmade_of = "20 % ethanol, 80 % petrol by volume"\n'
    rows = own(tmp_path, text)
    row = rows.row("fuel", "pump E20")
    heavy = 0.2 * 789.3 / (0.2 * 789.3 + 0.8 * 745)
    assert row.si("heating_value_vapour") == pytest.approx(
        heavy * 27.73e6 + (1 - heavy) * 43.44e6, rel=1e-4
    )
    assert dict(fuel(rows, "e20").vapours) == pytest.approx(
        {"ethanol": heavy, "petrol": 1 - heavy}, rel=1e-9
    )


def test_an_engine_burns_ones_own_row_in_place_of_a_shipped_one(tmp_path):
    """It used to be shown, and the shipped petrol burned."""
    row = f'[fuel.petrol]\nlike = "petrol"\nname = "old petrol"\nheating_value = {HEAT}\n'
    plain, shipped = (
        resolve(understand(FINCH.replace("FUEL", name), "finch.toml", rows))
        for name, rows in (("old petrol", own(tmp_path, row)), ("petrol", Catalog()))
    )
    assert gas_tables(plain.fuel, 1.1).lower_heating_value == pytest.approx(40.35e6, rel=1e-4)
    assert plain.sha256 != shipped.sha256


def test_a_gas_of_ones_own_is_metered_as_a_gas(tmp_path):
    row = '[fuel.winter]\nlike = "butane_propane"\nname = "winter gas"\n'
    rows = own(tmp_path, row + 'made_of = "60 % butane, 40 % propane by mass"\n')
    plain = resolve(understand(FINCH.replace("FUEL", "winter gas"), "finch.toml", rows))
    assert (plain.intake.mixture_by, plain.fuel.gas) == ("gas_mixer", True)
    assert dict(plain.fuel.vapours) == pytest.approx({"butane": 0.6, "propane": 0.4})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('made_of = "85 % ethanol, 15 % petrol"', "neither by volume nor by mass"),
        ('made_of = "85 % ethanol, 25 % petrol by mass"', "adds up to 110 %"),
        ('made_of = "85 % ethanol, 15 % kerosene by mass"', "kerosene"),
        ('made_of = "ethanol by mass"', "no share of a fuel"),
        (f"heating_value = {HEAT}", "what its vapour is like"),
        (
            f'like = "petrol"\nheating_value = {HEAT}\nheating_value_vapour = {HEAT_44}',
            "not heating_value and latent_heat together",
        ),
        (f'like = "petrol"\nair_fuel_ratio = {AIR}', "its atoms take"),
        ('like = "petrol"\nvapour = "kerosene"', "no gas data"),
    ],
)
def test_what_cannot_be_burned_is_refused_in_words(tmp_path, text, said):
    assert said in refusal(tmp_path, f"[fuel.x]\n{text}\n")


def test_a_mixture_of_itself_is_refused(tmp_path):
    text = '[fuel.petrol]\nlike = "petrol"\nmade_of = "50 % e10, 50 % ethanol by mass"\n'
    with pytest.raises(CatalogError, match="made of itself"):
        fuel(own(tmp_path, text), "petrol")
