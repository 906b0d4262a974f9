"""Cam drive a tooth or two out: card, ledger, JSON, report and page say the same of it."""

import json
import re
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.pages.answers.whole import told
from firstfire.report import report
from firstfire.verdict.words.card import card
from firstfire.verdict.words.text.show import check_text
from firstfire.verdict.words.tooth import TITLE

WREN = ff.read(Path(__file__).resolve().parents[2] / "engines" / "wren.toml")
TIGHT = {"cylinder.compression_ratio": 15, "valves.exhaust.lift": "7 mm"}


def checked(changed):
    """Cranking alone, with three engines drawn: what a tooth does hangs on neither."""
    engine = ff.with_values(WREN, changed)
    return ff.check(engine, only=["cranking"], changes=False, drawn=3)


def plainly(html):
    return " ".join(re.sub(r"<[^>]*>", " ", html).replace("\u202f", " ").split())


@pytest.fixture(scope="module")
def tight():
    return checked(TIGHT)


def test_card_ledger_json_report_and_page_say_the_same(tight):
    found = {one["teeth"]: one for one in json.loads(tight.to_json())["tooth_off"]}
    assert sorted(found) == [-2, -1, 0, 1, 2]
    assert found[2]["touches"]
    assert not found[0]["touches"]
    drawn = f"clears by {1e3 * found[0]['gap_m']:.1f} mm"
    (line,) = [one for one in card(tight) if one.name == "valve and piston"]
    assert line.value.replace("\u202f", " ").startswith(f"{drawn}; one tooth off ")
    assert line.value.endswith("two touches")
    text = check_text(tight).replace("\u202f", " ")
    for shown in (" ".join(text.split()), plainly(report(tight)), plainly(told(tight)["life"])):
        tail = shown[shown.index(TITLE) :]
        for teeth, name in ((-2, "two teeth early"), (0, "as drawn"), (2, "two teeth late")):
            one = found[teeth]
            said = "touches" if one["touches"] else f"clears by {1e3 * one['gap_m']:.1f} mm"
            after = tail[tail.index(name) :][: len(name) + 90]
            assert said in after
            assert one["what"] in after
    block = text[text.index(TITLE) :].splitlines()[2:12]
    words = [row.split()[0] for row in block if row.startswith(("  holds", "  fails"))]
    assert words == ["fails" if found[n]["touches"] else "holds" for n in (-2, -1, 0, 1, 2)]
    assert max(map(len, text.splitlines())) <= 80


def test_valves_beside_the_bore_say_why():
    result = checked({"valves.placed": "side"})
    data = json.loads(result.to_json())
    assert data["tooth_off"] == []
    assert "no piston reaches them" in data["tooth_off_not_judged"]
    (line,) = [one for one in card(result) if one.name == "valve and piston"]
    assert "no piston reaches them" in line.value
    text = " ".join(check_text(result).split())
    for shown in (text, plainly(report(result)), plainly(told(result)["life"])):
        assert "no piston reaches them" in shown[shown.index(TITLE) :]
