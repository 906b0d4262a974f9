"""A start with every number set by hand, and what its JSON and its lines make of each.

Radians a second, radians, pascals and shares are chosen so that what is told is a round number:
pi rad/s are 30 revolutions a minute, pi/180 a degree.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.runs.start.asked import Fed, Sparked
from firstfire.runs.start.best_advance import Advance
from firstfire.runs.start.changes import Change
from firstfire.runs.start.going import AtSpeed
from firstfire.runs.start.idle import Idling
from firstfire.runs.start.kick_back import KickBack, Thrown
from firstfire.runs.start.valve_room import valve_room
from firstfire.verdict.start.contract import told
from firstfire.verdict.start.contract_parts import story_told
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.text import start_text
from firstfire.verdict.start.words import keeps_going, kick, meets, over_run, sentence, story

RPM, DEG = math.pi / 30, math.pi / 180
CHANGE = Change("Fit a flywheel of 0.0068 kg*m^2", {"flywheel.inertia": "0.0068 kg*m^2"}, 0.9, 0.3)


def turned(starts, stretches):
    """A start that turned at these mean speeds, rpm, each until its second."""
    time = np.linspace(0.0, stretches[-1][1], round(1000 * stretches[-1][1]) + 1)
    ends = np.array([end for _, end in stretches])
    rates = np.array([rate * RPM for rate, _ in stretches])
    speed = rates[np.minimum(np.searchsorted(ends, time), len(ends) - 1)]
    angle = np.concatenate([[0.0], np.cumsum(speed[1:] * np.diff(time))])
    columns = starts.lived.spun.pressure.shape[1]
    pressure = np.full((len(time), columns), 1e5)
    pressure[:, 0] = 1e5 + 1e5 * time
    spun = replace(
        starts.lived.spun, time=time, angle=angle, speed=speed, rotor=speed, pressure=pressure
    )
    return replace(
        starts.lived, spun=spun, sparks=(), let_go=2.0, reversed_at=None, reversal_angle=None
    )


@pytest.fixture(scope="module")
def set_by_hand(starts):
    lived = turned(starts, [(600.0, 2.0), (1800.0, 2.5), (1500.0, 4.0)])
    sparks = (
        Sparked(0, 1.0, -7 * DEG, 620 * RPM, -10 * DEG, 0.05, 0.85, 0.1),
        Sparked(0, 3.0, 4 * DEG, 1480 * RPM, -10 * DEG, 0.05, 1.25, 0.2, "quenched"),
        Sparked(0, 3.8, -7 * DEG, 1500 * RPM, -10 * DEG, 0.05, 1.0, 0.1),
    )
    half = tuple(
        replace(starts.odds.each[0], why=why, started_at=None if why else 1, gauge=gauge)
        for why, gauge in zip(["dies"] * 4 + [None] * 4, [4e5] * 4 + [8e5] * 4, strict=True)
    )
    return replace(
        starts,
        cranked=replace(
            starts.cranked, over=True, mean_speed=600 * RPM, least_speed=450 * RPM,
            gauge=7.1e5, gauge_oiled=8.3e5,
        ),
        kick=KickBack(60 * DEG, 30 * DEG, 10 * DEG, 7 * DEG, 3.5,
                      Thrown(angle=110 * DEG, torque=4.7, energy=2.5)),
        advance=Advance(15 * DEG, ((500 * RPM, 12 * DEG), (2000 * RPM, 25 * DEG))),
        speeds=(AtSpeed(300 * RPM, 2.5, 1.75, 0.75, 20e5),),
        least=500 * RPM, weak_least=800 * RPM,
        idling=Idling(0.035, 1650 * RPM, 0.047),
        lived=replace(
            lived, sparks=sparks, slipped=5 * DEG,
            fed=(Fed(0, 0.8, 0.9, 5e-8, wet=False, stopped=False),),
        ),
        strong=replace(starts.strong, pressure=30e5, torque=29.42, volts=12e3),
        odds=replace(starts.odds, each=half, tries=2, seconds=3.0),
        changes=(CHANGE,),
    )  # fmt: skip


@pytest.fixture(scope="module")
def said(set_by_hand):
    return told(set_by_hand, "1.0")


@pytest.fixture(scope="module")
def lines(set_by_hand):
    return start_text(set_by_hand, full=True).replace("\u202f", " ").splitlines()


def line(lines, *begins):
    """The words of the first line that has all of these after its heading."""
    return next(" ".join(one.split()) for one in lines if all(word in one for word in begins))


def after(lines, title):
    return lines[next(at for at, one in enumerate(lines) if one.startswith(title)) :]


def test_json_tells_revolutions_a_minute_degrees_and_si(said):
    got = {
        "mean": said.cranking.mean_rpm, "least": said.cranking.least_rpm,
        "gauge": said.cranking.gauge_pa, "oiled": said.cranking.gauge_pa_oiled,
        "safe": said.kick_back.earliest_safe_spark_deg,
        "safe_mean": said.kick_back.earliest_safe_spark_mean_deg,
        "asked": said.kick_back.asked_deg, "true": said.kick_back.true_deg,
        "factor": said.kick_back.factor, "thrown": said.kick_back.torque_thrown_nm,
        "angle": said.kick_back.angle_thrown_deg, "start": said.kick_back.recommended_start_deg,
        "going": said.keeps_going.least_speed_rpm,
        "weak": said.keeps_going.weak_cycle_least_speed_rpm,
        "opening": said.keeps_going.idle_opening, "idle": said.keeps_going.idle_rpm,
        "unsteady": said.keeps_going.idle_unsteadiness, "slipped": said.slipped_deg,
        "strong": said.strong_peak_pa,
    }  # fmt: skip
    assert got == pytest.approx({
        "mean": 600.0, "least": 450.0, "gauge": 7.1e5, "oiled": 8.3e5, "safe": 30.0,
        "safe_mean": 60.0, "asked": 10.0, "true": 7.0, "factor": 3.5, "thrown": 4.7,
        "angle": 110.0, "start": 15.0, "going": 500.0, "weak": 800.0, "opening": 0.035,
        "idle": 1650.0, "unsteady": 0.047, "slipped": 5.0, "strong": 30e5,
    })  # fmt: skip


def test_json_tells_torque_advance_odds_and_changes(said):
    """Four of eight, z = 1.6449: Wilson gives 0.5 ± 1.229 √(0.03125 + 0.01057) = 0.249, 0.751."""
    (torque,) = said.torque_by_speed
    assert torque.speed_rpm == pytest.approx(300.0)
    assert (torque.gas_nm, torque.friction_nm, torque.net_nm) == (2.5, 0.75, 1.75)
    assert torque.burned == 0.75
    grows = [(one.speed_rpm, one.before_top_deg) for one in said.advance]
    assert np.array(grows) == pytest.approx(np.array([(500.0, 12.0), (2000.0, 25.0)]))
    assert (said.odds.tries, said.odds.seconds, said.odds.engines) == (2, 3.0, 8)
    assert (said.odds.low, said.odds.starts, said.odds.high) == pytest.approx(
        (0.2486, 0.5, 0.7514), abs=1e-4
    )
    assert said.odds.needs_gauge_pa == pytest.approx(6e5)
    assert [(one.id, one.share) for one in said.limits] == [("dies", 0.5)]
    (change,) = said.raise_by
    assert (change.starts_before, change.starts_after) == (0.3, 0.9)


def test_json_tells_speeds_and_cycles_in_time(said):
    """Of 0.1 s each: the middle of the first is 0.05 s in; peaks grow by 1 bar a second."""
    speeds = {round(one.seconds, 2): one.speed_rpm for one in said.speed}
    assert speeds[0.05] == pytest.approx(600.0)
    assert speeds[2.25] == pytest.approx(1800.0)
    assert speeds[3.95] == pytest.approx(1500.0)
    first, second, _ = said.cycles
    assert (first.seconds, first.cylinder, first.mixture, first.missed) == (1.0, 1, 0.85, None)
    assert first.speed_rpm == pytest.approx(620.0)
    assert first.before_top_deg == pytest.approx(7.0)
    assert second.before_top_deg == pytest.approx(-4.0)
    assert second.missed == "quenched"
    # A quarter of a turn is 25 ms at 600 and 10 ms at 1500 rpm.
    assert first.peak_pa == pytest.approx(1e5 + 1e5 * 1.025, abs=200.0)
    assert second.peak_pa == pytest.approx(1e5 + 1e5 * 3.010, abs=200.0)
    (charge,) = said.charges
    assert (charge.seconds, charge.cylinder, charge.vapour) == (0.8, 1, 0.9)
    assert (charge.liquid_m3, charge.plug_wet, charge.piston_stopped) == (5e-8, False, False)
    happened = [(one.seconds, one.what) for one in said.story]
    assert (2.0, "let go") in happened
    speeds = {one.what: one.speed_rpm for one in said.story}
    assert speeds["let go"] == pytest.approx(600.0, rel=0.01)
    assert speeds["runs by itself"] == pytest.approx(1500.0)


def test_room_for_a_valve_is_told_for_the_slipped_cams(set_by_hand, said):
    late = valve_room(set_by_hand.plain, 5 * DEG)
    assert said.valve_room_m == late
    assert late != valve_room(set_by_hand.plain, 0.0)


def test_the_card_tells_a_spark_that_is_not_the_best(set_by_hand, lines):
    assert line(after(lines, "cranks at"), "cranks at") == "cranks at 600 rpm, 450 rpm before top"
    assert line(after(lines, "cranks at"), "gauge shows") == "gauge shows 7.1 bar, oiled 8.3 bar"
    assert line(lines, "odds ") == "odds 4 of 8 engines drawn start (25 to 75 %)"
    said = "start spark 15° before top gives most torque at that speed; asked:"
    assert line(lines, "start spark").startswith(said)
    assert "10° before top, truly 7° before top" in " ".join(" ".join(lines).split())

    def spark(asked, true):
        found = replace(
            set_by_hand, kick=replace(set_by_hand.kick, asked=asked * DEG, true=true * DEG)
        )
        text = " ".join(start_text(found, full=False).split())
        return text.split("at that speed")[1].split(" keeps itself")[0]

    assert spark(15.0, 15.0) == spark(16.5, 16.0) == spark(13.5, 14.0) == ""
    assert spark(12.5, 12.5) == "; asked: 12° before top"
    assert spark(14.0, 12.8) == ", truly 13° before top"
    assert spark(15.0, math.nan) == ""


def test_a_bar_is_as_long_as_its_speed(lines):
    """Forty signs at 1800 rpm, the fastest: 13 at 600, 33 at 1500."""
    shown = [one.split() for one in after(lines, "How it goes") if one.endswith("#")]
    bars = {float(row[0]): (float(row[2]), len(row[4])) for row in shown}
    assert len(bars) == 20
    assert bars[0.05] == (600.0, 13)
    assert bars[2.25] == (1800.0, 40)
    assert bars[3.85] == (1500.0, 33)


def test_tables_tell_a_cycle_and_a_speed_a_line(lines):
    cycle = line(after(lines, "Cycle by cycle"), "1.00 s")
    assert cycle == "1.00 s 1 620 rpm 7.0° 0.85 2.0 bar"
    missed = line(after(lines, "Cycle by cycle"), "3.00 s")
    assert missed == "3.00 s 1 1480 rpm -4.0° 1.25 4.0 bar the flame went out"
    torque = line(after(lines, "Torque by speed"), "300 rpm")
    assert torque == "300 rpm 2.50 0.75 1.75 N·m 75 %"
    assert line(after(lines, "What keeps"), "in 100").startswith("50 in 100 it burns")
    assert line(after(lines, "What helps"), "was").startswith("90, was 30 Fit a flywheel")


def test_the_story_has_its_moments_at_their_speeds(set_by_hand):
    told_of = {one.what: one for one in story(set_by_hand)}
    slipped = told_of["its joint has slipped: 5° late"]
    assert (slipped.seconds, slipped.speed) == pytest.approx((4.0, 1500 * RPM))
    assert told_of["runs by itself"].speed == pytest.approx(1500 * RPM)
    first = told_of["first combustion, spark 7° before top, mixture 0.85"]
    assert (first.seconds, first.speed) == pytest.approx((1.0, 620 * RPM))

    def by(angle):
        lived = replace(set_by_hand.lived, slipped=angle * DEG)
        return [one.what for one in story(replace(set_by_hand, lived=lived)) if "slip" in one.what]

    assert by(-3.0) == ["its joint has slipped: 3° early"]
    assert by(1.5) == ["its joint has slipped: 1.5° late"]
    assert by(0.8) == by(-0.8) == []


def test_one_that_stands_is_told_when_it_came_to_a_stand(set_by_hand, starts):
    lived = turned(starts, [(600.0, 2.0), (0.0, 4.0)])
    end = story(replace(set_by_hand, lived=lived))[-1]
    assert (end.what, end.speed) == ("stands", 0.0)
    assert end.seconds == pytest.approx(2.0, abs=2e-3)


def test_how_fast_it_runs_away_and_by_when(set_by_hand):
    """Nine tenths of 1800 rpm are first passed in the tenth of a second that ends at 2.1 s."""

    @cache
    def limited(rpm):
        spark = set_by_hand.plain.spark.model_copy(update={"limit_speed": rpm * RPM})
        plain = set_by_hand.plain.model_copy(update={"spark": spark})
        return " ".join(over_run(replace(set_by_hand, plain=plain)).split())

    assert limited(1900) == "1800 rpm within 2.1 s"
    assert limited(1840) == "1800 rpm within 2.1 s, held by its limiter"


def test_a_throw_is_told_in_degrees(set_by_hand):
    def thrown(angle):
        back = replace(set_by_hand.kick.thrown, angle=angle * DEG)
        found = replace(set_by_hand, kick=replace(set_by_hand.kick, thrown=back))
        return " ".join(kick(found).split())

    assert thrown(3.0).endswith("throw it back, 3° with 4.7 N·m at the starter")
    assert thrown(0.5).endswith("throw it back, less than a degree, with 4.7 N·m at the starter")


def test_a_least_speed_below_all_that_was_tried_is_said_so(set_by_hand):
    """The slowest tried is 200 rpm: 0.6 of it is 120."""

    def said(rpm):
        return keeps_going(replace(set_by_hand, least=rpm * RPM, weak_least=rpm * RPM))

    assert said(118.0).startswith("from below ")
    assert said(122.0).startswith("from 120")


def test_the_plan_tells_its_numbers_in_usual_units(set_by_hand):
    """29.42 N·m over 0.3 m and 9.807 m/s² are 10 kg; 0.9 of 600 rpm are 540; 10 of 20 run."""
    stages = [" ".join(f"{one.do} {one.go} {one.no_go}".split()) for one in plan(set_by_hand)]
    told_of = " ".join(stages)
    for words in (
        "press to 39 bar", "by a 300 mm bar with 10 kg", "that is 29 N·m",
        "at 600 rpm. The gauge climbs to about 7.1 bar; over 6 bar", "Near 8.3 bar with it",
        "its gap asks for 12 kV", "by a timing mark it comes 10° before top",
        "600 rpm in the mean, at least 450 rpm before a top. Under 540 rpm",
        "spark at 15° before top", "It fires within 3 s; of 20 like it 10 run.",
    ):  # fmt: skip
        assert words in told_of, words


def test_cams_that_slipped_far_are_said_to_meet_the_piston(set_by_hand):
    """A valve that opens 10 mm and 60° late is still well open where the piston comes up."""
    opens_far = with_values(set_by_hand.engine, {"valves.exhaust.lift": "10 mm"})
    late = replace(
        set_by_hand,
        plain=resolve(opens_far),
        lived=replace(set_by_hand.lived, slipped=60 * DEG),
    )
    (words,) = meets(late)
    deep = float(words.split("valve, ")[1].split("\u202f")[0])
    assert deep == pytest.approx(-1e3 * valve_room(late.plain, 60 * DEG), rel=0.05)
    assert words in " ".join(start_text(late, full=False, wrong=["slip"]).split("\n"))
    assert list(meets(replace(late, lived=replace(late.lived, slipped=0.0)))) == []


def test_what_keeps_one_in_sixteen_is_worth_a_sentence(set_by_hand):
    one = set_by_hand.odds.each[0]

    def said(count):
        each = (replace(one, why="kick", started_at=None), *[set_by_hand.odds.each[-1]] * count)
        return sentence(replace(set_by_hand, odds=replace(set_by_hand.odds, each=each)))

    assert "What keeps it from it most: a first combustion throws it back (1 in 20)" in said(15)
    assert "What keeps" not in said(20)


def test_moments_of_the_story_are_told_in_revolutions_a_minute(set_by_hand):
    moments = {one.what: one for one in story_told(set_by_hand)}
    assert moments["runs by itself"].speed_rpm == pytest.approx(1500.0)
