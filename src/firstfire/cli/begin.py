"""``firstfire new``: a few questions, and a file that can be read back."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import typer

from firstfire import catalog
from firstfire.cli.asking import set_values
from firstfire.engine.engine import KINDS
from firstfire.engine.grammar import leaves
from firstfire.engine.leaf import read_leaf
from firstfire.engine.quantity import NotAQuantity, read_quantity, write_quantity
from firstfire.engine.read import read, understand
from firstfire.engine.values import written
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


@dataclass(frozen=True)
class _Question:
    path: str
    ask: str
    suggested: str | Callable[[dict[str, object]], str]


def _nine_tenths(so_far: dict[str, object]) -> str:
    return rounded_length(0.9 * read_quantity(so_far["cylinder.bore"], "length", comma=True))


_QUESTIONS = (
    _Question("layout.kind", "Layout (single, parallel_twin, v_twin, opposed_twin)", "single"),
    _Question("cylinder.bore", "Bore", "40 mm"),
    _Question("cylinder.stroke", "Stroke", _nine_tenths),
    _Question("printing.material", "Material most parts are printed in", "petg"),
    _Question("intake.fuel", "Fuel", "petrol"),
    _Question("starter.kind", "Starter", "cordless drill"),
)
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
        values, notes = _gathered(answers)
        name = answers.name or file.stem
        text = small_file(name, values, notes)
        engine = understand(text, str(file), catalog.load(catalog.own_files(file)))
        text = full_file(engine) if full else text
    write_text(file, text, overwrite=overwrite)
    yield from notes
    yield f"{file} is written. See what it says with: firstfire check {file}"


def _gathered(answers: Answers) -> tuple[dict[str, object], list[str]]:
    """Values by path from options and, at a terminal, questions."""
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
    notes: list[str] = []
    if answers.power is not None:
        notes = _wished(answers, given)
    given |= set_values(answers.also)
    if _at_a_terminal():
        _ask_for_the_rest(given)
    return _checked(given), notes


def _at_a_terminal() -> bool:
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
    given.setdefault("use.full_throttle_speeds", ["2000 rpm", write_quantity(speed, "speed")])
    litres = [f"{v * 1e6:.0f}" for v in (sizes.displacement_low, sizes.displacement_high)]
    low, high = sorted(litres, key=float)
    return [
        f"{answers.power} at {answers.speed} takes {low} to {high} cm³: at that speed the model "
        f"makes {LOW_BMEP / 1e5:g} to {HIGH_BMEP / 1e5:g} bar of brake mean effective pressure of "
        "engines of defaults (rough; little is published of printed ones). "
        f"This file starts from {sizes.displacement * 1e6:.0f} cm³, at {CENTRE_BMEP / 1e5:g} bar."
    ]


def _ask_for_the_rest(given: dict[str, object]) -> None:
    """Ask each open question until its answer can be read."""
    rows = catalog.load()
    for question in _QUESTIONS:
        if question.path in given:
            continue
        suggested = question.suggested
        default = suggested if isinstance(suggested, str) else suggested(given)
        while True:
            answer = typer.prompt(question.ask, default=default)
            try:
                value = read_leaf(leaves()[question.path], answer, rows, comma=True)
            except NotAQuantity as why:
                typer.echo(f"  That {why.fault}. {why.cure}")
                continue
            given[question.path] = written(question.path, value)
            break


def _checked(given: dict[str, object]) -> dict[str, object]:
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
