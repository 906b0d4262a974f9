"""O-ring glands against a published reciprocating-gland table and worked glands.

Source of the table: *Seal Design Guide*, gland design for dynamic seals, Table A, read (columns
partly garbled in the copy). Worked glands computed from the closed forms, volume kept.
"""

import pytest

from firstfire.formulas import oring_gland as gland

POINT = 1e-3  # 0.1 percentage point, the rounding of the worked glands


# section, inside and groove diameter, groove width; stretch, section fitted, squeeze, fill
WORKED = [
    (3.53, 37.69, 37.80, 4.7, 0.0029, 3.525, 0.1206, 0.670),
    (2.62, 37.77, 39.40, 3.6, 0.0432, 2.569, 0.1046, 0.626),
]


@pytest.mark.parametrize("row", WORKED, ids=[f"{row[0]} mm" for row in WORKED])
def test_worked_glands_in_a_44_mm_bore(row: tuple[float, ...]) -> None:
    section, inside, groove, width, stretch, fitted, squeeze, fill = row
    depth = (44.0 - groove) / 2 * 1e-3
    found = gland.stretched_section(section * 1e-3, inside * 1e-3, groove * 1e-3)
    assert gland.stretch(inside * 1e-3, groove * 1e-3) == pytest.approx(stretch, abs=POINT)
    assert found == pytest.approx(fitted * 1e-3, rel=5e-4)  # printed to three decimals
    assert gland.squeeze(found, depth) == pytest.approx(squeeze, abs=POINT)
    assert gland.fill(found, depth, width * 1e-3) == pytest.approx(fill, abs=POINT)


# section and its tolerance, depth low and high, squeeze low and high, groove width; inch
RECIPROCATING = [
    (0.070, 0.003, 0.055, 0.057, 0.15, 0.25, 0.095),
    (0.103, 0.003, 0.087, 0.090, 0.10, 0.18, 0.145),
    (0.139, 0.004, 0.119, 0.123, 0.09, 0.17, 0.185),
    (0.210, 0.005, 0.183, 0.188, 0.085, 0.15, 0.285),
    (0.275, 0.006, 0.234, 0.240, 0.105, 0.17, 0.375),
]


@pytest.mark.parametrize("row", RECIPROCATING, ids=[f"{row[0]:.3f} in" for row in RECIPROCATING])
def test_the_published_depths_give_the_published_squeeze(row: tuple[float, ...]) -> None:
    section, tolerance, shallow, deep, least, most, width = row
    # The table's band spans the section's own tolerance; it rounds to half a point.
    assert gland.squeeze(section - tolerance, deep) == pytest.approx(least, abs=5e-3)
    assert gland.squeeze(section + tolerance, shallow) == pytest.approx(most, abs=5e-3)
    assert 0.6 <= gland.fill(section, deep, width) <= gland.fill(section, shallow, width) <= 0.85
