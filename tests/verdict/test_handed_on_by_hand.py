"""What is handed on to be told: a better file's way, a few lines, degrees, and shaking."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np

from firstfire.errors import OutsideValidity
from firstfire.verdict.explain import run as opening
from firstfire.verdict.improve import text as improved
from firstfire.verdict.improve import words as improved_words
from firstfire.verdict.told import margins as told_margins
from firstfire.verdict.told.result import _degrees
from firstfire.verdict.words import balance
from firstfire.verdict.words.captions import turned
from firstfire.verdict.words.text import brief, points

STOP, ENGINE = object(), "engine"


def test_angles_are_told_in_degrees():
    """π/12 is 15°, and π/7 is 25.714286°."""
    assert _degrees(math.pi / 7) == 25.714286
    assert turned(-math.pi / 12) == "15° before top"
    assert turned(math.pi / 12) == "15° after top"


def test_a_margin_tells_what_moves_it_and_then_what_it_reads(monkeypatch):
    moves = SimpleNamespace(path="rod.width", elasticity=0.2)
    margin = SimpleNamespace(depends_on=[moves])
    monkeypatch.setattr(told_margins, "_dependence", lambda *of: of)
    assert told_margins._dependences(margin, ENGINE, ["rod.length", "rod.width"]) == [
        ("rod.width", 0.2, ENGINE), ("rod.length", None, ENGINE)
    ]  # fmt: skip
    monkeypatch.setattr(told_margins, "_Opened", lambda **of: of)
    monkeypatch.setattr(told_margins, "MarginTold", SimpleNamespace(made_of=lambda of: of))
    found = told_margins.told_margin(margin, "way", ENGINE, ["rod.length"])
    assert found["told_of_inputs"] == (("rod.width", 0.2, ENGINE), ("rod.length", None, ENGINE))
    assert found["way"] == "way"


def test_shaking_is_told_a_line_a_speed_the_slowest_first(monkeypatch):
    held = [
        SimpleNamespace(event=event, speed=speed)
        for event, speed in (("full_throttle", 300.0), ("full_throttle", 200.0), ("idle", 90.0))
    ]
    monkeypatch.setattr(balance, "shaking", lambda *of: of)
    monkeypatch.setattr(balance, "at_speed", lambda point: f"at {point.speed}")
    monkeypatch.setattr(balance, "_line", lambda *of: of)
    result = SimpleNamespace(points=held, plain="plain")
    assert balance.balance(result) == (
        (("plain", 200.0), "at 200.0"), (("plain", 300.0), "at 300.0")
    )  # fmt: skip


def test_a_check_in_three_lines(monkeypatch):
    def commands(*of, whole):
        assert (of, whole) == (("result", "asked"), True)
        yield from ("mend it", "open it")

    def sentences(result, brief):
        assert (result, brief) == ("result", 2)
        return ["It fails.", "At once.", "One in ten."]

    monkeypatch.setattr(brief, "commands", commands)
    monkeypatch.setattr(brief, "sentences", sentences)
    found = brief.brief_lines("result", "asked", width=40)
    assert found == ["It fails. At once.", "One in ten.", "mend it"]


# The way to a better file.
def test_the_way_is_told_with_what_is_left_and_what_is_next(monkeypatch):
    """Each part is asked for in the columns of the whole."""
    step = SimpleNamespace(
        change=SimpleNamespace(text="Do it", set={"rod.width": "9 mm"}, parts="bolts")
    )
    found = SimpleNamespace(
        steps=[step], left=["left"], before="before", after=SimpleNamespace(sentence="It holds.")
    )

    def against(before, one):
        assert (before, one) == ("before", step)
        return "rod"

    def follow(*of):
        assert of == (found, "asked", "better.toml", 50)
        return ["  next"]

    def left(*of):
        assert of == (found, 50)
        return ["  what is left"]

    for name, gives in {
        "sentence": lambda _: "Said.", "cost": len, "cost_words": str, "against_words": against,
        "step_words": lambda _: "It is better", "hours_words": lambda _: "1 h",
        "buys": lambda _: True, "_left": left, "_next": follow,
    }.items():  # fmt: skip
        monkeypatch.setattr(improved, name, gives)
    lines = improved.improve_text(found, "asked", "better.toml", width=50).splitlines()
    wanted = [
        "Said.", "  1. Against: rod.", "     Do it. It is better.", "     1 h, to buy: bolts",
        "       rod.width = 9 mm", "  1", "  It holds.", "  what is left", "  next",
    ]  # fmt: skip
    assert [line for line in lines if line in wanted] == wanted


def test_why_a_value_is_changed_is_told_by_what_was_weak(monkeypatch):
    """Of the engine as it was, with its factor in two figures."""
    margin = SimpleNamespace(way="way", least=0.456, event="idle")
    change = SimpleNamespace(set={"rod.width": "9 mm"})
    step = SimpleNamespace(against=margin, change=change)
    plain = SimpleNamespace(plain="plain")

    def named(*of):
        assert of == ("plain", "way")
        return "rod tears"

    monkeypatch.setattr(improved_words, "named", named)
    monkeypatch.setattr(improved_words, "first_second", lambda event: f"at {event}")
    monkeypatch.setattr(improved_words, "factor_words", lambda one: f"factor {one.least}")
    found = SimpleNamespace(steps=[step], before=plain)
    assert improved_words.reasons(found) == {"rod.width": "improve: rod tears (0.46)"}
    assert improved_words.against_words(plain, step) == "rod tears at idle (factor 0.456)"


# Only what can bring a way about is run.
def test_what_can_bring_it_about_is_run_each_after_what_it_begins_from(monkeypatch):
    def run(engine, event, known, stop, on_progress, *, trials):
        assert (engine, stop, on_progress) == (ENGINE, STOP, "progress")
        assert trials.centre == "plain"
        if event == "idle":
            raise OutsideValidity("no")
        return SimpleNamespace(event=event, known=known and known.event)

    def brings_about(event, base):
        assert base == "rod.tear"
        return event != "cranking"

    events = {
        "full_throttle": SimpleNamespace(after="", judged_at=1.0),
        "idle": SimpleNamespace(after="full_throttle", judged_at=2.0),
        "free_rev": SimpleNamespace(after="full_throttle", judged_at=3.0),
    }
    for name, gives in {
        "Trials": lambda _: SimpleNamespace(centre="plain"), "EVENTS": events, "run": run,
        "events": lambda _: ["cranking", *events], "running_order": list,
        "brings_about": brings_about, "CLOCKED": ("idle", "full_throttle"),
        "judge": lambda result, seconds: [(result.event, seconds)],
        "ranked": lambda results, judged: ([one.event for one in results], *judged),
        "run_times": lambda *of: [one.event for one in of], "geometry": lambda of: f"{of} shape",
        "verdict": lambda results, margins, limits: (len(results), margins[0], limits),
        "cautions": lambda *of: of, "Result": SimpleNamespace,
    }.items():  # fmt: skip
        monkeypatch.setattr(opening, name, gives)
    found = opening.look_into(ENGINE, "rod.tear", stop=STOP, on_progress="progress")
    assert [(one.event, one.known) for one in found.events] == [
        ("full_throttle", None), ("free_rev", "full_throttle")
    ]  # fmt: skip
    both = ["full_throttle", "free_rev"]
    assert found.margins == (both, ("full_throttle", 1.0), ("free_rev", 3.0))
    assert found.verdict == (2, both, ("full_throttle",))
    assert (found.geometry, found.cautions) == ("plain shape", (ENGINE, "plain"))


def test_a_change_is_worth_its_work_from_three_hundredths_on(monkeypatch):
    """Of a factor of 2: 2.06."""
    tried = [SimpleNamespace(factor_after=factor) for factor in (2.059, 2.061, 2.5)]
    event = SimpleNamespace(event="idle")
    margin = SimpleNamespace(way=SimpleNamespace(judged=True), raise_by=(), factor=2.0)

    def at_their_event(engine, results, chosen, stop):
        assert (engine, results, chosen, stop) == (ENGINE, {"idle": event}, [margin], STOP)
        return {id(margin): tuple(tried)}

    monkeypatch.setattr(opening, "at_their_event", at_their_event)
    monkeypatch.setattr(opening, "replace", lambda _, *, raise_by: raise_by)
    result = SimpleNamespace(engine=ENGINE, events=[event])
    assert opening.with_its_changes(result, margin, STOP) == tuple(tried[1:])


def test_pressure_is_drawn_about_the_cylinders_own_top(monkeypatch):
    """It fires at 60°: a peak at 60° of the shaft stands in the middle."""
    degrees = np.arange(0.0, 720.0)
    pressure = np.where(np.abs(degrees - 60.0) < 3, 30e5, 10e5)
    curves = SimpleNamespace(angle=np.radians(degrees), pressure=pressure[:, None])
    point = SimpleNamespace(fired=SimpleNamespace(cycle=SimpleNamespace(curves=curves)))
    monkeypatch.setattr(points, "firing_angles", lambda of: (math.pi / 3,) if of == ENGINE else ())
    drawn = {}

    def text_curve(across, up):
        drawn.update(zip((round(at) for at in across), up, strict=True))
        return ["#"]

    monkeypatch.setattr(points, "text_curve", text_curve)
    points.pressure_curve(point, ENGINE)
    assert (drawn[0], drawn[60], drawn[-60]) == (30e5, 10e5, 10e5)
