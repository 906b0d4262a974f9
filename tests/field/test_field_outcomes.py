"""What real plastic engines did, against a check of engine files written from the reports.

Inputs a report does not give are a builder's guess, marked so in the file. Where guesses decide,
the range a builder would guess is run as well. Times in reports are rough: *some minutes* is read
as two to ten.

References
----------
Nylon pistons: Car Throttle, "Plastic Pistons Work Way Better Than You'd Expect", 3 May 2021;
Carbuzz, "Here's Proof That Plastic Pistons Actually Work"; explica, "Can an engine run on plastic
pistons?".
Acrylic head: Motor1 UK, "Watch transparent engine combustion process". Acrylic cylinder: Driven,
"Watch combustion engine in super slow motion", 27 October 2021.
"""

from __future__ import annotations

from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.runs.bout import held
from firstfire.runs.point import spark_angle
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.margin import Margin, RunTime
from firstfire.verdict.facts.run_time import run_times
from firstfire.verdict.result import Result

pytestmark = pytest.mark.slow
HERE = Path(__file__).parent
MINUTE = 60.0
LIT = ("cranking", "first_fire")


def checked(engine: ff.Engine, *reported: str) -> Result:
    """The events that a report tells of; nobody here asks what would raise them."""
    return ff.check(engine, only=reported, changes=False)


@pytest.fixture(scope="module")
def nylon() -> Result:
    return checked(ff.read(HERE / "nylon_pistons.toml"), *LIT, "idle")


@pytest.fixture(scope="module")
def acrylic_head() -> Result:
    return checked(ff.read(HERE / "acrylic_head.toml"), *LIT, "idle", "full_throttle")


@pytest.fixture(scope="module")
def acrylic_cylinder() -> Result:
    return checked(ff.read(HERE / "acrylic_cylinder.toml"), *LIT, "idle", "full_throttle")


@pytest.fixture(scope="module")
def spacer() -> Result:
    return checked(ff.read(HERE / "clear_resin_spacer.toml"), *LIT, "full_throttle")


def limits(result: Result, event: str) -> dict[str, RunTime]:
    """By id, where it comes soonest."""
    found: dict[str, RunTime] = {}
    for limit in result.run_times:
        if limit.event == event:
            found.setdefault(limit.way.id, limit)
    return found


def ending(result: Result, event: str) -> list[str]:
    """Ids of what ends an event, soonest first; what is only reported is left out."""
    found = limits(result, event).values()
    return [r.way.id for r in found if not r.reported and r.seconds is not None]


def margin(result: Result, event: str, way: str) -> Margin:
    found = [m for m in result.margins if m.event == event and m.way.id == way]
    return min(found, key=lambda m: m.rank)


# --- pistons of cast nylon -----------------------------------------------------------------------


def test_nylon_pistons_stand_their_first_fire_and_idle(nylon: Result) -> None:
    """Starts after a few seconds, idles well; none burst."""
    assert {event.event for event in nylon.events} >= {"first_fire", "idle"}
    for event in ("cranking", "first_fire", "idle"):
        assert margin(nylon, event, "piston.crown.break").word == "holds"
    idle = next(p for p in nylon.points if p.event == "idle")
    assert idle.misfires == ()
    # A carburettor's throttle of this engine is nearly shut: some per cent of its area.
    assert idle.throttle is not None
    assert 0.002 < idle.throttle < 0.1


def test_they_end_after_some_minutes_by_swelling(nylon: Result) -> None:
    """Stops after some minutes because the pistons swell and seize, or rings sink into lands."""
    first = ending(nylon, "idle")[0]
    assert first in ("piston.swell", "piston.land.sink", "piston.land.break")
    limit = limits(nylon, "idle")[first]
    assert limit.seconds is not None
    assert limit.seconds_low is not None
    assert 2 * MINUTE < limit.seconds < 10 * MINUTE
    assert limit.seconds_low < 10 * MINUTE
    assert limit.seconds_high is None or limit.seconds_high > 2 * MINUTE


def test_their_crowns_char_before_and_that_does_not_end_it(nylon: Result) -> None:
    """Crowns charred, none burst."""
    found = limits(nylon, "idle")
    char, end = found["piston.crown.char"], found[ending(nylon, "idle")[0]]
    assert char.reported
    assert char.seconds is not None
    assert end.seconds is not None
    assert char.seconds < end.seconds
    broken = found["piston.crown.break"].seconds
    assert broken is None or broken > 1.5 * end.seconds


@pytest.mark.parametrize(
    ("clearance", "crown"),
    [("0.2 mm", "10 mm"), ("0.2 mm", "15 mm"), ("0.25 mm", "10 mm"), ("0.25 mm", "15 mm"),
     ("0.4 mm", "10 mm"), ("0.4 mm", "12 mm")],
)  # fmt: skip
def test_over_the_range_of_guesses_they_end_after_minutes_by_swelling(
    clearance: str, crown: str
) -> None:
    """Twice the aluminium original's clearance to nearly what nylon wants; crowns thin and thick.

    A minute, not two: with twice the original's clearance they should end early among *some
    minutes*.
    """
    engine = with_values(
        ff.read(HERE / "nylon_pistons.toml"),
        {"piston.skirt_clearance": clearance, "piston.crown_thickness": crown},
    )
    plain = resolve(engine)
    speed = plain.use.idle_speed
    spark = spark_angle(plain, speed, starting=False)
    bout = held(plain, "idle", "idle", speed, spark, 600.0)
    found = run_times(EventResult("idle", plain, (bout,)))
    first = next(r for r in found if not r.reported and r.seconds is not None)
    assert first.way.id == "piston.swell"
    assert first.seconds is not None
    assert MINUTE < first.seconds < 10 * MINUTE


# --- a head of acrylic ---------------------------------------------------------------------------


def test_an_acrylic_head_bubbles_almost_at_once(acrylic_head: Result) -> None:
    """Surface bubbles almost from the first run: at once under throttle, after seconds of idle."""
    for event, most in (("full_throttle", 3.0), ("idle", 20.0)):
        soft = limits(acrylic_head, event)["head.face.soften"]
        assert soft.reported
        assert soft.seconds is not None
        assert soft.seconds < most
        assert soft.seconds_low is not None
        assert soft.seconds_low < 5.0


def test_it_does_not_burst(acrylic_head: Result) -> None:
    """One head that didn't burst says that bursting is rare, not that 1 in 1000 holds.

    That is what *holds* asks of what bursts. At a first combustion on a starter that dips below
    200 rpm the model gives it 98 in 100; the reported engine started at once, so it turned faster.
    """
    for event in ("cranking", "idle", "full_throttle"):
        assert margin(acrylic_head, event, "head.break").word == "holds"
    first = margin(acrylic_head, "first_fire", "head.break")
    assert first.factor is not None
    assert first.factor > 1.3
    assert first.survival is not None
    assert first.survival > 0.95
    assert "head.break" not in ending(acrylic_head, "idle")


def test_it_runs_several_times_and_ends_by_losing_its_seal(acrylic_head: Result) -> None:
    """In the end compression is lost: seats, gasket or port let go, after some seconds of a run."""
    sealing = {"head.seat.loosen", "exhaust_port.soften", "gasket.open"}
    for event, least in (("full_throttle", 2.0), ("idle", 10.0)):
        first = ending(acrylic_head, event)[0]
        assert first in sealing
        seconds = limits(acrylic_head, event)[first].seconds
        assert seconds is not None
        assert seconds > least


# --- a cylinder of acrylic -----------------------------------------------------------------------


def test_an_acrylic_cylinder_runs_for_quite_some_time(acrylic_cylinder: Result) -> None:
    """Filmed running without a load, with little marring: no limit of the bore below a minute."""
    found = limits(acrylic_cylinder, "idle")
    assert {event.event for event in acrylic_cylinder.events} >= {"idle"}
    bore = [r for way, r in found.items() if way.startswith("liner.")]
    assert all(r.seconds is None or r.seconds > MINUTE for r in bore)
    assert all(
        found[way].seconds is None or (found[way].seconds or 0.0) > MINUTE
        for way in ending(acrylic_cylinder, "idle")
    )


def test_its_cylinder_and_head_stay(acrylic_cylinder: Result) -> None:
    for event in ("cranking", "first_fire", "idle", "full_throttle"):
        for way in ("liner.burst", "head.lift", "head.break"):
            assert margin(acrylic_cylinder, event, way).word == "holds"


# --- a spacer of clear resin ---------------------------------------------------------------------


def test_a_clear_resin_spacer_cracks_along_its_foot_within_a_few_starts(spacer: Result) -> None:
    """A real one did on its second start; sizes, and ten seconds a start, are a builder's guess.

    It stands its first combustion, more likely than not, and not four starts' worth of throttle.
    """
    first = margin(spacer, "first_fire", "body.foot.crack")
    assert first.factor is not None
    assert first.factor > 1
    foot = limits(spacer, "full_throttle")["body.foot.crack"]
    assert foot.seconds is not None
    assert 2.0 < foot.seconds < 40.0
    assert margin(spacer, "full_throttle", "body.foot.crack").word == "marginal"


def test_what_it_is_told_to_do_keeps_the_spacer_whole(spacer: Result) -> None:
    """Of printed polyamide with fibres, the same foot is not what ends it in a minute."""
    tough = with_values(ff.read(HERE / "clear_resin_spacer.toml"), {"body.material": "pa12_cf"})
    found = limits(checked(tough, "full_throttle"), "full_throttle").get("body.foot.crack")
    assert found is None or found.seconds is None or found.seconds > MINUTE
