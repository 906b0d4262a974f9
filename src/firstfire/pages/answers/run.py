"""What the page *Will it run* asks of the event at hand: its cycle in curves, motion and sound."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
from markupsafe import Markup

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.pages.answers.messages import Asked, Told
from firstfire.pages.answers.motion import motion
from firstfire.pages.answers.samples import AWAY, samples
from firstfire.pages.answers.templates import rendered
from firstfire.report.charts.gas_temperature import gas_temperature_chart
from firstfire.report.charts.joint_forces import joint_forces_chart, mains_chart, twist_chart
from firstfire.report.charts.loop import loop_chart
from firstfire.report.charts.plot import Chart
from firstfire.report.charts.pressure import pressure_chart
from firstfire.report.charts.torque import torque_chart
from firstfire.report.charts.valve_flow import valve_flow_chart
from firstfire.runs.bout import Bout
from firstfire.runs.heard import heard
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.words.captions import at_speed
from firstfire.verdict.words.made import bar

_LASTS = 1.0
"""For how long it is listened to, s."""


def more(asked: Asked, plain: PlainEngine, bout: Bout, told: Callable[..., Told]) -> Iterator[Told]:
    """What was asked for beside margins."""
    if "cycle" in asked.also:
        said = Markup('<p class="lede">{}</p>').format(runs(bout))
        yield told("cycle", html=cycle_html(bout, plain), runs=said, motion=motion(bout, plain))
    if "sound" in asked.also:
        yield told("sound", **sound(bout, plain))


def runs(bout: Bout) -> str:
    """What comes of the event at hand, in a sentence."""
    point = bout.point
    if EVENTS[point.event].once:
        peaks = point.peaks[0]
        return (
            f"A first combustion peaks at {bar(peaks.mean)}{THIN}bar, one in 20 at "
            f"{bar(peaks.strong)}{THIN}bar: an estimate."
        )
    speed = f"At {at_speed(point)}"
    torque = f"{figures(abs(point.brake_torque))}{THIN}N·m"
    if point.brake_torque < 0.0:
        return f"{speed} its shaft has to be turned with {torque}: an estimate."
    power = f"{figures(point.brake_power)}{THIN}W"
    dark = "".join(f" Cylinder {number} does not light." for number in point.misfires)
    return f"{speed} it gives {torque} and {power} at its shaft: an estimate.{dark}"


def cycle_html(bout: Bout, plain: PlainEngine) -> Markup:
    """Every curve of a cycle as a fragment, each marked with what its axis counts from."""
    return rendered("cycle.html.j2", charts=list(cycle_charts(bout, plain)))


def cycle_charts(bout: Bout, plain: PlainEngine) -> Iterator[tuple[Chart, int]]:
    """The charts, and the cylinder whose crank angle each is over: 0 for the shaft's own."""
    count = len(plain.cylinders)
    rows = range(count)
    for row in rows:
        yield pressure_chart(bout, None, row, count), row + 1
    if count == 1:  # beside the pressure; of two cylinders each has its like beside it
        yield loop_chart(bout), 0
    for row in rows:
        yield gas_temperature_chart(bout, row, count), row + 1
    for row in rows:
        yield valve_flow_chart(bout, row, count), row + 1
    if count > 1:
        yield loop_chart(bout), 0
    yield torque_chart(bout, plain), 0
    for row in range(count):
        yield joint_forces_chart(bout, plain, row), row + 1
    yield mains_chart(bout, plain), 0
    twist = twist_chart(bout, plain)
    if twist is not None:
        yield twist, 0


def sound(bout: Bout, plain: PlainEngine) -> dict[str, Any]:
    """What is heard of an engine that is held running: samples, and how loud it is in words.

    Without samples where it is not held or does not fire: what it says then is why.
    """
    event = EVENTS[bout.point.event]
    if event.once or bout.point.spark is None or len(bout.point.misfires) == len(plain.cylinders):
        return {"words": "Only an engine that runs steadily is computed: choose such an event."}
    period = 4 * np.pi / bout.point.speed
    told = heard(bout.point, distance=AWAY, cycles=max(round(_LASTS / period), 4))
    return {
        **samples(told.sound),
        "words": (
            f"Computed, of the exhaust alone, at {AWAY:g} m in the open: some "
            f"{told.level:.0f} dB, mostly about {told.loudest:.0f} Hz. Every cycle is the mean "
            "one, and it is played as loud as you set your speaker: an estimate."
        ),
    }
