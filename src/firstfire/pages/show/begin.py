"""The first page: an engine from this folder, from a demonstration, from a file, from questions."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from markupsafe import Markup, escape

from firstfire import catalog
from firstfire.engine.grammar import leaves
from firstfire.engine.read import LARGEST, read_text, understand
from firstfire.engine.write import small_file
from firstfire.errors import FirstfireError
from firstfire.files import own_files
from firstfire.pages.desk.edits import as_file_has_it
from firstfire.pages.show.all_pages import PAGES
from firstfire.pages.show.folder import engines_in, free_name, one_of
from firstfire.pages.show.room import Room

DEMOS = Path(__file__).resolve().parents[4] / "engines"
"""Demonstration engines, where firstfire runs from its checkout."""
_QUESTIONS = (
    ("layout.kind", "Layout", "single"),
    ("cylinder.bore", "Bore", "40 mm"),
    ("cylinder.stroke", "Stroke", "36 mm"),
    ("printing.material", "Most parts are printed in", "petg"),
    ("intake.fuel", "Fuel", "petrol"),
    ("starter.kind", "Starter", "cordless drill"),
)


def begin_page(room: Room) -> Markup:
    """The page's HTML."""
    here = Markup("").join(_listed("open", path.name) for path in engines_in(room.folder))
    demos = Markup("").join(_listed("demo", path.stem) for path in demonstrations())
    return Markup(
        '<header class="head pages-head"><h1>firstfire</h1>'
        "<p>Says before printing what a small engine will do. Everything it says is an estimate."
        '</p></header><div class="messages" role="alert" data-say></div>'
        '<main id="main" class="begin">{here}{demos}'
        '<section aria-labelledby="asked"><h2 id="asked">A new engine from a few answers</h2>'
        "<form data-new>{questions}<p><button>Begin</button></p></form></section>"
        '<section aria-labelledby="dropped"><h2 id="dropped">An engine file from elsewhere</h2>'
        '<div class="drop" data-drop><p><label for="file">Drop a file here, or choose one. It is '
        "copied; the one you drop stays as it is.</label></p>"
        '<p><input id="file" type="file" accept=".toml,text/plain"></p></div></section>'
        "</main>"
    ).format(
        here=_section("In this folder", here, "No engine file is here yet."),
        demos=_section("A demonstration", demos, "") if demos else "",
        questions=Markup("").join(_questions()),
    )


def _section(title: str, listed: Markup, none: str) -> Markup:
    inside = Markup('<ul class="plain">{}</ul>').format(listed) if listed else escape(none)
    return Markup("<section><h2>{}</h2>{}</section>").format(title, inside)


def _listed(what: str, name: str) -> Markup:
    button = '<li><button type="button" data-begin="{}" data-name="{}">{}</button></li>'
    return Markup(button).format(what, name, name)


def _questions() -> Iterator[Markup]:
    name = '<label>What it is called <input name="name" value="my engine" required></label>'
    yield Markup(name)
    for path, words, suggested in _QUESTIONS:
        choices = leaves()[path].choices
        if choices:
            options = Markup("").join(
                Markup('<option value="{}">{}</option>').format(one, one.replace("_", " "))
                for one in choices
            )
            asked = Markup('<select name="{}">{}</select>').format(path, options)
        else:
            asked = Markup('<input name="{}" value="{}" required>').format(path, suggested)
        yield Markup("<label>{} {}</label>").format(words, asked)


def demonstrations() -> list[Path]:
    """Demonstration engines, where there are any."""
    return engines_in(DEMOS) if DEMOS.is_dir() else []


async def begun(room: Room, what: object) -> tuple[str, str]:
    """Do what was chosen: what is wrong with it, or where to go."""
    if not isinstance(what, dict):
        return "That can't be understood.", ""
    try:
        await asyncio.to_thread(_begin, room, what)
    except FirstfireError as why:
        return str(why), ""
    return "", PAGES[0].address


def _begin(room: Room, what: Mapping[str, Any]) -> None:
    kind, name = what.get("do"), str(what.get("name", ""))
    if kind == "open":
        room.take(one_of(engines_in(room.folder), name))
    elif kind == "demo":
        demo = one_of(demonstrations(), f"{name}.toml")
        room.take(free_name(room.folder, demo.stem), read_text(demo))
    elif kind == "new":
        room.take(*_new(room, what.get("said")))
    elif kind == "file":
        text = str(what.get("text", ""))
        if len(text.encode("utf-8", "replace")) > LARGEST or "\0" in text:
            raise FirstfireError("That is no engine file: one is a TOML text of at most 1 MB.")
        room.take(free_name(room.folder, Path(name.replace("\\", "/")).stem), text)
    else:
        raise FirstfireError("That can't be understood.")


def _new(room: Room, said: object) -> tuple[Path, str]:
    """A file's name and text from answers.

    Raises
    ------
    FirstfireError
        With every problem at once.
    """
    answers = said if isinstance(said, dict) else {}
    name = str(answers.get("name", "")).strip()[:80] or "my engine"
    values = {
        path: as_file_has_it(path, str(answers[path])[:200])
        for path, _, _ in _QUESTIONS
        if str(answers.get(path, "")).strip()
    }
    text, path = small_file(name, values), free_name(room.folder, name)
    understand(text, path.name, catalog.load(own_files(room.folder)))
    return path, text
