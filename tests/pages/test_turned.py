"""What an event turned on the wheel does: rows held to the rooms that know, old ones marked."""

import math
from types import SimpleNamespace

import pytest
from tests.pages.served import ROOT

import firstfire as ff
from firstfire.engine.happenings import happenings
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import OutsideValidity
from firstfire.pages.answers import turned
from firstfire.pages.answers.bouts import Bouts
from firstfire.pages.answers.turned import kicking, running, still, wheel
from firstfire.pages.answers.turning import Turning
from firstfire.pages.desk.sheet import Sheet
from firstfire.pages.desk.wheel import HANDLES
from firstfire.pages.desk.wheel import turned as sheet_turned
from firstfire.pages.show.asking import asked
from firstfire.setup.cams.gaps import cases
from firstfire.verdict.numbers import shown

WREN = ROOT / "engines" / "wren.toml"


@pytest.fixture(scope="module")
def engine():
    return ff.read(WREN)


def plain(engine, **said):
    return resolve(with_values(engine, {k.replace("__", "."): v for k, v in said.items()}))


@pytest.mark.parametrize("handle", HANDLES, ids=lambda one: one.id)
def test_a_handle_moves_its_event_the_way_its_sign_says(engine, handle):
    before, made = resolve(engine), {}
    event = next(one for one in wheel(before, before)["events"] if one["id"] == handle.id)
    after = resolve(with_values(engine, {handle.path: f"{event['value'] + 3} deg"}))
    for key, one in (("before", before), ("after", after)):
        made[key] = {h.id: math.degrees(h.own) for h in happenings(one)}[handle.id]
    assert event["own"] == pytest.approx(made["before"])
    assert made["after"] - made["before"] == pytest.approx(3.0 * handle.sign)
    assert event["low"] < event["value"] < event["high"]
    moved = next(one for one in wheel(after, before)["events"] if one["id"] == handle.id)
    assert moved["own"] - moved["present"] == pytest.approx(3.0 * handle.sign)


def test_clearances_are_those_of_the_chapter_of_cams(engine):
    rows, gaps = still(resolve(engine)), {one.id: one.gap for one in cases(resolve(engine), 0)}
    for row, case in (("gap inlet", "drawn_inlet"), ("gap exhaust", "drawn_exhaust"),
                      ("gap between", "drawn_between")):  # fmt: skip
        assert rows[row].text == shown(gaps[case].gap, "mm")
        assert (rows[row].word, rows[row].more) == ("holds", gaps[case].where)


def test_overlap_and_charge_kept_are_those_of_the_timing_table(engine):
    rows, right = still(resolve(engine)), ff.timing(engine).teeth[0][2]
    assert rows["overlap"].text == "20°"
    assert rows["kept"].text == f"{100 * right.filling:.0f} %"
    assert rows["gauge"].text == shown(right.gauge, "bar", 2)


def test_valves_that_come_too_near_are_marginal_and_then_meet(engine):
    tight = {"cylinder__compression_ratio": "11"}
    words = []
    for degrees in (10, 90, 110):
        rows = still(plain(engine, valves__inlet__opens_before_top=f"{degrees} deg", **tight))
        words.append((rows["gap inlet"].word, rows["gap inlet"].text[:4]))
    assert words == [("holds", "3.57"), ("marginal", "0.50"), ("fails", "they")]


def test_an_inlet_that_suction_opens_has_no_handle_and_no_room(engine):
    sucked = plain(engine, valves__inlet__worked="suction")
    ids = {one["id"] for one in wheel(sucked, sucked)["events"]}
    assert {"inlet-opens", "inlet-closes"} & ids == set()
    assert {"exhaust-opens", "start-spark"} <= ids
    assert {"gap inlet", "overlap", "kept"} & still(sucked).keys() == set()


def cycle(filling, torque=2.0, misfires=()):
    """As much of a bout as is looked at."""
    figures = [SimpleNamespace(volumetric_efficiency=f, residual_fraction=0.1) for f in filling]
    return SimpleNamespace(point=SimpleNamespace(
        fired=SimpleNamespace(cycle=SimpleNamespace(cylinders=figures)), misfires=misfires,
        brake_torque=torque, brake_power=torque * 200, name="full throttle 1910 rpm",
    ))  # fmt: skip


def test_a_cycle_is_the_mean_of_its_cylinders():
    rows = running(cycle([0.8, 0.9]))
    assert rows["filling"].text == "85 %"
    assert rows["torque"].text == shown(2.0, "N*m")
    assert running(cycle([0.8], misfires=(1,)))["torque"].more == "it doesn't light"


@pytest.mark.parametrize(
    ("strong", "word"), [(math.inf, "holds"), (30, "holds"), (19, "marginal"), (14, "fails")]
)
def test_kick_back_has_five_degrees_to_spare(engine, monkeypatch, strong, word):
    found = SimpleNamespace(strong=math.radians(strong), asked=math.radians(15.0))
    monkeypatch.setattr(turned, "cranked", lambda *_, **__: SimpleNamespace(over=True, shaft=None))
    monkeypatch.setattr(turned, "kick_back", lambda *_: found)
    row = kicking(resolve(engine), lambda: False)["kick"]
    assert row.word == word
    assert "15° before top" in row.more


def test_what_is_not_brought_over_its_top_is_not_judged(engine, monkeypatch):
    monkeypatch.setattr(turned, "cranked", lambda *_, **__: SimpleNamespace(over=False))
    assert kicking(resolve(engine), lambda: False)["kick"].word == "not judged"


class Ran(Bouts):
    """Bouts that are only told."""

    def all_of_it(self, _plain, key, _event, _stop):
        if key == "stuck":
            raise OutsideValidity("too slow to run")
        return cycle([0.8])


def told_of(turning, sheet, engine, present):
    """What is told of a sheet: at once, and behind."""
    about = asked(sheet, WREN, 1)
    return turning.at_once(about, engine, present), turning.behind(
        about, engine, Ran(), lambda: False
    )


def test_the_cycle_of_before_is_marked_as_old_until_its_own_comes(engine, monkeypatch):
    monkeypatch.setattr("firstfire.pages.answers.turning.kicking", lambda *_: {})
    now, sheet = resolve(engine), Sheet(WREN.read_text())
    later = plain(engine, valves__inlet__opens_before_top="24 deg")
    turning = Turning()
    first, behind = told_of(turning, sheet, now, now)
    assert 'class="old"' not in first["turned"]
    assert "present" not in first["turned"].partition("<thead>")[2].partition("</thead>")[0]
    assert "80 %" in next(iter(behind))["turned"]
    trial = sheet_turned(sheet, "valves.inlet.opens_before_top", 24.0)
    at_once, behind = told_of(turning, trial, later, now)
    assert at_once["turned"].count('class="old"') == 4
    assert still(later)["gap inlet"].text in at_once["turned"]
    assert still(now)["gap inlet"].text in at_once["turned"]
    assert 'class="old"' not in next(iter(behind))["turned"]


def test_what_cannot_be_run_says_why(engine, monkeypatch):
    monkeypatch.setattr("firstfire.pages.answers.turning.kicking", lambda *_: {})
    monkeypatch.setattr(Sheet, "key", "stuck")
    _, behind = told_of(Turning(), Sheet("x"), resolve(engine), resolve(engine))
    assert "too slow to run" in next(iter(behind))["turned"]
