"""What a check hands to whom, and what it says that it can't know; no gas is run."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

import pytest

from firstfire.errors import Interrupted, OutsideValidity, Stopped
from firstfire.verdict import check as checking
from firstfire.verdict.check import _beyond, check

RPM = math.pi / 30
ENGINE, CENTRE, SHAFT = "engine", SimpleNamespace(name="centre"), "shaft"
POINT = SimpleNamespace(name="cranking")


@dataclass(frozen=True)
class Told:
    """What a result is made of."""

    engine: Any
    plain: Any
    geometry: Any
    events: Any
    margins: Any
    run_times: Any
    lasting: Any
    verdict: Any
    unjudged: Any
    cautions: Any
    version: str
    narrows: Any = ()
    starting: Any = None
    helped: Any = ()
    begins: Any = None
    sentence: str = ""


def only(*asked, gives):
    """A stand-in that is asked for just this."""

    def of(*got, **named):
        assert got + tuple(named.values()) == asked
        return gives

    return of


@pytest.fixture
def told(monkeypatch):
    """An engine of three events, each of which hands on what it was given."""
    seen = SimpleNamespace(ran={}, over=True, ends=None)

    def event(how, judged_at, after=None):
        return SimpleNamespace(how=how, judged_at=judged_at, after=after)

    names = {
        "cranking": event("turned", 0.5), "idle": event("held", 1.0, "full_throttle"),
        "full_throttle": event("held", 2.0),
    }  # fmt: skip

    def run(engine, event, known, stop, on_progress, *, speeds, trials, drawn):
        if event == seen.ends:
            raise seen.why
        assert (engine, trials.centre, drawn) == (ENGINE, CENTRE, 7)
        seen.ran[event] = (known and known.event, speeds, stop, on_progress)
        return SimpleNamespace(event=event, points=(POINT,), notes=[(f"{event} note", "open")])

    def judge(result, seconds):
        word = "not judged" if result.event == "idle" else "holds"
        way = SimpleNamespace(part="rod", failure="tears", why_not="no model.")
        return [SimpleNamespace(of=result.event, seconds=seconds, word=word, way=way)]

    def ranked(results, found):
        assert [one.event for one in results] == [one.of for one in found]
        return found[::-1]

    def verdict(results, margins, limits):
        return ([r.event for r in results], [m.of for m in margins], limits)

    stop = object()
    seen.stop = stop

    def with_changes(engine, results, raised, halt):
        assert (engine, halt) == (ENGINE, stop)
        assert list(results) == ["cranking", "full_throttle", "idle"]
        return [SimpleNamespace(**{**vars(one), "changed": True}) for one in raised]

    for name, gives in {
        "Trials": lambda engine: SimpleNamespace(centre=CENTRE, of=engine),
        "geometry": only(CENTRE, gives="geometry"),
        "events": only(ENGINE, gives=["cranking", "full_throttle", "idle"]),
        "running_order": sorted,
        "EVENTS": names, "CLOCKED": ("full_throttle", "idle"), "run": run, "judge": judge,
        "ranked": ranked, "with_changes": with_changes, "verdict": verdict, "Result": Told,
        "run_times": lambda *of: [f"{one.event} limit" for one in of],
        "lasting_of": lambda of: [one.event for one in of],
        "cautions": only(ENGINE, CENTRE, gives=("caution",)),
        "_beyond": lambda plain, points: (f"{plain.name} {len(points)}",),
        "turned_over": lambda *of: SimpleNamespace(
            over=seen.over, shaft=SHAFT, of=of == (CENTRE, POINT, stop)
        ),
        "helped_over": only(CENTRE, stop, gives="helped"),
        "brief": only(CENTRE, SHAFT, stop, gives="begins"),
        "narrows": lambda engine, events, raised: (engine, len(events), raised[0].changed),
        "sentence": lambda result: f"said of {result.begins}",
        "stopped_sentence": lambda result: f"stopped with {len(result.events)}",
    }.items():  # fmt: skip
        monkeypatch.setattr(checking, name, gives)
    return seen


def test_a_check_hands_each_what_it_asks_for(told):
    """Held events are run at the speeds asked; an idle comes after full throttle."""
    shares = []

    def progress(what, share):
        shares.append((what, share))

    found = check(ENGINE, speeds=[9.0], drawn=7, stop=told.stop, on_progress=progress)
    assert told.ran == {
        "cranking": (None, None, told.stop, progress),
        "full_throttle": (None, [9.0], told.stop, progress),
        "idle": ("full_throttle", [9.0], told.stop, progress),
    }
    assert (found.engine, found.plain, found.geometry) == (ENGINE, CENTRE, "geometry")
    assert [(one.of, one.seconds) for one in found.margins] == [
        ("idle", 1.0), ("full_throttle", 2.0), ("cranking", 0.5)
    ]  # fmt: skip
    assert found.run_times == ("full_throttle limit", "idle limit")
    assert found.verdict == (
        ["cranking", "full_throttle", "idle"], ["idle", "full_throttle", "cranking"],
        found.run_times,
    )  # fmt: skip
    assert found.lasting == found.verdict[0]
    *notes, beyond = found.unjudged
    assert [(one.subject, one.why) for one in notes] == [
        ("rests between runs", "not computed in this version"), ("cranking note", "open"),
        ("full_throttle note", "open"), ("idle note", "open"), ("rod tears", "no model"),
    ]  # fmt: skip
    assert (beyond, found.cautions) == ("centre 3", ("caution",))
    assert found.narrows == (ENGINE, 3, True)
    assert (found.starting.of, found.helped, found.begins) == (True, (), "begins")
    assert found.sentence == "said of begins"
    assert shares == [("what would raise it", 0.9), ("its start", 0.97)]


def test_a_brisk_check_tries_no_change_and_tells_no_start(told):
    """One that its starter can't turn is helped over the top."""
    told.over = False
    found = check(ENGINE, changes=False, drawn=7, stop=told.stop)
    assert (found.narrows, found.helped, found.begins) == ((), "helped", None)
    assert not hasattr(found.margins[0], "changed")


def test_what_can_not_be_run_is_told_as_not_judged(told):
    told.ends, told.why = "full_throttle", OutsideValidity("It is too fast.")
    found = check(ENGINE, only=["full_throttle", "idle"], changes=False, drawn=7, stop=told.stop)
    assert told.ran == {"idle": (None, None, told.stop, None)}
    assert (found.unjudged[1].subject, found.unjudged[1].why) == ("full throttle", "It is too fast")
    assert found.starting is None


@pytest.mark.parametrize(
    ("why", "ends"), [(Stopped("enough"), Stopped), (KeyboardInterrupt(), Interrupted)]
)
def test_a_check_that_is_stopped_hands_back_what_was_finished(told, why, ends):
    """Cranking and full throttle are done; idle is not."""
    told.ends, told.why = "idle", why
    with pytest.raises(ends) as halted:
        check(ENGINE, drawn=7, stop=told.stop)
    done = halted.value.partial
    assert (done.engine, done.plain) == (ENGINE, CENTRE)
    assert [one.event for one in done.events] == ["cranking", "full_throttle"]
    assert [one.of for one in done.margins] == ["full_throttle", "cranking"]
    assert [one.subject for one in done.unjudged[:2]] == [
        "whatever comes after", "rests between runs"
    ]  # fmt: skip
    assert (done.starting.shaft, done.sentence) == (SHAFT, "stopped with 2")
    told.ends, told.why = "cranking", why
    with pytest.raises(ends) as halted:
        check(ENGINE, drawn=7, stop=told.stop)
    assert halted.value.partial is None


def point(speed, spark=0.1, misfires=(), converged=True):
    fired = SimpleNamespace(cycle=SimpleNamespace(converged=converged))
    return SimpleNamespace(
        name="full", speed=speed * RPM, spark=spark, misfires=misfires, fired=fired
    )


def plain(ratio=8.5, worked="suction", cylinders=1):
    valve = SimpleNamespace(worked=worked)
    parts = SimpleNamespace(
        valves=SimpleNamespace(inlet=valve, exhaust=SimpleNamespace(worked="cam")),
        cylinder=SimpleNamespace(compression_ratio=ratio),
    )
    return SimpleNamespace(cylinders=[parts] * cylinders)


@pytest.mark.parametrize(
    ("speed", "told"),
    [
        (790, ["the burn at 790 rpm in full"]), (810, []), (5990, []),
        (6010, ["the burn at 6010 rpm in full"]), (7990, ["the burn at 7990 rpm in full"]),
        (8010, ["full in full"]),
    ],
)  # fmt: skip
def test_burns_are_known_from_800_to_6000_rpm_and_pipes_to_8000(speed, told):
    assert [one.subject for one in _beyond(plain(), [point(speed)])] == told
    turned = _beyond(plain(), [point(speed, spark=None)])
    assert [one.subject for one in turned] == (told if speed > 8000 else [])


def test_what_does_not_light_or_settle_or_may_knock_is_told():
    one = point(3000, misfires=(1, 2), converged=False)
    first, second, third = _beyond(plain(8.6, cylinders=2), [one])
    assert first.subject == "cylinder 1 and 2 at full"
    assert second.why.endswith("a valve that suction opens bounces anew each time")
    assert third.subject == "knock"
    one.misfires = (1,)
    alone, settles = _beyond(plain(worked="cam"), [one])
    assert alone.subject == "the cylinder at full"
    assert settles.why.endswith("burn and charge chase each other")
