"""What no cam can do of the events that someone asks for, with the nearest that one can."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from firstfire.setup.cams.events import EARLIEST, LATEST, Wanted, apart, in_a_file, seat

_LEAST, _MOST = 0.3e-3, 20e-3  # of lift, as an engine file may have it, m
_FLANK = 0.2  # of the opening: a shorter flank throws the valve


def faults(asked: Wanted) -> Iterator[str]:
    """Everything about wanted events that no cam can do, with the nearest that one can."""
    wrong = [*_sizes(asked), *_angles(asked)]
    yield from wrong
    if not wrong:
        yield from _stated(asked)


def _sizes(asked: Wanted) -> Iterator[str]:
    """Lifts that no valve has."""
    if not _LEAST <= asked.lift <= _MOST:
        near = min(max(asked.lift, _LEAST), _MOST)
        yield (
            f"lift is {1e3 * asked.lift:.3g} mm: a valve lifts {1e3 * _LEAST:g} to "
            f"{1e3 * _MOST:g} mm. The nearest is {1e3 * near:g} mm."
        )
    if asked.at_lift < 0.0:
        yield (
            f"at_lift is {1e3 * asked.at_lift:.3g} mm: the events are stated at 0 mm, as it leaves "
            "its seat, or higher."
        )


def _angles(asked: Wanted) -> Iterator[str]:
    """Events and a centre that no lobe has."""
    wrong = False
    for name, angle in (("opens", asked.opens), ("closes", asked.closes)):
        if not -EARLIEST <= angle <= LATEST:
            wrong = True
            near = min(max(angle, -EARLIEST), LATEST)
            yield (
                f"{name} is {math.degrees(angle):.0f}°: {math.degrees(-EARLIEST):.0f}° to "
                f"{math.degrees(LATEST):.0f}° can be asked for. The nearest is "
                f"{math.degrees(near):.0f}°."
            )
    if not wrong:
        yield from _centre(asked, asked.opens + math.pi + asked.closes)


def _centre(asked: Wanted, span: float) -> Iterator[str]:
    early, late = apart(asked)
    if min(early, late) > _FLANK * span:
        return
    first = asked.opens if asked.which == "inlet" else asked.closes
    low, high = (math.degrees(share * span - first) for share in (_FLANK, 1.0 - _FLANK))
    near = math.ceil(low + 0.01) if math.degrees(asked.centre or 0.0) < low + 1.0 else (
        math.floor(high - 0.01)
    )  # fmt: skip
    yield (
        "The lobe's centre leaves one flank hardly any room between its event and the nose. "
        f"Midway is {math.degrees(0.5 * span - first):.0f}°; the nearest is {near}°."
    )


def _stated(asked: Wanted) -> Iterator[str]:
    """A lift at which the events can't be stated, with the highest at which they can."""
    if asked.at_lift < asked.lift and in_a_file(*seat(asked)):
        return
    low, high = 0.0, min(asked.at_lift, 0.999 * asked.lift)
    for _ in range(40):
        middle = 0.5 * (low + high)
        if in_a_file(*seat(replace(asked, at_lift=middle))):
            low = middle
        else:
            high = middle
    near = f"State them at {math.floor(1e5 * low) / 100:g} mm at most"
    if asked.at_lift >= asked.lift:
        yield (
            f"The events are stated at {1e3 * asked.at_lift:.3g} mm, and it never lifts higher "
            f"than {1e3 * asked.lift:.3g} mm. {near}."
        )
        return
    yield (
        f"To be at {1e3 * asked.at_lift:.3g} mm when it is asked to, with "
        f"{1e3 * asked.lift:.3g} mm of lift and this law, it would be off its seat until "
        f"{math.degrees(max(seat(asked))):.0f}° past the dead centre: "
        f"{math.degrees(LATEST):.0f}° is the most. {near}, lift it higher, or open it for less "
        "long."
    )
