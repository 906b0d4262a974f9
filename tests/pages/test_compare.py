"""The page Compare without a browser: what stands beside, what differs, and where it is saved."""

import os

import pytest
from tests.pages.served import ROOT
from tests.pages.stood_in import WHOLE, WREN, doing

from firstfire.pages.answers.described import Differing, described
from firstfire.pages.answers.messages import Asked, Errand, Told
from firstfire.pages.show.compared import Standing, compared
from firstfire.pages.show.folder import engines_in

CRANK = {"crank.crankpin_diameter": "14 mm"}
PLAN = {
    "html": "p", "steps": [CRANK, {"rod.length": "70 mm"}],
    "reasons": {"crank.crankpin_diameter": "improve: crankpin (0.5)"},
}  # fmt: skip


def line(way, factor, word="holds"):
    return {"way": way, "name": f"{way} <breaks>", "point": "idle", "factor": factor,
            "shown": f"{factor:g}", "word": word}  # fmt: skip


def figure(ident, value, more):
    return {"id": ident, "name": ident, "shown": f"{value}", "value": value, "more": more}


def standing(words, lines, figures=()):
    return Standing(words, {"lines": lines, "figures": figures})


def test_what_differs_most_stands_first_and_names_are_text():
    table = compared(
        [standing("present", [line("a", 2.0), line("b", 0.5, "fails"), line("c", 3.0)]),
         standing("<trial>", [line("a", 2.1), line("b", 1.5), line("d", 0.9, "fails")]),
         Standing("third")], ()
    )  # fmt: skip
    assert "<breaks>" not in table
    assert "&lt;trial&gt;" in table
    assert "not checked yet" in table
    assert table.index("d &lt;breaks") < table.index("b &lt;breaks") < table.index("a &lt;breaks")


def test_better_and_worse_are_said_against_the_first():
    figures = [figure("run_time", None, True), figure("peak", 30.0, False)]
    others = [figure("run_time", 9.0, True), figure("peak", 20.0, False)]
    table = compared(
        [standing("p", [line("a", 2.0)], figures), standing("t", [line("a", 2.5)], others)], ()
    )
    a, run, peak = (table[table.index(f'row">{name}') :] for name in ("a &lt;", "run_time", "peak"))
    assert [x[: x.index("</tr>")].count("better") for x in (a, run, peak)] == [1, 0, 1]
    assert [x[: x.index("</tr>")].count("worse") for x in (a, run, peak)] == [0, 1, 0]


def test_what_is_alike_is_folded_away():
    same = [line("a", 2.0)]
    table = compared([standing("p", same), standing("t", same)], ())
    assert table.index("<details") < table.index("a &lt;breaks")
    assert "Factors that are alike: 1" in table


def test_values_that_somebody_said_stand_before_those_that_follow():
    said = [Differing("rod.length", "length", (("1", "file"), ("2", "tried")), own=True)]
    follows = [Differing("rod.mass", "mass", (("3", "default"), ("4", "default")), own=False)]
    table = compared([standing("p", []), standing("t", [])], [*said, *follows])
    assert table.index("length") < table.index("<details") < table.index("mass")


def test_alone_nothing_is_compared():
    assert "<table" not in compared([standing("present", [line("a", 2.0)])], ())


def asked(text, trial=None):
    return Asked(1, text, text, text, "wren.toml", str(ROOT / "engines"), trial or {})


def test_descriptions_are_compared_and_what_can_not_be_read_is_said():
    heron = (ROOT / "engines" / "heron.toml").read_text()
    found, faults = described(
        [asked(WREN), asked("x = "), asked(WREN, {"cylinder.bore": "41 mm"}), asked(heron)]
    )
    assert list(faults) == [1]
    bore = next(one for one in found if one.path == "cylinder.bore")
    assert bore.own
    assert [value for value, _ in bore.each][:3] == ["40 mm", "–", "41 mm"]
    assert bore.each[2][1] == "tried"


def told(hub, kind, **data):
    hub.beside._errands.heard(Told(1, hub.desk.sheet.key, kind, data))


def test_files_of_the_folder_and_trials_are_ticked_four_at_most(beside):
    folder = beside.desk.path.parent
    for name in ("a", "b", "c", "d"):
        (folder / f"{name}.toml").write_text(WREN.replace("40 mm", "41 mm"))
    ticks = [{"do": "beside", "file": f"{name}.toml", "on": True} for name in "abcd"]
    heard = doing(beside, *ticks)
    assert [one.words for one in beside.beside.columns()][1:] == ["a.toml", "b.toml", "c.toml"]
    assert "most" in heard.last("say")
    doing(beside, {"do": "beside", "file": "a.toml", "on": False})
    assert len(beside.beside.columns()) == 3
    assert 'data-name="a.toml" checked' not in beside.shown.slots["beside"]
    assert 'data-name="b.toml" checked' in beside.shown.slots["beside"]


@pytest.mark.parametrize(
    "name", ["../out.toml", "/etc/passwd", "out.toml", "link.toml", "no.toml", "", "..", "x\0.toml"]
)
def test_no_file_outside_the_folder_is_read(beside, tmp_path_factory, name):
    outside = tmp_path_factory.mktemp("outside") / "out.toml"
    outside.write_text(WREN)
    folder = beside.desk.path.parent
    os.symlink(outside, folder / "link.toml")
    heard = doing(beside, {"do": "beside", "file": name, "on": True})
    assert len(beside.beside.columns()) == 1
    assert "isn't there" in heard.last("say")
    assert [path.name for path in engines_in(folder)] == ["wren.toml"]


def test_only_what_is_not_known_is_checked_and_comes_into_the_table(beside):
    (beside.desk.path.parent / "a.toml").write_text(WREN.replace("40 mm", "41 mm"))
    doing(beside, {"do": "beside", "file": "a.toml", "on": True}, {"do": "check beside"})
    (errand,) = beside.beside._errands.office.asked
    assert isinstance(errand, Errand)
    assert (errand.what, errand.words) == ("check", ("a.toml",))
    heard = doing(beside, {"do": "check beside"})
    assert "already" in heard.last("say")
    lines = {**WHOLE, "lines": [line("a", 2.0)], "figures": []}
    beside.beside._errands.heard(Told(1, errand.of[0].key, "whole", lines))
    assert "a &lt;breaks" in beside.shown.slots["compare"]
    told(beside, "done")
    asked_before = len(beside.beside._errands.office.asked)
    heard = doing(beside, {"do": "check beside"})
    assert "checked" in heard.last("say")
    assert len(beside.beside._errands.office.asked) == asked_before
    assert beside.beside._errands.state is None
    assert beside.beside._errands.office.asked[-1] == "drop"


def test_a_plan_is_ticked_laid_beside_and_saved_as_a_new_file(beside):
    doing(beside, {"do": "plan"})
    told(beside, "plan", **PLAN)
    told(beside, "done")
    assert beside.beside.state()["ticked"] == [0, 1]
    doing(beside, {"do": "tick", "steps": [0]}, {"do": "lay", "steps": [0]})
    assert beside.desk.sheet.trial.set == CRANK
    assert beside.desk.sheet.trial.words == "step 1 of the plan"
    save = {"do": "put aside", "of": "steps", "steps": [0], "name": "../Better Wren.toml"}
    heard = doing(beside, save)
    written = (beside.desk.path.parent / "better-wren.toml").read_text()
    assert 'crankpin_diameter = "14 mm" # improve: crankpin (0.5)' in written
    assert beside.desk.path.read_text() == WREN
    assert "is written" in heard.last("say")
    heard = doing(beside, {**save, "of": "present"})
    assert "better-wren-2.toml is free" in heard.last("say")
    assert (beside.desk.path.parent / "better-wren.toml").read_text() == written


def test_a_plan_of_an_engine_before_is_not_laid(beside):
    doing(beside, {"do": "plan"})
    told(beside, "plan", **PLAN)
    told(beside, "done")
    heard = doing(
        beside,
        {"do": "set", "path": "cylinder.bore", "said": "41"},
        {"do": "plan"},  # a second search doesn't make the first plan one of this engine
        {"do": "lay", "steps": [0]},
    )
    assert "make it anew" in heard.last("say")
    assert beside.desk.sheet.trials == ()


def test_a_plan_that_comes_after_a_change_is_of_the_engine_before(beside):
    key = beside.desk.sheet.key
    doing(beside, {"do": "plan"}, {"do": "set", "path": "cylinder.bore", "said": "41"})
    beside.beside._errands.heard(Told(1, key, "plan", PLAN))
    heard = doing(beside, {"do": "lay", "steps": [0]})
    assert "make it anew" in heard.last("say")


def test_work_is_asked_to_end_then_ended(beside):
    doing(beside, {"do": "plan"}, {"do": "halt"})
    assert beside.beside._errands.office.asked[-1] == "hurry"
    told(beside, "progress", what="x", share=0.2, left=None)
    heard = doing(beside, {"do": "halt"})
    assert beside.beside._errands.office.asked[-1] == "drop"
    assert heard.last("errand") is None


@pytest.mark.parametrize(
    "what",
    [{"do": "lay", "steps": [0]}, {"do": "lay"}, {"do": "tick", "steps": ["x"]},
     {"do": "beside", "trial": 7, "on": True},
     {"do": "beside", "trial": -1, "on": True}, {"do": "beside", "on": True},
     {"do": "put aside", "of": "9", "name": "x", "steps": []},
     {"do": "put aside", "of": "steps", "name": "x", "steps": []}, {"do": "put aside"}],
)  # fmt: skip
def test_nonsense_lays_and_writes_nothing(beside, what):
    heard = doing(beside, what)
    assert heard.last("say")
    assert beside.desk.sheet.trials == ()
    assert [path.name for path in beside.desk.path.parent.glob("*.toml")] == ["wren.toml"]
