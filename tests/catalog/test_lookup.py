"""A row is found by the names people use, and by no others."""

import pickle
import subprocess
import sys

import pytest

from firstfire.catalog import Catalog, kinds, load
from firstfire.errors import CatalogError

CATALOG = load()


@pytest.mark.parametrize(
    ("kind", "name", "key"),
    [
        ("material", "petg", "petg"),
        ("material", "PETG", "petg"),
        ("material", "PA6-CF", "pa6_cf"),
        ("material", "pa12 cf", "pa12_cf"),
        ("material", "PLA, toughened (PLA+)", "pla_tough"),
        ("material", "PLA+", "pla_tough"),
        ("material", "aluminium", "aluminium_6061_t6"),
        ("material", "aluminum", "aluminium_6061_t6"),
        ("material", "steel", "steel_mild"),
        ("material", "cast iron", "cast_iron_grey"),
        ("material", "PVC-U", "pvc_u"),
        ("material", "8.8", "bolt_8_8"),
        ("bearing", "6202-2RS", "6202"),
        ("bearing", "6202 ZZ", "6202"),
        ("bearing", "15x35x11", "6202"),
        ("oring", "2.62x37.77", "as568_128"),
        ("oring", "37.77 × 2.62", "as568_128"),
        ("oring", "-128", "as568_128"),
        ("oring", "AS568-222", "as568_222"),
        ("oring", "30x2", "metric_2x30"),
        ("thread", "M5", "M5"),
        ("thread", "m5 x 0.8", "M5"),
        ("thread", "M10x1", "M10x1"),
        ("thread", "M10×1.0", "M10x1"),
        ("thread", "M14x1.25", "M14x1.25"),
        ("thread", "1/4-20", "unc_1/4_20".replace("/", "_")),
        ("thread", "#4-40", "unc_4_40"),
        ("tube", "aluminium 40x44", "aluminium_40x44"),
        ("tube", "aluminum 40x44", "aluminium_40x44"),
        ("tube", "aluminium 44x2", "aluminium_40x44"),
        ("tube", "pvc 46x50", "pvc_46x50"),
        ("tube", "brass 34x36", "brass_34x36"),
        ("tube", "brass 30x32", "brass_30x32"),
        ("belt", "3 mm", "curvilinear_3"),
        ("belt", "XL", "xl"),
        ("fuel", "iso-octane", "iso_octane"),
        ("fuel", "E10", "e10"),
        ("starter", "mains drill", "mains"),
        ("starter", "cordless drill", "cordless_low"),
        ("instrument", "luggage scale", "luggage_scale"),
    ],
)
def test_found_by(kind, name, key):
    assert CATALOG.row(kind, name).key == key


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("material", "ABS+"),
        ("material", "petgg"),
        ("material", ""),
        ("material", "M5"),
        ("thread", "M25"),
        ("thread", "M10x125"),
        ("bearing", "6202-1"),
        ("oring", "1128"),
        ("fuel", "octane"),
        ("tube", "40x44"),
    ],
)
def test_not_guessed(kind, name):
    with pytest.raises(CatalogError, match=f'no {kind} "'):
        CATALOG.row(kind, name)


def test_a_wrong_name_tells_the_nearest():
    with pytest.raises(CatalogError) as refused:
        CATALOG.row("material", "ABS+")
    assert str(refused.value) == (
        'no material "ABS+"; nearest: ABS, ASA. `firstfire catalog material` lists them.'
    )


def test_a_wrong_kind_tells_the_kinds():
    with pytest.raises(CatalogError, match='no kind "materiel"; nearest: material') as refused:
        CATALOG.rows("materiel")
    assert all(kind in str(refused.value) for kind in kinds())


def test_a_missing_property_says_where_to_add_it():
    with pytest.raises(CatalogError, match=r"\"PETG\" has no vicat.*\[material\.petg\]"):
        CATALOG.row("material", "petg")["vicat"]
    assert CATALOG.row("material", "petg").get("vicat") is None


def test_si_and_get_agree_with_the_datum():
    row = CATALOG.row("bearing", "6202")
    assert row.si("bore") == row["bore"].si == 0.015
    assert row.get("bore") is row["bore"]


def test_a_point_over_time_has_no_temperature():
    point = CATALOG.row("material", "pla").curve("relaxation_low")[0]
    assert point.at == 3600.0
    with pytest.raises(CatalogError, match="over time"):
        _ = point.temperature


def test_rows_are_shipped_rows_and_the_same_each_time():
    assert all(row.origin == "catalog" for kind in kinds() for row in CATALOG.rows(kind))
    assert CATALOG.row("material", "petg") is Catalog().row("material", "petg")


def test_rows_can_be_sent_to_another_process():
    row = CATALOG.row("material", "petg")
    assert pickle.loads(pickle.dumps(row)) == row


def test_importing_the_catalog_pulls_no_heavy_library():
    code = (
        "import sys, firstfire.catalog; firstfire.catalog.load();"
        "print([m for m in ('pint', 'numpy', 'scipy', 'numba', 'pydantic') if m in sys.modules])"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"
