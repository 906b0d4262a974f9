"""``firstfire leak``: from a compression gauge or a leak-down tester to leak areas."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from firstfire.cli.asking import asked_engine
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.files import write_text

if TYPE_CHECKING:
    from firstfire.bench.leak_test import GaugeTest, LeakDownTest


@dataclass(frozen=True)
class Read:
    """Readings as options have them, None where not said."""

    gauge: str | None
    rpm: str | None
    oiled: str | None
    oil: str | None
    hose: str | None
    supply: str | None
    held: str | None
    loss: str | None
    orifice: str | None
    cylinder: int | None


def leak_told(
    file: Path, read: Read, out: Path | None, tried: Sequence[str], layers: Sequence[Path], *,
    overwrite: bool, as_json: bool,
) -> str:  # fmt: skip
    """What the readings say, as text or JSON; the layer is written to `out` where that is named.

    Raises
    ------
    FirstfireError
        For readings that don't go together; where `out` is there already; where no leak explains
        them.
    """
    engine, test = asked_engine(file, tried, layers), asked_test(read)
    if out is not None and out.exists() and not overwrite:
        raise FirstfireError(
            f"{out} is there already and stays as it is. Choose another name, or say --overwrite."
        )
    from firstfire.bench.leak_test import leak_test

    found = leak_test(engine, test)
    if out is not None:
        write_text(out, found.layer, overwrite=overwrite)
    if as_json:
        from firstfire.bench.contract import leak_json

        return leak_json(found)
    from firstfire.bench.text import leak_text
    from firstfire.cli.terminal import columns

    name = out if out is not None else Path("learned.toml")
    use = f"firstfire check {file} --layer {name}"
    written = f"{out} is written. Use it with:"
    told = written if out else f"Nothing is written. Say -o {name}, then:"
    return leak_text(found, f"{told}\n  {use}", width=columns())


def asked_test(read: Read) -> GaugeTest | LeakDownTest:
    """The test that the options describe.

    Raises
    ------
    FirstfireError
        With everything that is wrong with them.
    """
    from firstfire.bench.leak_test import GaugeTest, LeakDownTest

    numbers = _Numbers()
    down = any((read.supply, read.held, read.loss, read.orifice))
    if bool(read.gauge) == down:
        raise FirstfireError(
            'Say one test: --gauge "6.2 bar" --rpm 360, or --supply "3 bar" --held "2.4 bar" '
            '--orifice "1 mm" (or --loss "20 %" for --held).'
        )
    if not down:
        shows = numbers.said("--gauge", read.gauge, "pressure", "6.2 bar", (0.05e5, 60e5))
        speed = numbers.said("--rpm", _rpm(read.rpm), "speed", "360", (3.0, 400.0))
        oiled = numbers.maybe("--oiled", read.oiled, "pressure", "8 bar", (0.05e5, 60e5))
        hose = numbers.maybe("--hose", read.hose, "volume", "0.8 cm^3", (0.0, 50e-6))
        oil = numbers.maybe("--oil", read.oil, "volume", "0.3 cm^3", (0.0, 20e-6))
        numbers.refuse()
        more = {} if oil is None else {"oil": oil}
        return GaugeTest(shows, speed, oiled, hose, cylinder=read.cylinder, **more)
    supply = numbers.said("--supply", read.supply, "pressure", "3 bar", (0.1e5, 12e5))
    orifice = numbers.said("--orifice", read.orifice, "length", "1 mm", (0.2e-3, 5e-3))
    if read.loss is not None and read.held is None:
        lost = numbers.said("--loss", read.loss, "ratio", "20 %", (0.0, 1.0))
        held = supply * (1 - lost)
    else:
        held = numbers.said("--held", read.held, "pressure", "2.4 bar", (0.0, 12e5))
    numbers.refuse()
    return LeakDownTest(supply, held, orifice, read.cylinder)


def _rpm(written: str | None) -> str | None:
    """A bare number is revolutions a minute: the option says so."""
    bare = written is not None and written.replace(".", "", 1).strip().isdecimal()
    return f"{written} rpm" if bare else written


class _Numbers:
    """Reads options, keeping every fault until all are read."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []

    def said(
        self, option: str, written: str | None, dimension: str, like: str,
        span: tuple[float, float],
    ) -> float:  # fmt: skip
        """A number that has to be there; 0 where it is wrong."""
        cure = f'Write {option} "{like}".'
        if written is None:
            self.problems.append(Problem(option, "was not said", cure))
            return 0.0
        try:
            value = float(read_quantity(written, dimension))
        except NotAQuantity as why:
            self.problems.append(Problem(option, why.fault, cure))
            return 0.0
        if not span[0] <= value <= span[1]:
            self.problems.append(Problem(option, f'is "{written}", beyond what makes sense', cure))
        return value

    def maybe(
        self, option: str, written: str | None, dimension: str, like: str,
        span: tuple[float, float],
    ) -> float | None:  # fmt: skip
        """A number that may be left out."""
        return None if written is None else self.said(option, written, dimension, like, span)

    def refuse(self) -> None:
        """Raise with every fault, where there is one."""
        if self.problems:
            raise EngineFileError("firstfire leak", self.problems)
