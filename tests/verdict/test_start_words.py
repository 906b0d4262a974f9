"""What is said of a start: one account of an engine, changed by hand into every other."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import numpy as np
import pytest
from jsonschema import Draft202012Validator

from firstfire.formulas import spark_gap
from firstfire.runs.start.account import told_every
from firstfire.runs.start.asked import Fed
from firstfire.runs.start.changes import Change
from firstfire.runs.start.idle import Idling
from firstfire.runs.start.kick_back import Thrown
from firstfire.runs.start.priming import Priming
from firstfire.verdict.start.contract import StartTold, told
from firstfire.verdict.start.fuel_words import priming
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.text import start_text
from firstfire.verdict.start.words import (
    LIMITS,
    degrees,
    idle,
    keeps_going,
    kick,
    limits,
    over_run,
    sentence,
    story,
)

RPM, DEG = math.pi / 30, math.pi / 180
CHANGE = Change("Fit a flywheel of 0.0068 kg*m^2", {"flywheel.inertia": "0.0068 kg*m^2"}, 0.9, 0.3)


def drawn(found, whys, gauges=None):
    """The same with these reasons for the engines drawn, None where one starts."""
    one = found.odds.each[0]
    gauges = gauges or [8e5 + 1e4 * place for place in range(len(whys))]
    each = tuple(
        replace(one, why=why, started_at=1 if why is None else None, gauge=gauge)
        for why, gauge in zip(whys, gauges, strict=True)
    )
    return replace(found, odds=replace(found.odds, each=each))


def never_over(found):
    """It comes to no spark at all."""
    cranked = replace(found.cranked, over=False, mean_speed=0.0, least_speed=0.0, gauge=1e-7)
    lived = replace(found.lived, sparks=())
    kicked = replace(found.kick, true=math.nan, strong=math.inf, mean=math.inf, thrown=None)
    return replace(
        drawn(found, ["torque"] * 8),
        cranked=cranked,
        lived=lived,
        kick=kicked,
        strong=replace(found.strong, volts=None),
        least=math.inf,
        weak_least=math.inf,
        idling=Idling(None, 0.0, math.nan),
        runs_away=None,
    )


def kicks(found):
    thrown = Thrown(angle=110 * DEG, torque=4.7, energy=2.5)
    kicked = replace(found.kick, strong=31 * DEG, mean=60 * DEG, factor=12.0, thrown=thrown)
    lived = replace(found.lived, reversed_at=0.4, reversal_angle=12.0, let_go=None)
    return replace(
        drawn(found, ["kick"] * 5 + ["dies"] * 2 + [None]),
        kick=kicked,
        lived=lived,
        changes=(CHANGE,),
    )


def flat(text):
    return " ".join(text.split())


def test_one_that_surely_starts(starts):
    said = flat(sentence(starts))
    assert said == "wren: better than 19 in 20 that it starts within 3 s and one try; an estimate."
    assert limits(starts) == []
    assert story(starts)[-1].what == "runs by itself"


def test_one_that_does_not_come_over_the_top(starts):
    never = never_over(starts)
    said = flat(sentence(never))
    assert said == ("wren does not start: its starter does not bring it over the top. An estimate.")
    text = flat(start_text(never, full=True))
    assert "it does not come over the top" in text
    assert "gauge shows 0 bar" in text
    assert "it does not come to its spark: nothing throws it back" in text
    assert "keeps itself going from no speed" in text
    assert "0 of 8 engines drawn start (0 to 25 %)" in text
    turned = next(stage for stage in plan(never) if stage.do.startswith("Crank it, plug in"))
    assert "stronger or lower-geared starter" in turned.no_go


def test_what_limits_it_is_counted_and_said(starts):
    """5 of 8 thrown back are 12.5, said 12, in 20; 2 of 8 die, after them."""
    found = kicks(starts)
    assert limits(found) == [("kick", 0.625), ("dies", 0.25)]
    said = flat(sentence(found))
    assert f"What keeps it from it most: {LIMITS['kick']} (12 in 20)." in said
    assert "Fit a flywheel of 0.0068 kg·m²: then 18 in 20 start within two tries, " in said
    assert "where 6 in 20 do now." in said
    assert said.startswith("wren: about 2 in 20 that it starts")
    assert "62 in 100 " + LIMITS["kick"] in flat(start_text(found, full=True))
    # A first screen has the best in its sentence, and the next below.
    another = replace(CHANGE, text="Oil the rings", starts=0.6)
    short = flat(start_text(replace(found, changes=(CHANGE, another)), full=False))
    assert "12 in 20, was 6 Oil the rings" in short
    assert short.count("Fit a flywheel") == 1
    assert "90, was 30 Fit a flywheel" in flat(start_text(found, full=True))


def test_a_gauge_that_tells_is_asked_for_in_sentence_and_plan(starts):
    found = drawn(
        starts, ["dies"] * 4 + [None] * 4, [4e5, 5e5, 5.5e5, 6e5, 7e5, 8e5, 9e5, 9.5e5]
    )  # fmt: skip
    said = flat(sentence(found))
    at = round(found.cranked.mean_speed / RPM, -1)
    assert f"It starts if the gauge shows over 6.5 bar at {at:.0f} rpm." in said
    compression = next(stage for stage in plan(found) if "compression gauge" in stage.do)
    assert "over 6.5" in compression.go
    assert told(found, "1").odds.needs_gauge_pa == pytest.approx(6.5e5)
    tells_nothing = next(stage for stage in plan(starts) if "compression gauge" in stage.do)
    assert "19 in 20 engines like it" in tells_nothing.go


def test_kick_back_is_said_with_what_it_does(starts):
    assert flat(kick(kicks(starts))) == (
        "sparks earlier than 31° before top throw it back, 110° with 4.7 N·m at the starter"
    )
    bare = replace(starts, kick=replace(starts.kick, strong=31 * DEG, thrown=None))
    assert flat(kick(bare)) == "sparks earlier than 31° before top throw it back"
    free = replace(starts, kick=replace(starts.kick, strong=math.inf, true=0.08))
    assert "no spark up to 70° before top" in kick(free)
    assert any(one.what == "thrown back: it kicks" for one in story(kicks(starts)))


@pytest.mark.parametrize(
    ("least", "weak", "said"),
    [
        (math.inf, math.inf, "from no speed"),
        (500 * RPM, 510 * RPM, "from 500 rpm up"),
        (500 * RPM, 800 * RPM, "weak burns from 800 rpm"),
        (500 * RPM, math.inf, "not with every burn a weak one"),
        (110 * RPM, 110 * RPM, "from below 110 rpm up"),
    ],
)
def test_from_which_speed_it_keeps_going(starts, least, weak, said):
    words = flat(keeps_going(replace(starts, least=least, weak_least=weak)))
    assert said in words
    assert ("weak burns" in words) == (weak == 800 * RPM)


def test_idle_in_its_three_ways(starts):
    def said(*of):
        return flat(idle(replace(starts, idling=Idling(*of))))

    assert said(None, 0.0, math.nan) == "no throttle holds it at its idle speed"
    assert said(0.035, 0.0, math.nan).startswith("it stops: throttle 3.5 % open balances it")
    assert said(0.035, 1660 * RPM, 0.047) == (
        "1700 rpm, throttle 3.5 % open; turns differ by ±4.7 %"
    )


def test_how_it_runs_away(starts):
    limit = starts.plain.spark.limit_speed
    assert "held by its limiter" in over_run(starts)
    spark = starts.plain.spark.model_copy(update={"limit_speed": 3 * limit})
    high = replace(starts, plain=starts.plain.model_copy(update={"spark": spark}))
    assert "limiter" not in over_run(high)
    assert over_run(never_over(starts)) == "it does not run by itself"


def test_the_plan_has_this_engines_numbers(starts):
    """Proof of 1.3 times the peak; torque over 0.3 m and g; before fuel, in this order."""
    found = replace(starts, strong=replace(starts.strong, pressure=30e5, torque=29.42, volts=12e3))
    stages = plan(found)
    assert [flat(stage.do).split(":")[0].split(",")[0] for stage in stages[:4]] == [
        "Turn it by hand two turns",
        "Fill head and liner with water or oil and press to 39 bar",
        "Hold one end of the crank and pull the other by a 300 mm bar with 10 kg on a luggage "
        "scale.",
        "Crank it with a compression gauge for plug",
    ]
    fuel = [place for place, stage in enumerate(stages) if "fuel on" in stage.do]
    assert fuel == [6]
    assert all(stage.go and stage.no_go and stage.minds for stage in stages)
    spark = next(stage for stage in stages if "look for a spark" in stage.do)
    gap = float(flat(spark.do).split("across ")[1].split(" mm")[0]) * 1e-3
    # Told in two figures.
    assert spark_gap.breakdown_voltage(gap, 101_325.0, 293.15) == pytest.approx(12e3, rel=0.03)


def test_angles_are_said_from_top():
    assert degrees(7.4 * DEG) == "7° before top"
    assert degrees(-12.6 * DEG) == "13° after top"
    assert degrees(0.4 * DEG) == degrees(-0.4 * DEG) == "top"


def test_the_story_is_in_order_and_tells_of_misfires(starts):
    sparks = list(starts.lived.sparks)
    sparks[0] = replace(sparks[0], missed="lean")
    for place in (10, 11, 12):
        sparks[place] = replace(sparks[place], missed="thinned")
    told_of = story(replace(starts, lived=replace(starts.lived, sparks=tuple(sparks))))
    assert [one.seconds for one in told_of] == sorted(one.seconds for one in told_of)
    words = [flat(one.what) for one in told_of]
    assert words[0] == "starter on"
    assert words[1] == "first spark, 5° before top, and nothing: too lean"
    early = round(-sparks[1].angle / DEG)
    assert early > 0
    assert words[2].startswith(f"first combustion, spark {early}° before top, mixture ")
    assert f"3 of {len(sparks)} sparks light nothing, mostly: too much burned gas" in words


def test_mean_speeds_add_up_to_the_angle_turned(starts):
    """Forty stretches of equal time: their mean is the mean of all."""
    spun = starts.lived.spun
    speeds = np.array([speed for _, speed in told_every(starts.lived)])
    turned = speeds.mean() * spun.time[-1]
    assert turned == pytest.approx(spun.angle[-1] - spun.angle[0], rel=0.01)


@pytest.mark.parametrize("made", [lambda one: one, never_over, kicks])
@pytest.mark.parametrize("full", [False, True])
def test_no_line_is_wider_than_80_columns(starts, made, full):
    text = start_text(made(starts), full=full)
    assert max(map(len, text.splitlines())) <= 80
    assert "nan" not in text.lower().replace("nano", "")
    assert "extinguisher" in text
    assert "shield" in text


@pytest.mark.parametrize("made", [lambda one: one, never_over, kicks])
def test_json_keeps_its_contract_and_has_no_number_that_is_none(starts, made):
    found = made(starts)
    written = told(found, "1.0").model_dump_json(by_alias=True)

    def refuse(name):
        raise AssertionError(name)

    read = json.loads(written, parse_constant=refuse)
    schema = StartTold.model_json_schema(by_alias=True)
    Draft202012Validator(schema).validate(read)
    assert StartTold.model_validate(read) == told(found, "1.0")
    assert read["schema"] == "firstfire.start/1"
    assert read["cranking"]["over_the_top"] == found.cranked.over
    if math.isfinite(found.kick.strong):
        assert read["kick_back"]["earliest_safe_spark_deg"] == pytest.approx(31.0)
        assert read["kick_back"]["torque_thrown_nm"] == 4.7
    else:
        assert read["kick_back"]["earliest_safe_spark_deg"] is None
    assert {one["id"] for one in read["limits"]} == {why for why, _ in limits(found)}
    assert read["odds"]["starts"] == found.odds.share
    for row, speed in zip(read["torque_by_speed"], found.speeds, strict=True):
        assert row["gas_nm"] - row["friction_nm"] == pytest.approx(row["net_nm"])
        assert row["speed_rpm"] == pytest.approx(speed.speed / RPM)


def test_torque_by_speed_has_friction_that_takes(starts):
    """What gas gives less what is left is never a gain: 0.3 to 3 N·m of so small an engine."""
    taken = [one.gas - one.net for one in starts.speeds]
    assert all(0.3 < one < 3.0 for one in taken)


def test_priming_is_said_in_its_four_ways(starts):
    """One pulse: wren's full charge, 80 mg of air at 10 % over 14.6 to 1, of 0.73 kg/l: 8 mm³."""
    plain = starts.plain
    parts = plain.cylinders[0].cylinder
    swept = math.pi / 4 * parts.bore**2 * parts.stroke
    pulse = 1e9 * 1.1 * swept * 1.2 / 14.6 / 730.0

    def said(wanted, over, lost=(0, 0)):
        return priming(replace(starts, priming=Priming(wanted, over, lost)))

    told = said(3, 24)
    assert float(told.split(" of ")[1].split("\u202f")[0]) == pytest.approx(pulse, rel=0.05)
    assert told.startswith("3 of ")
    assert told.endswith("mm³ a port, without choke or start map; 24 are too many")
    assert said(0, None) == "none, without choke or start map"
    assert said(None, None).startswith("without a choke or start map no priming lights it")
    assert priming(replace(starts, priming=None)) is None


def test_the_story_tells_of_primed_and_flooded_fuel(starts):
    asked = replace(starts.asked, prime=3.0)
    fed = (Fed(0, 0.2, 0.9, 5e-7, wet=True, stopped=False),
           Fed(0, 0.4, 0.9, 9e-7, wet=True, stopped=True))  # fmt: skip
    lived = replace(starts.lived, asked=asked, fed=fed)
    told = {one.what: one for one in story(replace(starts, asked=asked, lived=lived))}
    assert told["primed with 3 pulses of fuel a port"].seconds == 0.0
    wet = next(one for what, one in told.items() if what.startswith("plug 1 is wet: 500"))
    assert wet.seconds == 0.2
    stopped = next(one for what, one in told.items() if "stops the piston" in what)
    assert stopped.seconds == 0.4
    assert lived.locked == 0.4
    plain = {one.what for one in story(starts)}
    assert not any("primed" in what or "wet" in what or "liquid" in what for what in plain)


def test_cycles_are_told_one_by_one_with_their_peaks(starts):
    """Against the trace itself: the peak about each spark, no later one's."""
    said = told(starts, "0").cycles
    spun = starts.lived.spun
    assert len(said) == len(starts.lived.sparks)
    assert [one.seconds for one in said] == sorted(one.seconds for one in said)
    for one in said[:10]:
        at = np.interp(one.seconds, spun.time, spun.angle)
        near = abs(spun.angle - at) < math.pi / 2 - 0.05
        assert one.peak_pa >= spun.pressure[near, one.cylinder - 1].max()
        wide = abs(spun.angle - at) < math.pi / 2 + 0.05
        assert one.peak_pa <= spun.pressure[wide, one.cylinder - 1].max()
    sparks = sorted(starts.lived.sparks, key=lambda spark: spark.seconds)
    assert said[3].before_top_deg == pytest.approx(-math.degrees(sparks[3].angle))
    assert said[3].speed_rpm == pytest.approx(sparks[3].speed / RPM)
    shown = start_text(starts, full=True)
    assert f"and {len(said) - 12} more" in shown
    first = shown.split("Cycle by cycle")[1].splitlines()[3]
    assert f"{said[0].peak_pa / 1e5:.1f}\u202fbar" in first


def test_the_folder_expects_of_a_gauge_what_a_start_says_it_shows(starts) -> None:
    from firstfire.setup.compression.readings import compression
    from firstfire.verdict.start.contract_parts import cranking_told

    assert cranking_told(compression(starts.engine).turned) == told(starts, "1.0").cranking
