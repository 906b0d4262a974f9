"""Laminate, wood, high-temperature plastic, casting resin and cast light metal are there, whole."""

import pytest

from firstfire.catalog import Catalog
from firstfire.engine.materials import Material
from firstfire.parts.softness import softens_at, strength_left

CATALOG = Catalog()


def material(key: str) -> Material:
    row = CATALOG.row("material", key)
    numbers = {name: datum.si for name, datum in row.data.items()}
    return Material(row.key, row.name, numbers, row.curves, False)


@pytest.mark.parametrize(
    "name",
    ["phenolic", "phenolic across", "beech wood", "beech across", "maple wood", "maple across",
     "PAI", "PAI-CF", "casting resin", "aluminium piston", "die-cast aluminium"],
)  # fmt: skip
def test_each_can_be_named_and_says_all_that_a_part_asks(name):
    found = material(name)
    for asked in ("density", "modulus_in_plane", "poisson", "strength_in_plane", "conductivity",
                  "specific_heat", "expansion", "continuous_use",
                  "fatigue_fraction_1e6"):  # fmt: skip
        assert found.get(asked) is not None, asked
    assert found.curves["strength"]
    assert strength_left(found, 300.0) > strength_left(found, 400.0)


def test_wood_is_weak_across_its_grain_and_does_not_soften_but_chars():
    """Wood Handbook, chapter 5 (from memory): tension across the grain 5 to 9 % of bending."""
    along, across = material("beech"), material("beech_across")
    assert 0.04 < across["strength_in_plane"] / along["strength_in_plane"] < 0.1
    assert along["decomposition"] < 573.2  # EN 1995-1-2 draws the char line at 300 °C


def test_hot_plastic_outlasts_nylon_and_falls_short_of_metal():
    """PAI bears some 50 MPa at 230 °C; a cast piston some 150, PA6 nothing."""
    bears = {key: material(key)["strength_in_plane"] * strength_left(material(key), 503.0)
             for key in ("pai", "pai_cf", "aluminium_piston", "pa6_cast")}  # fmt: skip
    assert bears["pa6_cast"] < 10e6 < bears["pai"] < bears["pai_cf"] < bears["aluminium_piston"]


def test_a_piston_alloy_grows_less_and_stays_stronger_than_wrought_stock():
    cast, wrought = material("aluminium_piston"), material("aluminium_6061_t6")
    assert cast["expansion"] < wrought["expansion"]
    assert softens_at(cast, 0.5) > softens_at(wrought, 0.5)


@pytest.mark.parametrize(
    ("name", "sizes", "light"),
    [("6300", (10, 35, 11), "6200"), ("6301", (12, 37, 12), "6201"),
     ("6302", (15, 42, 13), "6202"), ("6303", (17, 47, 14), "6203"),
     ("6304", (20, 52, 15), "6204")],
)  # fmt: skip
def test_medium_bearings_have_the_sizes_of_iso_15_and_carry_more(name, sizes, light):
    row, lighter = CATALOG.row("bearing", name), CATALOG.row("bearing", light)
    read = tuple(round(1e3 * row.si(part)) for part in ("bore", "outside", "width"))
    assert read == sizes
    assert row.si("dynamic_load") > 1.2 * lighter.si("dynamic_load")
    assert row.si("static_load") < row.si("dynamic_load")
