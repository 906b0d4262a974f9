"""The printer's gauge: a plate of stepped holes and stepped pins, of this engine's sizes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.engine.pieces import Block, Hole, Piece, circle, oblong
from firstfire.setup.fits.seat import SeatFit
from firstfire.setup.jobs_cylinder import REACH_OF_HOLE_ERROR
from firstfire.setup.words import bare_mm

HOLE_STEPS = (-0.1e-3, 0.0, 0.1e-3, 0.2e-3, 0.3e-3, 0.4e-3, 0.5e-3)
PIN_STEPS = (-0.3e-3, -0.2e-3, -0.1e-3, 0.0, 0.1e-3)
"""What holes and pins are drawn larger than the nominal size, m."""
USUAL = 12e-3
"""Size of a gauge for an engine that has no printed seat in reach, m."""
_THICK, _EDGE, _BETWEEN = 8e-3, 5e-3, 9e-3
_PIN_HIGH, _PIN_STEP = 10e-3, 2e-3
_CORNER = 3e-3
# m: sizes of the gauge, common practice, no source


def gauge_sizes(seats: Sequence[SeatFit]) -> tuple[float, ...]:
    """Nominal sizes of the gauge, m: the smallest and the largest printed seat in reach."""
    low, high = REACH_OF_HOLE_ERROR
    printed = sorted({
        round(one.nominal, 6) for one in seats
        if (one.drawn.hole or one.drawn.shaft) and low <= one.nominal <= high
    })  # fmt: skip
    return tuple(dict.fromkeys((printed[0], printed[-1]))) if printed else (USUAL,)


def gauge(seats: Sequence[SeatFit]) -> Piece:
    """Plate and pins.

    Parameters
    ----------
    seats
        Of the engine.
    """
    blocks: list[Block] = []
    bottom = 0.0
    for size in gauge_sizes(seats):
        plate = _plate(size, bottom)
        blocks.append(plate)
        bottom = min(y for _, y in plate.outline) - _BETWEEN
        pins = list(_pins(size, bottom))
        blocks += pins
        bottom = min(y for pin in pins for _, y in pin.outline) - _BETWEEN
    return Piece(
        "hole-gauge", "Gauge of stepped holes and pins", tuple(blocks),
        (
            "Print it as your engine's parts: same spool, walls and layer height, lying flat. "
            "Numbers are sizes as drawn; the plate's cut corner is at its smallest hole, the "
            "smallest pin is the shortest, each larger one 2 mm higher.",
            "Read each hole and pin by caliper, in two directions, and say what was drawn and what "
            'you read: firstfire fits FILE --measured "hole 12=11.82 mm" --measured "shaft '
            '12=12.05 mm" -o printer.toml. Or take a ground pin: the smallest hole it slides into, '
            'drawn 12.2 for a 12 mm pin, is --measured "hole 12.2=12 mm".',
        ),
    )  # fmt: skip


def _plate(size: float, top: float) -> Block:
    widest = size + HOLE_STEPS[-1]
    apart = widest + _EDGE
    wide = len(HOLE_STEPS) * apart + _EDGE
    bottom = top - widest - 2 * _EDGE
    holes = tuple(
        Hole((_EDGE + apart * n + widest / 2, (top + bottom) / 2), size + step,
             bare_mm(size + step))
        for n, step in enumerate(HOLE_STEPS)
    )  # fmt: skip
    return Block(oblong(0.0, bottom, wide, top, _CORNER), _THICK, holes)


def _pins(size: float, top: float) -> Iterator[Block]:
    apart = size + PIN_STEPS[-1] + _BETWEEN
    for n, step in enumerate(PIN_STEPS):
        across = size + step
        at = (apart * n + size / 2, top - size / 2)
        yield Block(circle(at, across), _PIN_HIGH + _PIN_STEP * n, (), bare_mm(across))
