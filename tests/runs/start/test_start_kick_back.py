"""Kick-back of a first combustion: against a perfect gas, an independent model, and itself.

The engine is wren's, as a single of 44 x 40 mm pressed to 7. Two models of other makings lay
beside it: `firstfire.kick_back_angle`, one cylinder of perfect gas, held to SciPy elsewhere; and a
slow one, written apart from this code, of such an engine with some 0.6 mm² of leak on drills of
10 N·m.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from types import SimpleNamespace

import numpy as np
import pytest
from tests.runs.start.books import DEG, RPM, engine, thicker

import firstfire as ff
from firstfire.cycle import layout
from firstfire.cycle.friction_along import friction_along
from firstfire.cycle.records import ShaftSpec
from firstfire.cycle.run import run_to
from firstfire.engine.geometry import mechanism
from firstfire.formulas.normal import NINETY
from firstfire.runs.cranking import driven
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.kick_back import _factor, kick_back
from firstfire.runs.start.life import Life

SINGLE = {
    "cylinder__bore": "44 mm", "cylinder__stroke": "40 mm", "cylinder__compression_ratio": "7",
    "liner__outside_diameter": "48 mm", "leak__ring": "0.57 mm^2",
}  # fmt: skip


@cache
def single():
    return engine("wren", **SINGLE)


def drill(rpm, inertia):
    return ShaftSpec(inertia=inertia, starter_stall=10.0, starter_free=rpm * RPM)


def lit(plain, shaft, advance, **asked):
    """From a stand up to its first spark that lights."""
    how = Asked(seconds=9.0, advance=advance, charged=True, held_on=True, **asked)
    life = Life(plain, how, shaft)
    while not life.lights and life.now < 3.0:
        life.step()
    return life


def thrown_back(life):
    """Its reverse energy, J; None where it goes over its top."""
    top = 4 * math.pi * math.ceil(life.angle / (4 * math.pi) - 0.1)
    ends = life.now + 0.6
    while life.now < ends and life.angle < top + 40 * DEG:
        life.step()
    lived = life.told()
    if lived.reversed_at is None:
        return None
    return 0.5 * life.shaft.inertia * float(lived.spun.since(lived.reversed_at).speed.min()) ** 2


@cache
def safe(rpm, inertia):
    return kick_back(single(), drill(rpm, inertia)).mean / DEG


@pytest.mark.parametrize(
    ("rpm", "inertia", "low", "high"),
    [(500, 4e-3, 12, 19), (1400, 3e-4, 17, 25), (1400, 4e-3, 70, math.inf)],
)
def test_earliest_safe_sparks_of_a_slow_model(rpm, inertia, low, high):
    """Its bands, where ours lie within: 18 and 20°, and none up to 70.

    Not held: at 500 rpm and 3e-4 and 1.5e-3 kg·m² ours are 20.5 and 21.1°, its 12 to 19; at
    1400 rpm and 1.5e-3 38°, its 45 to 79. With wren's own leak of 0.04 mm² all of 500 rpm lie
    within, at 13°, and those of 1400 rpm below, at 14, 30 and 69.
    """
    assert low <= safe(rpm, inertia) <= high


def test_of_a_quick_drill_a_heavier_shaft_bears_an_earlier_spark():
    assert 1.5 * safe(1400, 3e-4) < safe(1400, 1.5e-3) < safe(1400, 2.5e-3) < 70


class Burnt:
    """What a combustion gives a perfect gas to go by: heat, length, friction."""

    def __init__(self, plain, shaft, advance):
        life = lit(plain, shaft, advance)
        spun, at = life.told().spun, layout.SHAFT_SIZE
        curves = SimpleNamespace(angle=spun.angle, speed=spun.speed, pressure=spun.pressure)
        friction = friction_along(plain, life.spec, curves).torque + thicker(plain, spun.speed)
        self.friction = float(np.trapezoid(friction, spun.angle) / np.ptp(spun.angle))
        self.spark, state = life.sparks[-1], life.state
        fuel, zone = float(state.values[at + layout.FUEL]), int(life.engines[0]["cylinders_at"])
        rows, began = [], float(state.time[0])
        while len(rows) < 10 or rows[-1][1] > 0.0:
            state = run_to(life.engines, state, until_time=began + 1e-4 * (len(rows) + 1))
            hot = state.values[zone + layout.ZONE_AIR : zone + layout.ZONE_AIR + 3].sum()
            rest = state.values[at + layout.AIR : at + layout.AIR + 3].sum()
            rows.append((float(state.time[0]) - began, float(hot / (hot + rest))))
        time, share = np.array(rows[:-1]).T
        tenth, most = np.interp([0.1 * share.max(), 0.9 * share.max()], share, time)
        # Wiebe's law of 5 and 2 has burned a tenth at 0.276 of its length, nine at 0.772.
        self.seconds = (most - tenth) / (0.772 - 0.276)
        self.delay = tenth - 0.276 * self.seconds
        # Rich, so that air bounds what its fuel sets free.
        self.heat = 43.4e6 * fuel / max(self.spark.mixture, 1.0) * share.max()


@pytest.mark.parametrize(("rpm", "inertia"), [(500, 1.5e-3), (1400, 1.5e-3)])
def test_a_perfect_gas_is_thrown_back_by_nearly_the_same_spark(rpm, inertia):
    """Within 4°, the burn's beginning against the burn's beginning; at 500 rpm 1.9° apart.

    It differs in what it leaves out: heat to the walls, gas whose heat capacity grows, friction
    other than its mean, a flame that presses what is left of it otherwise than Wiebe's law does.
    """
    plain, shaft = single(), drill(rpm, inertia)
    parts = plain.cylinders[0]
    ours = Burnt(plain, shaft, safe(rpm, inertia) * DEG)
    throw, rod, offset = mechanism(parts)
    valves, leak = parts.valves, parts.leak
    theirs = ff.kick_back_angle(
        bore=parts.cylinder.bore, throw=throw, rod=rod, offset=offset, compression_ratio=7.0,
        inlet_closing=valves.inlet.closes_after_bottom - math.pi,
        exhaust_opening=math.pi - valves.exhaust.opens_before_bottom,
        inertia=inertia, starter_stall_torque=10.0, starter_free_speed=rpm * RPM,
        friction_constant=ours.friction, start_angle=-710 * DEG, seconds=4.0,
        leak_area=leak.ring + leak.inlet_seat + leak.exhaust_seat + leak.gasket + leak.plug,
        fire_at_seconds=1e-3, heat=ours.heat, burn_seconds=ours.seconds,
    )  # fmt: skip
    begins = ours.spark.angle + ours.delay * ours.spark.speed
    assert theirs is not None
    assert begins / DEG == pytest.approx(theirs / DEG, abs=4.0)


@pytest.mark.parametrize("flame", ["travelling", "by_law"])
@pytest.mark.parametrize(("rpm", "inertia"), [(500, 1.5e-3), (1400, 1.5e-3)])
def test_a_later_spark_throws_back_less(flame, rpm, inertia):
    """From 50° before top on; much earlier ones meet a charge that is hardly pressed."""
    thrown = [
        thrown_back(lit(single(), drill(rpm, inertia), advance * DEG, flame=flame))
        for advance in (50, 40, 30, 20, 10)
    ]
    energies = [energy or 0.0 for energy in thrown]
    assert energies == sorted(energies, reverse=True)
    assert energies[0] > 1.0
    assert thrown[-1] is None


def tired(shaft):
    return replace(
        shaft, starter_stall=0.7 * shaft.starter_stall, starter_free=0.7 * shaft.starter_free
    )


def test_the_safe_spark_is_that_of_a_strong_burn_on_a_tired_starter():
    """Either side of it, half a degree off, and not where the starter is fresh."""
    plain = engine("heron")
    shaft = driven(plain)
    found = kick_back(plain, shaft)
    late, early = (found.strong + one * DEG for one in (-0.5, 0.5))
    assert thrown_back(lit(plain, tired(shaft), late, strong=NINETY)) is None
    assert thrown_back(lit(plain, tired(shaft), early, strong=NINETY)) is not None
    assert thrown_back(lit(plain, shaft, early, strong=NINETY)) is None
    assert found.strong < found.mean


def test_the_factor_is_of_energy_to_come_over_the_top():
    """Slower by its root it is just stopped, or thrown back, and just not."""
    plain = engine("heron")
    shaft = driven(plain)
    found = kick_back(plain, shaft)
    assert 1.0 < found.factor < math.inf
    at_spark = lit(plain, tired(shaft), found.asked, strong=NINETY)
    assert found.true == pytest.approx(-at_spark.sparks[-1].angle)
    for share, goes_over in ((1.03, True), (0.97, False)):
        life = at_spark.again()
        life.turn_at(share * at_spark.speed / math.sqrt(found.factor))
        assert (thrown_back(life) is None and not life.stalled.stood) == goes_over


def test_the_factor_of_what_is_thrown_back_is_that_of_a_quicker_shaft():
    """4° too early it lacks energy: quicker by its root it just gets over."""
    plain = engine("heron")
    shaft = tired(driven(plain))
    at_spark = lit(plain, shaft, kick_back(plain, driven(plain)).strong + 4 * DEG, strong=NINETY)
    lacks = _factor(at_spark, None)
    assert 0.1 < lacks < 1.0
    for share, goes_over in ((1.03, True), (0.97, False)):
        life = at_spark.again()
        life.turn_at(share * at_spark.speed / math.sqrt(lacks))
        assert (thrown_back(life) is None and not life.stalled.stood) == goes_over


def test_what_the_starter_feels():
    """By a spark 5° earlier: turned backwards, a starter's line gives more than at a stand."""
    plain = engine("heron")
    shaft = driven(plain)
    found = kick_back(plain, shaft)
    life = lit(plain, tired(shaft), found.strong + 5 * DEG, strong=NINETY)
    energy = thrown_back(life)
    lived = life.told()
    after = lived.spun.since(lived.reversed_at)
    assert found.thrown.energy == pytest.approx(energy, rel=1e-6)
    swung = after.angle[: np.argmax(after.speed > 0.0)]
    assert found.thrown.angle == pytest.approx(np.ptp(swung), rel=0.02)
    backwards = tired(shaft).starter_stall * (1 - after.speed.min() / tired(shaft).starter_free)
    # Slowed by what is left of the burn its rotor adds to that.
    assert backwards <= found.thrown.torque < 3.0 * backwards


def test_a_pull_that_does_not_come_to_a_spark_throws_nothing():
    weak = replace(drill(500, 1.5e-3), starter_stall=0.5)
    found = kick_back(single(), weak)
    assert math.isnan(found.true)
    assert found.factor == math.inf
