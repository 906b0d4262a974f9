"""Cams to be printed: each as a closed curve with its key line."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from firstfire.drawing.model import Lettering, Region, Shape
from firstfire.drawing.outlines import at
from firstfire.drawing.templates.cam_outline import CamShape, cam_shape, workable_base
from firstfire.drawing.templates.template import (
    SMALL,
    Template,
    cross,
    hole,
    part,
    sense,
    tick,
    way,
)
from firstfire.engine.cam_lift import ratio, spans, valve_of
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.valves import CamValve

_ORIGIN = (0.0, 0.0)


@dataclass(frozen=True)
class Cam:
    """A cam of one valve, and how it stands on its shaft.

    Attributes
    ----------
    which, cylinders
        ``inlet`` or ``exhaust``, and whose.
    shape
        Its edge, key line upwards.
    widened
        Base radius that the engine has, m, where its cam would undercut itself and a larger one
        is drawn; else None.
    """

    which: str
    cylinders: tuple[int, ...]
    shape: CamShape
    widened: float | None = None


def cams(plain: PlainEngine) -> list[Cam]:
    """Every cam; those alike, that stand alike on their shafts, once.

    Cylinders side by side share a shaft, whose key line points to the followers when cylinder 1
    fires; of cylinders that stand apart each has its own, which does so when its own cylinder
    fires. One that would undercut itself is drawn on a larger base circle.
    """
    sign, fires = sense(plain, cam=True), firing_angles(plain)
    shared = plain.layout.kind == "parallel_twin"
    found: dict[tuple[object, ...], Cam] = {}
    for index, parts in enumerate(plain.cylinders):
        for which, span in spans(parts).items():
            valve = valve_of(parts, which)
            shift = 0.5 * fires[index] if shared else 0.0
            key = which, valve, span, round(shift, 9)
            if key in found:
                old = found[key]
                found[key] = replace(old, cylinders=(*old.cylinders, index + 1))
            else:
                base = workable_base(valve, span)
                drawn = valve.model_copy(update={"base_radius": base})
                found[key] = Cam(
                    which, (index + 1,), cam_shape(drawn, span, shift=shift, sign=sign),
                    None if base == valve.base_radius else valve.base_radius,
                )  # fmt: skip
    return list(found.values())


def cam_templates(plain: PlainEngine) -> Iterator[Template]:
    """A template of each cam."""
    for cam in cams(plain):
        yield _template(plain, cam)


def _template(plain: PlainEngine, cam: Cam) -> Template:
    shape, sign = cam.shape, sense(plain, cam=True)
    valve = valve_of(plain.cylinders[cam.cylinders[0] - 1], cam.which)
    out = shape.tip + 6.0
    nose = math.pi / 2 + sign * shape.nose
    marks: list[Shape] = [
        *cross(0, 0, 3.0), hole(0, 0, 0.5), tick(_ORIGIN, (0.0, out), "centre"),
        tick(_ORIGIN, at(_ORIGIN, out, nose), "centre"),
    ]  # fmt: skip
    side = "start" if math.cos(nose) >= 0 else "end"
    words: list[Shape] = [
        Lettering((0.0, out + 1.5), "KEY", SMALL, "middle"),
        Lettering(at(_ORIGIN, out + 2.0, nose), f"nose {math.degrees(shape.nose):.1f}°", SMALL,
                  "start" if side == "start" else "end"),
    ]  # fmt: skip
    whose = "" if len(plain.cylinders) == 1 else (
        f" of cylinder{'s' * (len(cam.cylinders) > 1)} {' and '.join(map(str, cam.cylinders))}"
    )  # fmt: skip
    suffix = "" if len(plain.cylinders) == 1 else "-" + "-".join(map(str, cam.cylinders))
    rides = {"flat": "a flat follower", "roller": f"a roller of {_mm(valve.follower_radius)} mm",
             "curved": f"a follower rounded to {_mm(valve.follower_radius)} mm"}  # fmt: skip
    return Template(
        slug=f"cam-{cam.which}{suffix}", engine=plain.name,
        title=f"Cam of the {cam.which} valve{whose}",
        parts=(
            part("cam", "edge of the cam", "cut", Region((shape.loop,), "none", "outline")),
            part("lines", "key line and nose", "marks", *marks),
            part("names", "names", "words", *words),
        ),
        notes=(
            f"Seen at the flywheel's end; the cam turns {way(sign)}. KEY points to the follower "
            f"when {'cylinder 1' if plain.layout.kind == 'parallel_twin' else 'its cylinder'} "
            f"is at firing top; the nose lies {math.degrees(shape.nose):.1f}° from it, "
            f"{'anticlockwise' if sign > 0 else 'clockwise'}. Put the keyway, pin or flat there.",
            f"For {rides[valve.follower]} {_led(valve)} Base radius "
            f"{shape.base:.2f} mm, rise {_rise(valve):.2f} mm with {_mm(valve.lash)} mm of lash "
            f"at the valve taken up by a ramp of {math.degrees(0.5 * valve.cam_ramp):.0f}° of the "
            f"cam on each side. Least radius on it {shape.least_radius:.1f} mm.",
            *_widened(cam),
            *_sharp(cam.shape),
            "The hole for the shaft is yours: the file has no size for it.",
        ),
    )  # fmt: skip


def _led(valve: CamValve) -> str:
    """Which way its follower is led, and where a rocker's pivot stands."""
    if valve.rocker != "rocker":
        return "that moves straight towards the axis."
    arm = f"on a rocker's arm of {_mm(valve.rocker_arm)} mm, {ratio(valve):.3g} to 1."
    flat = valve.follower == "flat"
    prime = valve.base_radius + (0.0 if flat else valve.follower_radius)
    return (
        f"{arm} Its pivot stands {_mm(prime)} mm out from the cam's axis, along the line to the "
        f"follower on the base circle, and {_mm(valve.rocker_arm)} mm to the side to which the "
        "cam's top runs there: "
        f"{_mm(math.hypot(prime, valve.rocker_arm))} mm from axis to pivot."
        + (" Its face, drawn out, meets the pivot." if flat else "")
    )


def _rise(valve: CamValve) -> float:
    """Rise of the follower, mm, ramp and all."""
    return 1e3 * (valve.lift + valve.lash) / ratio(valve)


def _widened(cam: Cam) -> Iterator[str]:
    """That it is drawn on another base circle than the engine has."""
    if cam.widened is not None:
        yield (
            f"The engine's base radius, {_mm(cam.widened)} mm, would undercut this cam under its "
            f"follower. It is drawn with the nearest that works: write "
            f'valves.{cam.which}.base_radius = "{cam.shape.base:.4g} mm".'
        )


def _sharp(shape: CamShape) -> Iterator[str]:
    """That a nose is sharper than can be printed."""
    if shape.least_radius < 1.0:
        yield (
            f"Its sharpest place has a radius of {shape.least_radius:.1f} mm: a nozzle of 0.4 mm "
            "rounds that off, and it wears. A larger base_radius, less lift or a longer opening "
            "blunts it."
        )


def _mm(length: float) -> str:
    return f"{1e3 * length:.3g}"
