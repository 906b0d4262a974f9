"""The document behind the pages: nothing is lost, and nothing is overwritten unasked."""

import json
from pathlib import Path

import pytest

from firstfire.engine.write import full_file
from firstfire.errors import CannotWrite, FirstfireError
from firstfire.pages.desk import edits
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.edits import as_file_has_it, said_in, set_value, take_out
from firstfire.pages.desk.history import MOST, MOST_LETTERS, History
from firstfire.pages.desk.sheet import Laid, Sheet, Trial
from firstfire.toml_text import NotToml, parsed

TEXT = """# mine
[cylinder]
bore = "40 mm"   # tube
stroke = "36 mm"
"""
BORE = Laid("bore 1", "the bore", 'layer = "as_built"\n[set.cylinder]\nbore = "42.1 mm"\n')
PIN = Trial("a thicker pin", {"crank.crankpin_diameter": "14 mm"})


class Clock:
    def __init__(self):
        self.now = 0.0

    def __call__(self):
        return self.now


@pytest.fixture
def place(tmp_path):
    file = tmp_path / "wren.toml"
    file.write_text(TEXT)
    return file


@pytest.fixture
def desk(place, tmp_path):
    found = opened(place, tmp_path)
    yield found
    found.close()


def opened(file, folder, **more):
    return Desk(file, journal=folder / "journal.jsonl", clock=Clock(), **more)


def test_a_value_keeps_its_comment(desk):
    desk.set("cylinder.bore", "42")
    assert desk.sheet.text == TEXT.replace("40 mm", "42 mm")
    assert desk.state == "changed"


def test_a_value_that_was_not_said_gets_its_table(desk):
    desk.set("head.fasteners.count", "6")
    assert parsed(desk.sheet.text)["head"]["fasteners"] == {"count": 6}
    assert "# tube" in desk.sheet.text


def test_an_emptied_field_goes_back_to_its_default(desk):
    desk.set("cylinder.stroke", " ")
    assert said_in(desk.sheet.text) == {"cylinder.bore": "40 mm"}


@pytest.mark.parametrize(
    ("path", "said", "has"),
    [
        ("cylinder.bore", "1,75 in", "1.75 in"),
        ("cylinder.bore", "44.5", "44.5 mm"),
        ("cylinder.compression_ratio", "6,5", 6.5),
        ("rings.count", "2", 2),
        ("rod.material", "PETG", "PETG"),
        ("use.full_throttle_speeds", "2000 rpm, 3000 rpm", ["2000 rpm", "3000 rpm"]),
        ("cylinder.bore", "wide", "wide"),
    ],
)
def test_what_is_typed_is_written_as_a_file_has_it(path, said, has):
    assert as_file_has_it(path, said) == has


@pytest.mark.parametrize(
    "text",
    [
        'a.b = "1" # x\n', "[a]\nb = '''1\n2''' # x\n", '[a]\nb = "1 # 2" # x',
        '[a]\nb = [1,\n 2] # x\n', 'a = { b = "1" } # x\n', "# none\n",
        '[a]\r\nb = "1"\r\nc = 2\r\n',
        '["a"]\n"b" = 1', "[a]\nb = 1e3 # x\n",
    ],
)  # fmt: skip
@pytest.mark.parametrize("value", ["7 mm", 'a "quoted" \\ one', 3, 1.5, True, ["1", "2"]])
def test_setting_changes_one_value_and_no_other(text, value):
    before, after = parsed(text), parsed(set_value(text, "a.b", value))
    assert after["a"].pop("b") == value
    before.get("a", {}).pop("b", None)
    assert after["a"] == before.get("a", {})
    assert ("# x" in set_value(text, "a.b", value)) == ("# x" in text)


def test_nothing_is_set_in_what_is_not_toml(desk):
    desk.write("[cylinder", desk.version)
    with pytest.raises(NotToml):
        desk.set("cylinder.bore", "42")
    assert desk.sheet.text == "[cylinder"


def test_a_line_that_would_come_out_wrong_is_not_taken(monkeypatch):
    """The quick way is compared with what was meant; where it differs the slow one is gone."""
    monkeypatch.setattr(edits, "_on_its_line", lambda text, *_: text.replace("36 mm", "63 mm"))
    assert said_in(set_value(TEXT, "cylinder.bore", "41 mm")) == {
        "cylinder.bore": "41 mm", "cylinder.stroke": "36 mm",
    }  # fmt: skip


def test_a_history_keeps_the_newest_steps_and_two_at_least():
    history = History.begun(Sheet("0"))
    for number in range(1, MOST + 50):
        history = history.then(Sheet(str(number)), "")
    assert len(history.steps) == MOST
    assert history.now.text == str(MOST + 49)
    long = History.begun(Sheet("a" * MOST_LETTERS)).then(Sheet("b" * MOST_LETTERS), "")
    assert [step.sheet.text[0] for step in long.then(Sheet("c"), "").steps] == ["b", "c"]


def test_taking_out_what_is_not_there_changes_nothing():
    assert take_out(TEXT, "rod.length") == TEXT


def test_letters_of_one_go_are_one_step(desk):
    for said in ("4", "42", "42.5"):
        desk.set("cylinder.bore", said)
        desk._clock.now += 0.2
    assert desk.undoes == "cylinder.bore"
    desk.undo()
    assert desk.sheet.text == TEXT
    desk.redo()
    assert "42.5 mm" in desk.sheet.text


def test_after_a_pause_or_in_another_field_a_step_begins(desk):
    desk.set("cylinder.bore", "42")
    desk._clock.now += 10
    desk.set("cylinder.bore", "43")
    desk.set("cylinder.stroke", "37")
    desk.undo()
    assert said_in(desk.sheet.text) == {"cylinder.bore": "43 mm", "cylinder.stroke": "36 mm"}
    desk.undo()
    assert said_in(desk.sheet.text)["cylinder.bore"] == "42 mm"


def test_what_was_undone_is_gone_after_a_new_step(desk):
    desk.set("cylinder.bore", "42")
    desk.undo()
    desk.set("cylinder.stroke", "30")
    assert desk.redoes is None
    desk.redo()
    assert "40 mm" in desk.sheet.text
    desk.undo()
    assert desk.sheet.text == TEXT


def test_a_trial_lies_beside_and_is_written_only_when_taken(desk):
    desk.try_beside(PIN)
    assert (desk.sheet.trial, desk.sheet.text, desk.state) == (PIN, TEXT, "saved")
    assert desk.sheet.key != (here := desk.sheet.with_trial(PIN)).without_trial(0).key
    desk.show(None)
    assert desk.sheet.trial is None
    assert here.trial == PIN
    desk.take(0)
    assert said_in(desk.sheet.text)["crank.crankpin_diameter"] == "14 mm"
    assert desk.sheet.trials == ()
    desk.undo()
    assert desk.sheet.trials == (PIN,)


def test_dropping_a_trial_shows_the_right_one(desk):
    others = [Trial(str(n), {"cylinder.bore": f"{n} mm"}) for n in (41, 42, 43)]
    for trial in others:
        desk.try_beside(trial)
    desk.drop(0)
    assert desk.sheet.trial == others[2]
    desk.drop(1)
    assert desk.sheet.trial is None
    assert desk.sheet.trials == (others[1],)


def test_saving_writes_the_file_and_nothing_else(desk, place):
    desk.set("cylinder.bore", "42")
    assert place.read_text() == TEXT
    desk.save()
    assert place.read_text() == TEXT.replace("40 mm", "42 mm")
    assert desk.state == "saved"
    assert {one.name for one in place.parent.iterdir()} == {"wren.toml", "journal.jsonl"}


def test_unchanged_work_follows_an_editor_and_can_be_had_back(desk, place):
    place.write_text(TEXT + "# more\n")
    assert desk.look()
    assert (desk.sheet.text, desk.state) == (TEXT + "# more\n", "saved")
    desk.undo()
    assert (desk.sheet.text, desk.state) == (TEXT, "changed")


def test_an_editor_under_unsaved_work_is_a_conflict_with_both_sides(desk, place):
    desk.set("cylinder.bore", "42")
    place.write_text(TEXT + "# theirs\n")
    assert desk.look()
    assert desk.state == "in conflict"
    assert (desk.conflict.theirs, desk.conflict.mine) == (TEXT + "# theirs\n", desk.sheet.text)
    with pytest.raises(CannotWrite, match="changed by another program"):
        desk.save()
    assert place.read_text() == TEXT + "# theirs\n"


def test_a_save_sees_what_nobody_looked_at(desk, place):
    desk.set("cylinder.bore", "42")
    place.write_text("# theirs\n")
    with pytest.raises(CannotWrite):
        desk.save()
    assert place.read_text() == "# theirs\n"


def test_mine_kept_is_written_by_the_next_save(desk, place):
    desk.set("cylinder.bore", "42")
    place.write_text("# theirs\n")
    desk.look()
    desk.keep_mine()
    assert desk.state == "changed"
    desk.save()
    assert "42 mm" in place.read_text()


def test_theirs_taken_leaves_mine_to_be_had_back(desk, place):
    desk.set("cylinder.bore", "42")
    mine = desk.sheet.text
    place.write_text("# theirs\n")
    desk.look()
    desk.take_theirs()
    assert (desk.sheet.text, desk.state) == ("# theirs\n", "saved")
    desk.undo()
    assert desk.sheet.text == mine


def test_an_editor_that_wrote_the_same_is_no_conflict(desk, place):
    desk.set("cylinder.bore", "42")
    place.write_text(desk.sheet.text)
    desk.look()
    assert desk.state == "saved"


def test_a_file_that_is_gone_is_a_conflict_and_can_be_written_again(desk, place):
    place.unlink()
    desk.look()
    assert desk.state == "in conflict"
    assert desk.conflict.theirs is None
    desk.keep_mine()
    desk.save()
    assert place.read_text() == TEXT


def test_a_new_engine_never_takes_the_place_of_a_file(tmp_path):
    file = tmp_path / "new.toml"
    desk = opened(file, tmp_path, text=TEXT)
    assert desk.state == "not saved yet"
    file.write_text("# somebody else's\n")
    with pytest.raises(CannotWrite):
        desk.save()
    assert file.read_text() == "# somebody else's\n"
    desk.close()


def test_a_file_that_comes_into_being_at_the_last_moment_stays(tmp_path):
    file = tmp_path / "new.toml"
    desk = opened(file, tmp_path, text=TEXT)
    file.write_text("# somebody else's\n")
    desk.look = lambda: False  # it came after the look
    with pytest.raises(CannotWrite):
        desk.save()
    assert file.read_text() == "# somebody else's\n"
    desk.close()


def test_a_step_is_out_of_our_hands_at_once(desk, tmp_path):
    desk.set("cylinder.bore", "42.25")
    assert "42.25 mm" in (tmp_path / "journal.jsonl").read_text()


def test_killed_and_started_again_nothing_is_lost(place, tmp_path):
    first = opened(place, tmp_path)
    first.set("cylinder.bore", "42")
    first.set("cylinder.stroke", "30")
    first.try_beside(PIN)
    first.undo()
    before = first.sheet
    first._journal._stream.detach()  # as a kill leaves it: nothing is put in order
    again = opened(place, tmp_path)
    assert (again.sheet, again.taken_up, again.state) == (before, True, "changed")
    again.redo()
    assert again.sheet.trial == PIN
    again.undo()
    again.undo()
    assert said_in(again.sheet.text) == {"cylinder.bore": "42 mm", "cylinder.stroke": "36 mm"}
    again.close()


@pytest.mark.parametrize("cut", [1, 2, 10, 60])
def test_a_line_that_was_cut_off_costs_that_step_alone(place, tmp_path, cut):
    first = opened(place, tmp_path)
    first.set("cylinder.bore", "42")
    first.set("cylinder.stroke", "30")
    first.close()
    journal = tmp_path / "journal.jsonl"
    journal.write_bytes(journal.read_bytes()[:-cut])
    again = opened(place, tmp_path)
    assert said_in(again.sheet.text) == {"cylinder.bore": "42 mm", "cylinder.stroke": "36 mm"}
    again.close()


@pytest.mark.parametrize(
    "line",
    ["[]", "null", '{"do": "at", "at": 9}', '{"do": "then"}', "\0",
     '{"do":"then","why":"","sheet":{"text":"x","trials":[],"shown":3}}'],
)  # fmt: skip
def test_a_spoilt_journal_is_read_as_far_as_it_goes(place, tmp_path, line):
    first = opened(place, tmp_path)
    first.set("cylinder.bore", "42")
    first.close()
    with (tmp_path / "journal.jsonl").open("a") as stream:
        stream.write(line + "\n" + json.dumps({"do": "at", "at": 0}) + "\n")
    again = opened(place, tmp_path)
    assert "42 mm" in again.sheet.text
    again.close()


def test_changed_by_an_editor_while_the_server_was_down_is_a_conflict(place, tmp_path):
    first = opened(place, tmp_path)
    first.set("cylinder.bore", "42")
    first.close()
    place.write_text("# theirs\n")
    again = opened(place, tmp_path)
    assert again.state == "in conflict"
    assert again.conflict.theirs == "# theirs\n"
    assert "42 mm" in again.conflict.mine
    again.close()


def test_changed_by_an_editor_while_the_server_was_down_but_all_was_saved(place, tmp_path):
    """Nothing stands against what an editor wrote; what was laid over the file still is."""
    first = opened(place, tmp_path)
    first.set("cylinder.bore", "42")
    first.becomes(first.sheet.with_laid(BORE), "measured")
    first.save()
    first.close()
    place.write_text("# theirs\n")
    again = opened(place, tmp_path)
    assert (again.state, again.taken_up, again.sheet.text) == ("saved", False, "# theirs\n")
    assert again.sheet.laid == (BORE,)
    again.undo()
    assert "42 mm" in again.sheet.text
    again.close()


def test_a_desk_is_open_once(desk, place, tmp_path):
    with pytest.raises(FirstfireError, match="open already"):
        opened(place, tmp_path)


def test_two_tabs_set_two_values_and_both_hold(desk):
    desk.set("cylinder.bore", "42")
    desk.set("cylinder.stroke", "30")
    assert said_in(desk.sheet.text) == {"cylinder.bore": "42 mm", "cylinder.stroke": "30 mm"}


def test_a_text_edited_from_an_older_one_is_not_taken_over(desk):
    seen = desk.version
    desk.set("cylinder.bore", "42")
    with pytest.raises(FirstfireError, match="another tab"):
        desk.write("# all of it\n", seen)
    assert "42 mm" in desk.sheet.text


def test_a_large_file_is_changed_on_its_line_alone():
    import firstfire as ff

    full = full_file(ff.read(Path(__file__).parents[2] / "engines" / "wren.toml"))
    after = set_value(full, "cylinder.bore", "41 mm")
    pairs = zip(full.splitlines(), after.splitlines(), strict=True)
    changed = [(old, new) for old, new in pairs if old != new]
    assert changed == [('bore = "40 mm"', 'bore = "41 mm"')]
