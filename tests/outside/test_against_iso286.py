"""Limits of holes and shafts against ISO 286-2.

Source: JIS B 0401:1999 extract, same as ISO 286-2 (read), and a chart of H7 and h6 (read).
Exact: the limits are whole or half micrometres.
"""

import pytest

from firstfire.formulas import fits

MICROMETRE = 1e-6
CODES = ("H7", "h6", "js6", "k6", "m6", "n6", "p6")
# (over, up to) mm: lower and upper limit of each code, µm
TABLE = {
    (6, 10): [(0, 15), (-9, 0), (-4.5, 4.5), (1, 10), (6, 15), (10, 19), (15, 24)],
    (10, 18): [(0, 18), (-11, 0), (-5.5, 5.5), (1, 12), (7, 18), (12, 23), (18, 29)],
    (18, 30): [(0, 21), (-13, 0), (-6.5, 6.5), (2, 15), (8, 21), (15, 28), (22, 35)],
    (30, 50): [(0, 25), (-16, 0), (-8, 8), (2, 18), (9, 25), (17, 33), (26, 42)],
}


@pytest.mark.parametrize("sizes", TABLE, ids=[f"{low}-{high} mm" for low, high in TABLE])
@pytest.mark.parametrize("place", range(len(CODES)), ids=CODES)
def test_limits_at_both_ends_and_the_middle(sizes: tuple[int, int], place: int) -> None:
    low, high = sizes
    code, (lower, upper) = CODES[place], TABLE[sizes][place]
    for size in (low + 0.001, (low + high) / 2, high):
        law = fits.hole_limits if code[0] == "H" else fits.shaft_limits
        found = law(size * 1e-3, code)
        assert found.lower == pytest.approx(lower * MICROMETRE, abs=1e-12)
        assert found.upper == pytest.approx(upper * MICROMETRE, abs=1e-12)


def test_grade_seven_is_sixteen_units() -> None:
    units = [16 * fits.tolerance_unit(size * 1e-3) for size in (8, 14, 24, 40)]
    # Printed to a tenth of a micrometre before rounding.
    assert units == pytest.approx([14.4e-6, 17.3e-6, 20.9e-6, 25.0e-6], abs=0.06e-6)


def test_grades_keep_to_their_units() -> None:
    # IT5 7i, IT6 10i, IT7 16i, IT8 25i, IT9 40i, IT10 64i, IT11 100i; the table rounds to whole
    # micrometres (0.5 µm), and 14.4 to 15 (5 %). The range 3 to 6 mm is left out: there the
    # standard keeps 8 µm for IT6 where its formula gives 7.3.
    multiples = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}
    for size in (8, 14, 24, 40, 63):
        for grade, multiple in multiples.items():
            unit = fits.tolerance_unit(size * 1e-3)
            width = fits.tolerance(size * 1e-3, grade)
            assert width == pytest.approx(multiple * unit, rel=0.05, abs=0.5e-6)


def test_two_fits() -> None:
    tight = fits.fit(fits.hole_limits(15e-3, "H7"), fits.shaft_limits(15e-3, "p6"))
    assert (tight.least, tight.most) == pytest.approx((-29e-6, 0.0), abs=1e-12)
    sliding = fits.fit(fits.hole_limits(12e-3, "H7"), fits.shaft_limits(12e-3, "h6"))
    assert (sliding.least, sliding.most) == pytest.approx((0.0, 29e-6), abs=1e-12)
