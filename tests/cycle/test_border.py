"""What crosses into compiled code fits, lives long enough, or is refused in words."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from firstfire.cycle import layout
from firstfire.cycle.advance import advance
from firstfire.cycle.along import rates_along
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.compile import kernel_sources
from firstfire.cycle.layout import CYLINDER_EVENT, State
from firstfire.cycle.records import CylinderSpec, EngineSpec, PassageSpec, ValveSpec, VolumeSpec
from firstfire.cycle.run import steady_factors

ROOT = Path(__file__).parents[2]
CYLINDER = CylinderSpec("cylinder", 0.044, 0.020, 0.070, 1e-5, crankcase="case")
OUTSIDE, CASE = VolumeSpec("outside", fixed=True), VolumeSpec("case", 3e-4)
RING = PassageSpec("ring", "cylinder", "case", 0.2e-6)
INLET = ValveSpec(
    "inlet", "cylinder", "outside", 0.018, 0.016, 0.005, 0.004,
    mass=6e-3, spring_rate=150.0, preload=0.5,
)  # fmt: skip
SPEC = EngineSpec("petrol", 1.0, (CYLINDER,), (OUTSIDE, CASE), (RING,), (INLET,))


class Call:
    """Everything `advance` takes, each to be spoilt."""

    def __init__(self) -> None:
        self.engines = build_engine(SPEC)
        self.state = start_state(SPEC, self.engines, -3.0, 200.0)
        self.factors = steady_factors(self.engines)
        self.trace = np.empty((50, 1 + self.state.values.size))
        self.trace_events = np.empty((50, 1), CYLINDER_EVENT)

    def run(self) -> tuple[State, int, int]:
        return advance(
            self.state, self.engines, self.factors, np.inf, -2.9, self.trace, self.trace_events, 50
        )


def test_what_fits_is_run() -> None:
    state, rows, _ = Call().run()
    assert state.values[layout.ANGLE] > -3.0
    assert rows > 0


def spoilt_state(**arrays: Any) -> Any:
    return lambda call: setattr(call, "state", call.state._replace(**arrays))


def spoilt(name: str, change: Any) -> Any:
    return lambda call: setattr(call, name, change(getattr(call, name)))


def set_row(rows: str, name: str, value: int) -> Any:
    def change(call: Call) -> None:
        call.engines[rows][name][0, 0] = value

    return change


def set_row_of(name: str, value: int) -> Any:
    def change(call: Call) -> None:
        call.engines[name][0, 0] = value

    return change


def set_engine(name: str, value: int) -> Any:
    def change(call: Call) -> None:
        call.engines[name][0] = value

    return change


WRONG: dict[str, tuple[Any, type[Exception], str]] = {
    "values of another network": (
        lambda call: spoilt_state(values=call.state.values[:-1].copy())(call),
        ValueError, "state.values has shape",
    ),
    "values as single precision": (
        lambda call: spoilt_state(values=call.state.values.astype(np.float32))(call),
        TypeError, "holds float32",
    ),
    "values that are every other of an array": (
        lambda call: spoilt_state(values=np.repeat(call.state.values, 2)[::2])(call),
        ValueError, "doesn't lie in one piece",
    ),
    "values as a list": (
        lambda call: spoilt_state(values=list(call.state.values))(call), TypeError, "of list",
    ),
    "events of two cylinders": (
        spoilt_state(cylinders=np.zeros(2, CYLINDER_EVENT)), ValueError, "state.cylinders has shape"
    ),
    "events that are numbers": (
        spoilt_state(cylinders=np.zeros(1)), TypeError, "must hold records of burning",
    ),
    "no step to try": (spoilt_state(step=np.zeros(1)), ValueError, "next step must be above 0"),
    "a step that is no number": (
        spoilt_state(step=np.full(1, np.nan)), ValueError, "next step must be above 0",
    ),
    "time of no length": (spoilt_state(time=np.zeros(0)), ValueError, "state.time has shape"),
    "an angle that is no number": (
        lambda call: call.state.values.__setitem__(layout.ANGLE, np.nan), ValueError, "finite",
    ),
    "two engines": (spoilt("engines", lambda e: np.repeat(e, 2)), ValueError, "engines has shape"),
    "one engine's record, no array": (spoilt("engines", lambda e: e[0]), TypeError, "NumPy array"),
    "more volumes than there is room": (
        set_engine("volume_count", 25), ValueError, "must be 0 to 24",
    ),
    "a count below nothing": (set_engine("valve_count", -1), ValueError, "must be 0 to 16"),
    "a size that its counts don't make": (set_engine("size", 10_000), ValueError, "make it"),
    "a passage to nowhere": (
        set_row("passages", "end", 1000), ValueError, "a passage that names a row",
    ),
    "a way from nowhere": (set_row("ways", "start", -7), ValueError, "a way that names a row"),
    "a valve of another cylinder": (
        set_row("valves", "cylinder", 1), ValueError, "a valve that names a row",
    ),
    "a crankcase that isn't there": (
        set_row("cylinders", "crankcase", 3), ValueError, "a cylinder that names a row",
    ),
    "a moving volume that isn't there": (
        set_row_of("moving_volumes", 24), ValueError, "a moving volume that names a row",
    ),
    "factors of no cycle": (spoilt("factors", lambda f: f[:0]), ValueError, "of no cycle"),
    "factors of two cylinders": (
        spoilt("factors", lambda f: np.repeat(f, 2, axis=1)), ValueError, "factors has shape",
    ),
    "a trace too narrow": (
        spoilt("trace", lambda t: t[:, 1:].copy()), ValueError, "trace has shape",
    ),
    "a trace of fewer rows for events": (
        spoilt("trace_events", lambda t: t[:-1].copy()), ValueError, "trace_events has shape",
    ),
    "a trace of whole numbers": (
        spoilt("trace", lambda t: np.zeros(t.shape, int)), TypeError, "trace holds",
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", WRONG)
def test_what_does_not_fit_is_refused_in_words(what: str) -> None:
    change, error, said = WRONG[what]
    call = Call()
    change(call)
    with pytest.raises(error, match=re.escape(said)):
        call.run()


def test_nothing_but_the_trace_is_changed() -> None:
    call = Call()
    before = [array.copy() for array in call.state]
    engines = call.engines.copy()
    call.run()
    assert all((a == b).all() for a, b in zip(before, call.state, strict=True))
    assert call.engines.tobytes() == engines.tobytes()


def test_rates_are_filled_into_tables_that_fit_only() -> None:
    call = Call()
    values, events = call.state.values[None, :].copy(), call.state.cylinders[None, :].copy()
    rates, volumes = np.empty_like(values), np.empty((1, 3))
    rates_along(call.engines, values, events, rates, volumes)
    assert np.isfinite(rates).all()
    with pytest.raises(ValueError, match="volumes has shape"):
        rates_along(call.engines, values, events, rates, volumes[:, :2].copy())
    with pytest.raises(ValueError, match="rates has shape"):
        rates_along(call.engines, values, events, rates[:, 1:].copy(), volumes)


def test_a_valve_whose_lift_is_no_number_is_a_step_that_fails() -> None:
    """Its row of the coefficients can't be found: nothing is looked up, and no step is taken."""
    call = Call()
    call.state.values[int(call.engines[0]["suctions_at"]) + layout.LIFT] = np.nan
    _, rows, end = call.run()
    assert (rows, end) == (0, 2)


RUN = """
import sys
sys.path.insert(0, "tests/cycle")
import test_border
state, rows, end = test_border.Call().run()
print(rows, end, state.values.tobytes().hex())
"""


def test_no_memory_is_used_that_was_given_back() -> None:
    """With all that is freed overwritten at once, a run is what it is without, to the last bit.

    Space for the rates was once made in compiled code and given back at the first line that took
    its record; it held until another thread asked for memory.
    """
    runs = [
        subprocess.run(
            [sys.executable, "-c", RUN], capture_output=True, text=True, check=False, cwd=ROOT,
            env={**os.environ, **more},
        )
        for more in ({}, {"MALLOC_PERTURB_": "165"})
    ]  # fmt: skip
    assert [run.returncode for run in runs] == [0, 0], runs[1].stderr
    assert runs[0].stdout == runs[1].stdout


MAKES = re.compile(r"^(zeros|empty|full|ones|zeros_like|empty_like|array)$")
COMPILED = {"kernel", "kernel_part", "kernel_entry", "quick_part", "quick_entry"}
PLAIN_NUMBERS = {"np.int64", "np.float64"}


def records_made(source: Path) -> list[str]:
    """Compiled functions of a source that make an array of anything but plain numbers."""
    found = []
    for function in ast.walk(ast.parse(source.read_text(encoding="utf-8"))):
        if not isinstance(function, ast.FunctionDef):
            continue
        if not COMPILED & {ast.unparse(one) for one in function.decorator_list}:
            continue
        for call in (node for node in ast.walk(function) if isinstance(node, ast.Call)):
            name = ast.unparse(call.func).removeprefix("np.")
            kinds = [*call.args[1:], *(k.value for k in call.keywords if k.arg == "dtype")]
            kinds = [kind for kind in kinds if ast.unparse(kind) not in PLAIN_NUMBERS]
            if MAKES.match(name) and any(isinstance(kind, ast.Name) for kind in kinds):
                found.append(f"{source.name} {function.name}: {ast.unparse(call)}")
    return found


def test_no_compiled_function_makes_an_array_of_records() -> None:
    """A record keeps its array from being freed in Python, but not in compiled code."""
    assert [found for source in kernel_sources() for found in records_made(source)] == []


def test_the_look_for_arrays_of_records_finds_one(tmp_path: Path) -> None:
    source = tmp_path / "made.py"
    source.write_text("@kernel\ndef made():\n    return np.zeros(1, WORK)[0]\n", encoding="utf-8")
    assert records_made(source) == ["made.py made: np.zeros(1, WORK)"]
