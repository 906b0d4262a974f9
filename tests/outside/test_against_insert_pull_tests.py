"""Heat-set brass inserts against short static pull tests.

Source: makers' and print services' tests (one statement read, figures from memory, low
confidence, bands wide on purpose).
"""

import pytest

from firstfire.catalog import Catalog
from firstfire.formulas import insert

# thread, outer diameter mm, lengths mm, band N: usual sizes of inserts
TESTED = [
    ("M3", 4.4, (4.0, 6.0), 300, 1000),
    ("M4", 6.1, (6.0, 8.0), 700, 1800),
    ("M5", 7.1, (8.0, 10.0), 1200, 2800),
]
SHEAR_STRENGTHS = (17e6, 25e6)  # half the tensile strength of printed ABS (34 MPa), PLA (50 MPa)


@pytest.mark.parametrize("row", TESTED, ids=[row[0] for row in TESTED])
@pytest.mark.parametrize("shear_strength", SHEAR_STRENGTHS)
def test_pull_out_lies_inside_the_band(row: tuple, shear_strength: float) -> None:
    _, diameter, lengths, low, high = row
    for length in lengths:
        pull = insert.pull_out_load(diameter * 1e-3, length * 1e-3, shear_strength)
        assert low <= pull <= high


def test_larger_threads_hold_more() -> None:
    pulls = [
        insert.pull_out_load(diameter * 1e-3, sum(lengths) / 2 * 1e-3, 20e6)
        for _, diameter, lengths, _, _ in TESTED
    ]
    assert pulls == sorted(pulls)


def test_every_insert_of_the_catalog_holds_what_it_says_in_petg() -> None:
    # 22.5 MPa: half the tensile strength of printed PETG.
    rows = Catalog().rows("insert")
    assert rows
    for row in rows:
        pull = insert.pull_out_load(row.si("outside"), row.si("length"), 22.5e6)
        band = row["pull_out"]  # kN
        assert band.low * 1e3 <= pull <= band.high * 1e3
