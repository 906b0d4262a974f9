"""Limits of holes and shafts against ISO 286-2.

Source: JIS B 0401:1999 extract, same as ISO 286-2 (read), and a chart of H7 and h6 (read).
Exact: the limits are whole or half micrometres.
"""

import pytest

from firstfire.errors import OutsideValidity
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


# D-M-E, Technical reference, Table 6 "Tolerances for inside dimensions (holes)" (read; printed by
# a maker of mould bases after ISO 286): upper and lower limit, µm. Exact.
HOLES = ("D9", "E8", "E9", "F7", "F8", "G7", "H6", "H7", "H8", "H9", "H10")
# fmt: off
INSIDE = {
    (3, 6): [(30, 60), (20, 38), (20, 50), (10, 22), (10, 28), (4, 16), (0, 8), (0, 12), (0, 18),
             (0, 30), (0, 48)],
    (6, 10): [(40, 76), (25, 47), (25, 61), (13, 28), (13, 35), (5, 20), (0, 9), (0, 15), (0, 22),
              (0, 36), (0, 58)],
    (10, 18): [(50, 93), (32, 59), (32, 75), (16, 34), (16, 43), (6, 24), (0, 11), (0, 18), (0, 27),
               (0, 43), (0, 70)],
    (18, 30): [(65, 117), (40, 73), (40, 92), (20, 41), (20, 53), (7, 28), (0, 13), (0, 21),
               (0, 33), (0, 52), (0, 84)],
    (30, 50): [(80, 142), (50, 89), (50, 112), (25, 50), (25, 64), (9, 34), (0, 16), (0, 25),
               (0, 39), (0, 62), (0, 100)],
    (50, 80): [(100, 174), (60, 106), (60, 134), (30, 60), (30, 76), (10, 40), (0, 19), (0, 30),
               (0, 46), (0, 74), (0, 120)],
}
# Same source, continued (read): half of JS6, JS7 and JS9. K. L. Narayana, "Machine Drawing", Table
# 15.2 (read): lower deviations of m, n, p, µm. BIG DAISHOWA catalogue, "Shaft tolerances" (read):
# lower limits of h5 to h9, µm.
JS = {(3, 6): (4, 6, 15), (6, 10): (4.5, 7.5, None), (10, 18): (5.5, 9, 21.5),
      (18, 30): (6.5, 10.5, 26), (30, 50): (8, 12.5, 31), (50, 80): (9.5, 15, 37)}
MNP = {(1, 3): (2, 4, 6), (3, 6): (4, 8, 12), (6, 10): (6, 10, 15), (10, 18): (7, 12, 18),
       (18, 30): (8, 15, 22), (30, 50): (9, 17, 26), (50, 80): (11, 20, 32)}
H5_TO_9 = {(1, 3): (4, 6, 10, 14, 25), (3, 6): (5, 8, 12, 18, 30), (6, 10): (6, 9, 15, 22, 36),
           (10, 18): (8, 11, 18, 27, 43), (18, 30): (9, 13, 21, 33, 52),
           (30, 50): (11, 16, 25, 39, 62), (50, 80): (13, 19, 30, 46, 74)}
# fmt: on


def micrometres(limits: fits.Limits) -> tuple[float, float]:
    return limits.lower / MICROMETRE, limits.upper / MICROMETRE


@pytest.mark.parametrize("sizes", INSIDE, ids=[f"{low}-{high} mm" for low, high in INSIDE])
def test_holes(sizes: tuple[int, int]) -> None:
    for size in (sizes[0] + 0.001, sum(sizes) / 2, sizes[1]):
        for code, printed in zip(HOLES, INSIDE[sizes], strict=True):
            found = micrometres(fits.hole_limits(size * 1e-3, code))
            assert found == pytest.approx(printed, abs=1e-6), (size, code)


@pytest.mark.parametrize("sizes", JS, ids=[f"{low}-{high} mm" for low, high in JS])
def test_holes_and_shafts_about_their_size(sizes: tuple[int, int]) -> None:
    for grade, half in zip((6, 7, 9), JS[sizes], strict=True):
        if half is not None:
            size = sum(sizes) / 2e3
            assert micrometres(fits.hole_limits(size, f"JS{grade}")) == pytest.approx((-half, half))
            assert micrometres(fits.shaft_limits(size, f"js{grade}")) == pytest.approx(
                (-half, half)
            )


@pytest.mark.parametrize("sizes", MNP, ids=[f"{low}-{high} mm" for low, high in MNP])
def test_shafts_above_and_at_their_size(sizes: tuple[int, int]) -> None:
    size = sizes[1] * 1e-3
    for letter, lower in zip("mnp", MNP[sizes], strict=True):
        assert micrometres(fits.shaft_limits(size, f"{letter}6"))[0] == pytest.approx(lower)
    for grade, width in zip(range(5, 10), H5_TO_9[sizes], strict=True):
        assert micrometres(fits.shaft_limits(size, f"h{grade}")) == pytest.approx((-width, 0.0))


def test_what_is_not_tabled_is_refused() -> None:
    for code in ("h7", "P7", "js6", "Q7"):
        with pytest.raises(OutsideValidity, match="not tabled"):
            fits.hole_limits(15e-3, code)
    for code in ("H7", "s6", "p8"):
        with pytest.raises(OutsideValidity, match="not tabled"):
            fits.shaft_limits(15e-3, code)
