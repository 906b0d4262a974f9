"""Spark and wiring as chapters of setting up: the same numbers as their own commands."""

from __future__ import annotations

import math

import pytest
from tests.drawing.conftest import FILES, plain_engine

import firstfire as ff
from firstfire.engine.wires import wiring
from firstfire.pages.answers.setting.behind import _one
from firstfire.pages.answers.setting.sheets import Sheets
from firstfire.setup.opened import together
from firstfire.setup.opened.spark_sheets import sheets_of_spark
from firstfire.setup.spark.chapter import spark_told
from firstfire.setup.wiring.chapter import wiring_chapter

HERON = ff.with_values(
    ff.read(FILES["heron"]), {"spark.start_angle": "55 deg", "spark.running_angle": "55 deg"}
)


@pytest.fixture(scope="module")
def found():
    return ff.spark(HERON)


@pytest.fixture(scope="module")
def chapter(found):
    return spark_told(found)


def test_its_numbers_are_held_against_what_spark_found(chapter, found) -> None:
    numbers = {one.id: one for one in chapter.numbers}
    start = numbers["start_angle"]
    # It kicks back from 56° or so: 55° is too early by the 5° that are kept.
    assert start.limit == pytest.approx(found.kick.strong - math.radians(5))
    assert not start.holds
    assert numbers["plug_gap"].limit == min(one.gap_that_would for one in found.jumps)
    assert numbers["points_bounce"].holds


def test_its_tables_have_a_row_for_each_moment_and_lead(chapter, found) -> None:
    rows = {table.caption: table.rows for table in chapter.tables}
    assert [row[0] for row in rows["Does the spark jump"]] == [one.name for one in found.jumps]
    assert len(rows["Leads"]) == len(found.leads)
    assert len(rows["Asked and true angle before top"]) == len(found.angles)
    advance = next(table for table in chapter.tables if "Advance" in table.caption)
    assert all(len(row) == len(advance.head) for row in advance.rows)
    assert "Tens of kilovolts" in chapter.caution


def test_on_the_page_every_number_opens_to_its_working_and_gas_is_run_once(found, monkeypatch):
    run = []
    monkeypatch.setattr(together, "spark", lambda engine: run.append(engine) or found)
    data = _one(HERON, "spark", "Spark", lambda _: None, Sheets())
    assert run == [HERON]
    assert set(data["whys"]) == {f"set.spark.spark.{ident}" for ident in sheets_of_spark(found)}
    assert {"set.spark.spark.start_angle", "set.spark.spark.cranked.wants"} <= set(data["whys"])
    for html in data["whys"].values():
        assert "Worked through" in html
        assert "Numbers put in" in html
    moved = data["whys"]["set.spark.spark.left_on"]
    assert "What moves it" in moved
    assert f"{found.circuit.full_current:.3g}" in data["whys"]["set.spark.spark.full_current"]


def test_every_wire_has_its_row() -> None:
    told = wiring_chapter(ff.read(FILES["heron"]))
    wires = wiring(plain_engine("heron")).wires
    assert [row[0] for row in told.tables[0].rows] == [wire.id for wire in wires]
    assert "Battery off" in told.caution
