"""One state of the document: a file's text, what was measured, trials that lie beside it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any


@dataclass(frozen=True)
class Trial:
    """A change that is tried beside the present engine, nothing of it written in its file.

    Attributes
    ----------
    words
        What it is, as an order.
    set
        Written values by path.
    """

    words: str
    set: Mapping[str, str] = field(hash=False)


@dataclass(frozen=True)
class Laid:
    """What was measured, as an overlay between the file and its trials.

    Attributes
    ----------
    kind
        Of what: ``printer``, ``bore 1``. A later one of its kind takes its place.
    words
        What was read, for a person.
    text
        Of the overlay, as a file would have it.
    """

    kind: str
    words: str
    text: str


@dataclass(frozen=True)
class Sheet:
    """One state.

    Attributes
    ----------
    text
        Of the engine file.
    trials
        In the order in which they were laid beside it.
    shown
        Place of the trial that the pages show, from 0; None for the present engine.
    laid
        What was measured and counts, the first lowest.
    """

    text: str
    trials: tuple[Trial, ...] = ()
    shown: int | None = None
    laid: tuple[Laid, ...] = ()

    @property
    def trial(self) -> Trial | None:
        """The trial that the pages show."""
        return None if self.shown is None else self.trials[self.shown]

    @property
    def key(self) -> str:
        """What is computed for one key holds for every sheet with the same."""
        changes = sorted(self.trial.set.items()) if self.trial else []
        over = json.dumps([changes, [one.text for one in self.laid]])
        return hashlib.sha256(f"{self.text}\0{over}".encode()).hexdigest()[:24]

    @property
    def present(self) -> Sheet:
        """The same without a trial shown."""
        return replace(self, shown=None)

    def with_trial(self, trial: Trial) -> Sheet:
        """With one trial more, which is then shown; one that is there already is only shown."""
        alike = [place for place, one in enumerate(self.trials) if one.set == trial.set]
        if alike:
            return replace(self, shown=alike[0])
        return replace(self, trials=(*self.trials, trial), shown=len(self.trials))

    def without_trial(self, place: int) -> Sheet:
        """Without one of its trials; the present engine is shown if that one was."""
        left = tuple(one for at, one in enumerate(self.trials) if at != place)
        shown = self.shown
        if shown is not None:
            shown = None if shown == place else shown - (shown > place)
        return replace(self, trials=left, shown=shown)

    def with_laid(self, laid: Laid) -> Sheet:
        """With something measured, in place of what was measured of its kind before."""
        others = tuple(one for one in self.laid if one.kind != laid.kind)
        return replace(self, laid=(*others, laid))

    def without_laid(self, place: int) -> Sheet:
        """Without one of the things that were measured."""
        return replace(self, laid=tuple(x for at, x in enumerate(self.laid) if at != place))

    def as_data(self) -> dict[str, Any]:
        """As plain data, for a journal."""
        trials = [{"words": one.words, "set": dict(one.set)} for one in self.trials]
        laid = [{"kind": one.kind, "words": one.words, "text": one.text} for one in self.laid]
        return {"text": self.text, "trials": trials, "shown": self.shown, "laid": laid}

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Sheet:
        """From what `as_data` gave.

        Raises
        ------
        (KeyError, TypeError, ValueError)
            Where it didn't.
        """
        trials = tuple(Trial(str(one["words"]), dict(one["set"])) for one in data["trials"])
        shown = data["shown"]
        if shown is not None and not 0 <= int(shown) < len(trials):
            raise ValueError("a trial is shown that isn't there")
        laid = tuple(
            Laid(str(one["kind"]), str(one["words"]), str(one["text"]))
            for one in data.get("laid", ())
        )
        return cls(str(data["text"]), trials, shown, laid)
