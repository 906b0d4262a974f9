"""One more way to fail, event and part, each in the number of files that CONTRIBUTING says.

A way is one file of `parts` and a line of the list; an event that is run as another is one record;
a part is its section, rule and way, with a line each where these are gathered.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.drawing.naming import slug_of
from firstfire.engine import events
from firstfire.engine.events import EVENTS, Event, Words, during
from firstfire.engine.records import Way
from firstfire.parts import all as all_parts
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.report.page import report
from firstfire.verdict.explain.opening import explanation
from firstfire.verdict.explain.text import explain_text
from firstfire.verdict.words.text.show import check_text

FLATTENS = Failure(
    id="rod.stamp.flatten", part="con rod", failure="has its stamp flattened", unit="N",
    formula="largest thrust in the rod, against twice as much", source="made up for this test",
    during=GAS, demand_is="what it feels", capacity_is="what it bears",
)  # fmt: skip


@judges(FLATTENS)
def flattens(moment) -> Way:
    felt = float(abs(moment.loads.cylinders[moment.cylinder].rod).max())
    thrust = moment.given("thrust", felt)
    return FLATTENS.way(moment, demand=thrust, capacity=thrust / 2, governs="section")


@pytest.fixture
def one_more_way(monkeypatch):
    monkeypatch.setattr(all_parts, "JUDGEMENTS", (*all_parts.JUDGEMENTS, flattens))
    all_parts.judged_during.cache_clear()
    yield
    monkeypatch.undo()
    all_parts.judged_during.cache_clear()


@pytest.mark.slow
def test_one_more_way_shows_wherever_ways_are_told(one_more_way):
    result = ff.check(ff.read("engines/wren.toml"), only=["first_fire"], changes=False, drawn=14)
    margin = next(m for m in result.margins if m.way.id == "rod.stamp.flatten")
    assert (margin.factor, margin.word) == (0.5, "fails")
    told_as = "con rod has its stamp flattened"
    assert told_as in " ".join(result.sentence.split())
    assert told_as in " ".join(check_text(result).split())
    assert '"rod.stamp.flatten"' in result.to_json()
    opened = " ".join(explain_text(explanation(result, margin)).split())
    assert "made up for this test" in opened
    assert "what it bears" in opened
    assert told_as in report(result)
    assert slug_of("rod.stamp.flatten") == "rod-1"


@pytest.fixture
def one_more_event(monkeypatch):
    lugging = Event(
        "lugging", "throttle open at a crawl", EVENTS["full_throttle"].going_on, "held",
        Words("lugging", "within the first second of lugging", "its first second of lugging",
              "lug", "lug", "Lugging"),
        horizon=5.0,
    )  # fmt: skip
    monkeypatch.setattr(events, "_BY_ID", events._BY_ID)
    monkeypatch.setitem(events._BY_ID, "lugging", lugging)


@pytest.mark.slow
def test_one_more_event_is_run_and_judged(one_more_event):
    result = ff.run(ff.read("engines/wren.toml"), "lugging", drawn=2)
    assert result.points[0].event == "lugging"
    assert result.bouts[0].horizon == 5.0
    assert {margin.event for margin in ff.judge(result, 1.0)} == {"lugging"}
    assert during("lugging") == "lugging"


BRACE = {
    "engine/sections/brace.py": '''
"""A strut between head and case."""

from firstfire.engine.fields import Area, Section, said
from firstfire.engine.sections.make import OfWhat


class Brace(OfWhat):
    """A strut that takes the head's pull."""

    area: Area = said("cross section of the strut", low="1 mm^2", high="1000 mm^2")
''',
    "engine/rules/brace.py": '''
"""Rules for the strut."""

from firstfire.engine.rules.rule import Rule

RULES = (
    Rule("brace.material", "steel", "a strip from the shop"),
    Rule("brace.made", "sheet", "cut from a strip"),
    Rule("brace.area", "20 mm^2", "10 by 2 mm"),
)
''',
    "parts/brace.py": '''
"""When the strut tears."""

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.inputs import Input

TEARS = Failure(
    id="brace.tear", part="brace", failure="tears", unit="Pa", formula="pull over section",
    source="made up for this test", during=GAS, demand_is="pull in the strut",
    capacity_is="a strip's strength",
    numbers={"hangs": Input("weight that hangs on it", "force", by="scales of this test"),
             "strip": Input("strength of a strip", "pressure", by="this test")},
)


@judges(TEARS)
def tears(moment: Moment) -> Way:
    hangs = moment.given("hangs", 3e3)
    return TEARS.way(
        moment, demand=hangs / moment.engine.brace.area,
        capacity=moment.given("strip", 300e6),
        governs="area",
        raise_by=(Raise("Cut the strut 20 mm wide", {"brace.area": "40 mm^2"}, "thicker_walls"),),
    )


JUDGEMENTS = (tears,)
''',
}
LINES = {
    "engine/description.py": (
        ("from firstfire.engine.sections.crank import",
         "from firstfire.engine.sections.brace import Brace\n"),
        ("    doubt: Doubt\n", "    brace: Brace\n"),
        ('"leak", "doubt",', '"brace", '),
    ),
    "engine/rules/all.py": (("    crank,\n", "    brace,\n"), ("leaks.RULES,", "brace.RULES, ")),
    "parts/all.py": (("    cam_drive,\n", "    brace,\n"),
                     ("    *head.JUDGEMENTS,\n", "    *brace.JUDGEMENTS,\n")),
    "drawing/naming.py": (
        ('    "head": Named(', '    "brace": Named("brace", ("brace",), shared=True),\n'),
    ),
}  # fmt: skip
TOLD = """
import firstfire as ff
from firstfire.report.page import report
from firstfire.verdict.explain.opening import explanation
from firstfire.verdict.explain.text import explain_text
from firstfire.verdict.words.text.show import check_text

result = ff.check(ff.read("wren.toml"), only=["first_fire"], drawn=14)
margin = next(m for m in result.margins if m.way.id == "brace.tear")
print(check_text(result))
print(explain_text(explanation(result, margin)))
print(result.to_json())
print(report(result))
"""


@pytest.mark.long
def test_one_more_part_is_read_judged_and_told(tmp_path):
    source, own = Path(ff.__file__).parent, tmp_path / "src" / "firstfire"
    shutil.copytree(source, own, ignore=shutil.ignore_patterns("__pycache__"))
    for name, text in BRACE.items():
        (own / name).write_text(text.lstrip())
    for name, places in LINES.items():
        text = (own / name).read_text()
        for before, line in places:
            assert text.count(before) >= 1, (name, before)
            text = text.replace(before, line + before, 1)
        (own / name).write_text(text)
    wren = (source.parents[1] / "engines" / "wren.toml").read_text()
    (tmp_path / "wren.toml").write_text(f'{wren}\n[brace]\narea = "4 mm^2"\n')

    done = subprocess.run(
        [sys.executable, "-c", TOLD], cwd=tmp_path, capture_output=True, text=True, check=False,
        env={**os.environ, "PYTHONPATH": str(own.parent)},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    said = " ".join(done.stdout.split())
    assert "the brace tears" in said
    assert "the brace tears: it feels 750 MPa but holds 300 MPa" in said
    assert "= weight that hangs on it ÷ brace's area = 3000 ÷ 4 = 750 MPa" in said
    assert "3000 N scales of this test" in said
    assert "brace's area 4 mm² wren.toml, line" in said
    assert "Cut the strut 20 mm wide: factor 4" in said
    assert '"brace.area"' in said
    assert "brace tears" in said.partition("<html")[2]
