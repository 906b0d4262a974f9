"""What *Will it run* is told: a cycle's numbers, its sound, and a start as it was set."""

import base64
import math
import re
from types import SimpleNamespace
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.pages.served import ROOT

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError
from firstfire.pages.answers.bouts import Bouts, fitted, speed_of
from firstfire.pages.answers.messages import Asked
from firstfire.pages.answers.motion import DEGREES, motion
from firstfire.pages.answers.quick import Quick
from firstfire.pages.answers.run import cycle_charts, cycle_html, runs, sound
from firstfire.pages.answers.start_asked import start_set
from firstfire.pages.answers.start_told import Far, sound_of_start, start_told, way
from firstfire.runs.at import bout_at
from firstfire.runs.start.account import account, heard_at
from firstfire.runs.start.asked import Asked as Start

TEXT = (ROOT / "engines" / "wren.toml").read_text()


def asked(also=(), event="full_throttle@0"):
    return Asked(1, TEXT, TEXT, TEXT, "wren.toml", str(ROOT / "engines"), event=event, also=also)


@pytest.fixture(scope="module")
def turned(plain):
    return bout_at(plain, "cranking", plain.use.cranking_speed)


@pytest.fixture(scope="module")
def plover():
    plain = resolve(ff.read(ROOT / "engines" / "plover.toml"))
    return bout_at(plain, "full_throttle", plain.use.full_throttle_speeds[0]), plain


def test_cycle_and_sound_come_only_where_they_are_asked_for():
    quick = Quick()
    for also, kinds in (
        ((), set()),
        (("cycle",), {"cycle"}),
        (("cycle", "sound"), {"cycle", "sound"}),
    ):
        told = {one.kind for one in quick.answers(asked(also, "cranking"), lambda: False)}
        assert told & {"cycle", "sound"} == kinds


def pin_height(c, own):
    """By Pythagoras, mm: the throw's and the rod's ends, the bore's axis through the crank's."""
    turn = math.radians(own)
    across = c["throw"] * math.sin(turn)
    return c["throw"] * math.cos(turn) + math.sqrt(c["rod"] ** 2 - across**2)


@pytest.mark.parametrize("own", [-360, -270, -180, -91, 0, 45, 180, 333])
def test_the_gas_has_the_room_that_the_drawn_piston_leaves_it(fired, plain, own):
    """Volume over the piston is the clearance and bore times way, by plane geometry."""
    (c,) = motion(fired, plain)["cylinders"]
    assert c["x"] == 0.0  # its bore stands over its crank
    swept = math.pi * c["bore"] ** 2 * (pin_height(c, 0) - pin_height(c, own)) * 1e-3  # cm³
    clearance = plain.cylinders[0].cylinder.chamber_volume * 1e6
    told = c["volume"][own + 360]
    # A cycle's steps are up to some degrees long: between them the volume is drawn straight.
    assert told == pytest.approx(clearance + swept, rel=0.01)


def test_pressures_are_those_of_the_cycle(fired, plain):
    (c,) = motion(fired, plain)["cylinders"]
    curves = fired.point.fired.cycle.curves
    assert max(c["pressure"]) == pytest.approx(curves.pressure[:, 0].max() / 1e5, rel=2e-3)
    assert max(c["temperature"]) == pytest.approx(curves.temperature[:, 0].max() - 273.15, rel=2e-3)
    at = DEGREES[int(np.argmax(c["pressure"]))]
    assert at == pytest.approx(math.degrees(fired.point.peaks[0].angle), abs=2)


def words_at(c, angle):
    return [state for begins, state, _, _ in c["states"] if begins <= angle][-1]


def test_what_the_gas_does_follows_valves_and_spark(fired, plain):
    (c,) = motion(fired, plain)["cylinders"]
    valves = plain.cylinders[0].valves
    opens = 180 - math.degrees(valves.exhaust.opens_before_bottom)
    shuts = -180 + math.degrees(valves.inlet.closes_after_bottom)
    assert words_at(c, -270) == "comes"
    assert words_at(c, shuts - 2) in ("comes", "pushed")
    assert words_at(c, shuts + 2) == "squeezed"
    assert words_at(c, c["spark"] - 2) == "squeezed"
    assert words_at(c, 20) == "burns"
    assert words_at(c, opens - 3) == "works"
    assert words_at(c, opens + 3) == "leaves"
    assert c["spark"] == pytest.approx(math.degrees(fired.point.spark))
    begins = [at for at, *_ in c["states"]]
    assert begins == sorted(begins)
    assert begins[0] == -360


def test_turned_without_fuel_nothing_burns(turned, plain):
    (c,) = motion(turned, plain)["cylinders"]
    assert not c["fires"]
    assert not {"burns", "works"} & {state for _, state, *_ in c["states"]}
    assert max(c["flame"]) == 0.0


def test_a_suction_valve_is_open_where_gas_flows_through_it(plover):
    bout, plain = plover
    for c in motion(bout, plain)["cylinders"]:
        inlet = next(v for v in c["valves"] if v["which"] == "inlet")
        assert inlet["by_gas"]
        flow, lift = np.array(c["inlet"]), np.array(inlet["lift"])
        assert flow[lift == 0].max() < 0.1 * flow.max()
        assert lift[np.argmax(flow)] == pytest.approx(
            1e3 * plain.cylinders[0].valves.inlet.lift, rel=1e-3
        )


def test_two_cylinders_each_have_their_own_top(heron):
    bout, plain = heron
    one, other = motion(bout, plain)["cylinders"]
    assert (one["phase"], other["phase"]) == (0.0, 360.0)
    assert (other["turned"] - one["turned"]) % 360 == pytest.approx(180.0)
    for c in (one, other):
        assert DEGREES[int(np.argmax(c["pressure"]))] == pytest.approx(25, abs=10)


def test_every_curve_that_was_asked_for_is_there_with_its_cylinder(heron):
    charts = {chart.id: row for chart, row in cycle_charts(*heron)}
    wanted = {"loop": 0, "torque": 0, "mains": 0, "twist": 0}
    for row in (1, 2):
        names = ("pressure", "gas-temperature", "valve-flow", "joint-forces")
        wanted |= {f"{name}-{row}": row for name in names}
    assert charts == wanted
    html = cycle_html(*heron)
    assert all(f'data-chart="{name}" data-cylinder="{row}"' in html for name, row in wanted.items())


def points_of(chart, name):
    """A named curve of a chart read back in its own numbers."""
    drawn = ElementTree.fromstring(str(chart.svg))
    x, y = ([float(n) for n in drawn.get(f"data-{axis}").split()] for axis in "xy")
    (curve,) = (e for e in drawn.iter("polyline") if e.get("data-name") == name)
    pairs = [pair.split(",") for pair in curve.get("points").split()]
    return np.array([[_value(x, float(a)), _value(y, float(b))] for a, b in pairs])


def _value(scale, place):
    low, high, start, end, _ = scale
    return low + (place - start) / (end - start) * (high - low)


def test_charts_show_what_the_cycle_has(fired, plain):
    charts = {chart.id: chart for chart, _ in cycle_charts(fired, plain)}
    curves = fired.point.fired.cycle.curves
    warm = points_of(charts["gas-temperature-1"], "mean")
    assert warm[:, 1].max() == pytest.approx(curves.temperature[:, 0].max() - 273.15, rel=0.01)
    burned = points_of(charts["gas-temperature-1"], "burned")
    assert burned[0, 0] == pytest.approx(math.degrees(fired.point.spark), abs=10)
    flow = points_of(charts["valve-flow-1"], "exhaust")
    assert flow[:, 1].min() == pytest.approx(1e3 * curves.flow[:, 1].min(), rel=0.02)
    # What comes in by the inlet leaves by the exhaust, but for some per cent past rings and seats.
    through = [
        np.trapezoid(*points_of(charts["valve-flow-1"], n).T[::-1]) for n in ("inlet", "exhaust")
    ]
    assert -through[1] == pytest.approx(through[0], rel=0.1)


def test_the_rod_carries_gas_and_inertia(fired, plain):
    """At firing top the rod stands in line: gas less ``m r ω² (1 + r/l)`` (Heywood, ch. 2 and any
    text on machine dynamics: the first two terms of the acceleration at top)."""
    chart = next(chart for chart, _ in cycle_charts(fired, plain) if chart.id == "joint-forces-1")
    force = points_of(chart, "in the rod")
    at_top = float(np.interp(0.0, force[:, 0], force[:, 1])) * 1e3
    gas = fired.gases[0]
    over = float(np.interp(0.0, gas.angle, gas.pressure - gas.crankcase_pressure))
    (c,) = motion(fired, plain)["cylinders"]
    pressed = over * math.pi * (c["bore"] * 1e-3) ** 2
    assert at_top < pressed
    assert at_top == pytest.approx(pressed, rel=0.1)  # at 2000 rpm inertia takes some per cent


def test_a_sound_is_as_long_and_as_high_as_its_engine_turns(fired, plain):
    told = sound(fired, plain)
    samples = np.frombuffer(base64.b64decode(told["samples"]), "<i2").astype(float)
    seconds, firing = len(samples) / told["rate"], plain.use.full_throttle_speeds[0] / (4 * math.pi)
    # It is played round and round: a whole number of cycles.
    assert seconds * firing == pytest.approx(round(seconds * firing), abs=0.01)
    power = np.abs(np.fft.rfft(samples)) ** 2
    lines = np.fft.rfftfreq(len(samples), 1 / told["rate"])
    loudest = lines[np.argmax(power)]
    assert loudest / firing == pytest.approx(round(loudest / firing), abs=0.02)
    assert np.abs(samples).max() == pytest.approx(0.8 * 32767, abs=1)
    assert "Computed" in told["words"]
    assert "estimate" in told["words"]


def test_what_does_not_run_steadily_has_no_sound(turned, plain):
    first = bout_at(plain, "first_fire", plain.use.cranking_speed)
    for bout in (turned, first):
        told = sound(bout, plain)
        assert "samples" not in told
        assert "steadily" in told["words"]


def test_what_is_left_empty_is_as_the_engine_has_it(wren):
    found = start_set(wren, {"spark": " ", "starter": ""})
    assert (found.asked.advance, found.asked.throttle, found.asked.prime) == (None, None, 0.0)
    assert (found.engine, found.faults, found.engines) == (wren, (), 40)


def test_bare_numbers_have_the_unit_that_stands_beside_them(wren):
    said = {"spark": "8,5", "throttle": "40", "prime": "3", "temperature": "5", "stood": "12"}
    found = start_set(wren, {**said, "engines": "12"})
    assert found.asked.advance == pytest.approx(math.radians(8.5))
    assert found.asked.throttle == pytest.approx(0.4)
    assert found.asked.prime == 3.0
    plain = resolve(found.engine)
    assert plain.surroundings.air_temperature == pytest.approx(278.15)
    assert plain.use.stood == pytest.approx(12 * 3600)
    assert found.engines == 12


def test_another_starter_holds_for_this_start_alone(wren, plain):
    other = next(row.key for row in wren.catalog.rows("starter") if row.key != plain.starter.kind)
    assert resolve(start_set(wren, {"starter": other}).engine).starter.kind == other
    assert resolve(wren).starter.kind == plain.starter.kind


def test_all_that_is_wrong_is_told_at_its_field_at_once(wren):
    said = {"spark": "soon", "throttle": "400", "prime": "a lot", "temperature": "9 bar"}
    with pytest.raises(EngineFileError) as caught:
        start_set(wren, said)
    assert [one.path for one in caught.value.problems] == [*said]


def test_faults_are_given_with_their_size_and_told_wrong_at_their_own_field(wren):
    found = start_set(wren, {"fault.spark_early": "12,5 deg", "fault.spark_never": ""})
    assert set(found.faults) == {"spark_early=12.5 deg", "spark_never"}
    assert found.asked.wrong.no_spark
    with pytest.raises(EngineFileError) as caught:
        start_set(wren, {"fault.spark_early": "900 deg"})
    (problem,) = caught.value.problems
    assert problem.path == "fault.spark_early"
    assert "--" not in problem.cure + problem.fault


def test_nonsense_fields_are_none(wren):
    assert start_set(wren, {"fault.nothing": "1", "engines": "9999", "x": "y"}).engines == 40


def test_a_start_s_share_only_rises():
    clock = iter(np.arange(0.0, 100.0))
    far = Far(clock.__next__)
    parts = ["cranking", "kick-back", "torque by speed", "advance", "idle", "priming", "story",
             "over-run"]  # fmt: skip
    shares = [far.now(part, 0.0)["share"] for part in parts]
    shares += [far.now("odds", s)["share"] for s in (0.0, 0.5, 1.0)]
    shares += [far.now("changes", s)["share"] for s in (0.0, 1.0)]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0


@pytest.fixture(scope="module")
def told(wren):
    start = Start(seconds=3.0, after=1.0, seed=1, let_go_at=heard_at(resolve(wren)))
    return account(wren, start, count=8, tries=1)


@pytest.mark.slow
def test_a_start_is_told_as_the_account_has_it(told):
    found = way(told)
    spun = told.lived.spun
    assert found["time"][-1] == pytest.approx(float(spun.time[-1]), abs=1e-3)
    assert found["angle"][-1] == pytest.approx(math.degrees(spun.angle[-1]), abs=0.1)
    # Speed is what the angle grows by: each told apart.
    grown = np.gradient(np.radians(found["angle"]), found["time"]) * 30 / math.pi
    smooth = np.convolve(grown, np.ones(41) / 41, "valid")
    other = np.convolve(found["rpm"], np.ones(41) / 41, "valid")
    assert smooth == pytest.approx(other, rel=0.05, abs=20)
    assert len(found["burns"]) == len(told.lived.burns)
    assert len(found["burns"]) + len(found["misses"]) == len(told.lived.sparks)
    assert found["told"][0] == (0.0, "starter on")
    assert max(found["pressure"][0]) <= spun.pressure[:, 0].max() / 1e5 + 0.01
    assert found["pressure"][0][0] == pytest.approx(1.0, abs=0.1)
    loud = sound_of_start(told.exhaust)
    assert loud["from"] == pytest.approx(0.0, abs=0.01)
    samples = len(base64.b64decode(loud["samples"])) / 2
    assert samples / loud["rate"] == pytest.approx(found["time"][-1], abs=0.01)
    html = start_told(told, ("spark_never",))["html"]
    for words in ("Odds against the gauge", "Gas against friction", "Kick-back", "Cautions"):
        assert words in html
    assert "With the fault: spark_never" in html


def test_an_engine_of_one_piece_has_no_twist(fired, plain):
    from firstfire.report.charts import joint_forces

    bare = SimpleNamespace(joint_twists={})
    real = joint_forces.loads_at
    joint_forces.loads_at = lambda *_: bare
    try:
        assert joint_forces.twist_chart(fired, plain) is None
    finally:
        joint_forces.loads_at = real


def test_a_chosen_speed_is_its_own_event_within_reason(plain):
    assert fitted(plain, "full_throttle@2750rpm") == "full_throttle@2750rpm"
    assert speed_of(plain, "full_throttle@2750rpm") == pytest.approx(2750 * math.pi / 30)
    for said in (
        "@0rpm",
        "@199rpm",
        "@99999rpm",
        "@1e3rpm",
        "@-500rpm",
        "@rpm",
        "@NaNrpm",
        "@²rpm",
    ):
        assert fitted(plain, f"full_throttle{said}") == "full_throttle@0"
    assert fitted(plain, "idle@900rpm") == "idle"


def test_chosen_speeds_are_kept_warm_as_one(plain, fired):
    bouts = Bouts()
    for rpm in ("1900", "2000", "2100"):
        bouts.all_of_it(plain, "key", f"full_throttle@{rpm}rpm", lambda: False)
    assert len(bouts.warm) == 1
    first = bouts.first(plain, "full_throttle@2000rpm", lambda: False)
    # The walls are those of another speed: the gas is near, not the same.
    assert first.point.speed == pytest.approx(fired.point.speed)
    assert first.point.brake_power == pytest.approx(fired.point.brake_power, rel=0.05)


def test_what_comes_of_it_is_said_in_a_sentence(fired, turned, plain):
    """Power is torque times speed (definition): 2000 rpm is 209.44 rad/s."""
    said = runs(fired)
    torque, power = (float(w) for w in re.findall(r"([\d.]+)\u202f(?:N·m|W)", said))
    assert said.startswith("At 2000\u202frpm it gives ")
    assert power == pytest.approx(torque * 2000 * math.pi / 30, rel=0.01)
    assert "has to be turned with" in runs(turned)
    first = bout_at(plain, "first_fire", plain.use.cranking_speed)
    mean, strong = (float(w) for w in re.findall(r"([\d.]+)\u202fbar", runs(first)))
    assert 5 < mean < strong < 100
    assert all("estimate" in runs(bout) for bout in (fired, turned, first))
