"""``firstfire new`` at a terminal, as a person has it: questions, lists, a way back, a check."""

import os

import pytest
from tests.whole.terminal import PROMPT, Terminal

from firstfire.engine.read import read

CHECKING = "Ctrl-C skips this."


def enter_until_checked(terminal):
    """Take what stands in brackets at every question left, then skip the check."""
    while True:
        os.write(terminal._fd, b"\n")
        before = len(terminal.heard)
        while not terminal.heard[before:].strip().endswith((PROMPT.strip(), CHECKING)):
            assert terminal._more(), terminal.heard
        if CHECKING in terminal.heard[before:]:
            break
    terminal.presses(b"\x03")


def test_a_first_timer_is_asked_all_that_matters_and_told_what_there_is(tmp_path):
    asked = Terminal(tmp_path, "new", "finch.toml")
    assert "< goes back" in asked.waits()
    assert "opposed_twin" in asked.types("?")
    asked.types("single")
    assert "is not a length" in asked.types("44 kg")
    assert asked.types("43,5").endswith("Stroke [39 mm]:")
    asked.types("")
    assert "it leaks" in asked.types("?")
    asked.types("tube")
    listed = asked.types("?")
    assert listed.index("Filaments:") < listed.index("petg cool parts, to 60 °C; 45 MPa along")
    assert listed.index("with short carbon fibre") < listed.index("Resins:")
    assert "aluminium" not in listed
    refused = asked.types("ABS+")
    assert 'No material is called "ABS+"; the nearest are ABS' in refused
    assert refused.count(".") == 1
    assert refused.endswith("Material most parts are printed in [petg]:")
    asked.types("abs")
    assert 'That names "valve"' in asked.types("head and valve")
    assert asked.types("head and piston").endswith("Material of the piston [aluminium_piston]:")
    assert "Metals: aluminium_6061_t6 hot parts, to 130 °C" in asked.types("?")
    asked.types("")
    asked.types("brass")
    asked.types("3 walls")
    asked.types("20")
    assert "Gases:" in asked.types("?")
    asked.types("")
    assert "N·m at a stand" in asked.types("?")
    enter_until_checked(asked)
    assert asked.ends() == 0, asked.heard
    assert "Skipped" in asked.heard
    said = read(tmp_path / "finch.toml").values(1)
    assert said["cylinder.bore"] == pytest.approx(0.0435)
    assert said["cylinder.stroke"] == pytest.approx(0.039)
    assert (said["head.made"], said["head.material"]) == ("bought", "brass")
    assert (said["body.walls"], said["body.infill"], said["rod.infill"]) == (3, 0.2, 0.2)
    assert (said["body.made"], said["body.material"]) == ("printed", "abs")


@pytest.mark.parametrize("back", ["<", "back"])
def test_there_is_a_way_back_and_what_was_typed_stands_there(tmp_path, back):
    asked = Terminal(tmp_path, "new", "finch.toml")
    asked.waits()
    assert "first question" in asked.types(back)
    asked.types("single")
    assert asked.types("50 mm").endswith("Stroke [45 mm]:")
    assert asked.types(back).endswith("Bore [50 mm]:")
    assert asked.types(back).endswith("Layout [single]:")
    asked.types("")
    assert asked.types("30 mm").endswith("Stroke [27 mm]:")
    enter_until_checked(asked)
    assert asked.ends() == 0, asked.heard
    assert read(tmp_path / "finch.toml").values(1)["cylinder.bore"] == pytest.approx(0.03)


def test_a_v_twin_is_asked_its_angle_firing_and_rotation(tmp_path):
    asked = Terminal(tmp_path, "new", "finch.toml")
    asked.waits()
    assert asked.types("v-twin").endswith("Angle of the V [90 deg]:")
    # A 60° V on one pin fires 360° + 60° after cylinder 1, by hand.
    assert "60 deg on one crankpin it fires 420° and 300° apart" in asked.types("?")
    asked.types("60")
    asked.types("")
    assert "cylinder 2 fires 60° after cylinder 1" in asked.types("?")
    assert "can fire only 60 or 420 deg" in asked.types("100 deg")
    assert asked.types("60").endswith("seen at the flywheel [clockwise]:")
    assert asked.types("anticlockwise").endswith("Bore [40 mm]:")
    enter_until_checked(asked)
    assert asked.ends() == 0, asked.heard
    said = read(tmp_path / "finch.toml").values(1)
    assert said["layout.rotation"] == "anticlockwise"
    assert said["layout.second_fires_after"] == pytest.approx(1.0472, abs=1e-4)


def test_an_engine_that_cannot_be_built_is_asked_again_where_the_fault_lies(tmp_path):
    """A stroke thrice the bore leaves the default rod too short; the person is not thrown out."""
    asked = Terminal(tmp_path, "new", "finch.toml", "--set", "rod.length=50 mm")
    asked.waits()
    asked.types("single")
    asked.types("20 mm")
    said = asked.types("100 mm")
    while "rod.length" not in said:
        said = asked.types("")
    assert "problem" in said
    asked.stops()
    assert asked.ends() == 130
    assert list(tmp_path.iterdir()) == []


def test_the_end_of_all_typing_writes_nothing(tmp_path):
    asked = Terminal(tmp_path, "new", "finch.toml")
    asked.waits()
    asked.presses(b"\x04")
    assert asked.ends() == 2
    assert "nothing is written" in " ".join(asked.heard.split())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.long
def test_it_ends_with_the_sentence_the_odds_and_what_to_type(tmp_path):
    asked = Terminal(
        tmp_path, "new", "finch.toml", "--power", "300 W", "--speed", "3000 rpm",
        "--material", "petg",
    )  # fmt: skip
    asked.waits()
    while CHECKING not in asked.heard:
        os.write(asked._fd, b"\n")
        asked._more()
    assert asked.ends() == 0, asked.heard
    last = asked.heard.rsplit(CHECKING, 1)[1]
    assert "finch, single of" in last
    assert " in 20 that it survives" in " ".join(last.split())
    assert last.rstrip().splitlines()[-1].split()[-1].endswith(".toml")
