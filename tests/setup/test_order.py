"""The order of setting up: it names what the engine has, and proves before it spins."""

from __future__ import annotations

import pytest
from tests.drawing.conftest import FILES, plain_engine

from firstfire.setup.chapter import Table
from firstfire.setup.chapters import CHAPTERS
from firstfire.setup.order import order

IDS = (*(one.id for one in CHAPTERS), "parts", "compression")


@pytest.mark.parametrize("name", sorted(FILES))
def test_every_chapter_has_its_turn_and_proof_comes_before_anything_turns(name: str) -> None:
    turns = order(plain_engine(name), IDS)
    sections = [one.section for one in turns]
    assert set(sections) == {"steps", *IDS}
    proved = next(n for n, one in enumerate(turns) if one.do.startswith("Prove"))
    assert proved < sections.index("wiring") < sections.index("spark") < sections.index("fuel")
    assert "without fuel" in turns[-1].do
    assert len(turns) == len({one.do for one in turns})


def test_it_leaves_out_what_there_is_no_chapter_of() -> None:
    assert {one.section for one in order(plain_engine("wren"), ())} == {"steps"}


def test_it_speaks_of_what_the_engine_has() -> None:
    for name, has, lacks in (("heron", "the points", "sensor"), ("wren", "the sensor", "points")):
        (spark,) = [one.do for one in order(plain_engine(name), IDS) if one.section == "spark"]
        assert has in spark
        assert lacks not in spark


def test_a_table_of_sentences_knows_that_it_is_one() -> None:
    assert not Table("", ("a", "b"), (("1", "2 mm"),)).wordy
    assert Table("", ("a", "how"), (("1", "measure it at three heights and along the crank, cold. "
                                     "Twice."),)).wordy  # fmt: skip


def test_what_stays_unconnected_is_what_its_controller_switches() -> None:
    for name, said in (("wren", "with no coil connected"),
                       ("2_v_twin", "with no coil and no injector connected")):  # fmt: skip
        (turn,) = [one.do for one in order(plain_engine(name), ("tables",))
                   if one.section == "tables"]  # fmt: skip
        assert said in turn
