"""An opened judgement told: its numbers with who said them, its sentence, its lines."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import SimpleNamespace

import pytest

from firstfire.engine.records import Line, Way
from firstfire.verdict.explain import numbers_put as numbers
from firstfire.verdict.explain import text
from firstfire.verdict.explain import words as said
from firstfire.verdict.explain.bench_units import _BY_SI, unit_of, with_unit
from firstfire.verdict.explain.find import known_id
from firstfire.verdict.explain.opened import NumberPut
from firstfire.verdict.facts.margin import Margin, RunTime
from firstfire.verdict.numbers import FAR_MORE, THIN

ONE = SimpleNamespace(cylinders=(None,), materials={})


def way(demand=50.0, capacity=100.0, ident="rod.tear", unit="N", **more):
    parts = {"hazard": False, "governs": "section", "temperature": None, **more}
    return Way(
        ident, "con rod", "is torn apart", demand, capacity, unit, parts.pop("hazard"),
        parts.pop("governs"), parts.pop("temperature"), "", "a book", **parts,
    )  # fmt: skip


def margin(factor=2.0, low=1.5, high=2.5, word="holds", of=None, **more):
    parts = {"event": "full_throttle", "point": "full", "survival": 0.9, **more}
    return Margin(
        of or way(), parts.pop("event"), parts.pop("point"), 1.0, factor, low, high, word,
        parts.pop("survival"), (), **parts,
    )  # fmt: skip


# Names, units and sentences.
def test_an_id_keeps_its_cylinder():
    assert known_id("rod.tear#2") == "rod.tear#2"
    assert known_id("Cheek#2") == "crank.cheek.break#2"
    assert known_id("rod.tear") == "rod.tear"


def test_a_flow_is_told_in_cubic_centimetres_a_minute():
    """Two millionths of a cubic metre in a second are 120 cm³ in a minute."""
    assert with_unit(2e-6, _BY_SI["m^3/s"], 4) == f"120{THIN}cm³/min"


def test_it_feels_what_is_asked_and_holds_what_it_has():
    told = said.sentence(ONE, margin())
    assert f"it feels 50{THIN}N and holds 100{THIN}N. Factor 2 (1.5–2.5): holds." in told
    fails = said.sentence(ONE, margin(0.5, 0.4, 0.6, "fails", way(100.0, 50.0)))
    assert f"it feels 100{THIN}N but holds 50{THIN}N" in fails
    far = said.sentence(ONE, margin(2e3, 1e3, 3e3, of=way(1.0, 2000.0)))
    assert f". {FAR_MORE[:1].upper()}{FAR_MORE[1:]}: holds." in far


def test_what_hardly_moves_is_told_from_what_is_beyond_telling():
    """Both ends are told as 99+: 1.2 times as high is moved, 1.001 times is not."""
    assert said.span_text(margin(100.0, 100.0, 100.1)).startswith("Nothing uncertain moves it")
    assert said.span_text(margin(130.0, 120.0, 144.0)) == "It is beyond 99 all over."


def test_a_clock_is_told_with_its_ends():
    limit = RunTime("idle", "slow", way(), 45.0, 30.0, 60.0, None, None, False)
    told = said.clock(limit)
    assert told.startswith("Held at slow from cold, it comes after about 45")
    assert told.index("45") < told.index("30") < told.index("60")


def test_a_title_begins_with_a_capital_and_a_hazard_is_named_first():
    assert said.title(ONE, margin()) == "Con rod is torn apart"
    thrown = margin(of=way(hazard=True))
    assert said.caution(thrown, acts=False) == f"{said.HAZARD}{said.CAUTION}"
    assert (said.caution(margin(), acts=True), said.caution(margin(), acts=False)) == (
        said.CAUTION, ""
    )  # fmt: skip


def test_an_unknown_of_one_of_two_cylinders_is_named_with_it():
    twin, single = SimpleNamespace(cylinders=2), SimpleNamespace(cylinders=1)
    path = "cylinders.2.doubt.wall_heat"
    words = "how much heat the gas gives the walls"
    assert said.unknown_words(twin, path) == f"{words} of cylinder 2"
    assert said.unknown_words(single, "doubt.wall_heat") == words


# Numbers put in.
@dataclass(frozen=True)
class Datum:
    low: float
    high: float
    unit: str = "MPa"
    source: str = "a table"
    sure: str = "measured"


class Row(dict):
    name, origin = "PLA", "catalog"


def entry(kind="file", layer="file", **more):
    parts = {"line": 7, "note": "", "source": "shop/engine.toml", **more}
    return SimpleNamespace(kind=kind, layer=layer, **parts)


class Make:
    """A file that says a width on line 7, and a catalog with a plastic's strength."""

    where = "shop/engine.toml"
    stack = SimpleNamespace(top=lambda _: None)

    def values(self, cylinder):
        assert cylinder == 2
        return SimpleNamespace(spoken={"rod.big_end_width": entry(note="own")}.__getitem__)

    @property
    def catalog(self):
        row = Row(tensile_strength=Datum(40.0, 60.0))
        return SimpleNamespace(row=lambda *key: row if key == ("material", "pla") else None)


@pytest.fixture
def put(monkeypatch):
    """Of two materials that a way reads, the second has the strength of 50 MPa."""
    make = Make()
    strength = SimpleNamespace(
        words="strength", by="law", kind="law", props=("tensile_strength",), dimension="pressure"
    )
    plain = SimpleNamespace(
        materials={"petg": {"tensile_strength": 45e6}, "pla": {"tensile_strength": 50e6}}
    )

    def materials(engine, read, cylinder):
        assert (engine, read, cylinder) == (make, ("rod.material",), 2)
        return ["none", "petg", "pla"]

    known = numbers.put_in
    monkeypatch.setattr(
        numbers, "put_in", lambda name: strength if name == "strength_at_room" else known(name)
    )
    monkeypatch.setattr(numbers, "_materials", materials)
    lines = (
        Line("area", "rod.big_end_width", "m", ""), Line("demand", "area", "m", ""),
        Line("capacity", "strength_at_room", "Pa", ""),
    )  # fmt: skip
    inputs = {"rod.big_end_width": 0.02, "strength_at_room": 50e6}
    of = way(ident="rod.tear#2", inputs=inputs, working=lines)
    return numbers.numbers_put(make, plain, of, 4, ("rod.material",))


def test_a_number_of_the_file_is_told_with_its_line(put):
    width = put[0]
    assert (width.name, width.value) == ("rod.big_end_width", 0.02)
    assert (width.value_text, width.unit_text) == (f"20{THIN}mm", "mm")
    assert (width.kind, width.origin_text, width.source) == ("file", "engine.toml, line 7", "own")


def test_a_number_of_a_material_is_told_with_its_row(put):
    """50 MPa are 500 bar."""
    strength = put[1]
    assert strength.value_text == f"50{THIN}MPa (500{THIN}bar)"
    assert strength.kind == "catalog"
    assert strength.origin_text == f"PLA, 40–60{THIN}MPa"
    assert strength.source == "a table (measured)"


def test_a_material_that_somebody_said_otherwise_is_told_so(monkeypatch):
    make = Make()
    over = {"materials.pla.tensile_strength": entry()}
    monkeypatch.setattr(make, "stack", SimpleNamespace(top=over.get), raising=False)
    assert numbers._row(make, "pla", "tensile_strength") == ("file", "engine.toml, line 7: PLA", "")


def test_a_value_at_its_path():
    found = numbers.number_at(Make(), "rod.big_end_width", 0.0123456, 3, cylinder=2)
    assert found.value_text == with_unit(0.0123456, unit_of("rod.big_end_width"), 3)
    assert found.value_text == f"12.3{THIN}mm"
    assert (found.name, found.origin_text) == ("rod.big_end_width", "engine.toml, line 7")


# On the terminal.
def number(words, value, origin, kind="given", source=""):
    return NumberPut(words, words, 1.0, "mm", value, kind, origin, source)


def test_where_numbers_are_from_stands_beside_them_or_hangs_below():
    """Beside them from the column on where their value ends, if 20 letters more have room."""
    one = number("width", "20 mm", "engine.toml, line 7, as it was measured there by hand")
    wide = list(text.number_lines([one], width=text._ORIGIN + text._LEAST))
    told = [line for line in wide if "width" in line or line.startswith(" " * text._ORIGIN)]
    assert len(told) > 1
    assert told[0].startswith("  ")
    assert told[0].index("engine.toml") == text._ORIGIN
    narrow = list(text.number_lines([one], width=text._ORIGIN + text._LEAST - 1))
    assert "20 mm  engine.toml" in narrow[0]
    assert narrow[1].startswith("      ")


def test_a_share_has_a_letter_for_each_tenth():
    """0.34 is three tenths, 0.02 still one."""
    first, *lines = text._maker_lines([("heat", 0.34), ("all else", 0.02)], width=80)
    assert first == "  Of that spread:"
    assert lines == [
        "     34 %  ###         heat", "      2 %  #           all else"
    ]  # fmt: skip


def test_elsewhere_each_point_is_told_once_where_it_is_worst():
    each = [margin(1.2, point="slow"), margin(1.9, point="slow"), margin(3.0, point="fast")]
    assert text._elsewhere(each, width=80) == ["Elsewhere: slow: 1.2 holds, fast: 3 holds."]


def listed(worst, *others):
    return SimpleNamespace(worst=worst, others=others)


def test_judgements_stand_under_their_words():
    """What fails, what is only told, and what no model holds for, in this order."""
    unjudged = way(math.nan, math.nan, "pin.wear", judged=False, why_not="no model.")
    lines = text.list_text(
        [
            listed(margin(0.5, 0.4, 0.6, "fails"), margin(1.4, event="idle")),
            listed(margin(3.0, 2.0, 4.0, reported=True, of=way(ident="piston.crown.char"))),
            listed(margin(None, None, None, "not judged", of=unjudged)),
        ],
        ONE,
    ).splitlines()
    at = [
        next(n for n, line in enumerate(lines) if line.startswith(head))
        for head in ("Fails", "Told, but", "Not judged")
    ]
    assert at == sorted(at)
    rows = [n for n, line in enumerate(lines) if "rod.tear" in line or "crown.char" in line]
    assert at[0] < rows[0] < at[1] < rows[1] < at[2]
    assert lines[rows[0]].endswith("rod.tear                    full")
    assert lines[rows[0] + 1] == "      con rod is torn apart; idle 1.4"
    assert lines[-1] == "  pin.wear: con rod is torn apart: no model."
