"""Threads against ISO 724 / ISO 898-1 tables and the unified thread table."""

import math

import pytest

from firstfire.catalog import Catalog

CATALOG = Catalog()
METRIC = [row for row in CATALOG.rows("thread") if row.texts["series"].startswith("metric")]
INCH_ROWS = [row for row in CATALOG.rows("thread") if row.texts["series"].startswith("UN")]
INCH = 25.4

# ISO 261/724 and ISO 898-1, stress area in mm^2 (slsbearings.com and usefastener.com tables, read).
ISO_AREAS = {
    "M3": (0.5, 5.03), "M4": (0.7, 8.78), "M5": (0.8, 14.2), "M6": (1.0, 20.1),
    "M8": (1.25, 36.6), "M10": (1.5, 58.0),
}  # fmt: skip
# ISO 898-1 (from memory): the rest of the coarse row and fine threads.
MORE_AREAS = {
    "M2": 2.07, "M2.5": 3.39, "M3.5": 6.78, "M12": 84.3, "M8x1": 39.2, "M10x1": 64.5,
    "M10x1.25": 61.2, "M12x1.25": 92.1,
}  # fmt: skip
# Proof loads in N (ISO 898-1, read at the same pages).
PROOF = {
    "M3": (1560, 2920, 4180, 4880), "M4": (2720, 5100, 7290, 8520),
    "M5": (4400, 8230, 11800, 13800), "M6": (6230, 11600, 16700, 19500),
    "M8": (11400, 21200, 30400, 35500), "M10": (18000, 33700, 48100, 56300),
}  # fmt: skip
# Shigley's Mechanical Engineering Design, 9th ed., Table 8-2: tensile stress area, in^2 (memory).
UNIFIED = {
    "unc_4_40": 0.00604, "unf_4_48": 0.00661, "unc_6_32": 0.00909, "unf_6_40": 0.01015,
    "unc_8_32": 0.0140, "unf_8_36": 0.01474, "unc_10_24": 0.0175, "unf_10_32": 0.0200,
    "unc_12_24": 0.0242, "unf_12_28": 0.0258, "unc_1_4_20": 0.0318, "unf_1_4_28": 0.0364,
    "unc_5_16_18": 0.0524, "unf_5_16_24": 0.0580, "unc_3_8_16": 0.0775, "unf_3_8_24": 0.0878,
    "unc_7_16_14": 0.1063, "unf_7_16_20": 0.1187, "unc_1_2_13": 0.1419, "unf_1_2_20": 0.1599,
}  # fmt: skip


@pytest.mark.parametrize("name", ISO_AREAS)
def test_iso_coarse(name):
    pitch, area = ISO_AREAS[name]
    row = CATALOG.row("thread", name)
    assert row["pitch"].value == pitch
    # 1 %: the standard rounds areas to three figures.
    assert row["stress_area"].value == pytest.approx(area, rel=0.01)


@pytest.mark.parametrize("name", MORE_AREAS)
def test_iso_others(name):
    assert CATALOG.row("thread", name)["stress_area"].value == pytest.approx(
        MORE_AREAS[name], rel=0.01
    )


@pytest.mark.parametrize("row", METRIC, ids=lambda r: r.key)
def test_area_and_pitch_diameter_from_the_profile(row):
    """A = (pi/4) ((d2 + d3)/2)^2, d2 = d - 0.649519 P, d3 = d - 1.226869 P (ISO 724, ISO 898-1)."""
    d, p = row["diameter"].value, row["pitch"].value
    area = math.pi / 4 * ((d - 0.649519 * p + d - 1.226869 * p) / 2) ** 2
    assert row["stress_area"].value == pytest.approx(area, rel=0.005)  # three figures
    assert row["pitch_diameter"].value == pytest.approx(d - 0.649519 * p, abs=6e-4)


@pytest.mark.parametrize("name", PROOF)
@pytest.mark.parametrize(("place", "bolt"), list(enumerate(["4.8", "8.8", "10.9", "12.9"])))
def test_proof_load_is_area_times_proof_stress_of_the_class(name, place, bolt):
    stress = CATALOG.row("material", bolt).si("proof_stress")
    load = CATALOG.row("thread", name).si("stress_area") * stress
    assert load == pytest.approx(PROOF[name][place], rel=0.01)


def test_twenty_inch_threads():
    assert {row.key for row in INCH_ROWS} == set(UNIFIED)


@pytest.mark.parametrize("key", UNIFIED)
def test_unified(key):
    row = CATALOG.row("thread", key)
    threads_per_inch = INCH / row["pitch"].value
    assert threads_per_inch == pytest.approx(float(key.rsplit("_", 1)[1]), rel=1e-4)
    assert row["stress_area"].value == pytest.approx(UNIFIED[key] * INCH**2, rel=0.01)
    d = row["diameter"].value / INCH
    by_form = math.pi / 4 * (d - 0.9743 / threads_per_inch) ** 2 * INCH**2  # ASME B1.1
    assert row["stress_area"].value == pytest.approx(by_form, rel=0.005)


@pytest.mark.parametrize("row", [*METRIC, *INCH_ROWS], ids=lambda r: r.key)
def test_drills_and_heads_are_in_order(row):
    diameter, pitch = row.si("diameter"), row.si("pitch")
    assert row.si("pitch_diameter") < diameter < row.si("clearance_hole") < 1.2 * diameter + 1e-6
    assert row.si("clearance_hole") < row.si("across_flats") < row.si("washer_outside")
    # A tap drill leaves about 60-85 % of the full thread depth, 1.0825 P on the diameter.
    depth = (diameter - row.si("tap_drill")) / (1.0825 * pitch)
    assert 0.55 <= depth <= 1.0
    if "head_diameter" in row.data:
        assert row.si("head_diameter") > row.si("clearance_hole")
        # ISO 4762 and ASME B18.3: a socket head is as high as the screw is thick.
        assert row.si("head_height") == pytest.approx(diameter, rel=0.01)
