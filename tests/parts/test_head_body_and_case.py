"""Head, body's foot and case: where their warmth, toughness and loads are read."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.parts.moments import AIR
from tests.parts.test_brittle import BODY, HEAD, found
from tests.parts.test_sizes import changed, cold

from firstfire.catalog import Catalog
from firstfire.engine.moment import Moment
from firstfire.engine.read import with_values
from firstfire.engine.records import PartTemperature, Temperatures

PEAK = 3e6 + AIR


def warmed(at: Moment, part: str, thickness: float) -> Moment:
    """The same, with one part that falls straight from 340 K at its face to 300 K."""
    depth = np.linspace(0.0, thickness, 15)
    profile = np.linspace(340.0, 300.0, 15)
    one = PartTemperature(surface=340.0, peak=340.0, depth=depth, profile=profile)
    parts = {**at.temperatures.parts, part: one}
    return replace(at, temperatures=Temperatures(seconds=10.0, parts=parts))


def test_a_plug_is_judged_halfway_down_its_thread() -> None:
    # 12 mm of 20 are engaged: 6 mm below the face it is 340 - 40 × 6/20 = 328 K.
    at = cold(with_values(changed(), {"head.thickness": "20 mm"}), peak=PEAK)
    assert found(warmed(at, "head", 20e-3))["plug.blow"].temperature == pytest.approx(328.0)


def test_a_foot_is_as_warm_as_the_body_outside_and_a_boss_as_its_mean() -> None:
    ways = found(warmed(cold(with_values(changed(), BODY), peak=PEAK), "body", 6e-3))
    assert ways["body.foot.crack"].temperature == pytest.approx(300.0)
    assert ways["body.boss.split"].temperature == pytest.approx(320.0)


def test_a_warm_case_is_weaker() -> None:
    at = cold(changed(), peak=PEAK)
    warm, cool = found(warmed(at, "case", 6e-3))["case.tear"], found(at)["case.tear"]
    assert warm.temperature == pytest.approx(320.0)
    assert warm.capacity == pytest.approx(cool.capacity * warm.inputs["temperature_leaves"])


def test_the_worst_bearing_tears_the_case() -> None:
    at = cold(changed(), peak=PEAK)
    first, *others = at.loads.main_bearings
    other = replace(at, loads=replace(at.loads, main_bearings=(first, 1.5 * first, *others)))
    times = found(other)["case.tear"].demand / found(at)["case.tear"].demand
    assert times == pytest.approx(1.5)


@pytest.mark.parametrize(
    ("part", "stacked", "names"),
    [
        ("head", "across_bore", ("head.crack", "head.tighten.crack")),
        ("head", "along_crank", ("head.crack", "head.tighten.crack")),
        ("body", "across_bore", ("body.foot.crack", "body.boss.split")),
        ("case", "along_bore", ("case.tear",)),
    ],
)
def test_a_print_pulled_layer_from_layer_has_the_toughness_across(
    part: str, stacked: str, names: tuple[str, ...]
) -> None:
    pla = Catalog().row("material", "pla")
    sizes = {**HEAD, **BODY, "head.thickness": "14 mm", "case.wall": "8 mm",
             "head.fasteners.circle_diameter": "72 mm", "head.diameter": "100 mm",
             f"{part}.material": "pla", f"{part}.made": "printed"}  # fmt: skip
    other = "along_crank" if part == "case" else "along_bore"
    across = found(cold(with_values(changed(), sizes | {f"{part}.layers_stacked": stacked})))
    along = found(cold(with_values(changed(), sizes | {f"{part}.layers_stacked": other})))
    for name in names:
        tough, strong = (across[name].inputs[x] for x in ("toughness", "notch_strength"))
        assert tough == pla.si("fracture_toughness_across"), name
        assert strong == pla.si("strength_across"), name
        tough, strong = (along[name].inputs[x] for x in ("toughness", "notch_strength"))
        assert tough == pla.si("fracture_toughness"), name
        assert strong == pla.si("strength_in_plane"), name


def test_a_steady_stress_counts_what_cycles_leave() -> None:
    resin = with_values(changed(), {**HEAD, "head.material": "resin", "head.made": "printed"})
    tired = found(cold(resin, peak=PEAK, cycles=1000.0))["head.crack"]
    assert tired.inputs["steady_counts"] == tired.inputs["fatigue_leaves"] < 0.9
    assert found(cold(resin, peak=PEAK))["head.crack"].inputs["steady_counts"] == 1.0


def test_what_a_notch_decides_is_told() -> None:
    resin = {**BODY, "body.material": "resin"}
    soon = {"peak": PEAK, "hours": 0.01}
    brittle = found(cold(with_values(changed(), resin), **soon))
    tough = found(cold(with_values(changed(), {**resin, "body.material": "pa12"}), **soon))
    for name in ("body.foot.crack", "body.boss.split"):
        assert brittle[name].governs == "notch", name
        assert tough[name].governs != "notch", name
    stale = found(cold(with_values(changed(), resin), peak=PEAK, hours=1000.0))
    assert stale["body.boss.split"].governs == "creep"
