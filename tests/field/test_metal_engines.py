"""Two published air-cooled metal engines hold an hour of rated load and idle without a limit.

Sources
-------
Overhead valves, 163 cm³: its owner's manual, p. 65 (read): 68 x 45 mm, ratio 8.0, 0.65 litres of
oil, 3.2 kW at 3600 rpm and 9.6 N m at 2500 rpm by SAE J1349 net, idle 1700 rpm.

Side valves, 145 cm³: service manual of its series, table of dimensions (read): 2.375 x 2.000 in,
8.86 in³, crankpin 0.936 in, at most 4000 rpm; 4 hp (3.0 kW) at 3600 rpm from memory.

Bands
-----
- Power a litre at 3600 rpm of such engines 15 to 22 kW, as in `test_against_small_engines.py`; the
  rated power itself within 15 % (engines of one class, guessed ports and timing).
- Specific consumption at rated load 280 to 400 g/kWh overhead, to 480 g/kWh side valve (makers'
  sheets of 50 to 200 cm³: 310 to 395; old side-valve sheets 0.75 lb/hp h; from memory).
- Head near its plug 150 to 250 °C at full load: a maker of air-cooled engines says that a gauge
  under the plug should read 350 to 410 °F (177 to 210 °C) in normal use (operating manual, section
  on monitoring, read); small utility engines run to 250 °C (from memory).
- Cylinder wall 120 to 200 °C, oil 80 to 160 °C, crown 180 to 300 °C (J. B. Heywood, Internal
  Combustion Engine Fundamentals, 1988, section 12.7, air-cooled; from memory).
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.heat.answers import temperatures_at
from firstfire.runs.bout import Bout, held
from firstfire.runs.point import spark_angle
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.run_time import run_times

pytestmark = pytest.mark.slow
HERE = Path(__file__).parent
RPM = math.pi / 30
HOUR = 3600.0
RATED = 3600 * RPM
CELSIUS = 273.15
POWERS = {"overhead_valve_163": 3.2e3, "side_valve_145": 3.0e3}
THIRST = {"overhead_valve_163": (280.0, 400.0), "side_valve_145": (280.0, 480.0)}
NAMES = tuple(POWERS)


def bout(name: str, event: str, **said: str) -> Bout:
    engine = ff.read(HERE / f"{name}.toml")
    if said:
        engine = with_values(engine, {k.replace("__", "."): v for k, v in said.items()})
    plain = ff.resolve(engine)
    speed = plain.use.idle_speed if event == "idle" else RATED
    return held(plain, event, event, speed, spark_angle(plain, speed, starting=False), HOUR)


@pytest.fixture(scope="module", params=NAMES)
def rated(request: pytest.FixtureRequest) -> tuple[str, Bout]:
    return request.param, bout(request.param, "full_throttle")


@pytest.fixture(scope="module", params=NAMES)
def idling(request: pytest.FixtureRequest) -> tuple[str, Bout]:
    return request.param, bout(request.param, "idle")


def ending(name: str, one: Bout) -> dict[str, float]:
    """Ways that end a bout, and when."""
    plain = ff.resolve(ff.read(HERE / f"{name}.toml"))
    found = run_times(EventResult(one.point.event, plain, (one,)))
    return {r.way.id: r.seconds for r in found if r.seconds is not None and not r.reported}


def celsius(one: Bout, part: str, seconds: float = HOUR) -> float:
    return temperatures_at(one.histories[0], seconds).parts[part].surface - CELSIUS


def test_it_holds_an_hour_of_rated_load(rated: tuple[str, Bout]) -> None:
    assert ending(*rated) == {}


def test_it_idles_without_a_limit(idling: tuple[str, Bout]) -> None:
    assert ending(*idling) == {}


def test_both_settle(rated: tuple[str, Bout], idling: tuple[str, Bout]) -> None:
    for _, one in (rated, idling):
        for part in ("crown", "head", "liner", "crankcase"):
            assert celsius(one, part) - celsius(one, part, 0.9 * HOUR) < 1.0


def test_its_rated_power(rated: tuple[str, Bout]) -> None:
    name, one = rated
    assert one.point.brake_power == pytest.approx(POWERS[name], rel=0.15)
    assert 15e6 <= one.point.brake_power / one.point.displacement <= 22e6


def test_its_thirst(rated: tuple[str, Bout]) -> None:
    name, one = rated
    figures, plain = one.point.fired.cycle.cylinders[0], ff.resolve(ff.read(HERE / f"{name}.toml"))
    air = figures.volumetric_efficiency * one.point.displacement * 1.2
    fuel = air * plain.intake.equivalence_ratio / 14.6 * one.point.speed / (4 * math.pi)
    low, high = THIRST[name]
    assert low <= fuel * 3600e3 / (one.point.brake_power / 1e3) <= high


def test_its_temperatures(rated: tuple[str, Bout]) -> None:
    _, one = rated
    for part, low, high in (("head", 150, 250), ("liner", 120, 200), ("crankcase", 80, 160),
                            ("crown", 180, 300)):  # fmt: skip
        assert low <= celsius(one, part) <= high, part


def test_it_is_cool_at_idle(idling: tuple[str, Bout]) -> None:
    _, one = idling
    assert celsius(one, "head") < 130


def test_without_its_fins_it_does_not_last() -> None:
    bare = bout("overhead_valve_163", "full_throttle", body__fins__count="0",
                head__fins__count="0")  # fmt: skip
    assert ending("overhead_valve_163", bare)
    assert celsius(bare, "head") > 350
