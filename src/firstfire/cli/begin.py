"""``firstfire new``: a few questions, and a file that can be read back."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from firstfire import catalog
from firstfire.catalog import Catalog
from firstfire.cli.asking import set_values
from firstfire.cli.begin_dialogue import Dialogue
from firstfire.cli.terminal import hung
from firstfire.engine.engine import KINDS, Engine
from firstfire.engine.grammar import leaves
from firstfire.engine.quantity import NotAQuantity, read_quantity, write_quantity
from firstfire.engine.read import read, understand
from firstfire.engine.wish import CENTRE_BMEP, HIGH_BMEP, LOW_BMEP, wish
from firstfire.engine.write import full_file, rounded_length, small_file
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.files import write_text


@dataclass(frozen=True)
class Answers:
    """What was given as options; None is still to be asked."""

    name: str | None
    layout: str | None
    bore: str | None
    stroke: str | None
    material: str | None
    fuel: str | None
    starter: str | None
    power: str | None
    speed: str
    also: Sequence[str]


_NEEDED = ("layout.kind", "cylinder.bore", "cylinder.stroke", "printing.material")


def begin(
    file: Path, answers: Answers, source: Path | None, *, full: bool, overwrite: bool
) -> Iterator[str]:
    """Write the file, yielding what to tell.

    Raises
    ------
    FirstfireError
        Where an answer is wrong or missing, or the file can't be written.
    """
    if file.exists() and not overwrite:
        raise FirstfireError(
            f"{file} is there already and stays as it is. Choose another name, or say --overwrite."
        )
    notes: list[str] = []
    if source is not None:
        text = source.read_text() if (engine := read(source)) and not full else full_file(engine)
    else:
        given, notes = _given(answers)
        rows = catalog.load(catalog.own_files(file))
        talk = Dialogue(given, rows) if at_a_terminal() else None
        engine, text = _understood(file, answers.name or file.stem, given, notes, rows, talk)
        text = full_file(engine) if full else text
    write_text(file, text, overwrite=overwrite)
    yield from notes
    yield f"{file} is written. See what it says with: firstfire check {file}"


def _understood(
    file: Path,
    name: str,
    given: dict[str, object],
    notes: list[str],
    rows: Catalog,
    talk: Dialogue | None,
) -> tuple[Engine, str]:
    """The engine and its text; at a terminal what can't be built is asked for again."""
    while True:
        values = _ordered(talk.ask() if talk else given)
        text = small_file(name, values, notes)
        try:
            return understand(text, str(file), rows), text
        except EngineFileError as why:
            if talk is None or not talk.reopen([problem.path for problem in why.problems]):
                raise
            print(hung(str(why)))


def _given(answers: Answers) -> tuple[dict[str, object], list[str]]:
    """Values by path from options, and what to tell of a wish."""
    given: dict[str, object] = {
        path: value
        for path, value in (
            ("layout.kind", answers.layout),
            ("cylinder.bore", answers.bore),
            ("cylinder.stroke", answers.stroke),
            ("printing.material", answers.material),
            ("intake.fuel", answers.fuel),
            ("starter.kind", answers.starter),
        )
        if value is not None
    }
    notes = [] if answers.power is None else _wished(answers, given)
    return given | set_values(answers.also), notes


def at_a_terminal() -> bool:
    """Whether a person can be asked."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def _wished(answers: Answers, given: dict[str, object]) -> list[str]:
    """Bore and stroke for a wished power, and the sentences that say how rough that is."""
    given.setdefault("layout.kind", "single")
    try:
        power = read_quantity(answers.power, "power")
        speed = read_quantity(answers.speed, "speed")
    except NotAQuantity as why:
        name = "--power" if "rpm" not in why.cure else "--speed"
        raise EngineFileError("firstfire new", [Problem(name, why.fault, why.cure)]) from None
    if power <= 0 or speed <= 0:
        fault, cure = "is not more than zero", 'Write --power "0.5 kW" --speed "4000 rpm".'
        raise EngineFileError("firstfire new", [Problem("--power, --speed", fault, cure)])
    sizes = wish(power, speed, KINDS.get(str(given["layout.kind"]), 1))
    given.setdefault("cylinder.bore", rounded_length(sizes.bore))
    given.setdefault("cylinder.stroke", rounded_length(sizes.stroke))
    asked_at = write_quantity(speed, "speed")
    given.setdefault("use.full_throttle_speeds", ["2000 rpm", asked_at])
    given.setdefault("use.power_asked", write_quantity(power, "power"))
    given.setdefault("use.power_asked_at", asked_at)
    litres = [f"{v * 1e6:.0f}" for v in (sizes.displacement_low, sizes.displacement_high)]
    low, high = sorted(litres, key=float)
    return [
        f"{answers.power} at {answers.speed} takes {low} to {high} cm³: at that speed the model "
        f"makes {LOW_BMEP / 1e5:g} to {HIGH_BMEP / 1e5:g} bar of brake mean effective pressure of "
        "engines of defaults (rough; little is published of printed ones). "
        f"This file starts from {sizes.displacement * 1e6:.0f} cm³, at {CENTRE_BMEP / 1e5:g} bar."
    ]


def _ordered(given: dict[str, object]) -> dict[str, object]:
    """The answers in the order of the questions, refused all at once where some are missing."""
    options = {
        "layout.kind": "--layout single",
        "cylinder.bore": '--bore "44 mm" (or --power "0.5 kW")',
        "cylinder.stroke": '--stroke "40 mm"',
        "printing.material": "--material petg",
    }
    missing = [
        Problem(path, "was not said", f"Add {options[path]}.")
        for path in _NEEDED
        if path not in given
    ]
    if missing:
        raise EngineFileError("firstfire new", missing)
    return dict(sorted(given.items(), key=lambda item: list(leaves()).index(item[0])
                       if item[0] in leaves() else 0))  # fmt: skip
