"""What cools the round engine outside, with fins and without, worked out from the laws' own words.

Air is from its table (`dry_air`); Churchill and Chu, Churchill and Bernstein, Bar-Cohen and
Rohsenow and Gibson are written out here once more.
"""

import math

import pytest
from tests.heat.made_cycle import made_cycle
from tests.heat.round_engine import round_engine

from firstfire.formulas.ambient_air import dry_air
from firstfire.formulas.solid import Solid
from firstfire.heat.cylinder import network
from firstfire.heat.fins import FinnedFace, round_fins, upright_fins, weighed
from firstfire.heat.layers import Layer
from firstfire.heat.running import resting, running
from firstfire.heat.stack import flat_stack

PI, MM = math.pi, 1e-3
AIR, PRESSURE = 293.15, 101.3e3
METAL = {"head__material": "aluminium_6061_t6", "head__made": "bought",
         "body__material": "aluminium_6061_t6", "body__made": "bought"}  # fmt: skip
FINS = {
    "body__fins__count": 5, "body__fins__length": 10 * MM, "body__fins__thickness": 2 * MM,
    "body__fins__gap": 6 * MM, "head__fins__count": 6, "head__fins__length": 20 * MM,
    "head__fins__thickness": 2 * MM, "head__fins__gap": 8 * MM,
}  # fmt: skip
FAN = {"surroundings__cooling": "fan", "surroundings__air_speed": 5.0}
HALF = {"doubt__outside_cooling": 0.5}


def still(**values):
    engine = round_engine(**values)
    return resting(engine, 0, network(engine, 0)).cooling


def turning(speed=100 * PI, **values):
    engine = round_engine(**values)
    return running(engine, 0, network(engine, 0), made_cycle(speed=speed)).cooling


def rising(diameter: float, rise: float) -> float:
    """Churchill and Chu round a level tube, W/(m² K)."""
    air = dry_air(AIR + rise / 2, PRESSURE)
    drive = 9.80665 * rise / (AIR + rise / 2) * diameter**3
    rayleigh = drive * air.prandtl / air.kinematic_viscosity**2
    blunt = (1 + (0.559 / air.prandtl) ** (9 / 16)) ** (8 / 27)
    return (0.6 + 0.387 * rayleigh ** (1 / 6) / blunt) ** 2 * air.conductivity / diameter


def between(gap: float, height: float, rise: float) -> float:
    """Bar-Cohen and Rohsenow between two fins, W/(m² K)."""
    air = dry_air(AIR + rise / 2, PRESSURE)
    drive = 9.80665 * rise / (AIR + rise / 2) * gap**3
    channel = drive * air.prandtl / air.kinematic_viscosity**2 * gap / height
    return (576 / channel**2 + 2.87 / math.sqrt(channel)) ** -0.5 * air.conductivity / gap


def across(speed: float, diameter: float) -> float:
    """Churchill and Bernstein across a tube some 60 K warmer, W/(m² K)."""
    air = dry_air(AIR + 30, PRESSURE)
    reynolds = speed * diameter / air.kinematic_viscosity
    laminar = 0.62 * reynolds**0.5 * air.prandtl ** (1 / 3)
    laminar /= (1 + (0.4 / air.prandtl) ** (2 / 3)) ** 0.25
    nusselt = 0.3 + laminar * (1 + (reynolds / 282e3) ** (5 / 8)) ** 0.8
    return nusselt * air.conductivity / diameter


def gibson(speed: float, length_mm: float, pitch_mm: float) -> float:
    return 241.7 * (0.0247 - 0.00148 * length_mm**0.8 / pitch_mm**0.4) * (3.6 * speed) ** 0.73


def round_efficiency(film, conducts, thickness, root, length):
    ratio = (root + length + thickness / 2) / root
    x = math.sqrt(2 * film / (conducts * thickness)) * root * (ratio - 1)
    x *= 1 + 0.35 * math.log(ratio)
    return math.tanh(x) / x


def straight_efficiency(film, conducts, thickness, length):
    x = math.sqrt(2 * film / (conducts * thickness)) * (length + thickness / 2)
    return math.tanh(x) / x


@pytest.mark.parametrize("doubt", [1.0, 0.5])
def test_still_air(doubt) -> None:
    """Head 80 mm, body 60, case a cube of 70, each drawn as a power law from 20 to 120 K."""
    found = still(doubt__outside_cooling=doubt)
    assert set(found) == {"head", "case", "exhaust_port", "liner", "valves"}
    for name, wide in (("head", 80), ("case", 70), ("exhaust_port", 80), ("liner", 60)):
        mild, warm = rising(wide * MM, 20.0), rising(wide * MM, 120.0)
        cooling = found[name]
        assert (cooling.temperature, cooling.constant) == (pytest.approx(AIR), 0.0)
        assert cooling.free * 20.0**cooling.exponent == pytest.approx(doubt * mild)
        assert cooling.free * 120.0**cooling.exponent == pytest.approx(doubt * warm)
        assert cooling.emissivity == 0.9


def test_metal_radiates_a_fifth_and_its_port_has_no_outside() -> None:
    found = still(**METAL)
    assert "exhaust_port" not in found
    assert found["head"].emissivity == found["liner"].emissivity == 0.2
    assert found["case"].emissivity == 0.9


def test_a_bare_liner_is_as_wide_as_itself() -> None:
    found = still(body__outside_diameter=40 * MM)["liner"]
    assert found.free * 20.0**found.exponent == pytest.approx(rising(44 * MM, 20.0))


@pytest.mark.parametrize("doubt", [1.0, 0.5])
def test_fan(doubt) -> None:
    found = turning(**FAN, doubt__outside_cooling=doubt)
    for name, wide in (("head", 80), ("case", 70), ("liner", 60)):
        assert found[name].constant == pytest.approx(doubt * across(5.0, wide * MM))
        assert (found[name].free, found[name].emissivity) == (0.0, 0.9)
        assert found[name].temperature == pytest.approx(AIR)


def test_fan_on_the_crank() -> None:
    """5 m/s at 200 rad/s: 7.5 at 300. It stands as the engine stands."""
    on_crank = FAN | {"surroundings__air_speed_at": 200.0}
    assert turning(300.0, **on_crank)["head"].constant == pytest.approx(across(7.5, 80 * MM))
    assert still(**on_crank)["head"].constant == 0.0
    assert still(**FAN)["head"].constant == 0.0


def test_water_jacket() -> None:
    jacket = {"surroundings__cooling": "water_jacket", "surroundings__water_temperature": 350.0}
    found = turning(**jacket, **HALF, **FINS)["head"]
    assert (found.temperature, found.constant) == (350.0, 400.0)
    assert (found.free, found.emissivity) == (0.0, 0.0)


def test_behind_the_valves_of_a_standing_engine() -> None:
    found = still()["valves"]
    assert (found.temperature, found.constant) == (pytest.approx(AIR), 8.0)


# Round fins: 60 mm inside, 80 outside, on 80 mm of body. Straight ones on 80 mm of head.
BODY_SPREAD = 5 * (2 * PI * (1600 - 900) + 2 * PI * 40 * 2) * MM**2
BODY_BARE = PI * 60 * 80 * MM**2
BODY_FREE = BODY_BARE - 5 * PI * 60 * 2 * MM**2
CHORD = PI / 4 * 80
HEAD_SPREAD = 6 * (CHORD * 42 + 80) * MM**2
HEAD_BARE = (PI / 4 * 6400 + PI * 80 * 20) * MM**2
HEAD_FREE = HEAD_BARE - 6 * CHORD * 2 * MM**2


def test_fins_in_a_stream() -> None:
    found = turning(**FAN, **METAL, **FINS, **HALF)
    film = 0.5 * gibson(5.0, 10.0, 8.0)
    counts = BODY_FREE + round_efficiency(film, 167, 2e-3, 30e-3, 10e-3) * BODY_SPREAD
    assert found["liner"].constant == pytest.approx(film * counts / BODY_BARE)
    # the envelope is 80 mm wide for 60
    assert found["liner"].emissivity == pytest.approx(0.2 * 80 / 60)
    film = 0.5 * gibson(5.0, 20.0, 10.0)
    counts = HEAD_FREE + straight_efficiency(film, 167, 2e-3, 20e-3) * HEAD_SPREAD
    assert found["head"].constant == pytest.approx(film * counts / HEAD_BARE)
    envelope = HEAD_BARE + PI * 80 * 20 * MM**2
    assert found["head"].emissivity == pytest.approx(0.2 * envelope / HEAD_BARE)
    # nothing stands on the case
    assert found["case"].constant == pytest.approx(0.5 * across(5.0, 70 * MM))


def test_fins_in_still_air() -> None:
    """Efficiency at a rise of 80 K; the way up is the fins' width."""
    found = still(**METAL, **FINS, **HALF)
    for name, gap, height, bare, free, spread in (
        ("liner", 6e-3, 80e-3, BODY_BARE, BODY_FREE, BODY_SPREAD),
        ("head", 8e-3, CHORD * MM, HEAD_BARE, HEAD_FREE, HEAD_SPREAD),
    ):
        mild, warm = (0.5 * between(gap, height, rise) for rise in (20.0, 120.0))
        exponent = math.log(warm / mild) / math.log(6)
        typical = mild * 4**exponent
        counts = (
            round_efficiency(typical, 167, 2e-3, 30e-3, 10e-3)
            if name == "liner"
            else straight_efficiency(typical, 167, 2e-3, 20e-3)
        )
        times = (free + counts * spread) / bare
        cooling = found[name]
        assert cooling.constant == 0.0
        assert cooling.exponent == pytest.approx(exponent)
        assert cooling.free * 20.0**cooling.exponent == pytest.approx(mild * times)


def test_fins_by_their_sizes() -> None:
    engine = round_engine(**METAL, **FINS)
    metal = Solid(167.0, 2700.0, 896.0)
    body = round_fins(engine.cylinders[0].body.fins, 60 * MM, 80 * MM, metal)
    assert (body.bare, body.covered) == pytest.approx((BODY_BARE, 5 * PI * 60 * 2 * MM**2))
    assert (body.spread, body.envelope) == pytest.approx((BODY_SPREAD, PI * 80 * 80 * MM**2))
    assert (body.height, body.root) == pytest.approx((80 * MM, 30 * MM))
    assert body.volume == pytest.approx(BODY_SPREAD * 20 / 22 * MM)
    half = body.share(0.25)
    assert (half.bare, half.covered, half.spread, half.envelope) == pytest.approx(
        tuple(0.25 * one for one in (body.bare, body.covered, body.spread, body.envelope))
    )
    assert half.times(30.0) == pytest.approx(body.times(30.0))
    head = upright_fins(engine.cylinders[0].head.fins, 80 * MM, HEAD_BARE, metal)
    assert (head.covered, head.spread) == pytest.approx((6 * CHORD * 2 * MM**2, HEAD_SPREAD))
    assert (head.height, head.root) == (pytest.approx(CHORD * MM), None)


def test_fins_that_cover_all_leave_nothing_free() -> None:
    fins = round_engine(**METAL, **FINS).cylinders[0].head.fins
    metal = Solid(167.0, 2700.0, 896.0)
    thick = upright_fins(fins, 80 * MM, 600 * MM**2, metal)
    assert thick.covered == pytest.approx(600 * MM**2)
    face = FinnedFace(fins, 1e-3, 2e-3, 4e-3, 5e-3, 0.1, None, metal)
    assert face.times(30.0) == pytest.approx(4 * straight_efficiency(30.0, 167, 2e-3, 20e-3))


def test_no_fins_are_none() -> None:
    fins = round_engine().cylinders[0].body.fins
    metal = Solid(167.0, 2700.0, 896.0)
    assert round_fins(fins, 60 * MM, 80 * MM, metal) is None
    assert upright_fins(fins, 60 * MM, 1e-3, metal) is None
    wall = flat_stack("wall", (Layer("wall", metal, 2e-3),), 1e-3)
    assert weighed(wall, None) is wall
