"""Tube and pipe against ASTM D1785, EN ISO 1452-2 and EN 1057."""

import pytest

from firstfire.catalog import Catalog

CATALOG = Catalog()
INCH = 25.4

# ASTM D1785 Table 1 (read: hitechsupports.com, pdfcoffee D1785 sheets): outside mean, its
# tolerance, least wall schedule 40 and 80, inch. The wall may be over by 0.020 in or 12 %.
D1785 = {
    "1 in": (1.315, 0.005, 0.133, 0.179),
    "1-1/4 in": (1.660, 0.005, 0.140, 0.191),
    "1-1/2 in": (1.900, 0.006, 0.145, 0.200),
    "2 in": (2.375, 0.006, 0.154, 0.218),
}
# EN ISO 1452-2 / ISO 161-1 (from memory): outside x least wall in mm, pressure class.
ISO1452 = [
    (32, 2.4, 16), (40, 3.0, 16), (50, 3.7, 16), (63, 4.7, 16), (40, 1.9, 10), (50, 2.4, 10),
    (63, 3.0, 10),
]  # fmt: skip
# EN 1057 copper and stocked drawn aluminium tube (from memory): outside x wall in mm.
COPPER = [(28, 1.0), (28, 1.2), (35, 1.2), (35, 1.5), (42, 1.2), (42, 1.5), (54, 1.5), (54, 2.0)]
ALUMINIUM = [(40, 2), (45, 2.5), (50, 2), (50, 3), (50, 5), (60, 5)]


@pytest.mark.parametrize("size", D1785)
@pytest.mark.parametrize("schedule", [40, 80])
def test_inch_pipe(size, schedule):
    outside, tolerance, *walls = D1785[size]
    wall = walls[schedule // 40 - 1]
    row = CATALOG.row("tube", f"PVC pipe {size} schedule {schedule}")
    # 0.006 mm: the table is written to 0.01 mm.
    assert row["outside"].value == pytest.approx(outside * INCH, abs=6e-3)
    assert row["outside"].high - row["outside"].value == pytest.approx(tolerance * INCH, abs=1.1e-2)
    assert row["wall"].low == pytest.approx(wall * INCH, abs=6e-3)
    assert row["wall"].high == pytest.approx((wall + max(0.020, 0.12 * wall)) * INCH, abs=6e-3)


@pytest.mark.parametrize(
    ("size", "outside"),
    [("1 in", 33.40), ("1-1/4 in", 42.16), ("1-1/2 in", 48.26), ("2 in", 60.32)],
)
def test_outside_in_millimetres_as_printed(size, outside):
    row = CATALOG.row("tube", f"PVC pipe {size} schedule 40")
    assert row["outside"].value == pytest.approx(outside, abs=6e-3)


@pytest.mark.parametrize(
    ("size", "wall"), [("1 in", 4.55), ("1-1/4 in", 4.85), ("1-1/2 in", 5.08), ("2 in", 5.54)]
)
def test_schedule_80_walls_in_millimetres_as_printed(size, wall):
    row = CATALOG.row("tube", f"PVC pipe {size} schedule 80")
    assert row["wall"].low == pytest.approx(wall, abs=6e-3)


def test_the_bore_of_inch_pipe_is_never_a_fit():
    """1-1/2 in schedule 40: wall 3.68 to 4.19 mm, so the bore is 39.7 to 41.1 mm."""
    row = CATALOG.row("tube", "PVC pipe 1-1/2 in schedule 40")
    assert (row["wall"].low, row["wall"].high) == (3.68, 4.19)
    assert (round(row["bore"].low, 1), round(row["bore"].high + 0.02, 1)) == (39.7, 41.1)


@pytest.mark.parametrize(("outside", "wall", "bar"), ISO1452)
def test_metric_pressure_pipe(outside, wall, bar):
    row = CATALOG.row("tube", f"pvc {outside}x{wall:g}")
    assert row.texts["standard"] == f"EN ISO 1452-2, PN {bar}"
    assert row["outside"].low == outside
    assert row["outside"].high - outside == pytest.approx(0.2 if outside <= 50 else 0.3)
    assert row["wall"].low == wall
    assert row["wall"].high - wall == pytest.approx(0.1 * wall + 0.2, abs=6e-3)
    assert row["bore"].low == pytest.approx(outside - 2 * row["wall"].high, abs=1e-6)
    assert row["bore"].high == pytest.approx(row["outside"].high - 2 * wall, abs=1e-6)


@pytest.mark.parametrize(("outside", "wall"), COPPER)
def test_copper_tube(outside, wall):
    row = CATALOG.row("tube", f"copper {outside}x{wall:g}")
    assert row["bore"].value == pytest.approx(outside - 2 * wall)


@pytest.mark.parametrize(("outside", "wall"), ALUMINIUM)
def test_aluminium_tube(outside, wall):
    row = CATALOG.row("tube", f"aluminium {outside}x{wall:g}")
    assert row["bore"].value == pytest.approx(outside - 2 * wall)
    assert row["outside"].value == outside


def test_honed_tube_is_h8():
    """ISO 286-2, H8: 0 to +0.039 mm for 30-50 mm, 0 to +0.046 mm for 50-80 mm."""
    for row in CATALOG.rows("tube"):
        if "H8" in row.texts["standard"]:
            limit = 0.039 if row["bore"].value <= 50 else 0.046
            assert row["bore"].low == row["bore"].value
            assert row["bore"].high - row["bore"].value == pytest.approx(limit)
