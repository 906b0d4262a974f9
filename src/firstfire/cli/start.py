"""``firstfire start``: will it start, keep itself going, or kick back?"""

from __future__ import annotations

import contextlib
import io
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from firstfire.cli.asking import asked_engine
from firstfire.cli.reporting import report_wanted, start_reported
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.errors import CannotWrite, EngineFileError, FirstfireError, Problem
from firstfire.files import write_bytes

if TYPE_CHECKING:
    from firstfire.engine.engine import Engine
    from firstfire.engine.resolve import PlainEngine
    from firstfire.runs.start.account import Account

SECONDS, AFTER = 3.0, 2.0
_MOST_PULSES, _MOST_PRIMED = 2000.0, 20e-6


@dataclass(frozen=True)
class Wanted:
    """What options say of a start, None where not said."""

    starter: str | None = None
    spark: str | None = None
    temperature: str | None = None
    stood: str | None = None
    throttle: str | None = None
    faults: Sequence[str] = ()
    tries: int = 5
    seed: int = 1
    engines: int = 40
    traces: Path | None = None
    overwrite: bool = False
    as_json: bool = False
    full: bool = False
    prime: str | None = None
    gauge: str | None = None
    rpm: str | None = None
    report: Path | None = None


def start_told(
    file: Path, wanted: Wanted, tried: Sequence[str], layers: Sequence[Path], *,
    stop: Callable[[], bool],
) -> str:  # fmt: skip
    """The account of a start, as text or JSON; traces and report are written where they are named.

    Raises
    ------
    FirstfireError
        For a file or option that doesn't do, all of them at once.
    """
    numbers, engine = _read(file, wanted, [*tried, *_set(wanted)], layers)
    from firstfire.cli.progress import Working
    from firstfire.cli.terminal import columns
    from firstfire.engine.resolve import resolve
    from firstfire.runs.start.account import account, heard_at
    from firstfire.runs.start.asked import Asked

    asked = Asked(
        seconds=SECONDS, after=AFTER, advance=numbers.spark, throttle=numbers.throttle,
        seed=wanted.seed, let_go_at=heard_at(resolve(engine)), in_time=True,
        prime=_primed(numbers, resolve(engine)),
    )  # fmt: skip
    if wanted.faults:
        from firstfire.runs.start.faults.all import with_faults

        engine, asked = with_faults(engine, asked, wanted.faults)
    with Working() as working:
        found = account(
            engine, asked, count=wanted.engines, tries=wanted.tries, stop=stop, on_progress=working
        )
    if wanted.traces is not None:
        write_bytes(wanted.traces, _curves(found), overwrite=wanted.overwrite)
    if wanted.report is not None:
        start_reported(found, wanted.report, wanted.faults, overwrite=wanted.overwrite)
    if wanted.as_json:
        from firstfire.verdict.start.contract import told
        from firstfire.version import VERSION

        return told(found, VERSION, wanted.faults).model_dump_json(by_alias=True, indent=2)
    from firstfire.verdict.start.text import start_text

    return start_text(found, full=wanted.full, width=columns(), wrong=wanted.faults)


def _read(
    file: Path, wanted: Wanted, tried: Sequence[str], layers: Sequence[Path]
) -> tuple[Numbers, Engine]:
    """What options say in numbers, and the engine with what they set and a gauge tells."""
    wrong: list[FirstfireError] = []

    def done(what: Callable[[], Any]) -> Any:
        try:
            return what()
        except FirstfireError as why:
            wrong.append(why)
            return None

    numbers = done(lambda: _numbers(wanted))
    if wanted.traces is not None:
        traces = wanted.traces
        done(lambda: _refuse(traces, overwrite=wanted.overwrite))
    if wanted.report is not None:
        report = wanted.report
        done(lambda: report_wanted(report, overwrite=wanted.overwrite))
    engine = done(lambda: asked_engine(file, tried, layers))
    if wrong and wanted.faults:  # else they are read with the rest, below
        from firstfire.runs.start.asked import Asked
        from firstfire.runs.start.faults.all import with_faults

        with contextlib.suppress(FirstfireError):  # what is wrong with the file is told already
            known = engine or asked_engine(file, [], ())
            done(lambda: with_faults(known, Asked(SECONDS), wanted.faults))
    if wrong:
        raise wrong[0] if len(wrong) == 1 else FirstfireError("\n".join(map(str, wrong)))
    return numbers, _gauged(engine, wanted)


def _gauged(engine: Engine, wanted: Wanted) -> Engine:
    """The engine with the leaks that a gauge's reading tells, where one was taken."""
    if wanted.gauge is None:
        if wanted.rpm is not None:
            fault = "goes with the gauge it was read at"
            raise EngineFileError(
                "firstfire start", [Problem("--rpm", fault, 'Say --gauge "8 bar".')]
            )
        return engine
    from firstfire.bench.leak_test import leak_test
    from firstfire.cli.leak import Read, asked_test
    from firstfire.engine.read import with_layer_text

    rpm = wanted.rpm if wanted.rpm is not None else _cranked_at(engine)
    read = Read(wanted.gauge, rpm, None, None, None, None, None, None, None, None)
    return with_layer_text(leak_test(engine, asked_test(read)).layer, "--gauge", engine)


def _cranked_at(engine: Engine) -> str:
    """How fast its own starter turns it, in rpm."""
    from firstfire.engine.resolve import resolve
    from firstfire.runs.cranking import cranked

    return f"{cranked(resolve(engine)).mean_speed * 30 / math.pi:.0f}"


def _set(wanted: Wanted) -> list[str]:
    """Options that are values of the engine file."""
    named = {
        "starter.kind": wanted.starter,
        "surroundings.air_temperature": wanted.temperature,
        "use.stood": wanted.stood,
    }
    return [f"{path}={value}" for path, value in named.items() if value is not None]


class Numbers(NamedTuple):
    """Spark before top centre, rad; the throttle's opening; fuel beforehand, pulses or m³."""

    spark: float | None
    throttle: float | None
    pulses: float | None
    volume: float | None


def _numbers(wanted: Wanted) -> Numbers:
    """What options say in numbers, with every fault at once."""
    faults: list[Problem] = []

    def read(
        option: str, said: str | None, kind: str, like: str, low: float, high: float
    ) -> float | None:
        if said is None:
            return None
        cure = f'Write {option} "{like}".'
        try:
            value = float(read_quantity(said, kind))
        except NotAQuantity as why:
            faults.append(Problem(option, why.fault, cure))
            return None
        if not low <= value <= high:
            faults.append(Problem(option, f'is "{said}", beyond what makes sense', cure))
        return value

    spark = read(
        "--spark", _with_unit(wanted.spark, " deg"), "angle", "8 deg", -0.5 * math.pi, 0.5 * math.pi
    )
    throttle = read("--throttle", wanted.throttle, "ratio", "40 %", 0.001, 1.0)
    bare = wanted.prime is not None and _is_bare(wanted.prime)
    pulses = read("--prime", wanted.prime if bare else None, "ratio", "3", 0.0, _MOST_PULSES)
    volume = read(
        "--prime", None if bare else wanted.prime, "volume", "0.1 ml", 0.0, _MOST_PRIMED
    )  # fmt: skip
    if faults:
        raise EngineFileError("firstfire start", faults)
    return Numbers(spark, throttle, pulses, volume)


def _primed(numbers: Numbers, plain: PlainEngine) -> float:
    """Pulses of fuel in each port before the first turn."""
    if numbers.pulses is None and numbers.volume is None:
        return 0.0
    if plain.fuel.gas:
        fault = "has nothing to prime with: its fuel is a gas"
        raise EngineFileError("firstfire start", [Problem("--prime", fault, "Leave it out.")])
    if numbers.volume is None:
        return numbers.pulses or 0.0
    from firstfire.runs.start.fuelling import pulses_of

    return pulses_of(plain, numbers.volume)


def _with_unit(said: str | None, unit: str) -> str | None:
    """A bare number is in the unit that the option is about."""
    return f"{said}{unit}" if said is not None and _is_bare(said) else said


def _is_bare(said: str) -> bool:
    return said.strip().lstrip("+-").replace(".", "", 1).isdecimal()


def _refuse(file: Path, *, overwrite: bool) -> None:
    if file.suffix.lower() != ".csv":
        raise FirstfireError(f"--traces {file}: write a file that ends in .csv.")
    if file.exists() and not overwrite:
        raise CannotWrite(
            f"{file} is there already and stays as it is. Choose another name, or say --overwrite."
        )


def _curves(found: Account) -> bytes:
    """Every step of the start as it is written: time, angle, speed, pressures."""
    spun = found.lived.spun
    count = len(found.plain.cylinders)
    out = io.StringIO()
    names = [f"pressure_{n + 1}_pa" for n in range(count)]
    out.write(",".join(["seconds", "angle_deg", "speed_rpm", *names]) + "\n")
    for row in range(len(spun.time)):
        numbers = [
            spun.time[row], math.degrees(spun.angle[row]), spun.speed[row] * 30 / math.pi,
            *spun.pressure[row, :count],
        ]  # fmt: skip
        out.write(",".join(f"{number:.7g}" for number in numbers) + "\n")
    return out.getvalue().encode()
