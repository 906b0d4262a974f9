"""Opened numbers by hand: what each working puts in, of stand-ins with round sizes."""

from __future__ import annotations

import math
from types import SimpleNamespace as Of

import numpy as np
import pytest

from firstfire.engine.arithmetic import worked_out
from firstfire.engine.records import Line
from firstfire.loads import cam_forces
from firstfire.setup.number import Number
from firstfire.setup.opened import (
    cam_sheets,
    explain,
    fits_sheets,
    fuel_meter_sheets,
    fuel_sheets,
    gap_sheets,
    levers,
    spark_sheets,
    spring_sheets,
    suction_sheets,
    timing_sheets,
)
from firstfire.setup.opened.sheet import Sheet

MM = 1e-3
DEG = math.pi / 180


def engine(**values):
    """An engine with such values, by path with two underscores for the dot."""
    told = {path.replace("__", "."): value for path, value in values.items()}
    return Of(values=lambda _: told, name="Trial")


def found(sheet):
    """Every number of a working by its name."""
    values = {**sheet.paths, **{name: one.value for name, one in sheet.given.items()}}
    for line in sheet.lines:
        values[line.name] = worked_out(line.expression, values)
    return values


def test_what_moves_a_number_by_a_tenth():
    """A square by 1.21, what divides by 1/1.1 = 0.909, what is added to as much by 1.05."""
    lines = [Line("limit", "a + b", "", ""), Line("value", "a**2 / c", "", "")]
    put = {"a": 2.0, "b": 2.0, "c": 5.0, "nothing": 0.0, "hidden": 3.0}
    told = levers.what_moves(put, lines, lambda name: "" if name == "hidden" else name)
    assert told == [
        "a 10 % more: it × 1.21", "c 10 % more: it × 0.909", "a 10 % more: its limit × 1.05",
        "b 10 % more: its limit × 1.05",
    ]  # fmt: skip


def test_how_many_times_a_number_keeps_to_its_limit():
    def factor(value, limit, side):
        return explain._factor(Number("", "", value, "", limit, side))

    assert factor(6.0, 3.0, "at least") == pytest.approx(2.0)
    assert factor(3.0, 6.0, "at most") == pytest.approx(2.0)
    assert factor(3.0, None, "") is None
    assert factor(3.0, 0.0, "at least") is None


def test_numbers_of_a_room_are_listed_with_their_limits(monkeypatch):
    told = {"room.one": (Number("one", "the first", 2.0, "N", 3.0, "at most"), None),
            "room.two": (Number("two", "the other", math.nan, "N", why="no"), None)}  # fmt: skip
    monkeypatch.setattr(explain, "numbers_of", lambda of, room: {("engine", "cam"): told}[of, room])
    text = explain.list_text("engine", "cam", width=80).replace("\u202f", " ")
    assert "  room.one: the first: 2 N holds <3N" in text
    assert "  room.two: the other: not judged" in text


def test_a_number_opens_with_what_was_put_in(monkeypatch):
    """2 N over 4 mm²: 0.5 MPa of the 1 that it may have."""
    sheet = Sheet({})
    sheet.put("force", "its force", 2.0, "N", "a scale")
    sheet.put("area", "its area", 4e-6, "m^2", "a rule")
    sheet.found("value", "pressure", "Pa", "force / area")
    number = Number("one", "pressure", 5e5, "Pa", 1e6, "at most")
    trial, told = engine(), {"cam.one": (number, sheet)}
    monkeypatch.setattr(
        explain, "numbers_of", lambda of, room: {(id(trial), "cam"): told}[id(of), room]
    )
    shown = explain.opened(trial, "cam.one")
    assert [(one.name, one.value) for one in shown.numbers] == [("force", 2.0), ("area", 4e-6)]
    assert [line.value for line in shown.working] == pytest.approx([5e5])
    assert (shown.id, shown.word) == ("cam.one", "holds")
    assert shown.factor == pytest.approx(2.0)
    assert shown.sentence.startswith("Trial: pressure: ")
    with pytest.raises(explain.FirstfireError, match=r"nearest are cam\.one"):
        explain.opened(trial, "cam.two")


BELT = Of(
    cam_drive=Of(teeth_crank=12, teeth_cam=40, pitch=5 * math.pi * MM, width=10 * MM)
)  # fmt: skip


def test_a_belts_pitch_and_give(monkeypatch):
    """Wheels of 60 and 200 mm at 250: 240 mm. 2 kg/m² of 10 mm under 50 N: 50 m/s over 0.48 m."""
    trial = engine(cam_drive__tension=50.0, cam_drive__centre_distance=0.25)
    trial.catalog = "catalog"
    row = {"mass_per_area": Of(si=2.0)}
    monkeypatch.setattr(fits_sheets, "belt_row", lambda *of: {(id(BELT), "catalog"): row}[
        id(of[0]), of[1]
    ])  # fmt: skip
    pitch, gives = fits_sheets._belt(trial, BELT, Of(pitch=1.0, press=5.0, gives=1.0))
    assert found(pitch[1])["lean"] == pytest.approx(70 * MM)
    assert found(pitch[1])["span"] == pytest.approx(240 * MM)
    assert found(pitch[1])["value"] == pytest.approx(50 / 0.48)
    assert found(gives[1])["value"] == pytest.approx(6 * MM)


def test_an_o_ring_opened(monkeypatch):
    """17.8 and 2.2 mm on 22: 2.2/1.1 thick. A gland of 1.7 squeezes it by 0.15, and it fills π of
    1.7 · 3 mm²."""
    monkeypatch.setattr(fits_sheets, "groove_diameter", lambda parts: {"parts": 22 * MM}[parts])
    trial = engine(rings__section=2.2 * MM, rings__inside_diameter=17.8 * MM,
                   rings__groove_width=3 * MM, cylinder__bore=25.4 * MM)  # fmt: skip
    plain = Of(cylinders=("parts",))
    ring = Of(squeeze=(0.15, 0.15), stretch=0.2, fill=0.6)
    squeeze, stretch, fill = fits_sheets._oring(trial, plain, 1, ring)
    assert found(squeeze[1])["value"] == pytest.approx(0.15)
    assert found(stretch[1])["value"] == pytest.approx(4.2 / 17.8)
    assert found(fill[1])["value"] == pytest.approx(math.pi / 5.1)


def test_a_whole_jet_has_an_area_of_one():
    assert math.pi / 4 * fuel_meter_sheets._WHOLE**2 == pytest.approx(1.0)


def pulse(name, *fuel, asked, flow, dead=MM):
    return Of(point=Of(kind="full", name=name, at=Of(fuel=fuel, seconds=0.04)), flow=flow,
              asked=asked, dead_time=dead, times=(1, 1))  # fmt: skip


def test_the_injector_that_full_power_asks_for(monkeypatch):
    """What asks 2 where 1 of its 3 g/s flows is harder put than what asks 3 where 2 flow; of 0.8 of
    40 ms one millisecond opens: 6 mg in 31 ms, by 3, of 750 kg/m³."""
    monkeypatch.setattr(
        fuel_meter_sheets, "flow_for", lambda one, shared: {False: one.asked}[shared]
    )
    weak = pulse("hard", 6e-6, 5e-6, asked=2.0, flow=MM)
    strong = pulse("easy", 9e-6, 9e-6, asked=3.0, flow=2 * MM)
    facts = Of(pulses=[strong, weak], shared=False, flow=3 * MM, idle=strong)
    values = engine(injector__flow=2e-6, injector__flow_at=3e5, injector__pressure=12e5,
                    injector__smallest=2 * MM).values(1)  # fmt: skip
    sheet = Sheet(values)
    fuel = Of(fuel=Of(density=750.0))
    fuel_meter_sheets.InjectorSheets(fuel, facts, sheet).of("flow_for_power")
    told = found(sheet)
    duty = fuel_meter_sheets.MOST_DUTY
    assert (told["mass"], told["pulses"], told["there"]) == pytest.approx((6e-6, 1.0, 3.0))
    assert told["limit"] == pytest.approx(6e-6 / (duty * 0.04 - 1e-3) * 3.0 / 750.0)
    # Four times the pressure passes twice as much.
    assert told["value"] == pytest.approx(4e-6 * math.sqrt(fuel_meter_sheets.TOLD_DENSITY / 750.0))
    idle = Sheet(values)
    fuel_meter_sheets.InjectorSheets(fuel, facts, idle).of("flow_for_idle")
    assert found(idle)["there"] == pytest.approx(1.5)
    assert found(idle)["limit"] == pytest.approx(9e-6 / (2 * MM) * 1.5 / 750.0)


def mixer(monkeypatch):
    """Two throats; at idle 4 mg/s, at most 6 g/s of air; 100 Pa draw no fuel."""
    plain = Of(surroundings=Of(air_temperature=300.0), name="plain")
    fuel = Of(density=800.0, name="fuel")
    most = Of(name="most", at=Of(air_flow=6 * MM))
    idle = Of(name="idle", at=Of(fuel_flow=4e-6))
    facts = Of(plain=plain, fuel=fuel, points=Of(full=[2, 3], most=most, idle=idle))

    def law(of):
        def asked(*given):
            return of[tuple(getattr(one, "name", one) for one in given)]

        return asked

    flows = {
        ("plain", "fuel", "most", fuel_meter_sheets._WHOLE): 12.0,
        ("plain", "fuel", "idle", MM): 1e-6,
    }
    for name, told in (
        ("peak", {("plain", 2): 2 * MM, ("plain", 3): 3 * MM}), ("throats", {("plain",): 2}),
        ("held_back", {("plain", "fuel"): 100.0}), ("main_fuel", flows),
        ("fuel_share", {("plain",): 0.08}), ("behind_idle", {("plain", "idle"): 500.0}),
    ):  # fmt: skip
        monkeypatch.setattr(fuel_meter_sheets, name, law(told))
    sheet = Sheet(engine(
        surroundings__air_pressure=1e5, carburettor__venturi_diameter=10 * MM
    ).values(1))  # fmt: skip
    return fuel_meter_sheets.ThroatSheets(facts, Of(gas=False, jet=MM), sheet), sheet


def test_the_widest_venturi_draws_four_times_what_draws_no_fuel(monkeypatch):
    throat, sheet = mixer(monkeypatch)
    throat.of("venturi_widest")
    assert (found(sheet)["drawn"], found(sheet)["most"]) == pytest.approx((400.0, 2 * MM))


def test_the_narrowest_venturi_passes_the_most(monkeypatch):
    throat, sheet = mixer(monkeypatch)
    throat.of("venturi")
    assert found(sheet)["most"] == pytest.approx(3 * MM)


def test_a_jet_for_one_of_two_throats(monkeypatch):
    """3 g/s of air by 0.08, through 12 kg/s of each m²: √(4/π · 2 · 10⁻⁵)."""
    throat, sheet = mixer(monkeypatch)
    throat.of("jet")
    assert found(sheet)["air"] == pytest.approx(3 * MM)
    assert found(sheet)["value"] == pytest.approx(math.sqrt(4 / math.pi * 2e-5))


def test_an_idle_jet_for_one_of_two_throats(monkeypatch):
    """2 mg/s, one of it by the main jet; √(2 · 800 · 400) = 800 kg/s of each m²."""
    throat, sheet = mixer(monkeypatch)
    throat.of("idle_jet")
    told = found(sheet)
    assert (told["wanted"], told["main"]) == pytest.approx((2e-6, 1e-6))
    each = fuel_meter_sheets.JET * 800
    assert told["value"] == pytest.approx(math.sqrt(4 / math.pi * 1e-6 / each))


def test_a_throttle_for_one_of_two_throats(monkeypatch):
    """Air of 1.2 kg/m³; 6 g/s in two throats, a half of the time: 2.5 l/s by π/1."""
    plain = Of(surroundings=Of(air_pressure=1.2 * 287.04 * 300, air_temperature=300.0))
    monkeypatch.setattr(fuel_sheets, "throats", lambda _: 2)
    monkeypatch.setattr(fuel_sheets, "share_flowing", lambda _: 0.5)
    sheet = Sheet({"intake.throttle_diameter": 10 * MM})
    full = [Of(at=Of(air_flow=one * MM)) for one in (5, 6, 4)]
    fuel_sheets._throttle(Of(plain=plain, points=Of(full=full)), sheet)
    told = found(sheet)
    assert (told["air"], told["dense"]) == pytest.approx((3 * MM, 1.2))
    assert told["peak"] == pytest.approx(2.5 * MM * math.pi)


@pytest.mark.parametrize(
    ("flow", "factor"), [(math.pi * 1e-6, 64 / 1000), (math.pi * 1e-5, 0.3164 / 10)]
)
def test_a_hose_costs_by_the_law_that_holds_there(flow, factor):
    """4 Q/(π d ν) of 4 mm and 1 mm²/s: 1000, smooth, or 10 000, whose fourth root is 10. At 1/4 and
    10/4 m/s, 400 diameters long, of 800 kg/m³."""
    sheet = Sheet({"tank.hose_length": 1.6, "tank.hose_bore": 4 * MM})
    fuel = Of(density=800.0, viscosity=1e-6)
    bore = sheet.path("tank.hose_bore")
    fuel_sheets._flowing(Of(fuel=fuel, feed=Of(most=flow)), sheet, bore, 4 * MM)
    speed = flow / (math.pi * 4e-6)
    assert found(sheet)["loss"] == pytest.approx(factor * 400 * 400 * speed**2)


def test_how_long_an_injector_is_on():
    """6 mg at 2 g/s and 1 ms."""
    one = Of(point=Of(at=Of(fuel=(6e-6,)), name="full, 3000 rpm"), flow=2 * MM, dead_time=MM,
             times=(4 * MM,))  # fmt: skip
    told = fuel_sheets._pulses(Of(injector=Of(pulses=[one]), engine=engine()))
    assert found(told["full-3000-rpm.pulse"][1])["value"] == pytest.approx(4 * MM)


def test_points_bounce_where_their_spring_is_too_slow():
    """Mass by rise are √3/10, and the lobe's hardest 10/√3: √(4/1) by a ramp of 3 is 6 rad/s of the
    lobe, 12 of the crank where the lobe is on the cam."""
    trial = engine(
        spark__points__spring_force=4.0, spark__points__arm_mass=0.1,
        spark__points__lobe_rise=math.sqrt(3), spark__points__lobe_ramp=3.0,
    )  # fmt: skip
    for wasted, speed in ((False, 12.0), (True, 6.0)):
        sheet = spark_sheets._bounce(Of(engine=trial, plain=Of(spark=Of(wasted=wasted))))
        assert found(sheet)["value"] == pytest.approx(speed)


COIL = {
    "spark__coil__resistance": 3.0, "spark__coil__resistor": 1.0, "spark__coil__driver_drop": 2.0,
    "spark__coil__inductance": 8 * MM, "spark__coil__turns_ratio": 100.0,
    "spark__coil__capacitance": 50e-12, "spark__coil__passed_on": 0.5,
    "spark__coil__driver_clamp": 400.0, "plug__gap": 0.6 * MM,
}  # fmt: skip


def jump(**put):
    gas = Of(pressure=101_325.0, temperature=293.15)
    told = {"name": "cranked", "supply": 10.0, "charging": 2 * MM * math.log(2), "gas": gas,
            "why_not": "", "wants": 31e3, "wants_most": 15e3, "gap": 10 * MM, "gives": 1.0,
            "gives_least": 1.0, "gap_that_would": 1 * MM}  # fmt: skip
    return Of(**{**told, **put})


def spark_found(**put):
    circuit = Of(clamp=put.pop("clamp", math.inf), condenser=0.0)
    return Of(engine=engine(**COIL), circuit=circuit, **put)


def test_what_a_coil_gives():
    """(10 - 2) V over 4 Ω are 2 A, in ln 2 of its 2 ms half of it: 4 mJ. √(2 · 0.5 · 4 mJ / 50 pF)
    are √80 · 10⁶ V; the limit is 15 kV over three quarters."""
    number, sheet = spark_sheets._gives(spark_found(), jump())
    told = found(sheet)
    assert (told["current"], told["energy"]) == pytest.approx((1.0, 4 * MM))
    assert told["value"] == pytest.approx(math.sqrt(4 * MM / 50e-12))
    assert number.limit == pytest.approx(20e3)
    # A driver of 400 V lets 100 times that through.
    _, clamped = spark_sheets._gives(spark_found(clamp=400.0), jump(supply=40.0))
    assert found(clamped)["value"] == pytest.approx(40e3)


def test_what_a_plug_asks_for():
    """A centimetre at 1 atm and 20 °C: 24 220 and 6 080 V; what its pair asks for comes on top."""
    _, alone = spark_sheets._wants(spark_found(), jump(wants=30_300.0))
    assert found(alone)["reduced"] == pytest.approx(1.0)
    assert found(alone)["value"] == pytest.approx(30_300)
    _, both = spark_sheets._wants(spark_found(), jump(wants=35_300.0))
    assert found(both)["other"] == pytest.approx(5000.0)


def test_the_widest_gap_that_surely_jumps():
    """24 360/16 + 6720/4 = 3202.5 V jump 1/16 bar cm at 20 °C, 0.617 mm at 1 atm."""
    worn = spark_sheets.WORN
    gas = Of(pressure=101_325.0, temperature=293.15)
    wants = spark_sheets.spark_gap.breakdown_voltage(10 * MM, gas.pressure, gas.temperature)
    hard = jump(wants=wants, gives_least=3202.5 * worn, gap_that_would=0.6 * MM)
    sheet = spark_sheets._gap(spark_found(jumps=[jump(wants=wants), hard]))
    told = found(sheet)
    assert told["root"] == pytest.approx(0.25)
    assert told["limit"] == pytest.approx(10 * MM / 1.01325 / 16)
    assert told["value"] == pytest.approx(0.6 * MM)
    pair = spark_sheets._gap(spark_found(jumps=[jump(wants=2 * wants)]))
    assert found(pair)["limit"] == pytest.approx(1 * MM)


@pytest.mark.parametrize(("offset", "own"), [(0.0, 90.0), (24.0, 0.0), (-24.0, 360.0)])
def test_how_far_a_piston_is_below_its_top(monkeypatch, offset, own):
    """15 and 25 mm: at 90° 20 mm; at its top, which an offset moves, none."""
    monkeypatch.setattr(timing_sheets, "mechanism", lambda _: (15 * MM, 25 * MM, offset * MM))
    sheet = Sheet({})
    timing_sheets._travel(Of(plain=Of(cylinders=("parts",))), sheet, 1, own * DEG)
    below = 20 * MM if own == 90.0 else 0.0
    assert found(sheet)["travel"] == pytest.approx(below, abs=1e-12)


def test_what_is_kept_when_the_inlet_shuts(monkeypatch):
    """Of a bottom 170° after top shut at 630°: 270° after top, 20 of 30 mm: 1 + 6 · 2/3 = 5."""
    monkeypatch.setattr(timing_sheets, "mechanism", lambda _: (15 * MM, 25 * MM, 0.0))
    monkeypatch.setattr(timing_sheets, "bottom_after_top", lambda _: 170 * DEG)
    trial = engine(cylinder__compression_ratio=7.0)
    of = Of(engine=trial, plain=Of(cylinders=("parts",)))
    sheet = timing_sheets._kept(of, 1, 630 * DEG)
    assert sheet.given["angle"].value == pytest.approx(270 * DEG)
    assert found(sheet)["ratio"] == pytest.approx(5.0)


def test_how_late_a_spark_comes(monkeypatch):
    """1 ms at 50 and 300 rad/s."""
    monkeypatch.setattr(timing_sheets, "latency_words", lambda _: "late")
    plain = Of(spark=Of(latency=MM),
               use=Of(cranking_speed=50.0, full_throttle_speeds=(200.0, 300.0)))  # fmt: skip
    of = Of(plain=plain, engine=engine(spark__latency=MM))
    for (_, (number, sheet)), angle in zip(timing_sheets._lags(of), (0.05, 0.3), strict=True):
        assert number.value == pytest.approx(angle)
        assert found(sheet)["value"] == pytest.approx(angle)


VALVES = {
    "valves__inlet__head_diameter": 20 * MM, "valves__exhaust__head_diameter": 10 * MM,
    "valves__inlet__lift": 3 * MM, "valves__inlet__throat_diameter": 5 * MM,
    "valves__inlet__stem_diameter": 4 * MM, "valves__inlet__spring_preload": 6.0,
    "valves__inlet__spring_rate": 2000.0, "valves__inlet__mass": 0.02,
    "cylinder__bore": 40 * MM, "cylinder__compression_ratio": 7.0,
}  # fmt: skip


def case(what="inlet valve to piston", **put):
    told = {"id": "late", "words": "", "later": 0.1, "lash": 0.2, "thrown_at": None}
    return Of(**{**told, "gap": Of(what=what, angle=90 * DEG, gap=1.0), **put})


def gap(monkeypatch, of):
    """A chamber of 6π cm³ over 40 mm, with a valve of 20 mm that leans so far that its sine is 0.6.

    The sweep of 36π cm³ over six is 15 mm high; at 90° the piston is 20 mm down.
    """
    parts = Of(head=Of(valve_axis_angle=math.asin(0.6)))
    plain = Of(cylinders=(parts,), name="plain")
    made = Of(which="inlet")
    monkeypatch.setattr(gap_sheets, "worked", lambda _: [made])
    monkeypatch.setattr(gap_sheets, "mechanism", lambda _: (15 * MM, 25 * MM, 0.0))
    monkeypatch.setattr(gap_sheets, "swept_volume", lambda _: 36e-6 * math.pi)
    monkeypatch.setattr(gap_sheets, "lift_over", lambda *given: {(90, 0.1, 0.2): [2 * MM]}[
        round(float(given[1][0]) / DEG), *given[2:]
    ])  # fmt: skip
    monkeypatch.setattr(gap_sheets, "through", lambda _, more: np.array([0.0, more, 2 * more]))
    monkeypatch.setattr(gap_sheets, "thrown_lift", lambda one, along, speed: {
        (id(made), 500.0): 4 * MM * along / along[2]
    }[id(one), speed])  # fmt: skip
    return gap_sheets.gap_sheet(engine(**VALVES), plain, of)


def test_a_gap_to_the_piston(monkeypatch):
    """15 and 20 mm, less 10 · 0.6 that its edge hangs lower, and 2 · 0.8 of its lift: 27.4."""
    _, sheet = gap(monkeypatch, case())
    assert found(sheet)["value"] == pytest.approx(27.4 * MM)


def test_a_valve_thrown_off_its_cam_is_looked_at_over_a_quarter_turn_more(monkeypatch):
    """Half of 4 mm at 90°."""
    _, sheet = gap(monkeypatch, case(thrown_at=500.0))
    assert found(sheet)["lift"] == pytest.approx(2 * MM)


def test_a_gap_to_the_roof(monkeypatch):
    """6π cm³ over π/4 (1600 + pocket · 500) mm², less 3 mm of lift."""
    _, sheet = gap(monkeypatch, case("inlet valve to roof", id="hung_inlet"))
    plan = 1600 + gap_sheets.POCKET_ROOF * 500
    assert found(sheet)["value"] == pytest.approx(24e3 / plan * MM - 3 * MM)


def test_numbers_of_a_suction_inlet(monkeypatch):
    """A throat of π/4 (25 - 16) mm². √(20 g / 2 N/mm) = √10 ms, from 6 N on the seat to 12 on the
    stop: arccos ½ = π/3. 0.4 m³/s through 20 mm² of 1.2 kg/m³; balanced at 2 mm."""
    plain = Of(use=Of(full_throttle_speeds=(200.0, 300.0)), name="plain")
    monkeypatch.setattr(suction_sheets, "drawn_in", lambda of, top: {
        ("plain", 300.0): (4e-4, 1.2)
    }[of.name, top])  # fmt: skip
    monkeypatch.setattr(suction_sheets, "flow_area", lambda of: {"plain": 20e-6}[of.name])
    of = Of(opens_at=1.0, shutting=1.0, shutting_angle=1.0, swing=1.0, gas_push=1.0,
            spring_on_stop=1.0, dances_at=1.0, hovers=2 * MM)  # fmt: skip
    told = {
        name: found(sheet)["value"]
        for name, (_, sheet) in suction_sheets.suction_sheets(engine(**VALVES), plain, of).items()
    }
    throat = math.pi / 4 * 9e-6
    time = math.sqrt(1e-5) * math.pi / 3
    assert told == pytest.approx({
        "opens_at": 6 / throat, "shutting": time, "lag": 300 * time,
        "swing": math.sqrt(1e5) / (2 * math.pi), "gas_push": 0.6 * 400 * throat, "stop_force": 12,
        "dance": math.sqrt((6000 + 6000) / 0.02) / (2 * math.pi),
    })  # fmt: skip


def test_numbers_of_a_spring():
    """Wire of 2 mm round 20, 6 active coils, 6 N and 2 N/mm, lifted 3 mm: 12 N. Wahl 39/36 +
    0.0615."""
    wound = Of(wire=2 * MM, mean=20 * MM, active=6.0, preload=6.0, rate=2000.0, stress=1.0,
               allowed=1.0, solid=1.0, fitted=1.0, free=1.0, surge=1.0, times=1.0)  # fmt: skip
    cam = Of(which="inlet", winding=wound)
    told = {
        name.removeprefix("spring."): found(sheet)["value"]
        for name, (_, sheet) in spring_sheets.spring_sheets(engine(**VALVES), cam, 400.0).items()
    }
    of = spring_sheets
    solid = 2 * MM * (6 + of.DEAD)
    fitted = solid + (1 + of.CLASH) * 3 * MM
    coils = of.DENSITY * math.pi**2 * 4e-6 * 20 * MM * 6 / 4
    surge = math.sqrt(2000 / coils) / 2
    assert told == pytest.approx({
        "rate": 16e-12 * of.SHEAR_MODULUS / (8 * 8e-6 * 6),
        "stress": (39 / 36 + 0.0615) * 8 * 12 * 20 * MM / (math.pi * 8e-9),
        "allowed": of.STRESS_SHARE * of.YIELD_SHARE * of.wire_strength(of.WIRE, 2 * MM),
        "solid": solid, "fitted": fitted, "free": fitted + 3 * MM, "surge": surge,
        "surge_times": surge * 4 * math.pi / 400,
    })  # fmt: skip


LIFTS = np.array([0.0, 1.0, 3.0, 1.0]) * MM
"""Of the valve, at four places of a cam."""


def cam(monkeypatch, **valve):
    """A cam whose valve of 20 g weighs on 6 N and 2 N/mm; accelerations and forces as written."""
    told = {"rocker": "none", "follower": "flat", "cam_law": "polynomial",
            "follower_radius": 5 * MM, "spring_preload": 6.0, "spring_rate": 2000.0,
            "lash": 0.2 * MM}  # fmt: skip
    made = Of(
        which="inlet", ratio=1.0, valve=Of(**{**told, **valve}), valve_lift=LIFTS,
        angle=np.array([-60.0, -30.0, 0.0, 30.0]) * DEG,
        rise=LIFTS + np.array([0.1, 0.2, 0.2, 0.2]) * MM,
        slope=np.array([1.0, 4.0, 0.0, -3.0]) * MM, second=np.array([9.0, 2.0, -6.0, 2.0]) * MM,
        third=np.array([50.0, 20.0, 0.0, -30.0]) * MM,
    )  # fmt: skip

    def law(of):
        def asked(one, speed):
            assert one is made
            return of[speed]

        return asked

    away = np.array([0.0, 9.0, -8.0, 3.0])
    fast = 100.0 * cam_forces.SURE
    monkeypatch.setattr(cam_sheets, "top_speed", lambda plain: {"plain": 100.0}[plain])
    monkeypatch.setattr(cam_forces, "acceleration", law({
        100.0: 1e4 * away, 1.0: away, fast: 1.5e4 * np.array([1.0, -1.0, -2.0, -3.0]),
    }))  # fmt: skip
    monkeypatch.setattr(cam_forces, "cam_force", law({
        0.0: np.array([6.0, 8.0, 12.0, 8.0]), 100.0: np.array([6.0, 20.0, 3.0, 9.0]),
    }))  # fmt: skip
    monkeypatch.setattr(cam_forces, "valve_force", law({
        0.0: np.array([6.0, 8.0, 12.0, 8.1]), fast: np.array([-9.0, 3.0, 2.0, 4.0]),
    }))  # fmt: skip
    return cam_sheets.CamSheets("plain", made)


def cam_told(one, ident, **values):
    put = {**VALVES, "valves__inlet__base_radius": 10 * MM,
           "valves__inlet__follower_radius": 5 * MM, "valves__inlet__lash": 0.2 * MM,
           **values}  # fmt: skip
    sheet = Sheet(engine(**put).values(1))
    assert one.of(ident, sheet)
    return sheet, found(sheet)


def test_where_a_cam_is_hardest(monkeypatch):
    """At 100 rad/s, 50 of the cam: 2500 times what stands at the place that is worst."""
    one = cam(monkeypatch)
    assert cam_told(one, "acceleration")[1]["value"] == pytest.approx(2 * MM * 2500)
    assert cam_told(one, "deceleration")[1]["value"] == pytest.approx(6 * MM * 2500)
    sheet, told = cam_told(one, "jerk")  # the valve is shut at the first place
    assert told["value"] == pytest.approx(30 * MM * 50**3)
    assert "30.0° of the cam after its nose" in sheet.given["third"].by
    assert cam_told(one, "foot_width")[1]["value"] == pytest.approx(8 * MM)
    assert cam_told(one, "lift_at_cam")[1]["value"] == pytest.approx(3.2 * MM)


def test_a_ramp_ends_where_the_lash_over_the_rockers_ratio_is_taken_up(monkeypatch):
    """0.2 mm of lash are 0.05 at a cam that a rocker lifts by four, below every place; 0.2 without
    one, where the first place alone is lower."""
    one = cam(monkeypatch)
    assert cam_told(one, "ramp_speed")[1]["slope"] == pytest.approx(1 * MM)
    one.made.ratio = 4.0
    one.made.rise = np.array([0.04, 0.06, 3.2, 0.2]) * MM
    assert cam_told(one, "ramp_speed")[1]["value"] == pytest.approx(1 * MM * 50)


def test_the_force_on_a_cam_and_whether_gas_is_in_it(monkeypatch):
    """20 N at 1 mm of lift, moving: 6 + 2 N of spring and 0.02 kg by 5 m/s²."""
    one = cam(monkeypatch)
    _, told = cam_told(one, "force")
    assert told["spring"] == pytest.approx(8.0)
    assert told["value"] == pytest.approx(8.0 + 0.02 * 5)
    pressed = [cam_sheets._pressed(one.made, place) for place in range(4)]
    assert pressed == [False, False, False, True]


def test_what_a_spring_has_left_and_where_it_floats(monkeypatch):
    """Least where it slows: 2 of 3, 2 and 4 N, at the nose. 12 N hold 8 a speed of 1, 8 hold 3 if
    that were away: of the nose, 2 √(12/(0.02 · 6 mm))."""
    one = cam(monkeypatch)
    _, told = cam_told(one, "spare_force")
    turns = (cam_forces.SURE * 50) ** 2
    assert told["value"] == pytest.approx(12 - 0.02 * 6 * MM * turns)
    assert cam_told(one, "float_speed")[1]["value"] == pytest.approx(
        2 * math.sqrt(12 / (0.02 * 6 * MM))
    )


def test_a_cam_floats_first_where_force_over_what_throws_it_is_least(monkeypatch):
    """8 N by 1, 12 by 8 and 8 by 7 m/s² at a speed of 1: the last is 1.14, the nose 1.5. By 5 it is
    1.6, and the nose is first."""
    one = cam(monkeypatch)
    away = np.array([-90.0, -1.0, -8.0, -7.0])
    monkeypatch.setattr(cam_forces, "acceleration", lambda _, speed: {1.0: away}[speed])
    sheet, told = cam_told(one, "float_speed")
    assert told["lift"] == pytest.approx(1 * MM)
    assert sheet.given["second"].by == "the cam's profile, 30.0° of the cam after its nose"
    away[3] = -5.0
    assert cam_told(one, "float_speed")[1]["lift"] == pytest.approx(3 * MM)


def test_edges_of_a_cam(monkeypatch):
    """Flat: 10 + 3.2 - 6 mm at the nose. A roller of 5 mm finds the least edge that is convex, and
    the shallowest of what is hollower than itself."""
    one = cam(monkeypatch)
    monkeypatch.setattr(cam_sheets, "radii", lambda _: np.array([19.0, 13.0, 7.2, 13.0]) * MM)
    assert cam_told(one, "nose_radius")[1]["value"] == pytest.approx(7.2 * MM)
    rolls = cam(monkeypatch, follower="roller")
    bends = np.array([-9.0, 13.0, 8.0, -7.0]) * MM
    monkeypatch.setattr(cam_sheets, "radii", lambda _: bends)
    monkeypatch.setattr(cam_sheets, "paths", lambda _: list(bends + 5 * MM))
    monkeypatch.setattr(cam_sheets.cam_path, "path_radius", lambda path: path)
    # At the nose: r² / (r - h″) of the centre's path, r = 18.2 mm.
    _, told = cam_told(rolls, "nose_radius")
    assert told["value"] == pytest.approx(18.2**2 / (18.2 + 6) * MM - 5 * MM)
    # At the last place: away 16.2, slope -3, second 2.
    bends[1] = -2 * MM  # as hollow as a follower of 5 mm still fills
    _, told = cam_told(rolls, "hollow_radius")
    bend = (16.2**2 + 9) ** 1.5 / (16.2**2 + 18 - 16.2 * 2)
    assert told["value"] == pytest.approx((5 - bend) * MM)


def test_a_rollers_push_is_slanted(monkeypatch):
    """4 of 10 + 5 + 1.2 mm."""
    one = cam(monkeypatch, follower="roller")
    monkeypatch.setattr(cam_forces, "push_angles", lambda _: np.array([0.0, 0.3, 0.1, 0.2]))
    _, told = cam_told(one, "pressure_angle")
    assert told["value"] == pytest.approx(math.atan(4 / 16.2))


def test_the_place_of_the_worst_contact():
    """By force and by lift, a millimetre as much as a newton."""
    made = Of(valve_lift=LIFTS)
    force = np.array([20.0, 20.5, 12.0, 20.0])
    near = cam_sheets._place_of(Of(force=20.0, lift=1 * MM), made, force)
    assert near == 3
    assert cam_sheets._place_of(Of(force=20.6, lift=1 * MM), made, force) == 1
    assert cam_sheets._place_of(Of(force=20.0, lift=0.0), made, force) == 0
    # Off by 0.6 N is nearer than off by a millimetre.
    force = np.array([20.0, 20.6, 12.0, 14.0])
    assert cam_sheets._place_of(Of(force=20.0, lift=1 * MM), made, force) == 1


def test_a_contact_at_its_place(monkeypatch):
    """20 N at 1 mm of lift. Both of 200 GPa and Poisson's 0: 100 GPa; 13 mm on a flat."""
    one = cam(monkeypatch, cam_material="steel", tappet_material="steel")
    steel = {"modulus_in_plane": 200e9, "poisson": 0.0}

    class Named(dict):
        name = "steel"

    one.plain = Of(materials={"steel": Named(steel)})
    monkeypatch.setattr(cam_forces, "worst_contact", lambda plain, made, speed: {
        (id(one.plain), id(one.made), 100.0): Of(force=20.0, lift=1 * MM)
    }[id(plain), id(made), speed])  # fmt: skip
    monkeypatch.setattr(cam_sheets, "radii", lambda _: np.array([19.0, 13.0, 7.2, 13.0]) * MM)
    _, told = cam_told(one, "contact", valves__inlet__cam_width=8 * MM)
    force = 8.0 + 0.02 * 5
    assert told["value"] == pytest.approx(math.sqrt(force * 100e9 / (math.pi * 8 * MM * 13 * MM)))


def test_a_whole_timing_table_opened(monkeypatch):
    """36 teeth: 20° each; a quarter of a rim of 100 mm is 25π, five teeth of 3 mm are 15, deck 0.5
    and 20 mm down. Shut 90° after bottom a ratio of 7 keeps 5, and 1 bar reads 5^1.3 - 1."""
    monkeypatch.setattr(timing_sheets, "mechanism", lambda _: (15 * MM, 25 * MM, 0.0))
    monkeypatch.setattr(timing_sheets, "bottom_after_top", lambda _: math.pi)
    monkeypatch.setattr(timing_sheets, "latency_words", lambda _: None)
    trial = engine(
        cam_drive__teeth_cam=36, cam_drive__pitch=3 * MM, flywheel__diameter=0.1,
        cylinder__deck=0.5 * MM, cylinder__compression_ratio=7.0, surroundings__air_pressure=1e5,
    )  # fmt: skip
    event = Of(cylinder=1, id="inlet-opens", name="inlet opens", turn=90 * DEG, own=90 * DEG)
    place = Of(event=event, rim=1.0, pulley=1.0, cam=50 * DEG, depth=1.0)
    row = Of(teeth=-1, inlet_closes=630 * DEG, filling=1.0, gauge=1.0)
    of = Of(
        engine=trial, plain=Of(cylinders=("parts",)), places=[place], teeth=((row,),), tooth=1.0
    )
    told = {
        name: found(sheet)["value"] for name, (_, sheet) in timing_sheets.timing_sheets(of).items()
    }
    assert told == pytest.approx({
        "tooth": 20 * DEG, "1.inlet-opens.rim": 25 * math.pi * MM, "1.inlet-opens.pulley": 15 * MM,
        "1.inlet-opens.depth": 20.5 * MM, "1.teeth.-1.kept": 5 / 7,
        "1.teeth.-1.gauge": 1e5 * (5**1.3 - 1),
    })  # fmt: skip


def test_throttle_head_and_hose_of_a_fuel_chapter(monkeypatch):
    """A smooth hose costs 64/1000 · 400 · 400 · (1/4)² = 640 Pa, of which three times is kept in
    head of 800 kg/m³ over 10 mm. One of 6 mm is 2 wider than the narrowest."""
    monkeypatch.setattr(fuel_sheets, "throats", lambda _: 1)
    monkeypatch.setattr(fuel_sheets, "share_flowing", lambda _: 0.5)
    ids = {"throttle": None, "head": None, "hose_bore": 4 * MM}
    numbers = [Number(ident, "", 1.0, "m", limit) for ident, limit in ids.items()]
    monkeypatch.setattr(fuel_sheets, "fuel_numbers", lambda _: numbers)
    around = Of(air_pressure=1.2 * 287.04 * 300, air_temperature=300.0)
    trial = {"intake.throttle_diameter": 10 * MM, "tank.hose_length": 1.6, "tank.head": 0.3,
             "tank.hose_bore": 4 * MM}  # fmt: skip
    of = Of(
        engine=Of(values=lambda _: trial), injector=None, mixer=None,
        plain=Of(surroundings=around, tank=Of(hose_bore=4 * MM)),
        points=Of(full=[Of(at=Of(air_flow=6 * MM))]), fuel=Of(density=800.0, viscosity=1e-6),
        feed=Of(most=math.pi * 1e-6),
    )  # fmt: skip
    told = {name: found(sheet) for name, (_, sheet) in fuel_sheets.sheets_of_fuel(of).items()}
    assert told["throttle"]["air"] == pytest.approx(6 * MM)
    least = 0.01 + 3 * 640 / (800 * fuel_sheets.GRAVITY)
    assert told["head"]["limit"] == pytest.approx(least)
    assert told["head"]["value"] == pytest.approx(0.3)
    assert told["hose_bore"]["loss"] == pytest.approx(640)
    trial["tank.hose_bore"] = 6 * MM
    _, wider = fuel_sheets.sheets_of_fuel(of)["hose_bore"]
    assert found(wider)["room"] == pytest.approx(2 * MM)


def test_rings_and_belt_are_among_the_fits(monkeypatch):
    """Of two cylinders the second's ring has its number behind it."""
    parts = Of(cylinder=Of(bore=40 * MM))
    plain = Of(cylinders=(parts, parts), name="plain")
    trial = Of(catalog="catalog", name="made")
    ring = Of(squeeze=(0.1, 0.1))
    one = Number("squeeze", "", 0.1, "")
    whole = {("made", "plain"): [(one, "sheet")]}
    monkeypatch.setattr(fits_sheets, "resolve", lambda _: plain)
    monkeypatch.setattr(fits_sheets, "law_sheets", lambda _: {})
    monkeypatch.setattr(
        fits_sheets, "ring_fit", lambda of, _, *bore: {("plain", 40 * MM): ring}[of.name, bore[1]]
    )
    monkeypatch.setattr(
        fits_sheets,
        "belt_set",
        lambda of, rows: {("plain", "catalog"): ("belt", "")}[of.name, rows],
    )
    monkeypatch.setattr(fits_sheets, "_oring", lambda made, of, *_: whole[made.name, of.name])
    pitch = Number("belt_pitch", "", 1.0, "Hz")
    belts = {("made", "plain", "belt"): [(pitch, "sheet")]}
    monkeypatch.setattr(
        fits_sheets, "_belt", lambda made, of, belt: belts[made.name, of.name, belt]
    )
    assert list(fits_sheets.fits_sheets(trial)) == ["squeeze", "squeeze-2", "belt_pitch"]
