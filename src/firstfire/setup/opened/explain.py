"""``cam.inlet.contact`` or ``timing.tooth``: a number of setting up, opened like a judgement."""

from __future__ import annotations

from dataclasses import replace

from firstfire.engine.engine import Engine
from firstfire.errors import FirstfireError
from firstfire.setup.number import Number
from firstfire.setup.opened.by_law import ByLaw
from firstfire.setup.opened.levers import of_sheet
from firstfire.setup.opened.rooms import ROOMS, SHOWN_BY, Worked, numbers_of
from firstfire.setup.opened.sheet import Given, Sheet
from firstfire.verdict.explain.bench_units import Shown, shown_in, unit_of, with_unit, words_of
from firstfire.verdict.explain.find import nearest
from firstfire.verdict.explain.numbers_put import number_at
from firstfire.verdict.explain.opened import Explanation, NumberPut, WorkLine
from firstfire.verdict.explain.working import follow
from firstfire.verdict.facts.margin import Word
from firstfire.verdict.words.text.lines import wrapped

_CAUTION = "An estimate. Turn it by hand, plug out and spark off, and prove it before it is spun."


def is_ours(wanted: str) -> bool:
    """Whether an id is of setting up: ``cam.`` or ``spark.`` and more.

    Examples
    --------
    >>> is_ours("cam.inlet.contact"), is_ours("cam_drive.belt")
    (True, False)
    """
    return wanted.strip().lower().partition(".")[0] in ROOMS


def opened(engine: Engine, wanted: str) -> Explanation:
    """A number of setting up with all that it is worked out from.

    Parameters
    ----------
    engine
        As written down.
    wanted
        Its id.

    Raises
    ------
    FirstfireError
        Where there is none of that name, with the nearest.
    """
    name = wanted.strip().lower()
    found = numbers_of(engine, name.partition(".")[0])
    if name not in found:
        near = ", ".join(nearest(name, found))
        raise FirstfireError(
            f'This engine has no number called "{wanted}". The nearest are {near}.'
        )
    return explained(engine, name, *found[name])


def list_text(engine: Engine, room: str, *, width: int) -> str:
    """Every number of a room with its id, in words."""
    lines = wrapped(
        f"Numbers that `firstfire {SHOWN_BY.get(room, room)}` shows. `firstfire explain FILE ID` "
        "opens one.",
        width=width,
    )
    for ident, (number, _) in numbers_of(engine, room).items():
        told = f"{number.text} {number.against}".strip() if number.judged else "not judged"
        lines += wrapped(f"{ident}: {number.words}: {told}", 2, width=width, hang=4)
    return "\n".join(lines)


def explained(engine: Engine, ident: str, number: Number, worked: Worked) -> Explanation:
    """A number of `numbers_of` with all that it is worked out from."""
    if isinstance(worked, ByLaw):
        (put, lines), moves = worked.shown(engine), worked.moved_by()
    else:
        put, lines = _followed(engine, worked)
        moves = of_sheet(worked)
    return Explanation(
        id=ident, event="", point="", title=number.words, sentence=_sentence(engine, number),
        formula=number.why, numbers=put, working=lines, span_text="", makers=(),
        movers=tuple(moves), raises=(), source=number.source, clock="", caution=_CAUTION,
        word=_word(number), factor=_factor(number), factor_low=None, factor_high=None,
    )  # fmt: skip


def _followed(engine: Engine, sheet: Sheet) -> tuple[tuple[NumberPut, ...], tuple[WorkLine, ...]]:
    """Numbers put in and lines of a sheet."""
    values = {**sheet.paths, **{name: one.value for name, one in sheet.given.items()}}
    units = {name: unit_of(name) for name in sheet.paths}
    units |= {name: shown_in(one.unit) for name, one in sheet.given.items()}
    words = {name: _words(name) for name in sheet.paths}
    words |= {name: one.words for name, one in sheet.given.items()}
    work = follow(sheet.lines, values, units, words)
    put = [
        replace(number_at(engine, path, value, work.digits, sheet.cylinder), words=words[path])
        for path, value in sheet.paths.items()
    ]
    put += [_given(name, one, units[name], work.digits) for name, one in sheet.given.items()]
    return tuple(put), work.lines


def _words(path: str) -> str:
    """Words of a path; of a valve's without saying that it is one."""
    return words_of(path).removeprefix("valves's ")


def _given(name: str, one: Given, unit: Shown, digits: int) -> NumberPut:
    text = with_unit(one.value, unit, digits)
    return NumberPut(name, one.words, one.value, unit.name, text, one.kind, one.by, "")


def _sentence(engine: Engine, number: Number) -> str:
    if not number.judged:
        return f"{engine.name}: {number.words}. {number.why}"
    against = f", {number.against}" if number.against else ""
    return f"{engine.name}: {number.words}: {number.text}{against}."


def _word(number: Number) -> Word:
    if not number.judged:
        return "not judged"
    return "holds" if number.holds else "fails"


def _factor(number: Number) -> float | None:
    """How many times it keeps to its limit; None where it has none, or none that can be divided."""
    if not number.judged or number.limit is None or number.limit <= 0.0 or number.value <= 0.0:
        return None
    over = number.value / number.limit
    return over if number.side == "at least" else 1.0 / over
