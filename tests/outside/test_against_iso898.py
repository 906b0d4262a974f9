"""ISO coarse threads against ISO 898-1 (areas by ISO 261/724, proof and breaking loads).

Source: ISO 898-1:2013 tables as reprinted on suppliers' pages, read; areas recomputed.
Tolerance 1 %: the standard rounds areas and loads to three figures.
"""

import pytest

from firstfire.formulas import thread

# size, diameter mm, pitch mm, area mm², proof loads N of 4.8, 8.8, 10.9, 12.9, breaking load 8.8
COARSE = [
    ("M3", 3, 0.5, 5.03, 1560, 2920, 4180, 4880, 4020),
    ("M4", 4, 0.7, 8.78, 2720, 5100, 7290, 8520, 7020),
    ("M5", 5, 0.8, 14.2, 4400, 8230, 11800, 13800, 11350),
    ("M6", 6, 1.0, 20.1, 6230, 11600, 16700, 19500, 16100),
    ("M8", 8, 1.25, 36.6, 11400, 21200, 30400, 35500, 29200),
    ("M10", 10, 1.5, 58.0, 18000, 33700, 48100, 56300, 46400),
]


def test_areas_to_four_figures() -> None:
    # The closed form of ISO 898-1, 9.1.6.1, evaluated apart from this code; rounding of print.
    found = [thread.stress_area(d * 1e-3, p * 1e-3) * 1e6 for _, d, p, *_ in COARSE]
    assert found == pytest.approx([5.031, 8.779, 14.18, 20.12, 36.61, 57.99], rel=4e-4)
