"""How an engine sounds at a steady point: its exhausts' open ends as one point of source."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from firstfire.formulas.exhaust_sound import displaced_flow, exhaust_sound
from firstfire.formulas.hermite import Floats
from firstfire.formulas.sound_level import (
    Sound,
    firing_frequency,
    sound_level,
    spectrum,
    tone_pressures,
)
from firstfire.runs.point import OperatingPoint

TAIL = "tail "
"""How the names of the passages into the open begin; a cylinder's number follows."""
_STUB = "stub "


@dataclass(frozen=True)
class Heard:
    """The sound of a steady point.

    Attributes
    ----------
    sound
        Its samples.
    level
        Over all frequencies alike, dB re 20 µPa.
    tones
        Root mean square pressure of the cycle's frequency and its overtones, Pa, (count,).
    loudest
        Frequency with most of it, Hz.
    """

    sound: Sound = field(repr=False)
    level: float
    tones: Floats = field(repr=False)
    loudest: float


def tail_flow(point: OperatingPoint) -> tuple[Floats, Floats]:
    """Over one cycle: time, s, and the outside air that all exhausts push away, kg/s."""
    curves, spec = point.fired.cycle.curves, point.fired.spec
    volumes = [cylinder.name for cylinder in spec.cylinders] + [one.name for one in spec.volumes]
    pushed = np.zeros(len(curves.time))
    for at, name in enumerate(point.fired.cycle.passages):
        if name.startswith(TAIL):
            warm = curves.temperature[:, volumes.index(_STUB + name.removeprefix(TAIL))]
            pushed += displaced_flow(curves.flow[:, at], warm, spec.ambient_temperature)
    return curves.time, pushed


def heard(
    point: OperatingPoint,
    *,
    distance: float,
    rate: float = 44_100.0,
    cycles: int = 20,
    reflection: float = 1.0,
    overtones: int = 12,
) -> Heard:
    """What is heard of an engine's exhaust at a distance, cycle after like cycle.

    Parameters
    ----------
    point
        Fired or turned, steady.
    distance
        m; all open ends stand together as seen from there.
    rate
        Samples a second, 1/s.
    cycles
        How many, 4 at least.
    reflection
        1 in the open, 2 close to hard ground.
    overtones
        How many notes are told, the cycle's own among them.
    """
    time, flow = tail_flow(point)
    lasts = time[-1] - time[0]
    times = (time[:-1] - time[0] + lasts * np.arange(cycles)[:, None]).ravel()
    times, flows = np.append(times, cycles * lasts), np.append(np.tile(flow[:-1], cycles), flow[0])
    sound = exhaust_sound(times, flows, distance=distance, rate=rate, reflection=reflection)
    lines, squares = spectrum(sound)
    return Heard(
        sound=sound,
        level=sound_level(sound.pressure),
        tones=tone_pressures(sound, firing_frequency(point.speed), overtones),
        loudest=float(lines[np.argmax(squares)]),
    )
