"""Faults of a start: each a layer over the engine's values, or a thing that the start obeys.

None has its outcome written down: a leak leaks, a cam a tooth off opens its valves elsewhere, a
spark that comes half a cycle off finds the valves open.
"""

from __future__ import annotations

import difflib
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity, write_quantity
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.runs.start.asked import Asked

Layer = Mapping[str, object]
Obeyed = Mapping[str, Any]
Does = Callable[[PlainEngine, float], tuple[Layer, Obeyed]]


class DoesNotApplyError(ValueError):
    """An engine cannot have this fault; the words say why."""


@dataclass(frozen=True)
class Fault:
    """A fault that an engine may have when it is started.

    Attributes
    ----------
    name, what
        As it is asked for, and what is wrong.
    sign
        What a builder sees or hears of it.
    does
        The engine's values that it changes, and what the start obeys, from plain numbers and its
        size.
    size
        What its size is, e.g. "share of the coil's energy"; "" where it has none.
    dimension, usual
        Of that size, and how large it is if nothing is said, as written.
    """

    name: str
    what: str
    sign: str
    does: Does = field(repr=False)
    size: str = ""
    dimension: str = "ratio"
    usual: str = ""


def _value(path: str, dimension: str) -> Does:
    """A fault that is one value of the engine file."""
    return lambda _plain, size: ({path: write_quantity(size, dimension, digits=9)}, {})


def _obeys(**what: object) -> Does:
    return lambda _plain, _size: ({}, what)


def _sized(name: str) -> Does:
    return lambda _plain, size: ({}, {name: size})


def _spark_by(sign: float) -> Does:
    def does(plain: PlainEngine, size: float) -> tuple[Layer, Obeyed]:
        start, runs = plain.spark.start_angle, plain.spark.running_angle
        layer = {
            "spark.start_angle": write_quantity(start + sign * size, "angle", digits=6),
            "spark.running_angle": write_quantity(runs + sign * size, "angle", digits=6),
        }
        return layer, {}

    return does


def _battery(plain: PlainEngine, share: float) -> tuple[Layer, Obeyed]:
    """Speed and torque of a motor go with its voltage, a coil's energy with its square."""
    starter = plain.starter
    if starter.pull_force is not None:
        raise DoesNotApplyError("its starter is a rope, which has no battery")
    layer = {
        "starter.no_load_speed": write_quantity(share * starter.no_load_speed, "speed", digits=6),
        "starter.stall_torque": write_quantity(share * starter.stall_torque, "torque", digits=6),
    }
    return layer, {"spark_share": share**2}


def _return_lead(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    if any(plain.materials[parts.head.material].metal for parts in plain.cylinders):
        raise DoesNotApplyError("its head is of metal, which brings the current back")
    return {"plug.return_lead": False}, {"no_spark": True}


def _swapped(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    if len(plain.cylinders) < 2:
        raise DoesNotApplyError("it has one plug")
    if plain.spark.wasted:
        raise DoesNotApplyError("one coil fires both its plugs at once")
    return {}, {"swapped": True}


def _resets(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    if plain.spark.source == "points":
        raise DoesNotApplyError("it has breaker points and no controller")
    return {}, {"resets": True}


def _last_turn(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    if plain.spark.source == "points":
        raise DoesNotApplyError("it has breaker points, which know no clock")
    return {"spark.timed_by": "clock"}, {}


def _tooth(plain: PlainEngine, teeth: float) -> tuple[Layer, Obeyed]:
    """All cams later (or earlier) by so many teeth of their wheel, in degrees of the crank."""
    off = teeth * 4 * math.pi / plain.cam_drive.teeth_cam
    valves = plain.cylinders[0].valves
    layer = {}
    if valves.inlet.worked == "cam":
        layer["valves.inlet.opens_before_top"] = valves.inlet.opens_before_top - off
        layer["valves.inlet.closes_after_bottom"] = valves.inlet.closes_after_bottom + off
    layer["valves.exhaust.opens_before_bottom"] = valves.exhaust.opens_before_bottom - off
    layer["valves.exhaust.closes_after_top"] = valves.exhaust.closes_after_top + off
    return {path: write_quantity(one, "angle", digits=6) for path, one in layer.items()}, {}


def _each_leak(kind: str) -> Does:
    return _value(f"leak.{kind}", "area")


_AREA = "effective area"

FAULTS: tuple[Fault, ...] = (
    Fault("spark_never", "no spark at all", "it cranks and never fires", _obeys(no_spark=True)),
    Fault("spark_weak", "a weak spark", "it fires now and then, or never",
          _sized("spark_share"), "share of the coil's energy", "ratio", "0.05"),
    Fault("spark_180", "spark half a cycle off", "never a combustion; bangs in inlet or exhaust",
          _obeys(spark_shift=2 * math.pi)),
    Fault("spark_early", "spark too early", "it kicks, or drags at each firing",
          _spark_by(1.0), "earlier by", "angle", "20 deg"),
    Fault("spark_late", "spark too late", "hot exhaust, no power",
          _spark_by(-1.0), "later by", "angle", "20 deg"),
    Fault("last_turn", "timed by the clock from the last turn", "it kicks while it is slow",
          _last_turn),
    Fault("no_return_lead", "no lead from the plug's shell back to the coil",
          "a spark in the hand, none in the engine", _return_lead),
    Fault("controller_resets", "its controller resets at each dip of the starter",
          "it never fires while it is cranked", _resets),
    Fault("leads_swapped", "plug leads swapped, or a wrong firing order", "bangs, no running",
          _swapped),
    Fault("low_battery", "a low battery", "slow, weak spark", _battery,
          "share of its voltage", "ratio", "0.6"),
    Fault("reversed", "the starter turns it backwards", "it blows out of its inlet",
          _obeys(backwards=True)),
    Fault("cam_tooth", "cam drive teeth off, late; a minus sign: early", "weak compression",
          _tooth, "teeth", "ratio", "1"),
    Fault("no_fuel", "no fuel, or an injector that stays shut", "dry plug", _obeys(mixture=0.0)),
    Fault("too_much_fuel", "too much fuel, or an injector that stays open", "wet, black plug",
          _sized("mixture"), "mixture against just enough", "ratio", "2.5"),
    Fault("ring_leak", "leaking rings", "it breathes through its breather; oil helps",
          _each_leak("ring"), _AREA, "area", "1.5 mm^2"),
    Fault("gasket_leak", "leaking head gasket", "soap water bubbles at the gasket",
          _each_leak("gasket"), _AREA, "area", "1.5 mm^2"),
    Fault("plug_leak", "a loose plug", "it hisses at the plug",
          _each_leak("plug"), _AREA, "area", "1.5 mm^2"),
    Fault("worn_seat", "a worn exhaust seat", "it hisses in the exhaust",
          _each_leak("exhaust_seat"), _AREA, "area", "1.5 mm^2"),
    Fault("stuck_inlet", "an inlet valve held open", "it spits back, no compression",
          _each_leak("inlet_seat"), _AREA, "area", "20 mm^2"),
    Fault("stuck_exhaust", "an exhaust valve held open", "no compression",
          _each_leak("exhaust_seat"), _AREA, "area", "20 mm^2"),
    Fault("dragging", "a dragging bearing", "hard to turn, hot at one place",
          _sized("drag"), "its friction at the crank", "torque", "1 N*m"),
)  # fmt: skip
"""Every fault there is, in the order it is listed."""


def fault_named(name: str) -> Fault:
    """The fault of that name.

    Raises
    ------
    FirstfireError
        Where there is none; it names those that are alike.
    """
    for fault in FAULTS:
        if fault.name == name:
            return fault
    near = difflib.get_close_matches(name, [fault.name for fault in FAULTS], 3, 0.5)
    meant = f" Did you mean {' or '.join(near)}?" if near else ""
    raise FirstfireError(f'There is no fault "{name}".{meant} `firstfire faults` lists them.')


def with_faults(engine: Engine, asked: Asked, written: Sequence[str]) -> tuple[Engine, Asked]:
    """An engine and a start that have some faults.

    Parameters
    ----------
    engine, asked
        Without them.
    written
        ``name`` or ``name=size`` of each.

    Raises
    ------
    FirstfireError
        For unknown names and sizes that do not do, all at once.
    """
    faults: list[Problem] = []
    for one in written:
        try:
            engine, asked = _with(engine, asked, one)
        except EngineFileError as why:
            faults += why.problems
        except (FirstfireError, DoesNotApplyError) as why:
            faults.append(Problem(f"--fault {one}", f"can't be: {why}", "Leave it out."))
    if faults:
        raise EngineFileError("firstfire start", faults)
    return engine, asked


def _with(engine: Engine, asked: Asked, written: str) -> tuple[Engine, Asked]:
    name, _, size = written.partition("=")
    fault = fault_named(name.strip())
    value = _size(fault, size.strip(), written)
    layer, obeyed = fault.does(resolve(engine), value)
    if layer:
        engine = with_values(engine, dict(layer), layer="fault", origin=f"fault {fault.name}")
    mixture = obeyed.get("mixture")
    if mixture is not None:
        asked = replace(asked, mixture=float(str(mixture)))
    wrong = {key: value for key, value in obeyed.items() if key != "mixture"}
    return engine, replace(asked, wrong=replace(asked.wrong, **wrong))


def _size(fault: Fault, size: str, written: str) -> float:
    if not fault.size:
        if size:
            raise FirstfireError(f"it has no size; write --fault {fault.name}")
        return 0.0
    try:
        return float(read_quantity(size or fault.usual, fault.dimension))
    except NotAQuantity as why:
        cure = f'Write --fault {fault.name}="{fault.usual}".'
        raise EngineFileError("", [Problem(f"--fault {written}", why.fault, cure)]) from None


def listed() -> Iterator[tuple[str, str]]:
    """Each fault with its size as it is written, and what is wrong with what sign."""
    for fault in FAULTS:
        asked = f"{fault.name}={fault.usual}" if fault.size else fault.name
        size = f" ({fault.size})" if fault.size else ""
        yield asked, f"{fault.what}{size}: {fault.sign}"
