"""Whether a cam can be made, and the nearest one that can."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from firstfire.engine.cam_lift import ratio
from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import EngineFileError, OutsideValidity
from firstfire.formulas import cam_curvature, cam_law
from firstfire.loads.cam_profile import Profile, profile
from firstfire.runs.valve_gaps import TIGHT, piston_gap
from firstfire.setup.cams.events import LAWS, Wanted
from firstfire.setup.cams.numbers import STEEPEST, shape
from firstfire.setup.cams.wanted import values
from firstfire.setup.number import Number

_PLACES = 361
_LARGEST = 40e-3  # base radius that is still a cam of a small engine, m
_MILD = {"inlet": (10.0, 40.0), "exhaust": (45.0, 10.0)}  # degrees: the file's own by rule of thumb


@dataclass(frozen=True)
class Nearest:
    """The nearest cam that can be made.

    Attributes
    ----------
    words
        What has to be given up or changed.
    values
        Values of the engine file that give it, by path.
    """

    words: str
    values: dict[str, object]


def line_width(plain: PlainEngine) -> float:
    """How wide a line of the printer is, m, as the crank is printed: cams are printed like it."""
    return float(plain.crank.line_width)


def unmakeable(plain: PlainEngine, made: Profile) -> tuple[Number, ...]:
    """The numbers of its shape that keep a cam from being made."""
    return tuple(one for one in shape(made, line_width(plain)) if not one.holds)


def faults(plain: PlainEngine, which: str) -> list[str]:
    """Why a cam of the engine can't be made or would break something, a sentence each."""
    made = profile(plain.cylinders[0], which, _PLACES)  # type: ignore[arg-type]
    found = [_said(one) for one in unmakeable(plain, made)]
    if math.degrees(2 * float(made.angle[-1] - made.angle[0])) > 700:
        found.append("Ramps and flanks together leave no base circle: open it for less long.")
    gap = piston_gap(plain, 0, made)
    if gap is not None and gap.gap < TIGHT:
        met = "meets the piston" if gap.gap <= 0 else f"clears the piston by {1e3 * gap.gap:.2g} mm"
        found.append(
            f"The valve {met} {gap.where}; {1e3 * TIGHT:g} mm are left for what stretches and "
            "what is made badly."
        )
    return found


def _said(one: Number) -> str:
    if one.limit is None:
        return one.words
    scale, unit = (180 / math.pi, "°") if one.unit == "rad" else (1e3, " mm")
    value, limit = one.value * scale, one.limit * scale
    undercut = ""
    if one.value < 0:
        undercut = "; below 0 it is hollow where nothing reaches, and undercuts itself"
    said = f"{one.words[0].upper()}{one.words[1:]}"
    return f"{said} is {value:.3g}{unit}: {one.side} {limit:.3g}{unit} can be made{undercut}."


def nearest(engine: Engine, asked: Wanted) -> Nearest | None:
    """The nearest cam that can be made, by the least that has to give way; None: none was found.

    First what rides on the cam, then the size of the cam, then the law, then
    the overlap, then lift, then length; last, as far towards mild events as it takes.
    """
    plain = resolve(engine)
    for words, changed, other in (*_ways(plain, asked), *_milder(plain, asked)):
        try:
            put = {**values(changed), **other}
            changed_plain = resolve(with_values(engine, put))
        except (EngineFileError, OutsideValidity):  # no engine file can have it
            continue
        if not faults(changed_plain, asked.which):
            return Nearest(words, put)
    return None


def _bases(plain: PlainEngine, asked: Wanted) -> Iterator[float]:
    """Larger base circles, m: first the least with which its flanks can be made."""
    valve = getattr(plain.cylinders[0].valves, asked.which)
    law: cam_law.RiseLaw = getattr(cam_law, asked.law)
    rise = asked.lift / ratio(valve), (asked.opens + math.pi + asked.closes) / 4
    least = line_width(plain)
    tried = [more * valve.base_radius for more in (1.1, 1.2, 1.35, 1.5, 1.75, 2.0, 2.5)]
    largest = min(max(tried[-1], 5 * asked.lift), _LARGEST)
    if valve.follower == "flat":
        smallest = cam_curvature.base_radius_for_flat_follower(law, *rise, 1.05 * least)
        if smallest > valve.base_radius:
            yield smallest
    else:
        for base in np.arange(valve.base_radius, largest, 0.5e-3).tolist()[1:]:
            flank = cam_curvature.roller_follower(law, *rise, base, valve.follower_radius)
            if flank.smallest_cam_radius >= least and flank.steepest <= STEEPEST:
                yield base
                break
    yield from tried


def _ways(plain: PlainEngine, asked: Wanted) -> Iterator[tuple[str, Wanted, dict[str, object]]]:
    valve, here = getattr(plain.cylinders[0].valves, asked.which), f"valves.{asked.which}."
    if valve.follower != "flat":
        for part in (0.8, 0.65, 0.5, 0.4, 0.3):
            radius = f"{1e3 * part * valve.follower_radius:.2g} mm"
            yield (f"with {radius} of radius on what rides on it", asked,
                   {here + "follower_radius": radius})  # fmt: skip
    for base in _bases(plain, asked):
        size = _tenths(base)
        yield f"on a base circle of {size} radius", asked, {here + "base_radius": size}
    for law in ("modified_sine", "polynomial_345", *LAWS):
        yield f"with the law {law}", replace(asked, law=law), {}
    for degrees in (5, 10, 15, 20, 30, 40, 50):
        inner = math.radians(degrees)
        if asked.which == "inlet":
            yield f"opening {degrees}° later", replace(asked, opens=asked.opens - inner), {}
        else:
            yield f"closing {degrees}° earlier", replace(asked, closes=asked.closes - inner), {}
    for less in (0.95, 0.9, 0.85, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3):
        lift = math.floor(1e4 * less * asked.lift) * 1e-4
        if lift > max(asked.at_lift, 0.3e-3):
            yield f"with {1e3 * lift:.3g} mm of lift", replace(asked, lift=lift), {}
    for degrees in (5, 10, 15, 20, 30, 40):
        wider = math.radians(degrees)
        longer = replace(asked, opens=asked.opens + wider, closes=asked.closes + wider)
        yield f"opening {degrees}° earlier and closing {degrees}° later", longer, {}


def _milder(plain: PlainEngine, asked: Wanted) -> Iterator[tuple[str, Wanted, dict[str, object]]]:
    """Step by step from what is asked to mild events and little lift, on larger cams if need be."""
    opens, closes = map(math.radians, _MILD[asked.which])
    valve, here = getattr(plain.cylinders[0].valves, asked.which), f"valves.{asked.which}."
    least = min(asked.lift, 0.2 * valve.throat_diameter)
    for share in (0.25, 0.5, 0.75, 1.0):
        mild = replace(
            asked, at_lift=0.0, centre=None, opens=asked.opens + share * (opens - asked.opens),
            closes=asked.closes + share * (closes - asked.closes),
            lift=math.floor(1e4 * (asked.lift + share * (least - asked.lift))) * 1e-4,
        )  # fmt: skip
        words = (
            f"with opens {math.degrees(mild.opens):.0f}°, closes {math.degrees(mild.closes):.0f}° "
            f"and {1e3 * mild.lift:.2g} mm of lift"
        )
        yield words, mild, {}
        for base in (1.5 * valve.base_radius, max(3 * mild.lift, 2.5 * valve.base_radius)):
            size = _tenths(min(base, _LARGEST))
            yield f"{words}, on a base circle of {size} radius", mild, {here + "base_radius": size}


def _tenths(size: float) -> str:
    """No less than a size, in whole tenths of a millimetre; what rounding adds is no more."""
    return f"{math.ceil(round(1e4 * size, 6)) / 10:g} mm"
