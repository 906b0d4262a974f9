"""What is said of leaks and of an engine that runs away: an account changed by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from firstfire.runs.start.leaks import LeakPath
from firstfire.runs.start.speed_limits import SpeedLimit, SpeedLimits
from firstfire.verdict.start.contract import told
from firstfire.verdict.start.leak_words import SIGNS, alike, leaking, path_words, tight
from firstfire.verdict.start.overrun_words import first, passing, runs_away
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.text import start_text

RPM = math.pi / 30
FLOATS = SpeedLimit("valves.inlet.float", "inlet valve", "floats", 3300 * RPM, False)
BURSTS = SpeedLimit("flywheel.burst", "flywheel", "bursts", 6000 * RPM, True)
CURVE = tuple((0.01 * n, (1500 + 25 * n) * RPM) for n in range(141))


def flat(text):
    return " ".join(text.split())


def away(found, *limits, reached=4900.0, held="friction", limiter=None, already=(), unjudged=()):
    """It reaches so many rpm in 1.3 s and passes these."""
    spark = found.plain.spark.model_copy(
        update={"limited_by": "spark" if limiter else "nothing",
                "limit_speed": limiter and limiter * RPM}
    )  # fmt: skip
    ran = replace(
        found.runs_away, begins=1500 * RPM, reached=reached * RPM, seconds=1.3, held=held,
        curve=CURVE, limits=SpeedLimits(limits, already, unjudged),
    )  # fmt: skip
    return replace(found, runs_away=ran, plain=found.plain.model_copy(update={"spark": spark}))


def leaky(found, **changes):
    paths = (LeakPath("exhaust_seat", 0.3e-6, 0.75), LeakPath("ring", 0.1e-6, 0.25))
    one = replace(
        found.leaks[0], area=0.4e-6, loss=0.234, loss_low=0.12, loss_high=0.46, loss_oiled=0.18,
        thumb_begins=5.12e5, thumb=0.0123, thumb_oiled=0.0167, paths=paths, **changes,
    )  # fmt: skip
    return replace(found, leaks=(one,))


def test_the_first_limit_on_the_way_is_named_with_when_it_comes(starts):
    """The curve climbs 25 rpm in 10 ms from 1500: 3300 after 0.72 s."""
    found = away(starts, FLOATS, BURSTS)
    assert flat(first(found)) == "passes first: inlet valve floats, 3300 rpm after 0.72 s"
    assert flat(runs_away(found)).startswith("4900 rpm in 1.3 s, throttle open; passes first")


def test_the_plan_warns_of_the_run_away_with_its_numbers(starts):
    def minds(found):
        return next(flat(s.minds) for s in plan(found) if s.do.startswith("Let the starter go"))

    assert "at once, to 4900 rpm in 1.3 s with the throttle open: throttle back" in minds(
        away(starts, FLOATS)
    )
    assert "at once: throttle back" in minds(away(starts, held="beyond"))
    assert "at once: throttle back" in minds(replace(starts, runs_away=None))


def test_a_limiter_that_is_lower_comes_first(starts):
    assert flat(first(away(starts, FLOATS, limiter=3000, reached=3000.0, held="limiter"))) == (
        "its limiter comes first, next: inlet valve floats, 3300 rpm"
    )
    assert flat(first(away(starts, FLOATS, limiter=4000, reached=4000.0, held="limiter"))) == (
        "passes first: inlet valve floats, 3300 rpm after 0.72 s"
    )


def test_a_limit_that_is_not_reached_is_the_next(starts):
    assert flat(first(away(starts, BURSTS))) == "next limit: flywheel bursts, 6000 rpm"


def test_no_limit_none_judged_and_none_that_runs(starts):
    assert flat(first(away(starts))) == ("no part that is judged has its limit below 12000 rpm")
    blind = replace(starts, runs_away=replace(starts.runs_away, limits=None))
    assert "not judged" in runs_away(blind)
    assert list(passing(blind)) == ["what it passes on the way is not judged."]
    stopped = replace(starts, runs_away=None, lived=replace(starts.lived, let_go=None))
    assert runs_away(stopped) == "it does not run by itself"
    assert told(stopped, "1").over_run is None


def test_beyond_what_is_followed_no_speed_is_told(starts):
    said = flat(runs_away(away(starts, FLOATS, reached=8100.0, held="beyond")))
    assert said.startswith("over 8000 rpm, not followed further")


def test_all_that_it_passes_stands_in_its_order(starts):
    twice = replace(FLOATS, id="valves.inlet.float#2", speed=3310 * RPM)
    slips = ("crank.joint.slip", "crank.joint.slip#2")
    found = away(starts, FLOATS, twice, BURSTS, limiter=5500, already=slips, unjudged=("rod.tear",))
    assert [flat(words) for words in passing(found)] == [
        "inlet valve floats, 3300 rpm",
        "it reaches 4900 rpm in 1.3 s, held by friction and load",
        "its limiter, 5500 rpm",
        "flywheel bursts, 6000 rpm",
        "1 more gives way under this gas at any speed: firstfire check has them",
        "not judged: rod.tear",
    ]
    said = told(found, "1").over_run
    assert [(one.id, one.passed) for one in said.limits] == [
        ("valves.inlet.float", True), ("valves.inlet.float#2", True), ("flywheel.burst", False),
    ]  # fmt: skip
    assert said.limiter_rpm == pytest.approx(5500)
    assert said.reached_rpm == pytest.approx(4900)
    assert said.not_judged == ["rod.tear"]


def test_a_throttle_that_was_asked_is_told_beside_an_open_one(starts):
    found = away(starts, FLOATS)
    half = replace(found, asked=replace(found.asked, throttle=0.4))
    said = flat(runs_away(half))
    assert "4900 rpm in 1.3 s, throttle open" in said
    assert not said.startswith("4900")


def test_two_tests_of_a_leak_are_said_dry_and_oiled(starts):
    found = leaky(starts)
    down, thumb = (flat(words) for words in leaking(found.leaks[0]))
    assert "5.5 bar through 1.02 mm: it loses 23 % (12 to 46 %) of the pressure" in down
    assert "with oil on the rings 18 %" in down
    assert "5.1 bar, half of it after 0.012 s, oiled after 0.017 s" in thumb
    assert flat(tight(found.leaks)) == ("23 % (12 to 46 %) at 5.5 bar, 1 mm orifice; thumb 0.012 s")
    stays = leaky(starts, low=0.0, high=0.0).leaks[0]
    *_, said = leaking(replace(stays, thumb=math.inf))
    assert said.endswith("and it stays.")


def test_the_leakiest_of_unlike_cylinders_is_named(starts):
    (one,) = leaky(starts).leaks
    two = replace(one, cylinder=2, area=0.8e-6, loss=0.5, loss_low=0.5, loss_high=0.5)
    assert flat(tight((one, two))).startswith("cylinder 2: 50 % at 5.5 bar")
    assert flat(tight((one, replace(one, cylinder=2)))).startswith("23 %")
    text = flat(start_text(replace(starts, leaks=(one, two)), full=True))
    assert "Cylinder 1 Leak-down" in text
    assert "Cylinder 2 Leak-down" in text


def test_every_way_out_has_its_sign_and_only_the_rings_mind_oil():
    assert [path for path, sign in SIGNS.items() if sign.oil_helps] == ["ring"]
    words = {path: path_words(LeakPath(path, 1e-7, 0.1)) for path in SIGNS}
    heard = {"ring": "breather", "inlet_seat": "intake", "exhaust_seat": "exhaust",
             "gasket": "joint", "plug": "plug", "wall": "print"}  # fmt: skip
    assert all(sign in words[path] for path, sign in heard.items())
    assert len(set(words.values())) == 6


def test_text_and_json_have_the_same_leaks_with_their_caution(starts):
    found = leaky(starts)
    text = flat(start_text(found, full=True))
    assert "75 % exhaust seat, 0.3 mm²: hiss at the exhaust's end" in text
    assert text.index("75 % exhaust") < text.index("25 % past the rings")
    assert "only after that cylinder has held liquid" in text
    (said,) = told(found, "1").leaks.cylinders
    assert said.leak_down_loss == 0.234
    assert said.thumb_half_seconds == 0.0123
    assert [(way.path, way.share) for way in said.paths] == [("exhaust_seat", 0.75), ("ring", 0.25)]
    assert said.paths[1].oil_on_rings_helps
    holds = replace(found, leaks=(replace(found.leaks[0], thumb=math.inf),))
    assert told(holds, "1").leaks.cylinders[0].thumb_half_seconds is None


@pytest.mark.parametrize(("other", "same"), [(0.4e-6, True), (0.41e-6, False)])
def test_cylinders_leak_alike_within_a_hundredth(starts, other, same):
    """0.4 mm² each, or 0.41: two parts in a hundred and a half more, which a tester shows."""
    (one,) = leaky(starts).leaks
    assert alike((one, replace(one, cylinder=2, area=other))) is same
    assert not alike((one, replace(one, paths=one.paths[:1])))
