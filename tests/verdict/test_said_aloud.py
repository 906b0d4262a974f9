"""Sentences that were wrong when read aloud."""

from dataclasses import replace

import pytest

from firstfire.catalog import load
from firstfire.engine.read import read, with_values
from firstfire.engine.records import Raise
from firstfire.engine.resolve import resolve
from firstfire.verdict.explain.words import sentence
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.facts.raising import raised_by
from firstfire.verdict.words.card import _starter
from firstfire.verdict.words.sentences import at_its_time


@pytest.mark.parametrize("name", ["wren", "heron", "plover"])
def test_the_word_of_a_material_is_its_hazard(name):
    """*Mind PETG* says nothing: that its fumes harm does."""
    engine = read(f"engines/{name}.toml")
    named = {row.name for row in load().rows("material")}
    words = [c.hazard.partition(":")[0] for c in cautions(engine, resolve(engine))]
    assert not named & set(words)
    assert "fumes" in words
    assert "controller" not in words
    if name == "wren":
        assert {"dust", "acid"} <= set(words)  # carbon fibre, and the acid of burned FKM


def test_a_screw_that_strips_while_tightened_does_so_at_no_other_time(result):
    margin = next(m for m in result.margins if m.way.id.startswith("head.fasteners.strip"))
    said = sentence(result.plain, replace(margin, word="fails"))
    assert said.startswith("While its bolts are tightened, the head fasteners strip or yield: ")
    assert "starter" not in said


def test_a_peak_that_the_starter_cannot_turn_is_not_said_to_be_turned(result):
    weaker = replace_starting(result, peak=18.0, stall=15.0)
    said = _starter(weaker).value
    assert said.startswith("its swing takes it over; takes up to 18, gives 15")
    assert "turns it" not in said
    assert _starter(replace_starting(result, peak=10.0, stall=50.0)).value.startswith("turns it")


def replace_starting(result, peak, stall):
    turned = replace(result.starting, peak_torque=peak, stall_torque=stall)
    return replace(result, starting=turned)


def test_what_is_not_printed_takes_no_hours_of_the_printer():
    engine = read("engines/plover.toml")
    change = Raise("Make the crankpin 12 mm thick", {"crank.crankpin_diameter": "12 mm"},
                   "reprint_crank")  # fmt: skip
    assert raised_by(engine, change, 2.0, "").print_hours == 0  # plover's crank is of steel
    assert "filament" not in raised_by(engine, change, 2.0, "").parts
    printed = with_values(engine, {"crank.made": "printed"})
    assert raised_by(printed, change, 2.0, "").print_hours > 0
    assert raised_by(printed, change, 2.0, "").parts == "filament"


def test_what_is_printed_is_the_part_that_changes_and_not_the_section_it_is_set_in():
    """plover's crank is of steel, its case is printed: a larger bearing is printed into that."""
    engine = read("engines/plover.toml")
    bearing = Raise("Fit 6202 main bearings", {"crank.main_bearing": "6202"}, "reprint_crankcase")
    assert raised_by(engine, bearing, 2.0, "").print_hours == 16
    fit = Raise("Let the liner be less tight", {"liner.fit_interference": "0.02 mm"},
                "reprint_body")  # fmt: skip
    assert raised_by(engine, fit, 2.0, "").print_hours == 10


def test_a_bought_piston_pin_takes_half_an_hour_to_cut():
    engine = read("engines/wren.toml")
    change = Raise("Make the pin of silver steel", {"pin.material": "silver_steel"}, "steel_pin")
    raised = raised_by(engine, change, 2.0, "")
    assert (raised.print_hours, raised.hand_hours) == (0, 0.5)


@pytest.mark.parametrize(
    "failure", ["fasteners strip or yield while tightened", "cracks while its bolts are tightened"]
)
def test_what_gives_way_at_assembly_does_not_do_so_while_cranked(failure):
    assert at_its_time(f"head {failure}", "cranking") == f"head {failure}"
    assert at_its_time("rod buckles", "cranking").endswith("while it is cranked")
