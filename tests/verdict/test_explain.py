"""An opened judgement: followed by a calculator that reads only what is printed."""

from __future__ import annotations

import json
import math
import re
from dataclasses import replace
from pathlib import Path

import pytest
from tests.parts.moments import FILES, engine, moment

from firstfire.engine.read import with_values
from firstfire.engine.records import Line
from firstfire.engine.resolve import resolve
from firstfire.engine.working import recorded
from firstfire.errors import FirstfireError
from firstfire.parts import ways
from firstfire.runs.moments import judged_peak, loads_at
from firstfire.runs.moments import moment as moment_of
from firstfire.verdict.explain.bench_units import words_of
from firstfire.verdict.explain.contract import ExplanationTold, JudgementsTold, as_json, told
from firstfire.verdict.explain.contract import told_list as told_list_of
from firstfire.verdict.explain.find import elsewhere, known_event, known_id, listed, the_one
from firstfire.verdict.explain.numbers_put import numbers_put
from firstfire.verdict.explain.opened import MARKS
from firstfire.verdict.explain.opening import explanation, movers
from firstfire.verdict.explain.run import brings_about, with_its_changes
from firstfire.verdict.explain.text import explain_text, list_text
from firstfire.verdict.explain.working import followed, short

ROOT = Path(__file__).resolve().parents[2]


# A calculator: what is printed, typed in. It shares nothing with what printed it.
def keyed(text: str) -> float:
    raised = text.translate(str.maketrans({"×": "*", "÷": "/", "π": "math.pi"}))
    for sign, power in {"²": "**2", "³": "**3", "⁴": "**4", "^": "**"}.items():
        raised = raised.replace(sign, power)
    raised = raised.replace("the lesser of (", "min(").replace("the greater of (", "max(")
    raised = raised.replace(" or ", ", ").replace("whole of (", "math.floor(")
    for name, python in {"arcsin": "asin", "arccos": "acos", "ln": "log"}.items():
        raised = re.sub(rf"\b{name}\(", f"math.{python}(", raised)
    raised = re.sub(r"(?<![.\w])(tan|sin|cos)\(", r"math.\1(", raised)
    raised = re.sub(r"√(\d[\d.]*)", r"math.sqrt(\1)", raised).replace("√(", "math.sqrt(")
    assert re.fullmatch(r"[\d.()*/+\-, a-z]+", raised), text
    return float(eval(raised, {"math": math, "min": min, "max": max}))


def number(shown: str) -> float:
    return float(re.split("[\u202f°]", shown)[0])


@pytest.mark.parametrize("file", FILES)
@pytest.mark.parametrize("event", ["full_throttle", "first_fire", "night", "overtighten"])
def test_every_printed_line_comes_out_on_a_calculator(file: str, event: str) -> None:
    """To the third figure, from the printed numbers alone."""
    for way in ways(recorded(moment(file, event=event))):
        if not way.judged:
            continue
        for line in followed(way).lines:
            wanted = number(line.result_text)
            assert keyed(line.substituted) == pytest.approx(wanted, rel=2e-3, abs=1e-7), (
                way.id, line.substituted, line.result_text,
            )  # fmt: skip


def test_the_head_of_wren_followed_by_hand() -> None:
    """Typed into a calculator by hand: 4 screws M5 of class 8.8, 35 bar.

    Stress area 14.2 mm² and proof strength 580 MPa: ISO 898-1, Tables 3 and 4.
    """
    way = {w.id: w for w in ways(recorded(moment("engines/wren.toml", peak=35e5)))}["head.lift"]
    lines = {line.name: line for line in followed(way).lines}
    assert number(lines["screw_proof_load"].result_text) == pytest.approx(8236, abs=1)
    over_air = (35e5 - moment("engines/wren.toml").engine.surroundings.air_pressure) / 1e6
    assert number(lines["demand"].result_text) == pytest.approx(1590.43 * over_air, rel=1e-3)
    assert number(lines["capacity"].result_text) == pytest.approx(32944, abs=2)
    assert lines["capacity"].symbolic == "fasteners × proof load of the screw itself"


def test_the_piston_pin_followed_by_hand() -> None:
    """Beam on two supports and a round bar, Shigley 9, Table A-9-5 and Eq. 3-24."""
    here = moment("engines/wren.toml")
    way = {w.id: w for w in ways(recorded(here))}["pin.bend"]
    lines = {line.name: line for line in followed(way).lines}
    pin, eye = here.parts.pin.diameter * 1e3, here.parts.rod.small_end_width * 1e3
    span = eye + here.parts.piston.boss_width * 1e3 / 2 + 1
    force = float(max(here.loads.cylinders[0].rod.max(), -here.loads.cylinders[0].rod.min()))
    bent = force * (span / 4 - eye / 8)  # N mm
    hole = here.parts.pin.inside_diameter * 1e3
    stress = 32 * bent * pin / (math.pi * (pin**4 - hole**4))
    assert number(lines["span"].result_text) == pytest.approx(span, rel=1e-3)
    assert number(lines["bending_moment"].result_text) == pytest.approx(bent / 1e3, rel=1e-3)
    assert number(lines["demand"].result_text) == pytest.approx(stress, rel=1e-3)


def test_the_liner_followed_by_hand() -> None:
    """Liner under gas: Lamé with the pressure of the body on it, in MPa and mm."""
    here = moment("engines/wren.toml")
    way = {w.id: w for w in ways(recorded(here))}["liner.burst"]
    lines = {line.name: line for line in followed(way).lines}
    p, q = here.gas_pressure / 1e6, number(lines["pressure_on_body"].result_text)
    a, b = here.parts.cylinder.bore * 1e3, here.parts.liner.outside_diameter * 1e3
    hoop = (p * (b**2 + a**2) - 2 * q * b**2) / (b**2 - a**2)
    assert number(lines["hoop_at_bore"].result_text) == pytest.approx(hoop, rel=2e-3)
    assert number(lines["demand"].result_text) == pytest.approx(hoop + p, rel=2e-3)


def test_a_brittle_part_is_followed_in_the_units_of_the_bench() -> None:
    """Every way of an engine of acrylic and resin, held by screws: no unit is without a name."""
    brittle = {"head.material": "pmma", "head.made": "bought", "body.material": "resin",
               "case.material": "resin", "head.fasteners.kind": "screws"}  # fmt: skip
    found = {
        w.id: w for w in ways(recorded(moment(with_values(engine("engines/wren.toml"), brittle))))
    }
    assert {"head.crack", "head.tighten.crack", "body.foot.crack", "body.boss.split"} <= set(found)
    for way in found.values():
        if way.judged:
            assert followed(way).lines, way.id
    lines = {line.name: line for line in followed(found["body.foot.crack"]).lines}
    # (0.8 MPa·√m/50 MPa)²/π = 0.0815 mm
    assert number(lines["notch_length"].result_text) == pytest.approx(0.0815, rel=2e-3)


def test_no_two_things_of_a_working_go_by_the_same_words() -> None:
    """But for a line that only repeats another: the capacity is the strength."""
    for file in FILES:
        for way in ways(recorded(moment(file))):
            names = [*way.inputs, *(line.name for line in way.working)]
            alias = {line.name for line in way.working if line.expression in names}
            said = {name: short(words_of(name)) for name in way.inputs}
            said |= {line.name: short(line.words) for line in way.working}
            named = [words for name, words in said.items() if name not in alias]
            assert len(set(named)) == len(named), (way.id, sorted(named))


@pytest.fixture(scope="module")
def opened(result):
    return [explanation(result, margin) for margin in result.margins]


def test_each_is_told_whole(opened) -> None:
    for one in opened:
        assert one.title[0].isupper()
        assert one.sentence.endswith("."), one.sentence
        assert one.formula
        assert one.source
        if one.word != "not judged":
            assert one.numbers, one.id
            assert {line.name for line in one.working} >= {"demand", "capacity"}, one.id


def test_the_factor_is_the_last_line(opened) -> None:
    for one in opened:
        if one.factor and math.isfinite(one.factor):
            last = one.working[-1]
            assert last.name == "factor"
            assert keyed(last.substituted) == pytest.approx(one.factor, rel=2e-3), one.id


def test_numbers_say_who_said_them(opened, wren) -> None:
    text = (ROOT / "engines" / "wren.toml").read_text().splitlines()
    given = set()
    for one in opened:
        for put in one.numbers:
            assert put.kind in MARKS
            assert put.mark == MARKS[put.kind][0]
            assert put.words
            assert put.origin_text, (one.id, put.name)
            if put.kind == "catalog" and not put.source:
                assert "table" in put.origin_text or "ISO" in put.origin_text or put.origin_text
            line = re.fullmatch(r"wren\.toml, line (\d+)", put.origin_text)
            if put.kind == "given" and line:
                given.add(put.name)
                assert put.name.rsplit(".", 1)[-1] in text[int(line[1]) - 1], put.name
            if put.kind == "default":
                assert wren.values(1).spoken(put.name).layer == "defaults"
    assert "cylinder.bore" in given


def test_a_material_is_named_with_its_source(opened) -> None:
    one = next(one for one in opened if one.id == "case.bearing_seat.crush")
    strong = next(put for put in one.numbers if put.name == "strength_at_room")
    assert strong.kind == "catalog"
    assert "carbon fibre" in strong.origin_text
    assert strong.source
    assert "read here" in strong.source or "from memory" in strong.source


def test_what_is_tried_and_what_is_set_on_top_is_marked(wren, result) -> None:
    changed = with_values(wren, {"crank.cheek_width": "40 mm"})
    margin = next(m for m in result.margins if m.way.id == "crank.cheek.break")
    one = explanation(replace(result, engine=changed), margin)
    width = next(put for put in one.numbers if put.name == "crank.cheek_width")
    assert (width.kind, width.origin_text) == ("tried", "tried for this run")


def test_makers_share_the_whole_variance(opened) -> None:
    told_of = 0
    for one in opened:
        shares = [share for words, share in one.makers if words != "all else together"]
        assert shares == sorted(shares, reverse=True)
        if one.makers:
            told_of += 1
            assert sum(share for _, share in one.makers) == pytest.approx(1, abs=0.08), one.id
            assert all(
                "doubt." not in words and "materials." not in words for words, _ in one.makers
            )
    assert told_of > 20


def test_movers_are_what_judging_again_gives(result, events, wren) -> None:
    """Plates on the cheeks a tenth thicker, really judged anew under the same gas."""
    bout = next(b for b in events["full_throttle"].bouts)
    plain = resolve(
        wren, {"crank.joint.plate_thickness": 1.1 * result.plain.crank.joint.plate_thickness}
    )

    def cheek(engine):
        peaks = [judged_peak(bout, 0, 1.0)]
        felt = loads_at(bout, engine, peaks)
        found = ways(recorded(moment_of(bout, engine, 0, 1.0, peaks, felt)))
        return next(w for w in found if w.id == "crank.cheek.break")

    before, after = cheek(result.plain), cheek(plain)
    text = next(text for text in movers(before) if text.startswith("plate's thickness"))
    times = float(text.rpartition("×")[2])
    assert times == pytest.approx(after.factor / before.factor, rel=0.03)


def test_a_change_is_tried_even_of_what_holds(result) -> None:
    margin = next(m for m in result.margins if m.way.id == "head.lift" and m.word == "holds")
    raised = with_its_changes(result, margin)
    assert raised.word == margin.word
    assert raised.raise_by
    more = next(r for r in raised.raise_by if "head.fasteners.count" in r.set)
    count = result.plain.cylinders[0].head.fasteners.count
    assert more.factor_after == pytest.approx(margin.factor * (count + 2) / count, rel=1e-6)
    one = explanation(result, raised)
    assert one.raises[0].text == raised.raise_by[0].text
    assert all(isinstance(value, str) for change in one.raises for value in change.set.values())
    assert one.caution


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_text_is_in_order_and_follows_the_width(result, width) -> None:
    heads = ("What is compared", "Numbers put in", "Follow it with a calculator", "Low and high",
             "What moves it", "Where the formula is from")  # fmt: skip
    for margin in result.margins:
        text = explain_text(
            explanation(result, margin), elsewhere(result.margins, margin), width=width
        )
        lines = text.splitlines()
        assert max(map(len, lines)) <= width, (margin.way.id, max(lines, key=len))
        places = [lines.index(head) for head in heads if head in lines]
        assert places == sorted(places)
        assert lines[0][0].isupper()


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_list_has_every_way_once_as_wide_as_is_told(result, width) -> None:
    found = listed(result.margins)
    text = list_text(found, result.plain, width=width)
    assert max(map(len, text.splitlines())) <= width
    for one in found:
        assert one.worst.way.id in text
        assert one.worst.rank == min(m.rank for m in one.places)
    factors = [one.worst.rank for one in found]
    assert factors == sorted(factors)


def test_json_keeps_its_contract(result, opened) -> None:
    for one in opened:
        data = json.loads(as_json(told(one)))
        assert data["schema"] == "firstfire.explanation/1"
        ExplanationTold.model_validate(data)
        values = {line["name"]: line["value"] for line in data["working"]}
        if data["factor"]:
            assert values["capacity"] / values["demand"] == pytest.approx(data["factor"], rel=1e-9)
    listing = json.loads(as_json(told_list_of(listed(result.margins))))
    assert len(JudgementsTold.model_validate(listing).judgements) == len(result.margins)


def test_an_id_is_found_by_a_piece_of_it_or_the_nearest_are_told(result) -> None:
    assert known_id("cheek") == "crank.cheek.break"
    assert known_id("CRANK.CHEEK.BREAK#2") == "crank.cheek.break#2"
    assert known_id("pushed in") == "piston.crown.break"
    with pytest.raises(FirstfireError, match=r"crank\.joint\.slip"):
        known_id("crank.joint.slp")
    with pytest.raises(FirstfireError, match=r"part of \d+ ids: .*rod\.tear"):
        known_id("rod.")
    with pytest.raises(FirstfireError, match="nearest"):
        known_id("")
    with pytest.raises(FirstfireError, match="not judged of this engine"):
        the_one(result.margins, "head.char")
    with pytest.raises(FirstfireError, match="not judged in"):
        the_one(result.margins, "piston.swell", "cranking")


def test_an_event_is_known_by_its_words() -> None:
    assert known_event("First fire") == "first_fire"
    with pytest.raises(FirstfireError, match="not computed"):
        known_event("jam")
    with pytest.raises(FirstfireError, match="not known"):
        known_event("picnic")


def test_only_events_that_can_bring_it_about_are_run() -> None:
    assert not brings_about("cranking", "piston.swell")
    assert brings_about("idle", "piston.swell")
    assert brings_about("cranking", None)


def test_the_one_is_where_it_is_worst(result) -> None:
    margin = the_one(result.margins, "crank.cheek.break")
    assert all(m.rank >= margin.rank for m in elsewhere(result.margins, margin))
    first = the_one(result.margins, "crank.cheek.break", "first_fire")
    assert first.event == "first_fire"
    assert the_one(result.margins, "crank.cheek.break#1") is margin


def test_a_working_shows_nothing_that_rounding_made() -> None:
    """A cold wall is at 1e-14 K over the air by rounding: it stands as none."""
    way = next(w for w in ways(recorded(moment(FILES[0]))) if w.id == "piston.swell")
    inputs = dict.fromkeys(way.inputs, 5e-14)
    line = Line("demand", "bore_rise", "K", "rise")
    shown = followed(replace(way, inputs=inputs, working=(line,))).lines[0]
    assert shown.substituted == "0"


@pytest.mark.parametrize(
    ("name", "contract"), [("explanation", ExplanationTold), ("judgements", JudgementsTold)]
)
def test_the_contracts_are_the_ones_that_were_stored(name, contract) -> None:
    """A change must be meant: fields are added, never renamed or given another meaning."""
    stored = json.loads((Path(__file__).parent / "stored" / f"{name}.schema.json").read_text())
    assert contract.model_json_schema(by_alias=True, mode="serialization") == stored


@pytest.mark.parametrize("file", FILES)
def test_every_number_of_every_engine_has_its_origin(file: str) -> None:
    """Twins, inches, own words and metal: who said it is found, on the right line of the file."""
    described, here = engine(file), moment(file)
    text = (ROOT / file).read_text().splitlines()
    for cylinder in range(len(here.engine.cylinders)):
        for way in ways(recorded(moment(file, cylinder=cylinder))):
            for put in numbers_put(described, here.engine, way, 4):
                assert put.kind in MARKS
                assert put.origin_text, (way.id, put.name)
                line = re.fullmatch(r".*\.toml, line (\d+)", put.origin_text)
                assert bool(line) == (put.kind == "given"), (way.id, put.name, put.origin_text)
                if line:
                    assert put.name.rsplit(".", 1)[-1] in text[int(line[1]) - 1], put.name
