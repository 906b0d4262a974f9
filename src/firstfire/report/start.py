"""A start as one page of HTML that needs nothing else, in the look of the check's report."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from markupsafe import Markup

from firstfire.files import write_text
from firstfire.report.charts.plot import Chart, box
from firstfire.report.charts.start_kick import kick_chart
from firstfire.report.charts.start_odds import odds_chart
from firstfire.report.charts.start_pressure import peaks_chart
from firstfire.report.charts.start_speeds import run_away_chart, torque_by_speed
from firstfire.report.charts.start_story import story_charts
from firstfire.report.page import environment
from firstfire.report.style import script, style_sheet
from firstfire.report.write import report_file
from firstfire.runs.start.account import SURE, Account
from firstfire.runs.start.leaks import Tightness
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.numbers import THIN, figures, spoken
from firstfire.verdict.start.leak_words import PRESSED_AIR, SIGNS, alike, leaking
from firstfire.verdict.start.overrun_words import passing
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.text import card
from firstfire.verdict.start.words import LIMITS, limits, meets, sentence, story
from firstfire.version import VERSION

_RPM = 30 / 3.141592653589793
_LONG, _HIGH = 120.0, 12.0


@dataclass(frozen=True)
class Share:
    """A line of a table with a bar: what, a share in words, the bar, and more words."""

    what: str
    share: str
    bar: Markup
    more: str = ""
    size: str = ""


@dataclass(frozen=True)
class Leaky:
    """A cylinder's leaks: a heading where there are several, sentences, and its paths."""

    heading: str
    said: tuple[str, ...]
    paths: tuple[Share, ...]


def start_report(found: Account, wrong: Sequence[str] = ()) -> str:
    """The page of a start as HTML text: one file, no network, works without scripts.

    Parameters
    ----------
    found
        From `firstfire.runs.start.account.account`.
    wrong
        Faults that it was given, as asked for.
    """
    return (
        environment()
        .get_template("start.html.j2")
        .render(start_shown(found, wrong) | _dressed(), engine=found.engine, plain=found.plain)
    )


def write_start_report(
    found: Account, path: Path, wrong: Sequence[str] = (), *, overwrite: bool = False
) -> None:
    """Write the page of a start, whole or not at all.

    Parameters
    ----------
    found, wrong
        As `start_report` takes them.
    path
        Where to; ends in ``.html``.
    overwrite
        Whether a file that is there may be replaced.

    Raises
    ------
    CannotWrite
        Where the file can't be written; what was there is left whole.
    """
    report_file(path, overwrite=overwrite)
    write_text(path, start_report(found, wrong), overwrite=overwrite)


def start_shown(found: Account, wrong: Sequence[str] = ()) -> dict[str, Any]:
    """What the template of a start's account is filled with (``start_body.html.j2``).

    Parameters
    ----------
    found, wrong
        As `start_report` takes them.
    """
    desk, narrow = story_charts(found)
    said, name = sentence(found), found.engine.name
    parted = (name, said[len(name) :]) if said.startswith(name) else ("", said)
    return {
        "lede": parted,
        "wrong": list(wrong),
        "meets": list(meets(found)) if wrong else [],
        "desk": desk,
        "narrow": narrow,
        "moments": [
            (f"{one.seconds:.2f}{THIN}s", f"{one.speed * _RPM:.0f}{THIN}rpm", one.what)
            for one in story(found)
        ],
        "card": card(found),
        "charts": list(_charts(found)),
        "faster": list(passing(found)),
        "limits": [_limit(words, share) for words, share in _limiting(found)],
        "changes": [
            (spoken(one.text), _in_hundred(one.starts), _in_hundred(one.before), one.values)
            for one in found.changes
        ],
        "unhelped": _unhelped(found),
        "leaks": list(_leaks(found)),
        "pressed_air": PRESSED_AIR,
        "stages": plan(found),
        "cautions": cautions(found.engine, found.plain),
    }


def _dressed() -> dict[str, Any]:
    """What a page of its own has around that."""
    return {
        "version": VERSION,
        "style": Markup(style_sheet()),
        "script": Markup(script()),
        "script_hash": f"sha256-{b64encode(sha256(script().encode()).digest()).decode()}",
    }


def _charts(found: Account) -> Iterator[Chart]:
    peaks, away = peaks_chart(found), run_away_chart(found)
    if peaks is not None:
        yield peaks
    yield odds_chart(found)
    yield kick_chart(found)
    yield torque_by_speed(found)
    if away is not None:
        yield away


def _unhelped(found: Account) -> str:
    """Why no change is told."""
    if found.odds.stopped:
        return "It was stopped before a change was tried."
    if found.odds.share >= SURE:
        return "Enough of them start: no change was tried."
    return "None of what was tried helps."


def _limiting(found: Account) -> Iterator[tuple[str, float]]:
    for why, share in limits(found):
        yield LIMITS[why], share


def _limit(words: str, share: float) -> Share:
    return Share(words, f"{round(100 * share)}{THIN}%", _bar(share, "fails"))


def _in_hundred(share: float) -> str:
    return f"{round(100 * share)} in 100"


def _leaks(found: Account) -> Iterator[Leaky]:
    each = found.leaks[:1] if alike(found.leaks) else found.leaks
    for one in each:
        heading = f"Cylinder {one.cylinder}" if len(each) > 1 else ""
        yield Leaky(heading, tuple(leaking(one)), tuple(_paths(one)))


def _paths(one: Tightness) -> Iterator[Share]:
    for way in one.paths:
        sign = SIGNS[way.path]
        oil = "; oil quiets it" if sign.oil_helps else ""
        share = f"{round(100 * way.share)}{THIN}%"
        size = f"{figures(1e6 * way.area, 2)}{THIN}mm²"
        yield Share(sign.where, share, _bar(way.share, "marginal"), f"{sign.sign}{oil}", size)


def _bar(share: float, word: str) -> Markup:
    """A share as a bar of its whole length."""
    head = Markup(
        '<svg class="share" viewBox="0 0 {:g} {:g}" preserveAspectRatio="none" '
        'aria-hidden="true" focusable="false">'
    ).format(_LONG + 1, _HIGH)
    whole = box(0.5, 0.5, _LONG, _HIGH - 1, "bar holds")
    return head + whole + box(0.5, 0.5, share * _LONG, _HIGH - 1, f"bar {word}") + Markup("</svg>")
