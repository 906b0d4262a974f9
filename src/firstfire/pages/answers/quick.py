"""The quick answer to a change: problems, or margins and drawing of the event at hand."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from markupsafe import Markup

from firstfire import catalog
from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.format import DESK, NARROW, Format
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.drawing.verdicts import part_words
from firstfire.engine.engine import Engine
from firstfire.engine.events import EVENTS
from firstfire.engine.read import understand, with_layer_text, with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.typed import typed
from firstfire.engine.values import Values
from firstfire.errors import CatalogError, EngineFileError, FirstfireError, OutsideValidity, Problem
from firstfire.files import own_files
from firstfire.pages.answers.bouts import Bouts, choices, fitted
from firstfire.pages.answers.choosing import nearest, offers
from firstfire.pages.answers.form import Row, changed, form, rows
from firstfire.pages.answers.laid_over import laid_over, over_words
from firstfire.pages.answers.load_path import LoadPath, load_path
from firstfire.pages.answers.margins import at_hand
from firstfire.pages.answers.messages import Asked, Kind, Told
from firstfire.pages.answers.run import more
from firstfire.pages.answers.templates import rendered
from firstfire.pages.answers.turning import Turning
from firstfire.report.bars import bar
from firstfire.report.drawn import part_of
from firstfire.runs.bout import Bout
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.words.ledger import ledger

Stop = Callable[[], bool]
_FORMATS: Mapping[str, Format] = {"desk": DESK, "narrow": NARROW}


@dataclass
class Quick:
    """What is kept from one question to the next."""

    bouts: Bouts = field(default_factory=Bouts)
    engine: Engine | None = None
    plain: PlainEngine | None = None
    turning: Turning = field(default_factory=Turning)
    _before: tuple[str, PlainEngine] | None = None
    _built: tuple[Values, ...] = ()
    _key: str = ""
    _rows: dict[str, Row] = field(default_factory=dict)
    _told_of: str = ""
    _formed: bool = False
    _factors: dict[tuple[str, str], dict[str, float]] = field(default_factory=dict)

    def answers(self, asked: Asked, stop: Stop) -> Iterator[Told]:
        """Messages, the first answer first.

        Raises
        ------
        Stopped
            If ``stop`` said so.
        """

        def told(kind: Kind, **data: Any) -> Told:
            return Told(asked.number, asked.key, kind, data)

        begun = time.perf_counter()
        anew = asked.key != self._key
        if anew:
            try:
                self.engine = understood(asked, self._built)
                self.plain = resolve(self.engine)
            except (EngineFileError, CatalogError, OutsideValidity) as why:
                self._key = ""
                yield told("problems", problems=_problems(why))
                return
            self._key = asked.key
        plain = self.plain
        assert plain is not None
        asked = replace(asked, event=fitted(plain, asked.event))
        first = not self._formed
        if first:  # code may have to be compiled before anything can be run: this needs none
            yield from self._form(told)
        if asked.turning:
            yield told("turned", **self.turning.at_once(asked, plain, self._present(asked)))
        yield from self._at_hand(asked, plain, stop, told, begun)
        if self._told_of != asked.key:  # a question before may have been dropped on the way here
            if not first:
                yield from self._form(told)
            along = Markup(to_svg(along_crank(plain), prefix="along-", size=False))
            if len(plain.cylinders) > 1:
                along = Markup("<div data-twin>{}</div>").format(along)
            yield told("drawing", along=along, events=choices(plain))
            self._told_of = asked.key
            assert self.engine is not None
            self._built = self.engine.built
        if asked.choosing:
            yield told("choices", path=asked.choosing, html=self._choices(asked, stop))
        if asked.turning:
            for data in self.turning.behind(asked, plain, self.bouts, stop):
                yield told("turned", **data)

    def _present(self, asked: Asked) -> PlainEngine:
        """Plain numbers of the engine without the trial."""
        assert self.plain is not None
        if asked.present == asked.key:
            self._before = (asked.key, self.plain)
        elif self._before is None or self._before[0] != asked.present:
            present = understood(replace(asked, trial={}), self._built)
            self._before = (asked.present, resolve(present))
        return self._before[1]

    def _at_hand(
        self,
        asked: Asked,
        plain: PlainEngine,
        stop: Stop,
        told: Callable[..., Told],
        begun: float,
    ) -> Iterator[Told]:
        """The first answer, and the settled one behind it."""
        known = (asked.key, asked.event) in self.bouts.settled
        first = None if known else self.bouts.first(plain, asked.event, stop)
        if first is not None:
            data = self._shown(asked, plain, first)
            yield told("at hand", **data, settled=False, took=time.perf_counter() - begun)
            yield from more(asked, plain, first, told)
        elif not known and asked.event not in self.bouts.warm:
            yield told("drawing", **_drawn(asked, plain, ()))
        try:
            bout = self.bouts.all_of_it(plain, asked.key, asked.event, stop)
        except OutsideValidity as why:
            yield told("failed", words=str(why), **_drawn(asked, plain, ()))
            return
        data = self._shown(asked, plain, bout)
        yield told("at hand", **data, settled=True, took=time.perf_counter() - begun)
        yield from more(asked, plain, bout, told)

    def _shown(self, asked: Asked, plain: PlainEngine, bout: Bout) -> dict[str, Any]:
        """Ledger and drawing of a bout."""
        margins = at_hand(plain, asked.event, bout, asked.seconds, asked.widths)
        lines = ledger(margins, plain)
        factors = {line.margin.way.id: line.margin.least for line in lines}
        self._factors[asked.key, asked.event] = factors
        beside = self._factors.get((asked.present, asked.event), {})
        shown = beside if asked.present != asked.key else {}
        seconds = asked.seconds
        if seconds is None:
            seconds = EVENTS[asked.event.partition("@")[0]].judged_at
        over = laid_over(asked.over, plain, bout, seconds)
        pointed = next((one for one in margins if one.way.id == asked.pointed), None)
        path = load_path(plain, bout, pointed) if pointed is not None else LoadPath("")
        if path.forces is not None:
            over |= {"crank_angle": path.forces.crank_angle, "forces": path.forces}
        return {
            "over": over_words(over, bout, path.words),
            "ledger": rendered(
                "at_hand.html.j2", lines=lines, bar=bar, part_of=part_of, beside=shown
            ),
            "event": asked.event,
            "point": bout.point.name,
            "seconds": seconds,
            **_drawn(asked, plain, margins, over),
        }

    def _choices(self, asked: Asked, stop: Stop) -> Markup:
        """Rows of the catalog for one place, those that fit there first."""
        assert self.engine is not None
        present = str(self.engine.values(1).spoken(asked.choosing).value)
        found = list(offers(self.engine, asked.choosing, stop))
        fit, others, more = nearest(found, present)
        return rendered(
            "choosing.html.j2", path=asked.choosing, present=present, fit=fit, others=others,
            more=more,
        )  # fmt: skip

    def _form(self, told: Callable[..., Told]) -> Iterator[Told]:
        assert self.engine is not None
        if not self._formed:
            self._formed = True
            yield told("form", html=form(self.engine))
        now = rows(self.engine)
        yield told("rows", rows=changed(now, self._rows), name=self.engine.name)
        self._rows = now


def understood(asked: Asked, before: tuple[Values, ...] = ()) -> Engine:
    """The engine of a question.

    Parameters
    ----------
    asked
        The question.
    before
        ``built`` of the engine of an earlier one: what is the same in both isn't found anew.

    Raises
    ------
    FirstfireError
        With every problem at once.
    """
    rows_of = catalog.load(own_files(Path(asked.folder)))
    engine = understand(asked.text, asked.where, rows_of, before)
    for text in asked.laid:
        engine = with_layer_text(text, "what was measured", engine)
    if asked.trial:
        values = {path: typed(path, said) for path, said in asked.trial.items()}
        engine = with_values(engine, values, origin="a trial on the pages")
    return engine


def _problems(why: FirstfireError) -> list[dict[str, Any]]:
    if isinstance(why, EngineFileError):
        return [{"path": p.path, "line": p.line, "words": _words(p)} for p in why.problems]
    return [{"path": "", "line": 0, "words": str(why)}]


def _words(problem: Problem) -> str:
    return f"{problem.fault[:1].upper()}{problem.fault[1:]}. {problem.cure}"


def _drawn(
    asked: Asked,
    plain: PlainEngine,
    margins: Sequence[Margin],
    over: Mapping[str, Any] = MappingProxyType({}),
) -> dict[str, Markup]:
    """The section for each width that is looked at."""
    words = part_words(margins) if margins else None
    first = next((part_of(m.way.id) for m in margins if m.word == "fails"), "")
    return {
        name: Markup(
            to_svg(
                section(plain, verdicts=words, fitted=_FORMATS[name], first=first, **over),
                prefix=f"{name}-",
                size=False,
            ).replace('role="img"', 'role="group"', 1)
        )
        for name in asked.formats
    }
