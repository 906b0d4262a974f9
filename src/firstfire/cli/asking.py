"""What the command line's words mean: an engine with its trial values, a schema by name."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.engine.read import read, read_layer, with_values
from firstfire.engine.typed import typed
from firstfire.errors import EngineFileError, FirstfireError, Problem


def asked_engine(file: Path, tried: Sequence[str], layers: Sequence[Path]) -> Engine:
    """The engine in `file` with overlay files and ``--set`` values on top.

    Raises
    ------
    FirstfireError
        With every problem at once.
    """
    engine = read(file)
    for layer in layers:
        engine = read_layer(layer, engine)
    return with_values(engine, set_values(tried)) if tried else engine


def set_values(tried: Sequence[str]) -> dict[str, object]:
    """``["cylinder.bore=45 mm"]`` as values by path; bare numbers and flags where they belong.

    Raises
    ------
    EngineFileError
        For each that isn't ``path=value``.
    """
    values: dict[str, object] = {}
    problems = []
    for text in tried:
        path, equals, written = text.partition("=")
        if not equals or not path.strip() or not written.strip():
            fault, cure = f'"{text}" is not path=value', "Write --set cylinder.bore='45 mm'."
            problems.append(Problem("--set", fault, cure))
            continue
        values[path.strip()] = typed(path.strip(), written.strip().strip("\"'"))
    if problems:
        raise EngineFileError("--set", problems)
    return values


def asked_speeds(at: Sequence[str]) -> tuple[float, ...] | None:
    """``--at "2500 rpm"`` in rad/s; None where nothing was asked.

    Raises
    ------
    EngineFileError
        For each that isn't a sensible speed.
    """
    speeds, problems = [], []
    for written in at:
        try:
            speed = read_quantity(written, "speed")
            if not 30 <= speed * 30 / math.pi <= 20000:
                raise NotAQuantity(f'is "{written}"', "A speed is from 30 rpm to 20000 rpm.")
            speeds.append(speed)
        except NotAQuantity as why:
            problems.append(Problem("--at", why.fault, why.cure))
    if problems:
        raise EngineFileError("--at", problems)
    return tuple(speeds) or None


def asked_life(written: str | None) -> tuple[str, ...] | None:
    """``--for "cranking, first fire"`` as ids of events; None where nothing was asked.

    Raises
    ------
    FirstfireError
        With every word that is no event, or one this version doesn't compute.
    """
    if written is None:
        return None
    from firstfire.verdict.explain.find import known_event

    found, faults = [], []
    for word in written.split(","):
        try:
            event = known_event(word) if word.strip() else None
        except FirstfireError as why:
            faults.append(str(why))
            continue
        if event is not None:
            found.append(event)
    if faults or not found:
        raise FirstfireError("\n".join(faults) or "--for names no event, like cranking,first_fire.")
    return tuple(found)


def schema_of(which: str) -> dict[str, Any]:
    """JSON Schema of the engine file, or of what a command gives with ``--json``.

    Raises
    ------
    FirstfireError
        For any other word.
    """
    if which == "engine":
        from firstfire.engine.schema import engine_schema

        return engine_schema()
    if which not in _CONTRACTS:
        known = ", ".join(("engine", *_CONTRACTS))
        raise FirstfireError(f'There is no schema "{which}". Schemas are: {known}.')
    from importlib import import_module

    home, name = _CONTRACTS[which]
    dialect = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    told = getattr(import_module(home), name)
    return {**dialect, **told.model_json_schema(by_alias=True, mode="serialization")}


_CONTRACTS = {
    "result": ("firstfire.verdict.told.contract", "ResultTold"),
    "start": ("firstfire.verdict.start.contract", "StartTold"),
    "faults": ("firstfire.verdict.start.contract", "FaultsTold"),
    "parts": ("firstfire.setup.contract", "PartsTold"),
    "compare": ("firstfire.verdict.compare.contract", "CompareTold"),
    "improvement": ("firstfire.verdict.improve.contract", "ImprovementTold"),
    "leak": ("firstfire.bench.contract", "LeakTold"),
    "explanation": ("firstfire.verdict.explain.contract", "ExplanationTold"),
    "judgements": ("firstfire.verdict.explain.contract", "JudgementsTold"),
    "timing": ("firstfire.setup.timing.contract", "TimingTold"),
    "spark": ("firstfire.setup.spark.contract", "SparkTold"),
    "wiring": ("firstfire.setup.wiring.contract", "WiringTold"),
    "fuel": ("firstfire.setup.fuel.contract", "FuelTold"),
    "setup": ("firstfire.setup.set_up_contract", "SetUpTold"),
    "misset": ("firstfire.setup.misset.contract", "MissetTold"),
    "coupon": ("firstfire.setup.proof.contract", "BenchTold"),
    "fits": ("firstfire.setup.fits.contract", "FitsTold"),
    "doubt": ("firstfire.verdict.doubt.contract", "DoubtTold"),
    "cam": ("firstfire.setup.cams.contract", "CamsTold"),
}
