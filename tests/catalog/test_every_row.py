"""What holds for each row of each shipped table."""

import math

import pytest

from firstfire.catalog import Catalog, kinds, properties, texts
from firstfire.catalog.entry import SURE, dimension
from firstfire.catalog.names import plain
from firstfire.units import to_si

CATALOG = Catalog()
ROWS = [row for kind in kinds() for row in CATALOG.rows(kind)]
DATA = [(row, name, datum) for row in ROWS for name, datum in row.data.items()]


def test_each_kind_has_rows():
    assert all(len(CATALOG.rows(kind)) >= 4 for kind in kinds())


def test_each_number_lies_between_its_low_and_high():
    wrong = [(r.key, n) for r, n, d in DATA if not d.low <= d.value <= d.high]
    assert wrong == []


def test_each_number_has_a_source_and_a_known_sureness():
    wrong = [(r.key, n) for r, n, d in DATA if not d.source.strip() or d.sure not in SURE]
    assert wrong == []


def test_no_shipped_number_claims_to_be_measured_here():
    assert [(r.key, n) for r, n, d in DATA if d.sure == "measured"] == []


def test_each_unit_parses_and_is_of_the_kind_of_its_property():
    wrong = []
    for row, name, datum in DATA:
        wanted = properties(row.kind)[name].unit
        if wanted != "any" and dimension(datum.unit) != dimension(wanted):
            wrong.append((row.key, name, datum.unit))
    assert wrong == []


def test_si_is_the_value_in_its_unit():
    wrong = [
        (r.key, n)
        for r, n, d in DATA
        if (d.si, d.si_low, d.si_high) != tuple(to_si(x, d.unit) for x in (d.value, d.low, d.high))
    ]
    assert wrong == []


def test_no_number_is_negative_in_si_or_not_finite():
    assert [
        (r.key, n) for r, n, d in DATA if not (d.si_low >= 0 and math.isfinite(d.si_high))
    ] == []


@pytest.mark.parametrize("kind", kinds())
def test_a_name_means_one_row_only(kind):
    seen: dict[str, str] = {}
    for row in CATALOG.rows(kind):
        for name in {plain(n) for n in (row.key, row.name, *row.aliases)}:
            assert seen.setdefault(name, row.key) == row.key, name


@pytest.mark.parametrize("kind", kinds())
def test_each_row_has_what_its_kind_needs(kind):
    needed = [name for name, prop in properties(kind).items() if prop.needed]
    missing = [(r.key, n) for r in CATALOG.rows(kind) for n in needed if n not in r.data]
    assert missing == []


@pytest.mark.parametrize("kind", kinds())
def test_each_property_says_what_it_means(kind):
    assert all(len(prop.means) > 3 for prop in properties(kind).values())
    assert all(len(meaning) > 3 for meaning in texts(kind).values())


@pytest.mark.parametrize("kind", ["material", "fuel", "starter"])
def test_what_can_hurt_says_how(kind):
    assert [row.key for row in CATALOG.rows(kind) if len(row.texts.get("hazard", "")) < 20] == []


def test_each_material_has_a_structure_and_says_how_it_is_made():
    structures = {
        "amorphous", "semi-crystalline", "cross-linked", "elastomer", "metal", "composite",
    }  # fmt: skip
    for row in CATALOG.rows("material"):
        assert row.texts["structure"] in structures
        assert row.texts["made"] in {"printed", "bought", "mixed"}


def test_each_plastic_and_rubber_says_where_it_decomposes():
    missing = [
        row.key
        for row in CATALOG.rows("material")
        if row.texts["structure"] != "metal" and "decomposition" not in row.data
    ]
    assert missing == []


def test_each_tube_is_of_a_known_material_and_its_wall_fits():
    for row in CATALOG.rows("tube"):
        assert CATALOG.row("material", row.texts["material"]).key == row.texts["material"]
        wall = (row.si("outside") - row.si("bore")) / 2
        # Table figures are rounded to 0.01 mm.
        assert wall == pytest.approx(row.si("wall"), abs=1.1e-5)


def test_each_insert_has_a_known_thread_and_fits_its_hole():
    for row in CATALOG.rows("insert"):
        assert row.si("diameter") == CATALOG.row("thread", row.texts["thread"]).si("diameter")
        assert row.si("diameter") < row.si("hole") < row.si("outside") < row.si("boss")


def test_each_printed_material_has_strength_both_ways_and_scatter():
    wanted = {
        "modulus_in_plane", "modulus_across", "strength_in_plane", "strength_across",
        "scatter_in_plane", "scatter_across", "poisson", "conductivity", "specific_heat",
        "expansion", "continuous_use", "glass_transition", "fatigue_fraction_1e6",
        "sn_inverse_slope", "creep_factor_1000h",
    }  # fmt: skip
    printed = [row for row in CATALOG.rows("material") if row.texts["made"] == "printed"]
    assert len(printed) == 14
    assert [(r.key, wanted - set(r.data)) for r in printed if wanted - set(r.data)] == []
