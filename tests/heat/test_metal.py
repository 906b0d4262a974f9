"""Metal engines: fins, joints and oil carry the heat off, and they settle."""

from pathlib import Path

import numpy as np
import pytest

from firstfire.engine.read import read, with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas.solid import Solid
from firstfire.heat.advance import advance
from firstfire.heat.answers import temperatures_at
from firstfire.heat.fins import round_fins
from firstfire.heat.history import cold
from firstfire.heat.outside import air_speed
from firstfire.heat.running import resting

ROOT = Path(__file__).resolve().parents[2]
METAL = ROOT / "tests/strangers/5_metal_wren.toml"
START, HOUR = 293.15, 3600.0
FINS = {
    "body.fins.count": "8", "body.fins.length": "18 mm", "head.fins.count": "9",
    "head.fins.length": "20 mm", "surroundings.air_speed": "8 m/s",
    "case.material": "aluminium", "case.made": "bought",
}  # fmt: skip


@pytest.fixture(scope="module")
def finned(make):
    one = make(resolve(with_values(read(METAL), FINS)))
    return one, advance(cold(one.network, START), one.exposure, HOUR)


def hottest(history, part, seconds=HOUR):
    return temperatures_at(history, seconds).parts[part].surface


def test_it_settles_within_the_hour(finned):
    _, history = finned
    for part in ("crown", "head", "liner", "skirt", "crankcase"):
        assert hottest(history, part) - hottest(history, part, 0.9 * HOUR) < 0.5


def test_what_goes_in_goes_out_once_it_has_settled(finned):
    _, history = finned
    late = history.seconds > 0.95 * HOUR
    received = history.received[late]
    into = received[-1, :2].sum() - received[0, :2].sum()
    out = received[0, 2] - received[-1, 2]
    assert out == pytest.approx(into, rel=1e-3)


def test_fins_are_what_lets_it_live(finned, make):
    _, history = finned
    bare = make(resolve(with_values(read(METAL), FINS | {"body.fins.count": "0",
                                                         "head.fins.count": "0"})))  # fmt: skip
    without = advance(cold(bare.network, START), bare.exposure, HOUR)
    for part, kept in (("head", 0.6), ("liner", 0.6), ("crown", 0.7)):
        assert hottest(history, part) - START < kept * (hottest(without, part) - START)


def test_head_hands_heat_to_the_cylinder_and_that_to_the_case(finned):
    _, history = finned
    along = [hottest(history, part) for part in ("head", "joint", "liner", "foot", "case")]
    assert (np.diff(along) < 0).all()


def test_oil_is_between_what_warms_it_and_its_case(finned):
    _, history = finned
    assert hottest(history, "case") < hottest(history, "crankcase") < hottest(history, "crown")


def test_a_metal_port_is_as_warm_as_its_head(finned):
    _, history = finned
    assert 0 < hottest(history, "exhaust_port") - hottest(history, "head") < 20.0


def test_a_fan_on_the_crank_blows_as_fast_as_it_turns(make):
    at = resolve(with_values(read(METAL), FINS | {"surroundings.air_speed_at": "3600 rpm"}))
    half = 0.5 * at.surroundings.air_speed_at
    assert air_speed(at, half) == pytest.approx(4.0)
    assert air_speed(at, 0.0) == 0.0
    own = resolve(with_values(read(METAL), FINS))
    assert air_speed(own, half) == pytest.approx(8.0)


def test_still_air_takes_less_than_a_fan_and_more_through_fins(make):
    rises = {}
    for cooling in ("still_air", "fan"):
        for fins in ("0", "8"):
            one = make(resolve(with_values(read(METAL), FINS | {
                "surroundings.cooling": cooling, "body.fins.count": fins,
                "head.fins.count": fins})))  # fmt: skip
            history = advance(cold(one.network, START), one.exposure, HOUR)
            rises[cooling, fins] = hottest(history, "liner")
    assert rises["fan", "8"] < rises["fan", "0"] < rises["still_air", "0"]
    assert rises["fan", "8"] < rises["still_air", "8"] < rises["still_air", "0"]


def test_heat_received_is_heat_stored_with_the_links_of_a_rest_too(finned):
    one, history = finned
    history = advance(history, resting(one.engine, 0, one.network), HOUR + 600.0)
    received = history.received.sum(axis=1)
    assert history.stored == pytest.approx(received, rel=1e-9, abs=1e-4)


def test_fins_weigh_what_their_sizes_say():
    plain = resolve(with_values(read(METAL), FINS))
    body = plain.cylinders[0].body
    metal = plain.materials[body.material]
    solid = Solid(metal["conductivity"], metal["density"], metal["specific_heat"])
    face = round_fins(body.fins, 60e-3, 70e-3, solid)
    ring = np.pi / 4 * ((60e-3 + 2 * 18e-3) ** 2 - 60e-3**2) * body.fins.thickness * 8
    assert face.volume == pytest.approx(ring, rel=0.05)
