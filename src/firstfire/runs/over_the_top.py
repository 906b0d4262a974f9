"""Changes that bring an engine over its top which its starter doesn't, each tried."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from firstfire.engine.quantity import write_quantity
from firstfire.engine.records import Raise
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.comes_over import comes_over

_GEARED = (0.75, 0.5, 0.33, 0.25, 0.17, 0.1)
_WOUND = (1.25, 1.5, 2.0, 2.5, 3.0)
_HEAVIER = (1.5, 2.0, 3.0, 5.0, 10.0)
_EFFORT = "other_starter"


def helped_over(plain: PlainEngine, stop: Callable[[], bool] | None = None) -> tuple[Raise, ...]:
    """What would bring it over the top, the mildest of each kind.

    Parameters
    ----------
    plain
        Plain numbers of an engine that doesn't come over.
    stop
        Asked at least every 0.1 s.
    """
    kinds = (_drums(plain), _gears(plain), _flywheels(plain), _decompression(plain))
    found = []
    for kind in kinds:
        over = (change for change, moved in kind if comes_over(moved, stop=stop))
        found.append(next(over, None))
    return tuple(change for change in found if change is not None)


Tried = Iterator[tuple[Raise, PlainEngine]]


def _starter(plain: PlainEngine, **changes: float | bool) -> PlainEngine:
    return plain.model_copy(update={"starter": plain.starter.model_copy(update=changes)})


def _drums(plain: PlainEngine) -> Tried:
    """A rope on a larger drum pulls with a longer arm, and runs out sooner."""
    force, drum = plain.starter.pull_force, plain.starter.drum_diameter
    if force is None or drum is None:
        return
    for share in _WOUND:
        wound = round(drum * share, 3)
        moved = _starter(
            plain, drum_diameter=wound, stall_torque=force * wound / 2,
            no_load_speed=plain.starter.no_load_speed * drum / wound,
        )  # fmt: skip
        written = write_quantity(wound, "length")
        text = f"Wind the rope on a drum of {written}"
        yield Raise(text, {"starter.drum_diameter": written}, _EFFORT), moved


def _gears(plain: PlainEngine) -> Tried:
    """Fewer turns of the crank for one of the starter: more torque, less speed."""
    if plain.starter.pull_force is not None:
        return
    for share in _GEARED:
        ratio = round(plain.starter.ratio * share, 2)
        if ratio < 0.02:
            return
        text = f"Gear the starter to {ratio:g} turns of the crank for one of its own"
        yield Raise(text, {"starter.ratio": f"{ratio:g}"}, _EFFORT), _starter(plain, ratio=ratio)


def _flywheels(plain: PlainEngine) -> Tried:
    """A heavier wheel carries it over, once it has a run-up."""
    for share in _HEAVIER:
        inertia = float(f"{max(plain.flywheel.inertia, 1e-4) * share:.2g}")
        wheel = plain.flywheel.model_copy(update={"inertia": inertia})
        written = write_quantity(inertia, "inertia")
        text = f"Fit a flywheel of {written}"
        change = Raise(text, {"flywheel.inertia": written}, "heavier_flywheel")
        yield change, plain.model_copy(update={"flywheel": wheel})


def _decompression(plain: PlainEngine) -> Tried:
    if not plain.starter.decompression:
        text = "Let compression off until it turns fast"
        change = Raise(text, {"starter.decompression": "true"}, "decompressor")
        yield change, _starter(plain, decompression=True)
