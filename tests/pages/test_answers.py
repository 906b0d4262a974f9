"""What is computed for the pages: the newest question first, what is older dropped."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest
from tests.pages.stood_in import WREN, asked, never

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.errors import Stopped
from firstfire.pages.answers.bouts import choices, fitted
from firstfire.pages.answers.form import changed, form, rows
from firstfire.pages.answers.margins import UNKNOWN, at_hand
from firstfire.pages.answers.messages import width_key
from firstfire.pages.answers.quick import Quick
from firstfire.pages.answers.share import Share
from firstfire.runs.at import bout_at
from firstfire.runs.meanwhile import meanwhile
from firstfire.verdict.facts.judge import judge


def kinds(told):
    return [one.kind for one in told]


def test_a_first_question_is_answered_whole(wren):
    told = list(Quick().answers(asked(event="cranking"), never))
    assert kinds(told) == ["form", "rows", "drawing", "at hand", "drawing"]
    assert told[3].data["settled"]
    assert told[1].data["name"] == wren.name
    assert {"desk"} == {name for name in ("desk", "narrow") if name in told[3].data}


def test_the_same_question_again_says_only_what_is_at_hand():
    quick = Quick()
    list(quick.answers(asked(event="cranking"), never))
    assert kinds(quick.answers(asked(event="cranking", number=2), never)) == ["at hand"]


def test_what_was_dropped_on_the_way_is_told_with_the_next_answer():
    quick = Quick()
    list(quick.answers(asked(event="cranking"), never))
    other = WREN.replace('bore = "40 mm"', 'bore = "41 mm"')
    halted = quick.answers(asked(other, 2, event="cranking"), never)
    assert next(halted).kind == "at hand"
    halted.close()  # a newer question has come
    told = list(quick.answers(asked(other, 3, event="cranking"), never))
    assert kinds(told) == ["at hand", "rows", "drawing"]
    assert told[1].data["rows"]["cylinder.bore"]["v"] == "41 mm"


def test_a_change_sends_only_the_rows_that_it_changed():
    quick = Quick()
    list(quick.answers(asked(event="cranking"), never))
    other = WREN.replace('bore = "40 mm"', 'bore = "41 mm"')
    told = {one.kind: one for one in quick.answers(asked(other, 2, event="cranking"), never)}
    sent = told["rows"].data["rows"]
    assert sent["cylinder.bore"]["v"] == "41 mm"
    assert "spark.start_angle" not in sent
    assert 1 < len(sent) < 60


def test_what_is_wrong_is_said_with_its_place_and_nothing_else_is():
    text = WREN.replace('bore = "40 mm"', 'bore = "4000 mm"')
    (told,) = Quick().answers(asked(text), never)
    (problem,) = told.data["problems"]
    assert (told.kind, problem["path"]) == ("problems", "cylinder.bore")
    assert "10 mm to 120 mm" in problem["words"]


def test_a_newer_question_drops_what_is_under_way():
    with pytest.raises(Stopped):
        list(Quick().answers(asked(event="full_throttle"), lambda: True))


def test_the_event_of_another_engine_is_fitted_to_this_one(plain):
    known = [ident for ident, _, _ in choices(plain)]
    assert "full_throttle@0" in known
    assert fitted(plain, "full_throttle") == "full_throttle@0"
    assert fitted(plain, "full_throttle@7") == "full_throttle@0"
    assert fitted(plain, "nonsense") == known[0]
    single = plain.use.model_copy(update={"full_throttle_speeds": (300.0,)})
    one = plain.model_copy(update={"use": single})
    assert fitted(one, "full_throttle@1") == "full_throttle"


def test_meanwhile_a_changed_engine_has_its_own_gas_and_the_old_walls(wren, plain, fired):
    speed = plain.use.full_throttle_speeds[0]
    tighter = resolve(ff.with_values(wren, {"cylinder.compression_ratio": 7.5}))
    first = meanwhile(tighter, fired, speed)
    own = bout_at(tighter, "full_throttle", speed)
    assert first.histories is fired.histories
    peak, wanted = first.point.peaks[0].mean, own.point.peaks[0].mean
    assert wanted > 1.05 * fired.point.peaks[0].mean
    # The walls after ten seconds differ by a few kelvin, which a peak hardly feels.
    assert math.isclose(peak, wanted, rel_tol=0.02)


def test_meanwhile_an_engine_of_other_layers_is_no_like_engine(wren, plain, fired):
    bare = resolve(ff.with_values(wren, {"piston.shield.thickness": "0 mm"}))
    other = resolve(ff.with_values(wren, {"head.chamber_plate_thickness": "0 mm"}))
    speed = plain.use.full_throttle_speeds[0]
    told = [meanwhile(one, fired, speed) for one in (bare, other)]
    assert None in told


def test_without_a_span_nothing_holds(plain, fired):
    found = at_hand(plain, "full_throttle@0", fired, None, {})
    judged = [m for m in found if m.factor is not None]
    assert {m.word for m in judged} <= {"fails", "not judged"}
    assert all((m.word == "fails") == (m.factor < 1) for m in judged)


def test_a_span_is_as_wide_as_it_last_was(plain, fired):
    way = next(m for m in at_hand(plain, "full_throttle@0", fired, None, {})
               if m.factor is not None and m.factor > 2 and not m.way.hazard).way.id  # fmt: skip
    for low, word in ((0.9, "holds"), (0.1, "marginal")):
        widths = {width_key("full_throttle@0", way): (low, 1.5, UNKNOWN)}
        found = at_hand(plain, "full_throttle@0", fired, None, widths)
        margin = next(m for m in found if m.way.id == way)
        assert margin.word == word
        assert margin.factor_low == pytest.approx(low * margin.factor)
        assert margin.factor_high == pytest.approx(1.5 * margin.factor)


def test_what_throws_or_bursts_holds_no_more_once_it_is_weaker(plain, fired):
    found = at_hand(plain, "full_throttle@0", fired, None, {})
    one = next(m for m in found if m.way.hazard and m.factor is not None and m.factor > 1.5)
    for holding, word in ((one.factor, "holds"), (1.01 * one.factor, "marginal")):
        widths = {width_key("full_throttle@0", one.way.id): (0.9, 1.1, holding)}
        again = at_hand(plain, "full_throttle@0", fired, None, widths)
        assert next(m for m in again if m.way.id == one.way.id).word == word


def test_factors_are_those_of_a_check_at_every_second(plain, fired):
    """A slider shows what `judge` says, no more and no less."""
    from firstfire.runs.run import EventResult

    for seconds in (0.5, 30.0):
        shown = at_hand(plain, "full_throttle@0", fired, seconds, {})
        judged = judge(EventResult("full_throttle", plain, (fired,)), seconds)
        assert [m.factor for m in shown] == [m.factor for m in judged]


def test_a_trial_lies_over_the_file_and_has_the_present_beside_it():
    quick = Quick()
    list(quick.answers(asked(event="cranking"), never))
    trial = replace(
        asked(event="cranking", number=2), key="other", trial={"crank.crankpin_diameter": "14 mm"}
    )
    told = {one.kind: one for one in quick.answers(trial, never)}
    assert "present" in told["at hand"].data["ledger"]
    row = told["rows"].data["rows"]["crank.crankpin_diameter"]
    assert (row["v"], row["l"]) == ("14 mm", "trial")


def test_every_value_has_a_row_and_a_field(wren):
    found, html = rows(wren), form(wren)
    assert found["cylinder.bore"] == {
        "v": "40 mm", "m": "0.04", "k": "given", "l": "file", "why": "line 10",
    }  # fmt: skip
    assert "m" not in found["cylinder.compression_ratio"]  # only lengths are shown in inches too
    assert found["cylinder.deck"]["l"] == ""
    assert found["cylinder.deck"]["why"]
    assert all(f'data-path="{path}"' in html for path in found)


def test_text_from_a_file_is_text(wren):
    hostile = WREN.replace('name = "wren"', 'name = "<b>x"')
    told = Quick().answers(asked(hostile, event="cranking"), never)
    drawn = next(one for one in told if one.kind == "at hand").data["desk"]
    assert "<b>x" not in drawn
    assert "&lt;b&gt;x" in drawn


def test_a_row_that_changed_is_told_and_no_other():
    before = {"a": {"v": "1"}, "b": {"v": "2"}}
    assert changed({"a": {"v": "1"}, "b": {"v": "3"}, "c": {"v": "4"}}, before) == {
        "b": {"v": "3"}, "c": {"v": "4"},
    }  # fmt: skip


def test_a_share_only_rises_and_tells_what_is_left():
    clock = SimpleNamespace(now=0.0)
    share = Share(3, clock=lambda: clock.now)
    told = []
    for step, one in enumerate((0.0, 0.5, 0.2, 0.9, 0.0, 0.4, 0.0, 1.0, 0.95)):
        clock.now = float(step)
        told.append(share.now(one))
    assert told == sorted(told)
    assert told[-1] == 0.95
    assert share.left() == pytest.approx(8 / 0.95 - 8)
