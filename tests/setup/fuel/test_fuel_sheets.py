"""An engine's fuel: pulses and jets by hand, what doesn't work and the nearest that does."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.cli.asking import schema_of
from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import Stopped
from firstfire.pages.answers.setting.behind import _one
from firstfire.pages.answers.setting.sheets import Sheets
from firstfire.setup.fuel import sheet as sizing
from firstfire.setup.fuel.cold import ColdFacts
from firstfire.setup.fuel.sheet import FuelSheet, fuel_sheet
from firstfire.setup.fuel.words import feeding_words, priming_words, sheet_cautions, valve_words
from firstfire.setup.opened import together
from firstfire.setup.opened.fuel_sheets import sheets_of_fuel

ENGINES = Path(__file__).parents[3] / "engines"
V_TWIN = Path(__file__).parents[2] / "strangers" / "2_v_twin.toml"
INJECTED = {"intake.mixture_by": "injector"}
RPM = math.pi / 30


def engine_of(name: str) -> Engine:
    return ff.read(V_TWIN if name == "v_twin" else ENGINES / f"{name}.toml")


@cache
def _kept(name: str, put: tuple[tuple[str, object], ...]) -> FuelSheet:
    engine = engine_of(name)
    return fuel_sheet(with_values(engine, dict(put)) if put else engine)


def sheet(name: str, put: Mapping[str, object] | None = None) -> FuelSheet:
    return _kept(name, tuple((put or {}).items()))


@cache
def _metered(name: str, put: tuple[tuple[str, object], ...]) -> FuelSheet:
    nothing = ColdFacts((), (), (), 0.0, None, None, None)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(sizing, "cold_facts", lambda *_: nothing)
        return fuel_sheet(with_values(engine_of(name), dict(put)))


def metered(name: str, put: Mapping[str, object]) -> FuelSheet:
    """A sheet without its cold starts, which are nine tenths of its time and meter nothing."""
    return _metered(name, tuple(put.items()))


def test_the_file_chooses_what_is_sized() -> None:
    assert (sheet("wren").mixer is not None, sheet("wren").injector) == (True, None)
    assert sheet("plover").mixer is not None
    assert sheet("plover").mixer.gas
    assert (sheet("v_twin").injector is not None, sheet("v_twin").mixer) == (True, None)


def test_a_pulse_by_hand() -> None:
    """wren injected: φ 1.1 of 14.6, 30 cm³/min of 745 kg/m³ at 3 bar, 1.21 ms at 12.6 V."""
    found = sheet("wren", INJECTED)
    full = found.injector.pulses[-1]
    at = full.point.at
    assert at.fuel[0] == pytest.approx(1.1 / 14.6 * at.air[0], rel=0.01)
    over = 3e5 + 101_300.0 - at.intake[0]
    flow = 30e-6 / 60 * 745.0 * math.sqrt(over / 3e5)
    assert full.over == pytest.approx(over, rel=1e-9)
    assert full.times[0] == pytest.approx(at.fuel[0] / flow + 1.21e-3, rel=1e-6)
    assert full.duty == pytest.approx(full.times[0] / (120 / 4000), rel=1e-9)
    assert full.low < full.times[0] < full.high
    low = (full.times[0] - 1.1 * 1.21e-3) * 0.95 * flow / at.fuel[0]
    assert full.given[0] == pytest.approx(low, rel=1e-6)
    assert full.given[1] > 1.0


def test_the_end_angle_by_hand() -> None:
    """On the shut inlet when it opens, less 40 mm at 0.8 √(2 Δp/ρ) and 4000 rpm."""
    found = sheet("wren", INJECTED)
    full = found.injector.pulses[-1]
    opens = 360.0 - math.degrees(found.plain.cylinders[0].valves.inlet.opens_before_top)
    flight = 0.04 / (0.8 * math.sqrt(2.0 * full.over / 745.0))
    assert math.degrees(full.own_ends[0]) == pytest.approx(opens - 6.0 * 4000 * flight, abs=1e-6)
    assert full.ends == pytest.approx(full.own_ends)


def test_of_a_v_each_cylinder_ends_after_its_own_top() -> None:
    """90° V on one pin fires 270 and 450° apart; one injector fires into open inlets."""
    found = sheet("v_twin").injector
    assert found.shared
    assert found.on_open
    for one in found.pulses:
        first, second = (math.degrees(end) for end in one.ends)
        assert (second - first) % 720 == pytest.approx(270.0) or (second - first) % 720 == (
            pytest.approx(450.0)
        )
        assert max(math.degrees(end) for end in one.own_ends) < 540.0


def test_a_shared_injector_is_on_for_both() -> None:
    one = sheet("v_twin").injector.pulses[-1]
    assert one.duty == pytest.approx(sum(one.times) / (120 / 4000), rel=1e-9)


def test_uneven_feeding_is_seen_and_said() -> None:
    """Timed into the open inlets each gets its own; not timed one may get all of it."""
    found = sheet("v_twin").injector
    for one in found.pulses:
        assert one.feeding.timed == pytest.approx((1.0, 1.0), abs=0.03)
        assert one.feeding.alike[0] < 0.5
        assert one.feeding.alike[1] > 1.5
    said = " ".join(feeding_words(found))
    assert "within 5 %" in said
    assert "not timed to the inlets" in said


def test_fuel_laid_ahead_of_shut_inlets_of_a_pair_is_still_its_own() -> None:
    """Opposed on two pins: intakes a turn apart, so nobody steals what waits for the next."""
    found = metered("heron", {**INJECTED, "injector.ends": "before_inlet_opens"}).injector
    assert found.pulses[-1].feeding is not None
    assert found.pulses[-1].feeding.timed == pytest.approx((1.0, 1.0), abs=0.05)


def test_long_pulses_ahead_of_inlets_that_overlap_feed_unevenly() -> None:
    """Parallel with pins half a turn apart: 180 and 540° apart the intakes meet."""
    put = {**INJECTED, "layout.crank_offset": "180 deg", "injector.ends": "before_inlet_opens",
           "intake.fuel": "petrol", "valves.inlet.worked": "cam"}  # fmt: skip
    found = metered("plover", put).injector
    worst = max(abs(share - 1) for one in found.pulses for share in one.feeding.timed)
    assert worst > 0.05
    assert any("unevenly" in said for said in feeding_words(found))


@pytest.mark.parametrize(
    ("name", "put", "path"),
    [
        ("wren", {**INJECTED, "injector.flow": "8 cm^3/min"}, "injector.flow"),
        ("wren", {**INJECTED, "injector.flow": "400 cm^3/min"}, "injector.flow"),
        ("v_twin", {"injector.flow": "60 cm^3/min"}, "injector.flow"),
        ("wren", {**INJECTED, "tank.feed": "gravity"}, "tank.feed"),
        ("v_twin", {"tank.pump_flow": "40 cm^3/min"}, "tank.pump_flow"),
        ("wren", {"tank.head": "5 mm"}, "tank.head"),
        ("wren", {"carburettor.venturi_diameter": "6 mm"}, "carburettor.venturi_diameter"),
        ("wren", {"carburettor.venturi_diameter": "18 mm"}, "carburettor.venturi_diameter"),
        ("wren", {"carburettor.main_jet": "0.8 mm"}, "carburettor.main_jet"),
        ("plover", {"gas_mixer.orifice": "0.9 mm"}, "gas_mixer.orifice"),
        ("wren", {"intake.throttle_diameter": "5 mm"}, "intake.throttle_diameter"),
        ("plover", {"tank.feed": "gravity"}, "tank.feed"),
    ],
)
def test_what_does_not_work_names_the_nearest_that_does(
    name: str, put: dict[str, object], path: str
) -> None:
    faults = [one for one in metered(name, put).faults if one.path == path]
    assert len(faults) == 1
    assert "nearest that works" in faults[0].cure
    nearest = re.search(r'"([^"]+)"', faults[0].cure)[1]
    mended = metered(name, {**put, path: nearest})
    assert path not in [one.path for one in mended.faults]


def test_of_a_large_injector_a_lower_pressure_does_too() -> None:
    put = {**INJECTED, "injector.flow": "200 cm^3/min"}
    (fault,) = [one for one in metered("wren", put).faults if one.path == "injector.flow"]
    at = re.search(r'injector\.pressure = "([^"]+)"', fault.cure)[1]
    mended = metered("wren", {**put, "injector.pressure": at})
    assert "injector.flow" not in [one.path for one in mended.faults]


def test_where_no_injector_does_it_says_so() -> None:
    put = {**INJECTED, "injector.smallest": "10 ms", "injector.flow": "100 cm^3/min"}
    (fault,) = [one for one in metered("wren", put).faults if one.path == "injector.flow"]
    assert "no one injector is" in fault.fault


def test_dead_times_and_pressures_not_told_are_not_guessed() -> None:
    put = {**INJECTED, "injector.voltage": "24 V", "injector.pressure": "0.5 bar"}
    found = sheet("wren", put)
    assert {"injector.voltage", "injector.pressure"} <= {one.path for one in found.faults}
    assert found.injector is None
    assert "24 V" in str(found)


def test_a_battery_that_sags_opens_it_later() -> None:
    found = sheet("v_twin").injector
    assert found.cranking_voltage < 12.6
    assert found.pulses[0].dead_time > found.pulses[-1].dead_time


def test_a_gas_through_a_carburettor_is_refused() -> None:
    found = sheet("wren", {"intake.fuel": "propane", "intake.mixture_by": "carburettor"})
    assert found.faults[0].path == "intake.mixture_by"
    assert found.mixer is None


@pytest.mark.parametrize("name", ["wren", "heron", "plover"])
def test_the_jets_wanted_give_the_mixture_asked(name: str) -> None:
    found = sheet(name)
    asked = found.plain.intake.equivalence_ratio
    most = max(found.mixer.drawings, key=lambda one: one.point.at.fuel_flow)
    assert most.mixture == pytest.approx(asked, rel=1e-6)
    if found.mixer.idle_wanted is not None:
        assert found.mixer.at_idle.mixture == pytest.approx(asked, rel=1e-6)


def test_an_orifice_by_hand() -> None:
    """wren at full speed: Σ over half a sine of √Δp, its venturi isentropic, in 200 steps."""
    found = sheet("wren")
    most = found.mixer.drawings[-1]
    mean, share = most.point.at.air_flow, 0.27
    area = 0.85 * math.pi / 4 * found.mixer.venturi**2
    fuel = 0.0
    for step in range(200):
        flow = mean * math.pi / (2 * share) * math.sin(math.pi * (step + 0.5) / 200)
        low, high = 0.55, 1.0  # pressure ratio at which the nozzle passes it
        for _ in range(60):
            ratio = 0.5 * (low + high)
            passes = area * 101_300 / math.sqrt(287.04 * 293.15) * math.sqrt(
                7 * (ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4))
            )  # fmt: skip
            low, high = (ratio, high) if passes > flow else (low, ratio)
        drawn = 101_300 * (1 - ratio) - 745 * 9.81 * 0.01 - 4 * 22e-3 / 1.5e-3
        fuel += share / 200 * 0.7 * math.sqrt(2 * 745 * max(drawn, 0.0))
    wanted = math.sqrt(4 / math.pi * most.point.at.fuel_flow / fuel)
    assert found.mixer.wanted == pytest.approx(wanted, rel=0.01)


def test_a_gas_mixer_wants_no_priming_and_says_where_gas_goes() -> None:
    found = sheet("plover")
    assert list(priming_words(found)) == ["A gas wants no priming."]
    assert any("sink and pool" in one.text for one in sheet_cautions(found))
    assert "bottle" in valve_words(found)


def test_priming_is_the_start_models() -> None:
    from dataclasses import replace

    from firstfire.runs.cranking import cranked
    from firstfire.runs.start.asked import Asked, Wrong
    from firstfire.runs.start.priming import priming
    from firstfire.runs.start.turned_by import turned_by

    found = sheet("wren")
    shaft = cranked(found.plain, shaft=turned_by(found.plain, Wrong())).shaft
    want = priming(found.plain, replace(Asked(), enriched=1.0), shaft)
    assert found.cold.primed == want
    said = " ".join(priming_words(found))
    assert f"from {want.too_many} on" in said
    assert "over-primed" in said
    assert "lead earthed" in said


def test_what_draws_no_charge_is_not_said_to_want_priming() -> None:
    """8 N·m of starter don't bring four hundred cubic centimetres over: no fuel helps there."""
    found = sheet("v_twin")
    assert found.cold.primed is None
    (said,) = priming_words(found)
    assert said.startswith("Priming is not judged")
    assert "over its tops" in said
    told = {one["subject"] for one in json.loads(found.to_json())["not_judged"]}
    assert "priming" in told


def test_a_start_map_does_away_with_priming_on_a_mild_day() -> None:
    """Turned over, its first charge is too lean as metered for a warm engine, not by the map."""
    from dataclasses import replace

    from firstfire.runs.cranking import cranked
    from firstfire.runs.start.asked import CHOKED, Asked, Wrong
    from firstfire.runs.start.priming import sparks_lost
    from firstfire.runs.start.turned_by import turned_by

    plain = resolve(with_values(engine_of("v_twin"), {"starter.stall_torque": "100 N*m"}))
    turned = cranked(plain, shaft=turned_by(plain, Wrong()))
    assert turned.over
    bare, mapped = (replace(Asked(), enriched=much) for much in (1.0, CHOKED))
    lost = {
        (asked.enriched, pulses): sparks_lost(plain, replace(asked, prime=pulses), turned.shaft)
        for asked, pulses in ((bare, 0), (bare, 2), (mapped, 0))
    }
    assert lost == {(1.0, 0): 6, (1.0, 2): 0, (CHOKED, 0): 0}


def test_cold_engines_want_more() -> None:
    found = sheet("wren", INJECTED).cold
    for each in (found.start, found.warm_up):
        told = [9.0 if one.times is None else one.times for one in each]
        assert told == sorted(told, reverse=True)
        assert told[0] > told[-1]
    assert found.warm_up[-1].times < 1.3


def test_the_airs_density_is_a_perfect_gases() -> None:
    """Dry: 293.15/T; the day's steam is 1.2 % of the air and moves that by little."""
    for one in sheet("wren").cold.density:
        assert one.times == pytest.approx(293.15 / one.temperature, rel=0.02)
    dry = fuel_sheet(with_values(engine_of("plover"), {"surroundings.humidity": 0.0})).cold
    for one in dry.density:
        assert one.times == pytest.approx(293.15 / one.temperature, rel=1e-6)
    assert dry.per_kilopascal == pytest.approx(1 / 101.3, rel=1e-6)


def test_tank_and_hose_by_hand() -> None:
    """Poiseuille in 400 mm of 4 mm hose; a full tank over the flow; 3 times the loss and 10 mm."""
    found = sheet("wren")
    most = found.points.most.at.fuel_flow / 745.0
    feed = found.feed
    assert feed.most == pytest.approx(most, rel=1e-9)
    assert feed.tank_full == pytest.approx(250e-6 / most, rel=1e-9)
    loss = 128 * 745.0 * 0.6e-6 * 0.4 * most / (math.pi * 4e-3**4)
    assert feed.hose_loss == pytest.approx(loss, rel=1e-6)
    assert feed.head_wanted == pytest.approx(0.01 + 3 * loss / (745.0 * 9.81), rel=1e-6)
    assert feed.pump_flow is None
    pumped = sheet("v_twin").feed
    assert pumped.pump_power == pytest.approx(pumped.pump_flow * 3e5 / 0.15, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "put"), [("wren", {}), ("heron", {}), ("plover", {}), ("v_twin", {}),
                      ("wren", INJECTED)],
)  # fmt: skip
def test_it_reads_well_and_is_a_contract(name: str, put: dict[str, object]) -> None:
    jsonschema = pytest.importorskip("jsonschema")
    found = sheet(name, put)
    text = str(found)
    assert max(map(len, text.splitlines())) <= 80
    assert "nan" not in text.lower().split()
    for hazard in ("fuel valve", "fuel: ", "stop: "):
        assert f"{hazard}" in text
    told = json.loads(found.to_json())
    jsonschema.validate(told, schema_of("fuel"))
    assert told["schema"] == "firstfire.fuel/1"
    assert told["provenance"]["inputs_sha256"] == found.plain.sha256


def test_an_engine_that_cannot_idle_is_not_judged_there() -> None:
    found = sheet("heron", {"rings.count": 3, "doubt.friction.ring": 15})
    assert found.points.idle is None
    told = json.loads(found.to_json())
    assert told["not_judged"][0]["subject"] == "idle"
    assert "not judged" in str(found)


def test_it_stops_when_asked() -> None:
    with pytest.raises(Stopped):
        fuel_sheet(engine_of("wren"), stop=lambda: True)


@pytest.mark.parametrize("name", ["wren", "v_twin"])
def test_on_the_page_every_number_opens_to_its_working(name, monkeypatch) -> None:
    found, run = sheet(name), []
    monkeypatch.setattr(together, "fuel_sheet", lambda engine: run.append(engine) or found)
    data = _one(engine_of(name), "fuel", "Fuel", lambda _: None, Sheets())
    assert len(run) == 1
    assert set(data["whys"]) == {f"set.fuel.fuel.{ident}" for ident in sheets_of_fuel(found)}
    assert len(data["whys"]) > 4
    judged = {f"set.fuel.fuel.{n}" for n, (one, _) in sheets_of_fuel(found).items() if one.judged}
    for ident in judged:
        assert "Worked through" in data["whys"][ident]
        assert "What moves it" in data["whys"][ident]
