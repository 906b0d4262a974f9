"""Events turned on the wheel: each a trial of its own, one step to undo a go."""

import math

import pytest

from firstfire.engine.grammar import leaves
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.sheet import Laid, Sheet, Trial
from firstfire.pages.desk.wheel import HANDLES, said, turned

INLET, EXHAUST = "valves.inlet.opens_before_top", "valves.exhaust.closes_after_top"
LAID = Laid("printer", "Printer: holes -0.18 mm", 'layer = "printer"')


def test_every_handle_is_an_angle_of_the_engine_file():
    for handle in HANDLES:
        leaf = leaves()[handle.path]
        assert (leaf.dimension, leaf.low is not None) == ("angle", True)


def test_a_turn_is_a_trial_and_the_next_one_changes_it():
    sheet = turned(turned(Sheet("a"), INLET, 14.0), EXHAUST, -2.5)
    assert sheet.text == "a"
    assert [one.words for one in sheet.trials] == [
        "inlet opens 14° before top; exhaust closes 2.5° before top"
    ]
    assert dict(sheet.trials[0].set) == {INLET: "14 deg", EXHAUST: "-2.5 deg"}
    again = turned(sheet, INLET, 20.0)
    assert again.trial.words == "exhaust closes 2.5° before top; inlet opens 20° before top"
    assert again.trial.set[INLET] == "20 deg"
    assert len(again.trials) == 1


def test_a_turn_over_another_trial_keeps_both():
    sheet = Sheet("a").with_trial(Trial("six bolts", {"head.fasteners.count": "6"}))
    sheet = turned(turned(sheet, INLET, 14.0), INLET, 15.0)
    assert [one.words for one in sheet.trials] == [
        "six bolts", "six bolts; inlet opens 15° before top",
    ]  # fmt: skip
    assert sheet.trial.set["head.fasteners.count"] == "6"


def test_nothing_else_can_be_turned():
    with pytest.raises(KeyError):
        turned(Sheet("a"), "cylinder.bore", 40.0)


def test_words_name_the_side():
    ways = [said(handle, sign * 7.0) for handle in HANDLES for sign in (1, -1)]
    assert ways[2:4] == ["inlet opens 7° before top", "inlet opens 7° after top"]
    assert len(set(ways)) == len(ways)


@pytest.fixture
def desk(tmp_path):
    """A desk, and a clock that stands still."""
    file = tmp_path / "a.toml"
    file.write_text("x = 1\n")
    times = [0.0]
    made = Desk(file, journal=tmp_path / "journal", clock=lambda: times[0])
    made.times = times
    yield made
    made.close()


def test_one_go_is_one_step_and_another_go_another(desk):
    for degrees in (11.0, 12.0, 13.0):
        desk.becomes(turned(desk.sheet, INLET, degrees), "inlet", go="turn inlet")
    desk.times[0] += math.inf
    desk.becomes(turned(desk.sheet, INLET, 14.0), "inlet", go="turn inlet")
    desk.undo()
    assert desk.sheet.trial.set[INLET] == "13 deg"
    desk.undo()
    assert (desk.sheet.trials, desk.undoes, desk.state) == ((), None, "saved")


def test_what_is_laid_stays_under_trials_text_and_a_restart(desk, tmp_path):
    desk.becomes(desk.sheet.with_laid(LAID), "measured")
    desk.try_beside(Trial("six bolts", {"head.fasteners.count": "6"}))
    desk.show(None)
    desk.write("x = 2\n", desk.version)
    desk.show(0)
    desk.take(0)
    assert desk.sheet.laid == (LAID,)
    desk.close()
    again = Desk(desk.path, journal=tmp_path / "journal")
    assert again.sheet.laid == (LAID,)
    assert "printer" not in again.sheet.text
    again.close()


def test_what_is_laid_counts_in_the_key_and_one_of_a_kind_holds():
    bare, other = Sheet("a"), Laid("printer", "again", "other")
    laid = bare.with_laid(LAID)
    assert laid.key != bare.key
    assert laid.with_laid(other).laid == (other,)
    assert laid.without_laid(0) == bare
    assert laid.with_laid(Laid("bore 1", "", "")).laid[0] is LAID


def test_a_journal_from_before_there_were_overlays_is_read():
    data = {"text": "a", "trials": [], "shown": None}
    assert Sheet.from_data(data).laid == ()
