"""Ball bearings against the sizes of DIN 625-1 / ISO 15 and usual ratings."""

import pytest

from firstfire.catalog import Catalog

CATALOG = Catalog()

# Bore, outside, width in mm (read: BOLTS open library of technical specifications,
# data/bearings.blt, from DIN 625-1), least chamfer in mm, usual C and C0 in kN across makers
# (both from memory).
TABLE = {
    "608": (8, 22, 7, 0.3, (3.3, 3.5), (1.35, 1.40)),
    "6000": (10, 26, 8, 0.3, (4.55, 4.75), (1.95, 2.0)),
    "6001": (12, 28, 8, 0.3, (5.1, 5.4), (2.35, 2.4)),
    "6002": (15, 32, 9, 0.3, (5.55, 5.9), (2.8, 2.9)),
    "6200": (10, 30, 9, 0.6, (5.1, 5.4), (2.35, 2.4)),
    "6201": (12, 32, 10, 0.6, (6.8, 7.3), (3.05, 3.1)),
    "6202": (15, 35, 11, 0.6, (7.6, 8.1), (3.7, 3.8)),
    "6203": (17, 40, 12, 0.6, (9.5, 10.0), (4.75, 4.85)),
    "6204": (20, 47, 14, 1.0, (12.7, 13.5), (6.5, 6.7)),
    "6205": (25, 52, 15, 1.0, (14.0, 14.9), (7.8, 7.95)),
}


@pytest.mark.parametrize("number", TABLE)
def test_sizes_are_exact(number):
    bore, outside, width, chamfer, _, _ = TABLE[number]
    row = CATALOG.row("bearing", number)
    got = [row[p] for p in ("bore", "outside", "width", "chamfer")]
    assert [d.value for d in got] == [bore, outside, width, chamfer]
    assert all(d.low == d.value == d.high for d in got)
    assert all(d.sure == "read here" for d in got[:3])


@pytest.mark.parametrize("number", TABLE)
def test_ratings_span_the_makers(number):
    *_, dynamic, static = TABLE[number]
    row = CATALOG.row("bearing", number)
    for name, (low, high) in (("dynamic_load", dynamic), ("static_load", static)):
        assert (row[name].low, row[name].high) == (low, high)
        assert low <= row[name].value <= high


def test_6203_as_a_dealer_prints_it():
    """Around 9.56 kN (read: sourcebyspec.com)."""
    load = CATALOG.row("bearing", "6203")["dynamic_load"]
    assert load.low <= 9.56 <= load.high


@pytest.mark.parametrize("row", CATALOG.rows("bearing"), ids=lambda r: r.key)
def test_a_bearing_hangs_together(row):
    assert row.si("bore") < row.si("outside")
    assert 2 * row.si("chamfer") < row.si("width")
    assert row.si("static_load") < row.si("dynamic_load")
    # Less than a solid steel ring of its size, more than a third of it.
    ring = 0.7854 * (row.si("outside") ** 2 - row.si("bore") ** 2) * row.si("width") * 7850
    assert ring / 3 < row.si("mass") < ring


@pytest.mark.parametrize("number", ["6000", "6001", "6002", "6003", "6004", "6005", "6200", "6201",
                                    "6202", "6203", "6204", "6205"])  # fmt: skip
def test_bore_code(number):
    """ISO 15: 00, 01, 02, 03 are 10, 12, 15, 17 mm; from 04 five times the code."""
    code = int(number[-2:])
    expected = (10, 12, 15, 17)[code] if code < 4 else 5 * code
    assert CATALOG.row("bearing", number)["bore"].value == expected
