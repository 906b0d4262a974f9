"""Chapters of setting up: one more is one file; what stands in one stands on page and in JSON."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.errors import OutsideValidity
from firstfire.report.set_up import SetUp
from firstfire.setup.cams.contract import CamsTold
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.chapters import CHAPTERS, Listed, chapters
from firstfire.setup.number import Number

ENGINES = Path(__file__).resolve().parents[2] / "engines"
WREN = ff.read(ENGINES / "wren.toml")


def _one_more(_engine: object) -> Chapter:
    numbers = (
        Number("gap", "gap of the plug", 0.0006, "m", 0.0007, "at most", "why", "book"),
        Number("unknown", "what nobody knows", float("nan"), "m", 1.0, "at least", "no table", ""),
    )
    table = Table("Of things", ("this", "that"), (("one", "two"),))
    return Chapter("more", "One more", ("It is & said.",), numbers, (table,), "Mind it.")


def _none(_engine: object) -> None:
    return None


def _outside(_engine: object) -> Chapter:
    raise OutsideValidity("no model goes so far.")


@pytest.fixture(scope="module")
def found() -> SetUp:
    more = (
        Listed("more", "One more", _one_more),
        Listed("none", "Not this engine's", _none),
        Listed("far", "Too far", _outside),
    )
    return replace(ff.set_up(WREN), chapters=chapters(WREN, (*CHAPTERS, *more)))


def test_a_chapter_is_on_the_page_and_in_json(found) -> None:
    told = {one["id"]: one for one in json.loads(found.to_json())["chapters"]}
    listed = [one.id for one in CHAPTERS]
    assert list(told) == [*listed, "more", "far"]
    gap, unknown = told["more"]["numbers"]
    assert (gap["value"], gap["limit"], gap["holds"]) == (0.0006, 0.0007, True)
    assert (unknown["value"], unknown["holds"], unknown["why"]) == (None, None, "no table")
    assert told["more"]["tables"][0]["rows"] == [["one", "two"]]
    assert told["far"]["said"] == ["Not judged: no model goes so far."]
    page = found.to_html()
    for words in ('id="more"', "It is &amp; said.", "Of things", "Mind it.", "holds &lt;0.7mm",
                  "Not judged: no model goes so far."):  # fmt: skip
        assert words in page.replace("0.700", "0.7")


def test_the_chapter_of_cams_has_what_cam_shows(found) -> None:
    told = next(one for one in json.loads(found.to_json())["chapters"] if one["id"] == "cams")
    alone = CamsTold.model_validate_json(ff.cams(WREN).to_json(), by_alias=True)
    here = {one["id"]: one["value"] for one in told["numbers"]}
    for cam in alone.cams:
        for number in cam.numbers:
            assert here[f"{cam.valve}.{number.id}"] == number.value
    assert len(told["tables"][0]["rows"]) == len(alone.gaps)


def test_cams_from_python_print_as_on_the_terminal() -> None:
    assert "The inlet cam" in str(ff.cams(WREN))
    assert "lash 0.2" in str(ff.cams(WREN, lash=0.2e-3))


def test_choosing_from_python_is_stopped_with_nothing_found() -> None:
    chosen = ff.choose_cams(WREN, stop=lambda: True)
    assert not chosen.finished
    assert chosen.values == {}


def test_a_chapter_for_a_suction_inlet_has_its_speeds() -> None:
    plover = ff.read(ENGINES / "plover.toml")
    (cams,) = chapters(plover, tuple(one for one in CHAPTERS if one.id == "cams"))
    captions = [table.caption for table in cams.tables]
    assert ("The suction-opened inlet" in captions) == (
        ff.resolve(plover).cylinders[0].valves.inlet.worked == "suction"
    )


def test_the_chapters_of_fits_and_proof_say_what_their_commands_say(found) -> None:
    told = {one["id"]: one for one in json.loads(found.to_json())["chapters"]}
    sits, breaks = ff.fits(WREN), ff.bench_tests(WREN)
    tables = {one["caption"]: one for one in told["fits"]["tables"]}
    seats = tables["Seats and pins"]["rows"]
    assert len(seats) == len(sits.seats)
    assert [row[0].split(" in ")[0] for row in seats] == [one.pin for one in sits.seats]
    assert len(tables["Clearances, mm"]["rows"]) == len(sits.clearances)
    for one in told.values():
        for table in one["tables"]:
            assert all(len(row) == len(table["head"]) for row in table["rows"])
    plain = " ".join(str(sits).split())
    for said in told["fits"]["said"]:
        assert " ".join(said.split()) in plain or said.startswith("Measure the bore")
    proof = " ".join(str(breaks).split())
    here = [said for said in told["proof"]["said"] if not said.startswith("What you read: ")]
    assert len(told["proof"]["said"]) == len(here) + 1  # the folder names the command itself
    assert all(" ".join(said.split()) in proof for said in here)
    assert "Liquid only, never air" in found.to_html()
