"""What outlasts the server of what lies beside: a plan, and what was measured with a new file."""

import json

import pytest
from tests.pages.stood_in import WREN, Answers, doing
from tests.pages.test_compare import CRANK, PLAN, told

from firstfire.pages.answers.quick import understood
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.journal import journal_beside
from firstfire.pages.desk.planned import plan_file
from firstfire.pages.desk.sheet import Laid, Trial
from firstfire.pages.show import asking
from firstfire.pages.show.hub import Hub
from firstfire.version import VERSION

BORE = 'layer = "as_built"\n[set.cylinder]\nbore = "40.2 mm"\n'


def again(hub, name="wren.toml"):
    """The pages ended and started anew, over a file of the same folder."""
    hub.desk.close()
    there = hub.desk.path.with_name(name)
    hub.desk = Desk(there, journal=journal_beside(hub.desk.kept_in, there))
    made = Hub(hub.desk)
    made.office = Answers()
    return made


@pytest.fixture
def measured(beside):
    """With a bore that was measured, in a journal of the usual name."""
    made = again(beside)
    laid = Laid("bore 1", "a bore of 40.2 mm", BORE)
    made.desk.becomes(made.desk.sheet.with_laid(laid), "measured")
    return made


def test_a_plan_outlasts_the_server_with_its_ticks(beside):
    told(beside, "plan", **PLAN)
    doing(beside, {"do": "tick", "steps": [1]})
    made = Hub(Desk(beside.desk.path, journal=free(beside)))
    assert made.beside.state()["ticked"] == [1]
    doing(made, {"do": "beside", "trial": 0, "on": True})
    made.beside.show()
    assert made.shown.slots["plan"] == "p"
    doing(made, {"do": "lay", "steps": [1]})
    assert made.desk.sheet.trial.set == {"rod.length": "70 mm"}
    made.desk.close()


def free(hub):
    hub.desk.close()
    return hub.desk.kept_in


def test_a_plan_is_old_where_the_file_was_changed_while_the_server_was_down(beside):
    told(beside, "plan", **PLAN)
    beside.desk.path.write_text(WREN.replace("40 mm", "41 mm"))
    made = Hub(Desk(beside.desk.path, journal=free(beside)))
    made.beside.show()
    assert "engine before its last change" in made.shown.slots["plan"]
    heard = doing(made, {"do": "lay", "steps": [0]})
    assert "make it anew" in heard.last("say")
    made.desk.path.write_text(WREN)  # and it is of this engine once more
    made.desk.look()
    made.beside.show()
    assert made.shown.slots["plan"] == "p"
    made.desk.close()


@pytest.mark.parametrize(
    "left",
    [
        "",
        "[]",
        "null",
        '{"version": "0"}',
        json.dumps({"version": VERSION, "of": "x", "steps": [3]}),
    ],
)
def test_a_spoilt_plan_is_none(beside, left):
    plan_file(beside.desk.kept_in).write_text(left)
    made = Hub(Desk(beside.desk.path, journal=free(beside)))
    assert made.beside.state()["ticked"] == []
    assert made.beside.steps.html() is None
    made.desk.close()


@pytest.mark.parametrize("of", ["present", "0"])
def test_what_was_measured_lies_over_the_new_file_too_and_can_be_taken_away(measured, of):
    measured.desk.try_beside(Trial("a thicker pin", CRANK))
    heard = doing(measured, {"do": "put aside", "of": of, "name": "new", "steps": []})
    assert "lies over new.toml too" in heard.last("say")
    assert "40.2" not in (measured.desk.path.parent / "new.toml").read_text()
    doing(measured, {"do": "beside", "file": "new.toml", "on": True})
    column = measured.beside.columns()[-1]
    assert column.words == "new.toml, with what was measured"
    assert understood(asking.asked(column.sheet, measured.desk.path, 0)).values()[
        "cylinder.bore"
    ] == pytest.approx(0.0402)
    made = again(measured, "new.toml")
    assert (made.desk.state, made.desk.taken_up) == ("saved", False)
    assert [one.words for one in made.desk.sheet.laid] == ["a bore of 40.2 mm"]
    doing(made, {"do": "lift", "place": 0})
    assert made.desk.sheet.laid == ()
    made.desk.close()


def test_a_new_file_without_anything_measured_begins_no_desk(beside):
    heard = doing(beside, {"do": "put aside", "of": "present", "name": "new", "steps": []})
    assert "measured" not in heard.last("say")
    file = beside.desk.path.parent / "new.toml"
    assert not journal_beside(beside.desk.kept_in, file).exists()


def test_work_left_of_a_file_of_that_name_can_be_had_back(measured):
    there = measured.desk.path.with_name("new.toml")
    left = Desk(there, WREN, journal=journal_beside(measured.desk.kept_in, there))
    left.set("cylinder.bore", "43")
    left.close()
    doing(measured, {"do": "put aside", "of": "present", "name": "new", "steps": []})
    made = again(measured, "new.toml")
    assert made.desk.undoes == "saved from wren.toml"
    made.desk.undo()
    assert 'bore = "43 mm"' in made.desk.sheet.text
    made.desk.close()


def test_a_name_that_another_firstfire_works_on_is_not_taken(measured):
    there = measured.desk.path.with_name("new.toml")
    other = Desk(there, WREN, journal=journal_beside(measured.desk.kept_in, there))
    heard = doing(measured, {"do": "put aside", "of": "present", "name": "new", "steps": []})
    assert "open in another firstfire" in heard.last("say")
    assert not there.exists()
    other.close()
