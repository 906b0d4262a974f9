"""Tables in the folder of a set-up: the very files of the command, or why there are none."""

from __future__ import annotations

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError, OutsideValidity, Problem
from firstfire.report.beside import beside
from firstfire.setup.order import order
from firstfire.setup.tables import held as of
from firstfire.setup.tables.chapter import tables_chapter
from firstfire.setup.tables.held import Held, held

from .conftest import V_TWIN

WREN, HERON, PLOVER = (
    V_TWIN.parents[2] / "engines" / f"{n}.toml" for n in ("wren", "heron", "plover")
)


def test_the_folder_has_the_files_that_the_command_writes(twin, folder) -> None:
    lists, tables = beside(twin.engine, Held(twin))
    assert lists.section == "parts"
    assert tables.section == "tables"
    there = {f"tables/{path.name}": path.read_text("utf-8") for path in folder.iterdir()}
    assert dict(tables.files) == there


def test_the_chapter_names_every_table_and_says_how_to_read_between_places(twin) -> None:
    chapter = tables_chapter(Held(twin))
    each, single = chapter.tables
    assert [row[0] for row in each.rows] == [one.name for one in twin.tables]
    assert [(row[0], int(row[1])) for row in single.rows] == [c[:2] for c in twin.constants]
    assert set(twin.notes) <= set(chapter.said)
    assert "lamp" in chapter.caution


def test_points_and_a_carburettor_are_no_controller_and_that_is_said(monkeypatch) -> None:
    monkeypatch.setattr(of, "tables", None)  # nothing is run for it
    heron = ff.read(HERON)
    found = held(heron)
    assert found.found is None
    assert "heron has a carburettor and breaker points: no controller" in found.why_not
    assert [one.section for one in beside(heron, found)] == ["parts"]
    chapter = tables_chapter(found)
    assert chapter.said == (found.why_not,)
    assert chapter.caution == ""
    told = ("steps", "tables", "wiring", "spark")
    assert "tables" not in {one.section for one in order(resolve(heron), told)}
    turns = [one.section for one in order(resolve(ff.read(WREN)), told)]
    assert turns.index("wiring") < turns.index("tables") < turns.index("spark")


def test_a_controller_that_cannot_is_told_why_and_one_beyond_models_too(monkeypatch) -> None:
    def refuses(*_: object, **__: object) -> None:
        raise EngineFileError("x.toml", [Problem("injector.flow", "is too small", "Take 3 g/s.")])

    def beyond(*_: object, **__: object) -> None:
        raise OutsideValidity("At one throttle opening no speed could be run.")

    plover = ff.read(PLOVER)
    monkeypatch.setattr(of, "tables", refuses)
    assert "injector.flow is too small. Take 3 g/s." in held(plover).why_not
    monkeypatch.setattr(of, "tables", beyond)
    assert held(plover) == Held(
        None, "No tables, not judged: At one throttle opening no speed could be run."
    )
