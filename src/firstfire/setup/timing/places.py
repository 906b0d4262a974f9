"""Where an event lies, as a bench has it: before which centre, how far along a rim."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.cam_lift import bottom_after_top
from firstfire.engine.geometry import mechanism
from firstfire.engine.happenings import Happening, happenings
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.belt import pulley_pitch_diameter
from firstfire.formulas.setting import rim_length
from firstfire.formulas.slider_crank import piston_travel

_ON = math.radians(0.05)


@dataclass(frozen=True)
class Place:
    """One event and where to look for it.

    Attributes
    ----------
    event
        What happens, and at which crank angle.
    words
        From the nearest centre: *10° before overlap top*.
    rim
        Along the flywheel's rim from the mark for cylinder 1's top, m; negative before it. None
        without a flywheel.
    pulley
        Along the cam wheel's pitch line from its mark at the firing top of cylinder 1, m, up to
        half a turn either way; negative before it.
    cam
        The same as an angle of the cam, rad.
    depth
        Crown below the cylinder's top face, m; negative above it.
    """

    event: Happening
    words: str
    rim: float | None
    pulley: float
    cam: float
    depth: float


def places(plain: PlainEngine) -> tuple[Place, ...]:
    """Every event with its place, in the order in which the crank meets them."""
    return tuple(place_of(plain, event) for event in happenings(plain))


def place_of(plain: PlainEngine, event: Happening) -> Place:
    """Where one event lies."""
    parts = plain.cylinders[event.cylinder - 1]
    drive = plain.cam_drive
    wheel = pulley_pitch_diameter(drive.teeth_cam, drive.pitch)
    cam = (0.5 * event.crank + math.pi) % (2.0 * math.pi) - math.pi
    return Place(
        event=event,
        words=where(event.own, bottom_after_top(parts)),
        rim=rim_length(event.turn, plain.flywheel.diameter) if has_rim(plain) else None,
        pulley=rim_length(cam, wheel),
        cam=cam,
        depth=parts.cylinder.deck + piston_travel(event.own, *mechanism(parts)),
    )


def has_rim(plain: PlainEngine) -> bool:
    """Whether there is a flywheel to mark."""
    return plain.flywheel.thickness > 0


def where(own: float, bottom: float = math.pi) -> str:
    """A crank angle after a cylinder's firing top, from the nearest centre.

    Parameters
    ----------
    own
        rad, any turn.
    bottom
        Of bottom dead centre after top, rad.

    Examples
    --------
    >>> where(math.radians(350)), where(math.radians(-5)), where(math.radians(225))
    ('10° before overlap top', '5° before firing top', '45° after bottom')
    """
    cycle = 4.0 * math.pi
    own %= cycle
    centres = (
        (0.0, "firing top"), (bottom, "bottom"), (0.5 * cycle, "overlap top"),
        (0.5 * cycle + bottom, "bottom"), (cycle, "firing top"),
    )  # fmt: skip
    centre, name = min(centres, key=lambda one: abs(own - one[0]))
    apart = own - centre
    if abs(apart) < _ON:
        return f"at {name}"
    return f"{degrees(abs(apart))} {'after' if apart > 0 else 'before'} {name}"


def degrees(angle: float) -> str:
    """An angle to a tenth of a degree, without a needless nought.

    Examples
    --------
    >>> degrees(math.radians(40)), degrees(math.radians(12.26))
    ('40°', '12.3°')
    """
    return f"{round(math.degrees(angle), 1) + 0.0:g}°"
