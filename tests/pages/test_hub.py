"""The hub without a browser: what a tab does, what it is told, and nothing it can break."""

import pytest
from tests.pages.stood_in import WHOLE, WREN, doing, whole

from firstfire.pages.answers.messages import Told
from firstfire.pages.show.folder import free_name


def test_a_change_is_told_and_asked(hub):
    heard = doing(hub, {"do": "set", "path": "cylinder.bore", "said": "41"})
    assert heard.last("head")["state"] == "changed"
    (asked,) = hub.office.asked
    assert 'bore = "41 mm"' in asked.text
    assert (asked.whole, asked.formats, asked.trial) == (True, ("desk",), {})


def test_a_phone_gets_its_own_drawing(hub):
    doing(hub, {"do": "undo"}, {"do": "set", "path": "cylinder.bore", "said": "41"}, narrow=True)
    assert hub.office.asked[-1].formats == ("narrow",)


def test_a_whole_answer_is_kept_and_undo_shows_it_at_once(hub):
    heard = doing(hub, whole(hub), {"do": "set", "path": "cylinder.bore", "said": "41"})
    assert "life" in heard.last("old")
    heard = doing(hub, {"do": "undo"})
    assert heard.last("put")["life"] == "l"
    assert "life" not in heard.last("old")
    asked = hub.office.asked[-1]
    assert not asked.whole
    assert asked.widths == WHOLE["widths"]


def test_an_answer_to_an_engine_before_puts_nothing(hub):
    before = hub.desk.sheet.key
    doing(hub, {"do": "set", "path": "cylinder.bore", "said": "41"})
    heard = doing(hub, Told(1, before, "at hand", {"ledger": "x"}), Told(1, before, "whole", WHOLE))
    assert heard.last("put") is None
    assert hub.shown.slots == {}


def test_an_offer_is_tried_beside_and_another_on_top_of_it(hub):
    doing(hub, whole(hub), {"do": "try", "place": 0})
    asked = hub.office.asked[-1]
    assert asked.trial == {"crank.crankpin_diameter": "14 mm"}
    assert asked.present != asked.key
    other = WHOLE | {"trials": [{"words": "longer", "set": {"rod.length": "70 mm"}}]}
    doing(hub, Told(0, hub.desk.sheet.key, "whole", other), {"do": "try", "place": 0})
    assert hub.office.asked[-1].trial == {"crank.crankpin_diameter": "14 mm", "rod.length": "70 mm"}
    assert hub.desk.sheet.text == WREN


def test_an_offer_for_the_engine_before_is_refused(hub):
    changed = {"do": "set", "path": "cylinder.bore", "said": "41"}
    heard = doing(hub, whole(hub), changed, {"do": "try", "place": 0})
    assert "offered for the engine before" in heard.last("say")
    assert hub.desk.sheet.trials == ()


def test_why_comes_to_who_asked(hub):
    heard = doing(hub, whole(hub), {"do": "set", "path": "cylinder.bore", "said": "41"},
                  {"do": "why", "id": "rod-break"}, {"do": "why", "id": "../x"})  # fmt: skip
    assert [message["why"] for message in heard if "why" in message] == [
        {"id": "rod-break", "html": "why"}
    ]


def test_a_stopped_check_stays_so_until_something_changes(hub):
    doing(hub, {"do": "stop"}, {"do": "at", "event": "idle", "seconds": 3})
    assert [asked.whole for asked in hub.office.asked] == [False, False]
    doing(hub, {"do": "set", "path": "cylinder.bore", "said": "41"})
    assert hub.office.asked[-1].whole
    doing(hub, {"do": "undo"}, {"do": "go on"})
    assert [asked.whole for asked in hub.office.asked][-2:] == [False, True]


def test_what_can_not_be_read_is_old_and_said(hub):
    key = hub.desk.sheet.key
    problem = {"path": "cylinder.bore", "line": 3, "words": "Is wide."}
    shown = {"ledger": "x", "desk": "y", "event": "idle", "point": "", "seconds": 1.0}
    first = Told(0, key, "at hand", {**shown, "settled": True, "took": 0.1})
    heard = doing(hub, first, Told(0, key, "problems", {"problems": [problem]}))
    assert heard.last("problems") == [problem]
    assert set(heard.last("old")) == {"ledger", "desk"}


@pytest.mark.parametrize(
    "what",
    [{}, {"do": None},
     {"do": "set", "path": "nowhere.value", "said": "1"},
     {"do": "set", "path": "schema", "said": "x"}, {"do": "set"},
     {"do": "set", "path": ["x"], "said": {}}, {"do": "at"},
     {"do": "show", "place": "x"}, {"do": "show", "place": 99}, {"do": "take", "place": -1},
     {"do": "drop", "place": 7}, {"do": "try", "place": -1}, {"do": "write", "text": "x"},
     {"do": "write", "text": "x" * 1_000_001, "seen": 0}, {"do": "__class__"}, {"do": "close"},
     {"do": "at", "event": "idle", "seconds": "soon"}, {"do": "write", "text": "x", "seen": 99}],
)  # fmt: skip
def test_nonsense_changes_nothing(hub, what):
    doing(hub, what)
    assert hub.desk.sheet.text == WREN
    assert hub.desk.sheet.shown is None


@pytest.mark.parametrize("seconds", [-5.0, 1e300, "nan", "inf", "-inf"])
def test_no_second_is_beyond_reason(hub, seconds):
    doing(hub, {"do": "at", "event": "idle", "seconds": seconds})
    assert 0 <= hub.office.asked[-1].seconds <= 1e6


@pytest.mark.parametrize(
    ("wanted", "name"),
    [("../../etc/passwd", "etc-passwd.toml"), ("", "engine.toml"), ("Ü/\\:*", "engine.toml"),
     ("wren", "wren-2.toml"), ("x" * 300, "x" * 40 + ".toml"), ("a\0b\n", "a-b.toml")],
)  # fmt: skip
def test_a_name_stays_in_its_folder(tmp_path, wanted, name):
    (tmp_path / "wren.toml").write_text("")
    found = free_name(tmp_path, wanted)
    assert (found.parent, found.name) == (tmp_path, name)
