"""Temperature through each wall at several seconds of a run."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from firstfire.engine.records import Temperatures
from firstfire.engine.resolve import PlainEngine
from firstfire.heat.answers import temperatures_at
from firstfire.parts.softness import last_known, softens_at
from firstfire.report.charts.plot import Axis, Chart, Plot, plot, spaced
from firstfire.report.series import Floats
from firstfire.runs.bout import Bout
from firstfire.verdict.numbers import shown
from firstfire.verdict.words import captions
from firstfire.verdict.words.sentences import lasting, listed

_SECONDS = (1.0, 4.0, 15.0, 60.0, 300.0)
_KELVIN = 273.15
_LETTERS = 12.0
_LETTER = 5.6


@dataclass(frozen=True)
class Wall:
    """A wall that is drawn: its name, and its layers from the fire outwards with materials."""

    name: str
    layers: tuple[tuple[str, str, str], ...]


def _walls(plain: PlainEngine, cylinder: int) -> Iterator[Wall]:
    parts = plain.cylinders[cylinder]
    shield = ("shield", "shield", parts.piston.shield.material)
    plate = ("chamber_plate", "chamber plate", parts.head.chamber_plate or "")
    yield Wall("crown", (shield, ("crown", "crown", parts.piston.material)))
    yield Wall("head", (plate, ("head", "head", parts.head.material)))
    yield Wall(
        "cylinder wall",
        (("liner", "liner", parts.liner.material), ("body", "body", parts.body.material)),
    )
    yield Wall("exhaust port", (("exhaust_port", "port wall", parts.head.material),))


def wall_charts(bout: Bout, plain: PlainEngine, cylinder: int) -> list[Chart]:
    """A chart for each wall of a cylinder that gas touches.

    Parameters
    ----------
    bout
        Held from cold.
    plain
        Plain numbers.
    cylinder
        From 0.
    """
    history = bout.histories[cylinder]
    seconds = [s for s in _SECONDS if s <= float(history.seconds[-1])]
    moments = [temperatures_at(history, second) for second in seconds]
    if not moments:
        return []
    return [
        _chart(bout, plain, wall, _while_it_stands(plain, wall, moments))
        for wall in _present(plain, cylinder, moments[0])
    ]


def _while_it_stands(
    plain: PlainEngine, wall: Wall, moments: list[Temperatures]
) -> list[Temperatures]:
    """Moments up to the first at which a layer is lost in the mean: later ones say nothing."""
    for number, moment in enumerate(moments):
        for part, _, key in wall.layers:
            material = plain.materials.get(key)
            if material and moment.parts[part].mean > last_known(material):
                return moments[: number + 1]
    return moments


def _present(plain: PlainEngine, cylinder: int, moment: Temperatures) -> Iterator[Wall]:
    for wall in _walls(plain, cylinder):
        layers = tuple(layer for layer in wall.layers if layer[0] in moment.parts)
        if layers:
            yield Wall(wall.name, layers)


def _chart(bout: Bout, plain: PlainEngine, wall: Wall, moments: list[Temperatures]) -> Chart:
    profiles = [_profile(moment, wall) for moment in moments]
    depth = profiles[0][0][-1] * 1e3
    hot = max(float(t.max()) for _, t in profiles) - _KELVIN
    cold = min(float(t.min()) for _, t in profiles) - _KELVIN
    # two rows of names stand over the hottest curve
    high = hot + 0.18 * (hot - min(cold, 0)) + 5
    across = Axis(0, depth, "mm from the hot face", "mm")
    paper = plot(across, Axis(min(cold, 0), high, "°C, mean over the cycle", "°C"), right=48)
    paper, halves = _layers(paper, plain, wall, moments[0])
    ends = []
    for (places, temperature), moment in zip(profiles, moments, strict=True):
        name = f"after {lasting(moment.seconds)}"
        paper = paper.curve(places * 1e3, temperature - _KELVIN, "strong", name)
        ends.append(paper.y.at(float(temperature[-1]) - _KELVIN))
    places_y = spaced(ends, _LETTERS, paper.y.end, paper.y.start)
    base = paper.y.at(0.0)
    for moment, place in zip(moments, places_y, strict=True):
        paper = paper.text(depth, 0.0, lasting(moment.seconds), shift=(5, place - base + 4))
    title = f"Through the {wall.name}"
    last = profiles[-1][1]
    said = captions.wall(
        wall.name, bout.point.name, moments[-1].seconds, float(last[0]), float(last[-1])
    )
    if halves:
        said += f" Dotted: half its strength is left, of the {listed(halves)}."
    name = f"wall-{wall.name.replace(' ', '-')}"
    return Chart(name, title, said, paper.svg(name, title, said))


def _profile(moment: Temperatures, wall: Wall) -> tuple[Floats, Floats]:
    """Depth from the fire through all layers, and the temperature there."""
    depths, temperatures, reached = [], [], 0.0
    for part, _, _ in wall.layers:
        found = moment.parts[part]
        depths.append(found.depth + reached)
        temperatures.append(found.profile)
        reached += float(found.depth[-1])
    return np.concatenate(depths), np.concatenate(temperatures)


def _layers(
    paper: Plot, plain: PlainEngine, wall: Wall, moment: Temperatures
) -> tuple[Plot, list[str]]:
    """Where one layer ends and the next begins, and where each has half its strength left.

    The latter's words are given beside: curves cross its lines.
    """
    reached, halves = 0.0, []
    for part, words, key in wall.layers:
        thickness = float(moment.parts[part].depth[-1]) * 1e3
        middle = reached + thickness / 2
        if reached > 0:
            paper = paper.upright(reached, "centre")
        paper = _layer_name(paper, words, reached, middle)
        material = plain.materials.get(key)
        half = softens_at(material, 0.5) - _KELVIN if material else paper.y.high
        if half < paper.y.high:
            start, end = reached, reached + thickness
            paper = paper.curve([start, end], [half, half], "limit")
            halves.append(f"{words} at {shown(half + _KELVIN, 'degC')}")
        reached += thickness
    return paper, halves


def _layer_name(paper: Plot, words: str, start: float, middle: float) -> Plot:
    """A layer's name at the top of its depth; a row lower and from its edge where it is narrow."""
    room = 2 * (paper.x.at(middle) - paper.x.at(start))
    if room > _LETTER * len(words):
        return paper.text(middle, paper.y.high, words, anchor="middle", shift=(0, 10), kind="small")
    return paper.text(start, paper.y.high, words, shift=(4, 22), kind="small")
