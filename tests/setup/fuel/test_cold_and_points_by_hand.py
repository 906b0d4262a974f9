"""Cold fuel, the points it is sized by and the order of its sheet, with stand-ins for the gas."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.runs.fuelled import FuelState
from firstfire.setup.fuel import cold, drawn, sheet
from firstfire.setup.fuel.cold import ColdFacts

RPM = math.pi / 30.0


def engine(gas=False):
    return SimpleNamespace(
        fuel=SimpleNamespace(gas=gas),
        surroundings=SimpleNamespace(air_pressure=0.8e5, air_temperature=300.0, humidity=0.0),
        intake=SimpleNamespace(
            equivalence_ratio=1.1, throttle_opening=0.9, mixture_by="injector"
        ),
        use=SimpleNamespace(
            full_throttle_speeds=(4000 * RPM, 2000 * RPM),
            idle_speed=1200 * RPM, cranking_speed=300 * RPM,
        ),
        cylinders=("first", "second"),
    )  # fmt: skip


def as_metered(monkeypatch, mixture):
    """Every cycle's mixture is a function of the times that it is metered."""
    tried = []

    def cycle(plain, point, warm, state, times):
        assert (plain, point, warm) == (engine(), "point", 280.0)
        tried.append(times)
        return state, mixture(times)

    monkeypatch.setattr(cold, "_cycle", cycle)
    return tried


def test_a_first_charge_is_found_to_four_in_1024(monkeypatch):
    """Half a mixture for each time: 2.2 make 1.1, found from above in steps of 4/1024."""
    tried = as_metered(monkeypatch, lambda times: 0.5 * times)
    found = cold.first_charge(engine(), "point", 280.0)
    assert found == pytest.approx(math.ceil(2.2 * 256) / 256)
    assert tried[:3] == [4.0, 2.0, 3.0]
    as_metered(monkeypatch, lambda times: 0.2 * times)
    assert cold.first_charge(engine(), "point", 280.0) is None


def test_settling_goes_by_thirds_at_most(monkeypatch):
    """Up by 4/3, down by 3/4 a cycle, to what makes the mixture; four times at most."""
    tried = as_metered(monkeypatch, lambda times: 0.5 * times)
    assert cold.settled(engine(), "point", 280.0) == pytest.approx(2.2)
    assert tried[:4] == pytest.approx([1.0, 4 / 3, 16 / 9, 2.2])
    assert len(tried) == 60
    tried = as_metered(monkeypatch, lambda times: 2.0 * times)
    assert cold.settled(engine(), "point", 280.0) == pytest.approx(0.55)
    assert tried[:4] == pytest.approx([1.0, 0.75, 0.5625, 0.55])
    # four times make 1.0, which is over nine tenths of 1.1; 0.96 is not
    as_metered(monkeypatch, lambda times: 0.25 * times)
    assert cold.settled(engine(), "point", 280.0) == pytest.approx(4.0)
    as_metered(monkeypatch, lambda times: 0.24 * times)
    assert cold.settled(engine(), "point", 280.0) is None
    tried = as_metered(monkeypatch, lambda _: 0.0)
    assert cold.settled(engine(), "point", 280.0) is None
    assert tried[1] == pytest.approx(4 / 3)


def test_a_cycle_is_metered_so_many_times_the_first_cylinders_fuel(monkeypatch):
    asked = {}

    def following(state, path, **given):
        asked.update(given, state=state, path=path)
        return SimpleNamespace(state="after")

    monkeypatch.setattr(cold, "next_cycle", following)
    monkeypatch.setattr(cold, "path_of", lambda _, parts: parts)
    monkeypatch.setattr(cold, "components", lambda _: "blend")
    monkeypatch.setattr(cold, "mixture", lambda after, air: (after.state, air))
    at = SimpleNamespace(air=(4e-5, 9e-5), fuel=(2e-6, 9e-6), intake=(0.7e5, 0.9e5), seconds=0.2)
    point, state = SimpleNamespace(at=at), FuelState()
    found = cold._cycle(engine(), point, 350.0, state, 3.0)
    assert found == ("after", ("after", 4e-5))
    assert asked == {
        "state": state, "path": "first", "fuel": "blend", "air_mass": 4e-5,
        "port_temperature": 350.0, "air_temperature": 300.0, "air_pressure": 0.7e5,
        "metered_mass": pytest.approx(6e-6), "cycle_seconds": 0.2,
    }  # fmt: skip
    cold._cycle(engine(), point, 280.0, state, 3.0)
    assert asked["air_temperature"] == 280.0


def test_temperatures_are_told_from_ten_below_freezing(monkeypatch):
    """Dry air is 300/T as dense as the day's; a kPa of 80 is one in 80."""
    asked = []
    monkeypatch.setattr(cold, "first_charge", lambda plain, point, warm: (plain, point, warm))
    monkeypatch.setattr(
        cold, "settled", lambda plain, point, warm, stop: (plain, point, warm, stop)
    )
    monkeypatch.setattr(cold, "turned_by", lambda plain, _: plain)
    monkeypatch.setattr(
        cold,
        "cranked",
        lambda plain, stop, shaft: SimpleNamespace(
            over=(plain, stop) == (shaft, "stop"), shaft="shaft"
        ),
    )
    monkeypatch.setattr(cold, "pulse_volume", lambda _: 4e-9)
    monkeypatch.setattr(
        cold, "priming", lambda plain, wanted, shaft, stop: asked.append(
            (plain, wanted.enriched, shaft, stop)
        ) or wanted.enriched
    )  # fmt: skip
    made = engine()
    found = cold.cold_facts(made, SimpleNamespace(cranking="cranking", idle="idle"), "stop")
    starts = [263.15, 273.15, 283.15, 293.15, 303.15]
    assert [one.temperature for one in found.start] == pytest.approx(starts)
    assert [one.times for one in found.start] == [
        (made, "cranking", one.temperature) for one in found.start
    ]
    warming = [263.15, 273.15, 283.15, 293.15, 313.15, 333.15, 353.15]
    assert [one.temperature for one in found.warm_up] == pytest.approx(warming)
    assert [one.times for one in found.warm_up] == [
        (made, "idle", one.temperature, "stop") for one in found.warm_up
    ]
    air = [263.15, 273.15, 283.15, 293.15, 303.15, 313.15]
    assert [one.temperature for one in found.density] == pytest.approx(air)
    assert [one.times for one in found.density] == pytest.approx([300.0 / one for one in air])
    assert found.per_kilopascal == pytest.approx(1 / 80)
    assert asked == [(made, 1.0, "shaft", "stop"), (made, 4.0, "shaft", "stop")]
    assert (found.primed, found.primed_map, found.each) == (1.0, 4.0, 4e-9)
    gas = cold.cold_facts(engine(gas=True), None)
    assert gas == ColdFacts((), (), gas.density, found.per_kilopascal, None, None, None)


def test_a_priming_pulse_is_on_for_its_mass_over_the_flow():
    """4 mm³ of 750 kg/m³ are 3 mg: at 1.5 g/s 2 ms, and 1 ms dead."""
    bare = ColdFacts((), (), (), 0.0, None, None, 4e-9)
    assert cold.with_pulse(bare, 750.0, 1.5e-3, 1e-3).on == pytest.approx(3e-3)
    gas = ColdFacts((), (), (), 0.0, None, None, None)
    assert cold.with_pulse(gas, 750.0, 1.5e-3, 1e-3) is gas


def test_points_are_run_the_slowest_first_and_told_by_quarters(monkeypatch):
    """Two speeds, idle and cranking are four: nought, a quarter, a half, three quarters done."""
    told, asked = [], []

    def breathed(plain, speed, opening, near, stop):
        asked.append((plain, speed, opening, near, stop))
        return SimpleNamespace(speed=speed, fuel_flow=speed)

    made = engine()
    monkeypatch.setattr(drawn, "breathed", breathed)
    monkeypatch.setattr(drawn, "_idle", lambda plain, stop: ((plain, stop), "why"))
    monkeypatch.setattr(drawn, "_cranking", lambda plain, stop: (plain, stop, "cranked"))
    found = drawn.points(made, "stop", lambda what, share: told.append((what, share)))
    assert told == [
        ("full throttle, 2000 rpm", 0.0), ("full throttle, 4000 rpm", pytest.approx(0.25)),
        ("idle", pytest.approx(0.5)), ("cranking", pytest.approx(0.75)),
    ]  # fmt: skip
    slow, fast = (one.at for one in found.full)
    assert asked == [
        (made, pytest.approx(2000 * RPM), 0.9, None, "stop"),
        (made, pytest.approx(4000 * RPM), 0.9, slow, "stop"),
    ]
    assert found.most.at is fast
    assert [one.name for one in found.full] == [
        "full throttle, 2000 rpm", "full throttle, 4000 rpm",
    ]  # fmt: skip
    assert (found.idle, found.cranking) == ((made, "stop"), (made, "stop", "cranked"))
    assert found.all == (found.cranking, found.idle, *found.full)


def test_idle_and_cranking_are_run_at_their_own_speeds(monkeypatch):
    asked = []

    class Idle:
        def __init__(self, *given):
            asked.append(given)

        def point(self, walls):
            return SimpleNamespace(walls=walls, throttle=0.07)

    def run(*given, with_peaks, stop):
        asked.append((*given, with_peaks, stop))
        return "cranked"

    made = engine()
    monkeypatch.setattr(drawn, "spark_angle", lambda *given, starting: (*given, starting))
    monkeypatch.setattr(drawn, "Idle", Idle)
    monkeypatch.setattr(drawn, "assumed_warm", lambda _: "warm")
    monkeypatch.setattr(drawn, "cold", lambda _: "cold")
    monkeypatch.setattr(drawn, "operating_point", run)
    monkeypatch.setattr(drawn, "of_point", lambda *given: given)
    idle, _ = drawn._idle(made, "stop")
    crank = drawn._cranking(made, "stop")
    speed = made.use.idle_speed
    assert asked == [
        (made, "idle, 1200 rpm", speed, (made, speed, False), "stop"),
        (made, "cranking", "cranking, 300 rpm", made.use.cranking_speed, "cold", None, False,
         "stop"),
    ]  # fmt: skip
    plain, point, throttle = idle.at
    assert (plain, point.walls, throttle) == (made, "warm", 0.07)
    assert crank.at == (made, "cranked", 0.9)


def test_a_sheet_asks_each_part_in_turn(monkeypatch):
    """Half of the time is told as points; the rest as cold starts."""
    asked, told = [], []
    made, fuel = engine(), SimpleNamespace(gas=False, density=750.0)
    crank = SimpleNamespace(flow=1.5e-3, dead_time=1e-3)
    meter = SimpleNamespace(pulses=(crank,))

    def keeps(name, gives):
        monkeypatch.setattr(sheet, name, lambda *given: asked.append((name, *given)) or gives)

    def points(plain, stop, tell):
        assert (plain, stop) == (made, "stop")
        tell("a point", 0.5)
        return "points"

    keeps("resolve", made)
    keeps("liquid", fuel)
    keeps("injector_facts", meter)
    keeps("mixer_facts", "mixer")
    keeps("feed_facts", "feed")
    keeps("cold_facts", "cold")
    keeps("with_pulse", "primed")
    for name in ("voltage_fault", "over_faults", "injector_faults", "mixer_faults", "feed_faults"):
        keeps(name, ())
    monkeypatch.setattr(sheet, "points", points)
    found = sheet.fuel_sheet("engine", stop="stop", tell=lambda *given: told.append(given))
    assert told == [("a point", pytest.approx(0.25)), ("cold starts", 0.5)]
    assert asked == [
        ("resolve", "engine"), ("liquid", "engine", made), ("voltage_fault", made),
        ("over_faults", made), ("injector_facts", made, fuel, "points"),
        ("feed_facts", made, fuel, "points"), ("cold_facts", made, "points", "stop"),
        ("with_pulse", "cold", 750.0, 1.5e-3, 1e-3), ("injector_faults", made, fuel, meter),
        ("feed_faults", "engine", made, fuel, "feed", "stop"),
    ]  # fmt: skip
    assert (found.fuel, found.points, found.injector, found.mixer) == (fuel, "points", meter, None)
    assert (found.feed, found.cold, found.faults) == ("feed", "primed", ())
    asked.clear()
    made.intake.mixture_by = "carburettor"
    found = sheet.fuel_sheet("engine", stop="stop")
    assert asked[2:] == [
        ("mixer_facts", made, fuel, "points"), ("feed_facts", made, fuel, "points"),
        ("cold_facts", made, "points", "stop"),
        ("mixer_faults", "engine", made, fuel, "mixer", "stop"),
        ("feed_faults", "engine", made, fuel, "feed", "stop"),
    ]  # fmt: skip
    assert (found.injector, found.mixer, found.cold) == (None, "mixer", "cold")
