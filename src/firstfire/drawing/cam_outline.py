"""The outline of a cam as a closed curve, to scale 1:1, that a CAD program can extrude."""

from __future__ import annotations

import math

import numpy as np

from firstfire.drawing.model import (
    Box,
    Centreline,
    Drawing,
    Lettering,
    Loop,
    Part,
    Region,
    Shape,
)
from firstfire.loads.cam_profile import Profile, outline

_BORDER = 12.0
_LINES = 5.0


def cam_outline(name: str, made: Profile) -> Drawing:
    """A cam seen so that it turns clockwise, its nose to the right, its axis where centres cross.

    Parameters
    ----------
    name
        Of the engine.
    made
        The cam.
    """
    edge = 1e3 * outline(made)
    loop: Loop = tuple((x, y, 0.0) for x, y in edge.tolist())
    far = float(np.hypot(edge[:, 0], edge[:, 1]).max())
    words = _words(made)
    left, low = -far - _BORDER, -far - _BORDER - _LINES * len(words)
    right = max(far + _BORDER, left + 100.0)
    legend: list[Shape] = [
        Lettering((left + 2.0, low + 2.0 + _LINES * row), said)
        for row, said in enumerate(reversed(words))
    ]
    reach = far + 4.0
    return Drawing(
        name=name,
        title=f"{made.which} cam, outline 1:1",
        description=" ".join(words),
        parts=(Part("cam-1", f"{made.which} cam", "cam", (Region((loop,), "none"),)),),
        labels=(),
        centrelines=(
            Centreline((-reach, 0.0), (reach, 0.0)),
            Centreline((0.0, -reach), (0.0, reach)),
        ),
        arrows=(),
        legend=tuple(legend),
        box=Box(left, low, right, far + _BORDER),
        unit=1.0,
        crank_angle=0.0,
        points={"axis": (0.0, 0.0), "nose": (far, 0.0)},
    )


def _words(made: Profile) -> tuple[str, ...]:
    valve = made.valve
    rides = valve.follower if valve.follower == "flat" else (
        f"{valve.follower} of {1e3 * valve.follower_radius:.3g} mm radius"
    )  # fmt: skip
    nose = math.degrees(made.centre) % 720.0
    return (
        f"{made.which} cam, scale 1:1, seen so that it turns clockwise.",
        f"Base circle {2e3 * valve.base_radius:.4g} mm, lift {1e3 * float(made.rise.max()):.4g} mm "
        f"at the cam; follower: {rides}.",
        f"Nose on the follower {nose:.1f}° of crank after firing top; "
        f"{1e3 * valve.cam_width:.3g} mm wide.",
    )
