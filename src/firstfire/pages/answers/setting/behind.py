"""The chapters of setting up, each as soon as it is found, in a process of its own."""

from __future__ import annotations

import pickle
import traceback
from collections.abc import Callable, Iterator, Mapping, Sequence
from multiprocessing.connection import Connection
from typing import Any

from markupsafe import Markup, escape

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError, OutsideValidity
from firstfire.pages.answers.setting.opened import Numbers, numbers
from firstfire.pages.answers.setting.pictures import charts
from firstfire.pages.answers.setting.sheets import REST, Sheets, numbers_csv, sheets, table_csv
from firstfire.pages.answers.setting.timing import TITLE, timing_chapter
from firstfire.pages.answers.templates import rendered
from firstfire.setup.chapter import Chapter
from firstfire.setup.chapters import CHAPTERS, Listed
from firstfire.setup.opened.rooms import Numbers as Worked
from firstfire.setup.opened.together import TOGETHER
from firstfire.setup.proof.coupons import coupons
from firstfire.setup.timing.steps import Step, steps
from firstfire.setup.timing.timing import timing

Say = Callable[..., None]
SLOT = "set-"
_LAST = ("fuel", "spark")
"""Chapters for which much gas is run: they come last."""
_FAULT = "This could not be worked out, by a fault of firstfire's own: "


def set_up_behind(engine: Engine, writing: Connection) -> None:
    """In the forked process: each chapter as it is found, then that all are."""

    def say(**data: Any) -> None:
        writing.send_bytes(pickle.dumps(("setting", data)))

    for data in told(engine):
        say(**data)


def told(engine: Engine, listed: Sequence[Listed] = CHAPTERS) -> Iterator[Mapping[str, Any]]:
    """The skeleton, each chapter, and that nothing more comes."""
    names = (("timing", TITLE), *((one.id, one.title) for one in listed), (REST, "Further sheets"))
    yield {"put": {"setting": rendered("setting.html.j2", names=names, slot=SLOT)}}
    drawn, why = _drawn(engine)
    made = {"timing": _timing, **{one.id: one.made for one in listed}}
    soon = [name for name in names if name[0] not in (REST, *_LAST)]
    for ident, title in soon:
        yield _one(engine, ident, title, made[ident], drawn)
    html = rendered("rest.html.j2", sheets=drawn.of(REST), wrong=why)
    yield {**_told(REST, html), "files": drawn.files(REST), "options": _pieces(engine)}
    titles = dict(names)
    for ident in _LAST:
        if ident in made:
            yield _one(engine, ident, titles[ident], made[ident], drawn)
    yield {"done": True}


def _timing(engine: Engine) -> tuple[Chapter, tuple[Step, ...]]:
    found = timing(engine)
    return timing_chapter(found), steps(found)


def _drawn(engine: Engine) -> tuple[Sheets, str]:
    """All sheets, or why there are none."""
    try:
        return sheets(engine, resolve(engine)), ""
    except FirstfireError as why:
        return Sheets(), str(why)
    except Exception as why:  # a fault of ours must not end the page: it is said, and logged
        traceback.print_exc()
        return Sheets(), f"{_FAULT}{why!r}."


def _one(
    engine: Engine, ident: str, title: str, made: Callable[[Engine], Any], drawn: Sheets
) -> Mapping[str, Any]:
    """One chapter as a fragment, with what its numbers open to and its files."""
    try:
        if ident in TOGETHER:
            both = TOGETHER[ident](engine)
            return _filled(engine, both.chapter, (), drawn, both.worked)
        found = made(engine)
        if found is None:
            return _told(ident, "")
        chapter, done = found if isinstance(found, tuple) else (found, ())
        return _filled(engine, chapter, done, drawn)
    except OutsideValidity as why:
        return _told(ident, _wrong(ident, title, f"Not judged: {why}"))
    except FirstfireError as why:
        return _told(ident, _wrong(ident, title, str(why)))
    except Exception as why:  # as above
        traceback.print_exc()
        return _told(ident, _wrong(ident, title, f"{_FAULT}{why!r}."))


def _filled(
    engine: Engine,
    chapter: Chapter,
    done: Sequence[Step],
    drawn: Sheets,
    known: Worked | None = None,
) -> Mapping[str, Any]:
    shown: Numbers = numbers(engine, chapter, known)
    files = drawn.files(chapter.id)
    files |= {f"{chapter.id}-{n}.csv": table_csv(t) for n, t in enumerate(chapter.tables, 1)}
    if chapter.numbers:
        files[f"{chapter.id}-numbers.csv"] = numbers_csv(chapter.numbers)
    html = rendered(
        "chapter.html.j2", one=chapter, lines=shown.lines, steps=done,
        sheets=drawn.of(chapter.id), charts=tuple(charts(chapter)), slot=SLOT,
    )  # fmt: skip
    return {**_told(chapter.id, html), "whys": shown.whys, "files": files}


def _told(ident: str, html: str) -> dict[str, Any]:
    return {"put": {f"{SLOT}{ident}": html}}


def _wrong(ident: str, title: str, words: str) -> str:
    return rendered("chapter_wrong.html.j2", id=f"{SLOT}{ident}", title=title, words=words)


def _pieces(engine: Engine) -> str:
    """Test pieces that a reading can be of, as choices."""
    try:
        found, _ = coupons(engine, resolve(engine))
    except FirstfireError:
        return ""
    option = Markup('<option value="{}">{}</option>')
    return str(Markup("").join(option.format(one.id, escape(one.title)) for one in found))
