"""Wires told by hand: units in JSON, and where a table's columns end."""

from __future__ import annotations

import json
import math
from types import SimpleNamespace

import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.engine.wires import Wire, wiring
from firstfire.setup.wiring.chapter import wiring_chapter
from firstfire.setup.wiring.contract import wiring_json
from firstfire.setup.wiring.text import _wires, opening, wiring_text

THICK = Wire("W1", "coil", "F1", "T1 +", 2.5, 0.5, 2.5, 0.123)
LEAD = Wire("W2", "coil", "T1 HV", "E1", 0.0, 0.3, None, math.nan, "high voltage")


def test_a_section_of_2_5_square_millimetres_is_2_5_millionths_of_a_square_metre():
    engine = ff.read("engines/wren.toml")
    plain = resolve(engine)
    found = SimpleNamespace(voltage=12.0, fuse=4.0, current=3.0, paths=(), wires=(THICK, LEAD))
    told = json.loads(wiring_json(engine, plain, found))
    thick, lead = told["wires"]
    assert thick["section_m2"] == pytest.approx(2.5e-6)
    assert thick["length_m"] == 0.5
    assert thick["drop_v"] == 0.123
    assert lead["section_m2"] is None
    assert lead["drop_v"] is None
    assert told["says"] == opening("wren", found)


def test_the_table_of_wires_ends_each_column_where_its_head_ends():
    """Three words begin at 2, 7 and 23; four numbers end at 48, 54, 66 and 75."""
    head, thick, lead = _wires(SimpleNamespace(wires=(THICK, LEAD)))
    begin, end = (2, 7, 23), (48, 54, 66, 75)
    for line, words, numbers in (
        (head, ("", "from", "to"), ("A", "m", "mm²", "V lost")),
        (thick, ("W1", "F1", "T1 +"), ("2.5", "0.5", "2.5", "0.12")),
        (lead, ("W2", "T1 HV", "E1"), ("–", "0.3", "HV lead", "–")),
    ):
        assert len(line) == 75
        assert all(line[at:].startswith(one) for at, one in zip(begin, words, strict=True)), line
        assert all(line[:at].endswith(f" {one}") for at, one in zip(end, numbers, strict=True)), (
            line
        )


def test_text_and_chapter_begin_with_the_engines_name():
    engine = ff.read("engines/wren.toml")
    found = wiring(resolve(engine))
    assert wiring_chapter(engine).said[0] == opening("wren", found)
    assert opening("wren", found).startswith("wren: ")
    assert wiring_text("shrike", found).startswith("shrike: ")


def test_no_line_of_the_words_about_a_wiring_is_wider_than_asked_for():
    """Of its table of 75 columns nothing is broken."""
    lines = wiring_text(
        "wren", wiring(resolve(ff.read("engines/wren.toml"))), width=75
    ).splitlines()
    assert max(len(line) for line in lines) == 75


def test_a_wire_too_thin_is_named():
    """Nothing is said of a high-voltage lead, which has no section by nature."""
    thin = Wire("W7", "starter", "G1", "M1", 300.0, 20.0, None, math.nan)
    found = SimpleNamespace(wires=(THICK, LEAD, thin))
    assert opening("x", found).startswith("x: no wire up to 50 mm² is thick enough for W7.")


def test_what_a_path_may_lose_is_said_in_percent():
    found = SimpleNamespace(wires=(THICK,), fuse=None, current=52.0, voltage=12.0)
    assert opening("x", found) == "x: 52\u202fA ask for two fused circuits, not one."
    found.fuse = 40.0
    assert opening("x", found) == (
        "x: 52\u202fA behind one fuse of 40\u202fA; no path loses more than 3\u202f% of 12\u202fV."
    )
