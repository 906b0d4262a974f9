"""How materials fall with temperature, rate and time: order, ends, and the laws they rest on."""

import math
import tomllib
from itertools import pairwise

import pytest

from firstfire.catalog import Catalog
from firstfire.catalog.properties import TABLES
from firstfire.catalog.shipped import CURVES

ROWS = Catalog().rows("material")
TEMPERATURE_CURVES = [
    pytest.param(row, name, id=f"{row.key}-{name}")
    for row in ROWS
    for name, points in row.curves.items()
    if points[0].axis == "temperature"
]
REFERENCE = 296.15  # 23 C, where every relative curve is 1


def test_each_material_that_carries_load_has_both_curves():
    assert [r.key for r in ROWS if not (r.curve("strength") and r.curve("modulus"))] == []


@pytest.mark.parametrize(("row", "name"), TEMPERATURE_CURVES)
def test_a_curve_starts_at_one_and_only_falls_with_temperature(row, name):
    points = row.curves[name]
    values = [1.0, *(p.value for p in points)]
    assert points[0].temperature > REFERENCE
    assert all(a >= b for a, b in pairwise(values))
    assert values[-1] < 1.0


@pytest.mark.parametrize(("row", "name"), TEMPERATURE_CURVES)
def test_its_band_holds_its_value_and_stays_positive(row, name):
    for p in row.curves[name]:
        assert 0.0 < p.low <= p.value <= p.high <= 1.0
        assert p.at_low <= p.at <= p.at_high
        assert p.source
        assert p.sure


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.key)
def test_no_curve_runs_past_melting_or_decomposition(row):
    ends = [d.si_high for d in (row.get("melting"), row.get("decomposition")) if d]
    for points in row.curves.values():
        if points[0].axis == "temperature":
            assert points[-1].temperature <= min(ends)


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.key)
def test_points_of_the_deflection_temperature_follow_its_definition(row):
    """ISO 75: the strain grows by 0.2 %, so relative modulus = s / (s + 0.002 E)."""
    computed = [p for p in row.curve("modulus") if p.sure == "computed"]
    for p in computed:
        stress = {row["hdt_180"].si: 1.80e6, row["hdt_045"].si: 0.45e6}[p.temperature]
        expected = stress / (stress + 0.002 * row.si("modulus_in_plane"))
        assert p.value == pytest.approx(expected, rel=6e-3)  # the table's three figures


@pytest.mark.parametrize("row", [r for r in ROWS if r.curve("relaxation_low")], ids=lambda r: r.key)
def test_stress_left_follows_the_creep_law_it_names(row):
    """c ** (log10(t / 10 s) / 5.556), as the table states it; press fits somewhat less."""
    factor = row.si("creep_factor_1000h")
    for p in row.curve("relaxation_low"):
        law = factor ** (math.log10(p.at / 10.0) / 5.556)
        # Polycarbonate's points are read, not computed: 0.898 by the law against 0.917 read.
        assert p.value == pytest.approx(law, rel=0.025 if row.key == "pc" else 2e-3)
    for low, pressed in zip(row.curve("relaxation_low"), row.curve("relaxation_press_fit"),
                            strict=False):  # fmt: skip
        assert pressed.at == low.at
        assert pressed.value < low.value


@pytest.mark.parametrize("row", [r for r in ROWS if r.curve("relaxation_low")], ids=lambda r: r.key)
def test_stress_left_falls_with_time_and_with_warmth(row):
    for name in ("relaxation_low", "relaxation_press_fit", "relaxation_warm"):
        values = [p.value for p in row.curve(name)]
        assert values == sorted(values, reverse=True)
    assert row.curve("relaxation_warm")[0].value == 1.0


def test_the_class_of_plastics_holds_others_that_were_read():
    """PA66 keeps 0.664 after 1000 h; thermoplastics lose about half in 1000 h at room warmth."""
    with (TABLES / CURVES).open("rb") as stream:
        checks = tomllib.load(stream)["relaxation"]["checks"]["points"]
    plastics = [r for r in ROWS if r.texts["structure"] in ("amorphous", "semi-crystalline")]
    for check in checks:
        left = [r.curve(f"relaxation_{check['strain']}")[-1] for r in plastics]
        assert min(p.low for p in left) < check["stress_left"] < max(p.high for p in left)


def test_rate_and_its_reference_come_with_each_printed_plastic():
    for row in ROWS:
        if row.texts["made"] == "printed":
            assert 0.0 <= row.si("strength_per_decade") <= 0.12
            assert row.si("reference_strain_rate") == 1e-3
            assert 0.0 < row.si("strength_lost_per_decade") < 0.2


def test_pipe_keeps_its_own_long_term_strength():
    """PVC 12454 pressure pipe at 140 F (60 C): 0.22 of its pressure at 73 F, makers' derating."""
    pvc = Catalog().row("material", "pvc_u")
    last = pvc.curve("strength_long_term")[-1]
    assert (last.temperature, last.value) == (pytest.approx(333.15), 0.22)
    assert pvc["strength_lost_per_decade"].sure == "computed"
