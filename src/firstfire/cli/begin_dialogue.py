"""Questions and answers at a terminal: ``?`` lists, ``<`` goes back, a wrong answer asks again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import typer

from firstfire.catalog import Catalog
from firstfire.cli.begin_choices import Choice, Given, Known
from firstfire.cli.begin_questions import QUESTIONS, Question
from firstfire.cli.terminal import columns
from firstfire.engine.grammar import leaves
from firstfire.engine.quantity import NotAQuantity
from firstfire.errors import FirstfireError
from firstfire.verdict.words.text.lines import beside, wrapped

_HOW = "Enter takes what stands in brackets, ? shows what there is, < goes back, Ctrl-C stops."


class Dialogue:
    """A talk that fills what is not given yet.

    Attributes
    ----------
    given
        Written values by path from elsewhere: not asked for.
    rows
        The catalog that names are looked up in.
    """

    def __init__(self, given: Given, rows: Catalog) -> None:
        self.given, self.rows = given, rows
        self._answers: dict[str, dict[str, object]] = {}
        self._typed: dict[str, str] = {}
        self._greeted = False

    @property
    def values(self) -> dict[str, object]:
        """All that is known so far."""
        known = dict(self.given)
        for question in QUESTIONS:
            if question.key in self._answers and question.applies(known):
                known = self._answers[question.key] | known
        return known

    def ask(self) -> dict[str, object]:
        """Ask all that is open, and give all values.

        Raises
        ------
        FirstfireError
            Where the answers end before the questions.
        """
        while (question := self._open()) is not None:
            if not self._greeted:
                _say(_HOW)
                self._greeted = True
            self._ask(question)
        return self.values

    def reopen(self, paths: Sequence[str]) -> bool:
        """Open the first question that fills one of `paths` or a part of it; whether there was."""
        asked = [q.key for q in QUESTIONS if q.key in self._answers]
        meant = [key for key in asked if any(_is_of(path, key) for path in paths)]
        for key in (meant or asked[-1:])[:1]:
            del self._answers[key]
        return bool(asked)

    def _open(self) -> Question | None:
        """The next question: one that applies, and is neither given nor answered."""
        known = self.values
        for question in QUESTIONS:
            said = question.key in known or question.key in self._answers
            if not said and question.applies(known):
                return question
        return None

    def _ask(self, question: Question) -> None:
        """Ask once: an answer is kept, the list shown, the last one opened again, or refused."""
        known = self.values
        suggested = self._typed.get(question.key) or question.suggestion(known)
        typed = _heard(f"{question.ask} [{suggested}]: ")
        answer = typed or suggested
        if answer == "?":
            _show(question.shown(Known(known, self.rows)))
        elif answer.lower() in ("<", "back"):
            self._back(known)
        else:
            try:
                self._answers[question.key] = question.read(answer, Known(known, self.rows))
                if typed:
                    self._typed[question.key] = typed
            except NotAQuantity as why:
                _say(refusal(question, answer, why))

    def _back(self, known: Given) -> None:
        """Open the last answered question that applies again."""
        asked = [q.key for q in QUESTIONS if q.key in self._answers and q.applies(known)]
        if asked:
            del self._answers[asked[-1]]
        else:
            _say("This is the first question.")


def _is_of(path: str, key: str) -> bool:
    return path == key or path.startswith(f"{key}.")


def refusal(question: Question, answer: str, why: NotAQuantity) -> str:
    """One sentence on an answer that can't be taken."""
    leaf = leaves().get(question.key)
    if leaf is not None and leaf.form == "catalog":
        near = why.cure.partition(";")[0].partition(" are ")[2]
        nearest = f"; the nearest are {near}" if near else ""
        return f'No {leaf.row_kind} is called "{answer}"{nearest} (? shows what there is).'
    cure = why.cure[:1].lower() + why.cure[1:]
    return f"That {why.fault}: {cure}"


def _heard(prompt: str) -> str:
    """What is typed, without spaces around.

    Raises
    ------
    FirstfireError
        Where nothing more comes.
    """
    try:
        return input(prompt).strip()
    except EOFError:
        typer.echo()
        raise FirstfireError(
            "The answers ended before the questions: nothing is written. Start again, or give "
            "them as options: `firstfire new --help` lists them."
        ) from None


def _show(choices: Iterable[Choice]) -> None:
    """The list, kind by kind, names in one column."""
    listed, group = list(choices), ""
    at = max((len(one.name) for one in listed), default=0) + 4
    for one in listed:
        if one.group != group:
            group = one.group
            typer.echo(f"  {group}:")
        for line in beside(f"  {one.name}", one.good_for, at, width=columns()):
            typer.echo(line)


def _say(text: str) -> None:
    for line in wrapped(text, 2, width=columns()):
        typer.echo(line)
