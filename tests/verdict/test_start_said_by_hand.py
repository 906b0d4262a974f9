"""A start in words, from stand-ins: angles, speeds, shares and what breaks it loose."""

from __future__ import annotations

import math
from types import SimpleNamespace as Some

import numpy as np
import pytest

from firstfire.verdict.numbers import THIN
from firstfire.verdict.start import loose_words, plan, words

RPM, DEG = math.pi / 30, math.pi / 180


def test_speeds_angles_and_pressures_in_words():
    """Up to 500 Pa no gauge shows anything."""
    assert words.rpm(600 * RPM) == f"600{THIN}rpm"
    assert words.degrees(12 * DEG) == "12° before top"
    assert words.bar(6e5) == f"6{THIN}bar"
    assert (words.bar(510.0), words.bar(490.0)) == (f"0.0051{THIN}bar", f"0{THIN}bar")
    assert words.in_twenty(0.85) == "17 in 20"


def test_what_keeps_a_twentieth_from_starting_is_said():
    """Of 40, two are; one is not."""
    for count, told in ((2, 1), (1, 0)):
        each = [Some(why="kick" if n < count else None) for n in range(40)]
        found = Some(odds=Some(each=each), changes=())
        assert words.limits(found) == [("kick", count / 40)]
        assert len(list(words._against(found))) == told


def spark(seconds, missed=None):
    return Some(
        seconds=seconds, speed=600 * RPM, angle=-7 * DEG, mixture=0.9, missed=missed
    )  # fmt: skip


def test_the_first_combustion_is_told_with_its_spark_and_mixture():
    """A spark 7° before the top; three of four light nothing, of which two come after a burn."""
    sparks = [spark(1.0, "lean"), spark(2.0), spark(3.0, "rich"), spark(4.0, "rich")]
    first, burn = words._until_first(sparks, sparks[1])
    assert first.what == "first spark, 7° before top, and nothing: too lean"
    assert burn.what == "first combustion, spark 7° before top, mixture 0.9"
    (missed,) = words._misfires(Some(sparks=sparks), sparks[1])
    assert (missed.seconds, missed.what) == (3.0, "2 of 4 sparks light nothing, mostly: too rich")


def test_weak_burns_are_told_where_they_ask_for_a_twentieth_more():
    """400 rpm: 424 is more than 420, 416 isn't. From below: up to six tenths of the slowest."""
    found = Some(least=400 * RPM, weak_least=424 * RPM)
    assert words.keeps_going(found).endswith(f"weak burns from 420{THIN}rpm")
    found.weak_least = 416 * RPM
    assert "weak burns" not in words.keeps_going(found)
    for share, below in ((0.59, True), (0.61, False)):
        found.least = share * words.SPEEDS[0]
        assert words.keeps_going(found).startswith("from below ") is below


def test_an_idle_is_told_in_hundredths():
    found = Some(idling=Some(opening=0.12, speed=1200 * RPM, unsteady=0.034))
    assert words.idle(found) == (
        f"1200{THIN}rpm, throttle 12{THIN}% open; turns differ by ±3.4{THIN}%"
    )


def test_a_kick_is_told_with_its_angle_and_torque():
    thrown = Some(torque=31.0, angle=20 * DEG)
    found = Some(kick=Some(strong=12 * DEG, true=0.1, thrown=thrown))
    assert words.kick(found) == (
        f"sparks earlier than 12° before top throw it back, 20° with 31{THIN}N·m at the starter"
    )


def test_a_valve_that_meets_its_piston_is_told_in_millimetres(monkeypatch):
    found = Some(plain="plain", lived=Some(slipped=0.1))
    room = {("plain", 0.1): -1.5e-3}
    monkeypatch.setattr(words, "valve_room", lambda *of: room[of])
    (told,) = words.meets(found)
    assert told.startswith(f"A piston meets a valve, 1.5{THIN}mm deep")


def test_an_over_run_is_told_by_when_it_has_nine_tenths_of_its_speed(monkeypatch):
    """100 rad/s each second: 85 in the mean of the ninth tenth, 95 in that of the tenth.

    Nine tenths of 95 are 85.5. A limiter at 97 holds it, 0.97 of that being 94.09; at 98.5 not.
    """

    def mean_speed(begins, ends):
        assert ends - begins == pytest.approx(0.1)
        return 50.0 * (begins + ends)

    lived = Some(
        let_go=0.0, spun=Some(time=np.array([0.0, 1.0 + 1e-9])), mean_speed=mean_speed
    )  # fmt: skip
    found = Some(lived=lived, plain=Some(spark=Some(limit_speed=97.0)))
    monkeypatch.setattr(words, "runs_by_itself", lambda of: of is lived)
    told = words.over_run(found)
    assert told == f"{words.rpm(95.0)} within 1{THIN}s, held by its limiter"
    found.plain.spark.limit_speed = 98.5
    assert "limiter" not in words.over_run(found)


def test_it_is_loose_once_it_has_turned_by_half_a_turn(monkeypatch):
    """From a little past the first of two tops, 1 and 0.25; half a turn is 3.14, either way."""
    monkeypatch.setattr(loose_words, "firing_angles", lambda _: (2.0, 1.0))
    monkeypatch.setattr(loose_words, "PAST_TOP", 0.25)
    monkeypatch.setattr(loose_words, "break_loose", lambda *of: of)
    for turned, broken in ((3.1, False), (3.2, True)):
        cranked = Some(shaft="shaft", spun=Some(angle=np.array([5.0, 5.0 - turned])))
        found = loose_words.loose(Some(plain="plain", cranked=cranked))
        assert found.now == ("plain", "shaft", 1.25)
        assert found.after_a_night == ("plain", "shaft", 1.25, loose_words.NIGHT)
        assert found.broken is broken


@pytest.mark.parametrize(
    ("seconds", "told"),
    [
        (59.0, "59 s"), (90.0, "1.5 min"), (5400.0, "1.5 h"), (129_600.0, "36 h"),
        (172_800.0, "2 days"),
    ],
)  # fmt: skip
def test_a_time_of_standing(seconds, told):
    assert loose_words.lasted(seconds).replace(THIN, " ") == told


def test_of_twenty_like_it_so_many_run():
    found = Some(odds=Some(share=0.85, seconds=10.0))
    assert plan._fires(found) == f"It fires within 10{THIN}s; of 20 like it 17 run."


@pytest.mark.parametrize(("slips", "told"), [(0.9, False), (1.1, True), (-2.0, True)])
def test_a_slipped_joint_and_what_comes_later_are_told_with_their_speeds(monkeypatch, slips, told):
    """More than a degree is told; a start's last speed is the mean of its last fifth second."""
    lived = Some(
        sparks=[], reversed_at=None, kicked=False, slipped=slips * DEG, let_go=2.0,
        spun=Some(time=np.array([0.0, 4.0])), mean_speed=lambda begins: 10.0 * begins,
    )  # fmt: skip

    def speed_before(of, seconds):
        assert of is lived
        return 100.0 * seconds

    for name, gives in {
        "primed": lambda _: [], "flooded": lambda _: [], "speed_before": speed_before,
        "compression_comes_back": lambda _: [(1.0, "shut")], "knocked": lambda _: [],
        "banged": lambda _: [], "runs_by_itself": lambda _: True,
    }.items():  # fmt: skip
        monkeypatch.setattr(words, name, gives)
    found = words.story(Some(lived=lived, asked="asked"))
    way = "late" if slips > 0 else "early"
    slipped = (4.0, 400.0, f"its joint has slipped: {abs(slips):g}° {way}")
    each = [(one.seconds, one.speed, one.what) for one in found]
    assert each[:3] == [(0.0, 0.0, "starter on"), (1.0, 100.0, "shut"), (2.0, 200.0, "let go")]
    assert each[3:-1] == ([slipped] if told else [])
    assert each[-1] == (4.0, pytest.approx(38.0), "runs by itself")


def test_a_night_is_twelve_hours_and_told_of_what_stood_for_less_than_half_of_it(monkeypatch):
    """43200 s, of which half are 21600."""
    assert loose_words.NIGHT == 43_200.0
    for stood, told in ((21_500.0, True), (21_700.0, False)):
        now = Some(asks=3.0, gives=9.0, stood=stood)
        has = Some(now=now, after_a_night=Some(asks=5.0, factor=2.0))
        monkeypatch.setattr(loose_words, "loose", lambda _, has=has: has)
        assert (f"5{THIN}N·m after a night" in loose_words.breaks_loose("found")) is told


def test_a_gap_in_open_air_is_found_from_its_voltage(monkeypatch):
    """At 3 MV/m, 9 kV jump 3 mm."""

    def breakdown_voltage(gap, pressure, temperature):
        assert (pressure, temperature) == (101_325.0, 293.15)
        assert 0.2e-3 <= gap <= 40e-3
        return 3e6 * gap

    monkeypatch.setattr(plan.spark_gap, "breakdown_voltage", breakdown_voltage)
    assert plan._in_air(9e3) == pytest.approx(3e-3, abs=1e-5)


def test_a_strong_combustion_is_hung_on_a_bar_of_300_mm():
    """29.41995 N·m over 0.3 m are 98.0665 N, the weight of 10 kg."""
    found = Some(strong=Some(pressure=40e5, torque=29.41995), plain="plain")
    hung = next(one for one in plan._by_hand(found) if "luggage scale" in one.do)
    assert f"a 300{THIN}mm bar with 10{THIN}kg on a luggage scale" in hung.do
