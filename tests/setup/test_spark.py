"""The spark of an engine: cures that cure, angles by hand, leads, the table and its bounds."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from tests.drawing.conftest import FILES

import firstfire as ff
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError
from firstfire.formulas import knock, spark_gap
from firstfire.runs.point import operating_point
from firstfire.runs.spun import starter_line
from firstfire.runs.start.kick_back import KickBack
from firstfire.runs.walls import assumed_warm
from firstfire.setup.spark.advance_table import EARLIEST, advance_table, start_angle
from firstfire.setup.spark.chapter import advance_words
from firstfire.setup.spark.circuit import circuit
from firstfire.setup.spark.contract import SparkTold
from firstfire.setup.spark.knock_limit import waited
from firstfire.setup.spark.motion import turned, uneven
from firstfire.setup.spark.plug import jump
from firstfire.setup.spark.sparking import Sparking, spark
from firstfire.setup.spark.text import spark_text
from firstfire.setup.spark.triggers import PointsSet, SensorSet

DEG, RPM = math.pi / 180, math.pi / 30
NAMES = sorted(FILES)
NO_KICK = KickBack(math.inf, math.inf, 0.1, 0.1, math.inf, None)


def engine(name: str, **tried: str) -> ff.Engine:
    read = ff.read(FILES[name])
    values = {path.replace("__", "."): value for path, value in tried.items()}
    return ff.with_values(read, values) if values else read


@cache
def found(name: str, **tried: str) -> Sparking:
    return spark(engine(name, **tried), table=False)


def cured(one: Sparking) -> Sparking:
    values = {path: value for fault in one.faults for path, value in fault.values}
    return spark(ff.with_values(one.engine, values), table=False)


# Bad input


def test_a_plug_that_never_jumps_is_said_and_the_gap_that_would_jumps() -> None:
    one = found("wren", plug__gap="1.5 mm")
    (fault,) = one.faults
    assert "never jumps" in fault.says
    assert next(jumped.word for jumped in one.jumps) == "will not jump"
    assert {jumped.word for jumped in cured(one).jumps} == {"jumps"}


def test_where_no_gap_would_it_asks_for_a_coil_that_would() -> None:
    one = found("wren", spark__coil_energy="6 mJ")
    (fault,) = one.faults
    assert dict(fault.values).keys() == {"spark.coil_energy"}
    better = cured(one)
    assert not better.faults
    assert better.jumps[0].word == "jumps"


def test_points_ask_for_a_coil_that_fills_their_condenser_too() -> None:
    # 0.22 µF across the points are 34 pF of secondary: a third more energy for the same voltage.
    one = found("heron", spark__coil_energy="6 mJ")
    assert dict(one.faults[0].values).keys() == {"spark.coil_energy"}
    assert cured(one).jumps[0].word == "jumps"


def test_a_driver_that_clamps_too_low_asks_for_turns_too() -> None:
    one = found("wren", spark__coil__driver_clamp="100 V")
    values = dict(one.faults[0].values)
    assert {"spark.coil.turns_ratio", "spark.coil_energy"} == values.keys()
    assert not cured(one).faults


def test_a_coil_that_is_never_charged_is_said_with_a_dwell_that_does() -> None:
    one = found("wren", spark__coil__dwell="0.4 ms")
    charged = next(fault for fault in one.faults if fault.id == "coil.dwell")
    better = spark(ff.with_values(one.engine, dict(charged.values)), table=False)
    assert not [fault for fault in better.faults if fault.id == "coil.dwell"]


def test_points_that_bounce_or_arc_are_said() -> None:
    bounces = found("heron", spark__points__arm_mass="30 g")
    assert [fault.id for fault in bounces.faults] == ["points.bounce"]
    arcs = found("heron", spark__points__condenser="0.01 uF", spark__coil__capacitance="20 pF")
    fault = next(fault for fault in arcs.faults if fault.id == "points.condenser")
    better = spark(ff.with_values(arcs.engine, dict(fault.values)), table=False)
    assert isinstance(better.trigger, PointsSet)
    assert not better.trigger.arcs


def test_points_shut_too_short_are_to_be_shut_longer() -> None:
    """At 4000 rpm 20° are 0.83 ms, a quarter of the coil's time constant."""
    one = found("heron", spark__points__shut_angle="20 deg", plug__gap="0.34 mm")
    fault = next(fault for fault in one.faults if "never jumps" in fault.says)
    assert fault.id == "points.short"
    assert "at 4000 rpm" in fault.says
    assert "0.83" in fault.says
    better = cured(one)
    assert {jump.word for jump in better.jumps} == {"jumps"}
    assert not [fault for fault in better.faults if fault.id.startswith("points.s")]
    # With its wide gap no shutting makes it sure; 80 % of the energy is (1 - e^(-t/τ))².
    wide = found("heron", spark__points__shut_angle="20 deg")
    fault = next(fault for fault in wide.faults if fault.id == "points.short")
    time = -math.log(1 - math.sqrt(0.8)) * wide.circuit.constant
    wanted = math.ceil(math.degrees(time * 4000 * RPM))
    assert dict(fault.values) == {"spark.points.shut_angle": f"{wanted} deg"}


def test_points_that_have_no_time_to_open_are_said() -> None:
    # heron's one lobe on the cam opens every 360° of the crank: 0.8 of it are 288°.
    one = found("heron", spark__points__shut_angle="300 deg")
    assert [fault.id for fault in one.faults] == ["points.shut"]
    assert dict(one.faults[0].values) == {"spark.points.shut_angle": "288 deg"}
    assert not cured(one).faults


def test_a_sensor_blanked_for_too_long_or_too_short() -> None:
    for wrong in ("0.1 ms", "40 ms"):
        one = found("wren", spark__sensor__blanked=wrong)
        assert [fault.id for fault in one.faults] == ["sensor.blanked"]
        assert not cured(one).faults


@pytest.mark.parametrize(
    ("tried", "path"),
    [
        ({"spark__coil__driver_drop": "9 V", "spark__coil__voltage": "6 V"},
         "spark.coil.driver_drop"),
        ({"spark__coil_energy": "30 mJ", "spark__coil__resistance": "3 ohm",
          "spark__coil__inductance": "20 mH"}, "spark.coil_energy"),
        ({"spark__source": "points", "spark__points__gap": "0.6 mm",
          "spark__points__lobe_rise": "0.5 mm"}, "spark.points.lobe_rise"),
    ],
)  # fmt: skip
def test_what_can_not_be_is_refused_in_its_place(tried: dict[str, str], path: str) -> None:
    with pytest.raises(EngineFileError, match=path):
        resolve(engine("wren", **tried))


# Coil and plug


def test_a_coil_of_said_winding_holds_what_they_hold() -> None:
    # 12 - 1.5 V on 3 ohms: 3.5 A; 8 mH hold 49 mJ.
    plain = resolve(engine("wren", spark__coil__resistance="3 ohm",
                           spark__coil__inductance="8 mH"))  # fmt: skip
    assert plain.spark.coil_energy == pytest.approx(49e-3)
    feeds = circuit(plain)
    assert feeds.full_current == pytest.approx(3.5)
    # L/R 2.667 ms, four of them 10.7 ms: (1 - e^-4.0125)².
    assert feeds.energy(feeds.charging(100.0), 12.0) == pytest.approx(49e-3 * 0.9642, rel=1e-3)
    # 0.6 of that in 100 pF: √(2·0.6·47.2 mJ/100 pF) = 23.8 kV; the clamp allows 32.
    assert feeds.gives(feeds.charging(100.0), 12.0) == pytest.approx(23.81e3, rel=2e-3)


def test_points_charge_it_less_the_faster_it_turns() -> None:
    feeds = circuit(resolve(engine("heron")))
    # 110° of the crank at 4000 rpm: 4.583 ms; τ 2 ms.
    assert feeds.charging(4000 * RPM) == pytest.approx(110 / 24000)
    held = [feeds.energy(feeds.charging(rpm * RPM), 12.0) for rpm in (500, 1000, 2000, 4000, 8000)]
    assert held == sorted(held, reverse=True)
    assert held[3] == pytest.approx(30e-3 * (1 - math.exp(-4.5833 / 2)) ** 2, rel=1e-3)


def test_a_battery_that_sags_gives_less_by_the_square() -> None:
    feeds = circuit(resolve(engine("wren", spark__coil__driver_drop="0 V")))
    full, low = feeds.energy(1.0, 12.0), feeds.energy(1.0, 6.0)
    assert low == pytest.approx(full / 4)
    assert feeds.unclamped(1.0, 6.0) == pytest.approx(feeds.unclamped(1.0, 12.0) / 2)


@pytest.mark.parametrize("name", NAMES)
def test_the_gap_that_would_is_just_the_widest_that_surely_jumps(name: str) -> None:
    one = found(name)
    for each in one.jumps:
        if each.why_not or (one.wasted is not None and one.wasted.paired):
            continue
        assert each.gap_that_would is not None
        for share, word in ((0.97, "jumps"), (1.03, "may miss")):
            again = jump(each.name, each.speed, share * each.gap_that_would, each.gas, None,
                         one.circuit, each.supply)  # fmt: skip
            assert again.word == word


def test_a_pair_has_to_jump_both_gaps() -> None:
    one = found("plover")
    cranked = one.jumps[0]
    around = one.plain.surroundings
    alone = spark_gap.breakdown_voltage(cranked.gap, cranked.gas.pressure, cranked.gas.temperature)
    second = spark_gap.breakdown_voltage(cranked.gap, around.air_pressure, around.air_temperature)
    assert cranked.wants == pytest.approx(alone + second)
    assert one.wasted is not None
    assert one.wasted.own == pytest.approx(-10 * DEG)


# Angles


def test_an_edge_is_late_by_its_delay_and_no_more_than_the_shaft_slows() -> None:
    one = found("wren")
    for angle in one.angles[1:]:
        late = 1e-4 * angle.speed
        assert angle.true == pytest.approx(angle.asked - late, abs=0.012)
        # Of the sensor alone; some 80 sparks tell a deviation to 8 %, and play adds to it.
        alone = 1.6449 * 1e-5 * angle.speed
        played = 1.6449 / math.sqrt(3) * 0.1 / 26
        assert angle.scatter == pytest.approx(math.hypot(alone, played), rel=0.25)


def test_scatter_grows_with_the_sensors_and_with_play() -> None:
    plain = found("wren").angles[1].scatter
    assert found("wren", spark__sensor__kind="reed").angles[1].scatter > 3 * plain
    # 1 mm at 26 mm on the cam: 4.4° of the crank either way, evenly: 1.645/√3 of it.
    loose = found("wren", spark__sensor__play="1 mm").angles[1].scatter
    assert loose == pytest.approx(1.6449 / math.sqrt(3) * 2 / 26, rel=0.02)


def test_uneven_turning_keeps_the_energy_that_the_gas_gives() -> None:
    plain = resolve(engine("wren"))
    point = operating_point(plain, "full_throttle", "", 2000 * RPM, assumed_warm(plain),
                            -20 * DEG, with_peaks=False)  # fmt: skip
    found_now = uneven(plain, point)
    assert found_now is not None
    angle, speed = found_now
    curves = point.fired.cycle.curves
    mean = np.trapezoid(curves.gas_torque, curves.angle) / (curves.angle[-1] - curves.angle[0])
    inertia = starter_line(plain).inertia
    for low, high in ((10, 200), (300, len(angle) - 1)):
        work = np.trapezoid((curves.gas_torque - mean)[low : high + 1], angle[low : high + 1])
        gained = 0.5 * inertia * (speed[high] ** 2 - speed[low] ** 2)
        assert gained == pytest.approx(work, rel=1e-6, abs=1e-9)
    time, ways, _ = turned(angle, speed, 3)
    assert ways[-1] - ways[0] == pytest.approx(3 * 4 * math.pi, rel=1e-9)
    assert (ways[-1] - ways[0]) / time[-1] == pytest.approx(2000 * RPM, rel=1e-9)


def test_the_clock_errs_early_when_slow_and_less_with_speed() -> None:
    one = found("wren")
    finite = [error.early for error in one.edge_below.errors if math.isfinite(error.early)]
    assert finite == sorted(finite, reverse=True)
    assert all(early > 0 for early in finite)
    # A heavier wheel carries it over.
    heavy = found("wren", flywheel__diameter="180 mm", flywheel__thickness="30 mm")
    assert heavy.edge_below.speed < one.edge_below.speed


def test_missed_and_doubled_edges_by_hand() -> None:
    one = found("wren", spark__timed_by="clock")
    trigger = one.trigger
    assert isinstance(trigger, SensorSet)
    # First edge 40° before, 20° asked: half the speed waits 40°, twice the speed 10°.
    assert trigger.missed == pytest.approx(-20 * DEG)
    assert trigger.doubled == pytest.approx(10 * DEG)


# Starting


def test_the_start_angle_stays_clear_of_the_kick() -> None:
    plain = resolve(engine("wren"))
    near = replace(NO_KICK, strong=8 * DEG, asked=5 * DEG, true=6 * DEG)
    # 8° less 5° less the 1° that it comes early.
    assert start_angle(plain, near) == pytest.approx(2 * DEG)
    assert start_angle(plain, NO_KICK) == pytest.approx(5 * DEG)
    assert start_angle(plain, replace(near, strong=-30 * DEG)) == pytest.approx(-10 * DEG)


# Table


@pytest.fixture(scope="module")
def table():
    one = engine("wren")
    return advance_table(one, resolve(one), replace(NO_KICK, strong=12 * DEG),
                         speeds=(900 * RPM, 2000 * RPM), loads=(0.35, 1.0))  # fmt: skip


def test_the_best_is_best(table) -> None:
    plain = resolve(engine("wren"))
    best = float(table.best[1, 1])
    torques = [
        operating_point(plain, "full_throttle", "", 2000 * RPM, assumed_warm(plain), -angle,
                        with_peaks=False).fired.cycle.mean_gas_torque
        for angle in (best - 12 * DEG, best, best + 12 * DEG, float(table.advance[1, 1]))
    ]  # fmt: skip
    assert torques[1] > max(torques[0], torques[2])
    assert 0.98 * torques[1] < torques[3] < torques[1]
    assert table.advance[1, 1] < best


def test_a_best_at_the_earliest_tried_is_a_bound_and_is_said_to_be(table) -> None:
    """Torque that still rises at 60° says that no best is known; what knock decides is none."""
    best = table.best.copy()
    best[0, 1] = EARLIEST
    met = replace(table, best=best)
    assert not table.bounded.any()
    assert met.governs[0][1] == "torque"
    assert met.bounded.tolist() == [[False, True], [False, False]]
    assert "(bound)" in advance_words(met).rows[0][2]
    assert "(bound)" not in " ".join(advance_words(table).rows[0])
    assert "earliest tried" in advance_words(met).caption
    assert not replace(met, governs=(("kick", "knock"), met.governs[1])).bounded.any()


def test_below_idle_the_kick_holds_it_back(table) -> None:
    assert table.kicks.tolist() == [pytest.approx(7 * DEG), math.inf]
    assert table.governs[1][0] == "kick"
    assert table.advance[1, 0] == pytest.approx(7 * DEG)
    assert (table.pressures[0] < table.pressures[1]).all()
    assert (table.pressures < 1.02e5).all()


def test_a_poor_fuel_holds_it_back_from_knock() -> None:
    one = engine("wren", cylinder__compression_ratio="11")
    plain = resolve(one)
    found_now = advance_table(one, plain, NO_KICK, speeds=(1000 * RPM,), loads=(1.0,))
    assert found_now.governs == (("knock",),)
    assert found_now.notes == ()
    at = float(found_now.advance[0, 0])
    point = operating_point(plain, "full_throttle", "", 1000 * RPM, assumed_warm(plain), -at,
                            with_peaks=False)  # fmt: skip
    assert waited(point, tuple(firing_angles(plain)), 95.0) < 1.0


def test_knock_waits_only_for_what_is_not_burned() -> None:
    plain = resolve(engine("wren"))
    point = operating_point(plain, "full_throttle", "", 1500 * RPM, assumed_warm(plain),
                            -20 * DEG, with_peaks=False)  # fmt: skip
    got = waited(point, tuple(firing_angles(plain)), 95.0)
    curves = point.fired.cycle.curves
    hottest = float(curves.unburned_temperature[curves.burned_fraction[:, 0] > 0.01, 0].max())
    # No longer than from bottom to top and on to the end of burning, at the worst state of it.
    worst = knock.douaud_eyzat(95.0, float(curves.pressure[:, 0].max()), hottest)
    assert 0.0 < got < (200 * DEG / point.speed) / worst


# Telling


@pytest.mark.parametrize("name", NAMES)
def test_it_reads_well_and_keeps_to_its_contract(name: str) -> None:
    one = found(name)
    text = spark_text(one)
    assert all(len(line) <= 80 for line in text.splitlines()), text
    assert "nan" not in text
    assert "inf" not in text.replace("infor", "")
    for said in ("Asked and true", "Plug: wanted and given", "Tens of kilovolts"):
        assert said in text
    told = SparkTold.model_validate_json(one.to_json())
    assert [jumped.word for jumped in told.jumps] == [jumped.word for jumped in one.jumps]
    assert (told.points is None) == (one.plain.spark.source == "sensor")


def test_leads_are_this_engines() -> None:
    single, points, pair = (
        {lead.id: lead for lead in found(name).leads} for name in ("wren", "heron", "plover")
    )
    assert {"return.1", "sensor", "hardware", "carbon"} <= single.keys()
    assert single["carbon"].state == "not judged"
    assert {"return.1", "return.2", "condenser"} <= points.keys()
    assert not {"sensor", "hardware", "carbon"} & points.keys()
    assert "pair" in pair
    assert not {"return.1", "return.2"} & pair.keys()
    bare = {lead.id: lead for lead in found("wren", plug__return_lead="false").leads}
    assert bare["return.1"].state == "lacking"
