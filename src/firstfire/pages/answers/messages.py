"""What the pages ask of the process that computes, and what comes back: plain data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

Kind = Literal[
    "problems", "drawing", "form", "rows", "at hand", "cycle", "sound", "whole", "progress",
    "start", "failed", "plan", "done", "choices", "turned", "setting", "laid",
]  # fmt: skip
Widths = Mapping[str, tuple[float, float, float]]
"""By `width_key`, the ends of a factor's span over the factor, and the factor that is known to
hold (infinite where none is)."""


@dataclass(frozen=True)
class Asked:
    """One question. A newer one drops what is under way for an older.

    Attributes
    ----------
    number
        Rises with each question.
    key
        Of the sheet: what is computed for one key holds for every sheet with the same.
    present
        Key of the present engine, where a trial is shown beside it; else the same.
    text, where, folder
        Of the engine file, its name for messages, and the folder whose own catalog counts.
    trial
        Written values that lie over it.
    event
        The event at hand, as ``full_throttle`` or ``full_throttle@1`` for its second speed.
    seconds
        Into that event; None for when it is judged.
    widths
        How wide spans were when the whole was last computed.
    whole
        Whether the whole is to be computed behind; not where it is known already.
    formats
        What drawings are wanted for: ``desk``, ``narrow``.
    over
        What is laid over the section: ``forces``, ``warm``.
    pointed
        Way to fail whose line of the ledger is pointed at; "" for none.
    choosing
        Path of a value for which rows of the catalog are looked at; "" for none.
    also
        What is told of the event at hand beside its margins: ``cycle``, ``sound``.
    laid
        Texts of overlays of what was measured, which lie below the trial.
    turning
        Whether somebody looks at the degree wheel.
    setting
        Whether the chapters of setting up are to be computed behind.
    """

    number: int
    key: str
    present: str
    text: str
    where: str
    folder: str
    trial: Mapping[str, str] = field(default_factory=dict)
    event: str = "first_fire"
    seconds: float | None = None
    widths: Widths = field(default_factory=dict)
    whole: bool = True
    formats: tuple[str, ...] = ("desk",)
    over: tuple[str, ...] = ()
    pointed: str = ""
    choosing: str = ""
    also: tuple[str, ...] = ()
    laid: tuple[str, ...] = ()
    turning: bool = False
    setting: bool = False


@dataclass(frozen=True)
class Measured:
    """Something that was read at the bench, to be made an overlay of. It is never dropped.

    Attributes
    ----------
    of
        The engine that it was read at.
    kind
        ``printer``, ``bore``, ``gauge`` or ``coupon``.
    said
        What was typed, by the field's name.
    tab
        Who asked.
    """

    of: Asked
    kind: str
    said: Mapping[str, str]
    tab: str

    @property
    def number(self) -> int:
        """Of the question."""
        return self.of.number

    @property
    def key(self) -> str:
        """Of its sheet."""
        return self.of.key


@dataclass(frozen=True)
class Errand:
    """Long work that somebody asks for: done once, by a process of its own, that then ends.

    Attributes
    ----------
    what
        ``check``: each engine in full. ``plan``: the steps that make the first of them hold.
    of
        The engines, as any question has them.
    words
        What to call each.
    """

    what: Literal["check", "plan"]
    of: tuple[Asked, ...]
    words: tuple[str, ...]

    @property
    def number(self) -> int:
        """Of the question."""
        return self.of[0].number

    @property
    def key(self) -> str:
        """Of the first sheet."""
        return self.of[0].key


@dataclass(frozen=True)
class StartAsked:
    """A start to be told, by a process of its own.

    Attributes
    ----------
    of
        The engine, as any question has it.
    said
        What was set on the page, as it was typed, by its field's name; faults by ``fault.NAME``.
    """

    of: Asked
    said: Mapping[str, str]

    @property
    def number(self) -> int:
        """Of the question."""
        return self.of.number

    @property
    def key(self) -> str:
        """Of its sheet."""
        return self.of.key


Question = Asked | Measured | Errand | StartAsked


@dataclass(frozen=True)
class Told:
    """One message back: for which question and sheet, of which kind, with what."""

    number: int
    key: str
    kind: Kind
    data: Mapping[str, Any]


def width_key(event: str, way: str) -> str:
    """Name of a span's width: of a way to fail at an event at hand."""
    return f"{event}:{way}"
