"""The rod's eyes on their pins, pounded, molten and loose: worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_SLOWLY = "Turned so slowly that no mass counts: (2.8 - 0.1013) MPa × π/4 × (44 mm)² = 4103 N"

BIG_END_POUNDED = Example(
    by=(
        f"{_SLOWLY} over 14 × 11 mm: 26.65 MPa. 1 - 0.7 × (1 - 1.6/5) = 0.524 bears of 5 mm of "
        "wall: 52 MPa × 0.524 × 0.8 = 21.80 MPa. Shigley 9, section 12-5"
    ),
    demand=26.6458e6,
    capacity=21.7984e6,
    said={
        "crank.crankpin_diameter": "14 mm", "rod.big_end_width": "11 mm", "pin.diameter": "10 mm",
        "rod.small_end_width": "13 mm", "rod.eye_wall": "5 mm", "rod.walls": "2",
        "rod.line_width": "0.4 mm", "rod.infill": "0.3",
    },
    given={"strength_at_room": 52e6, "temperature_leaves": 0.8},
    peak=28e5,
    rpm=30.0,
    rises={"big_end": 30.0},
)  # fmt: skip

SMALL_END_POUNDED = Example(
    by=(
        f"{_SLOWLY} over 9 × 12.5 mm: 36.48 MPa. 1 - 0.65 × (1 - 1.6/6) = 0.5233 bears of 6 mm of "
        "wall: 48 MPa × 0.5233 × 0.9 = 22.61 MPa. Shigley 9, section 12-5"
    ),
    demand=36.4752e6,
    capacity=22.608e6,
    said={
        "pin.diameter": "9 mm", "rod.small_end_width": "12.5 mm", "rod.big_end_width": "11 mm",
        "crank.crankpin_diameter": "13 mm", "rod.eye_wall": "6 mm", "rod.walls": "2",
        "rod.line_width": "0.4 mm", "rod.infill": "0.35",
    },
    given={"strength_at_room": 48e6, "temperature_leaves": 0.9},
    peak=28e5,
    rpm=30.0,
    rises={"small_end": 22.0},
)  # fmt: skip

SMALL_END_POUNDED_BY_MASS = Example(
    by=(
        "At 5000 rpm with little fire the piston's mass pulls harder at top centre than it presses "
        "anywhere: 900 g, pin 7.85 g/cm³ × π/4 × 1² × 3.8 = 23.4 g, 0.3 × 50 g of rod: 0.938 kg × "
        "20 mm × (523.6/s)² × (1 + 20/90) = 6289 N over 10 × 12.5 mm: 50.31 MPa. A ring of 1 g is "
        "left out. 48 MPa × 0.5233 = 25.12 MPa. Shigley 9, section 12-5"
    ),
    demand=50.3116e6,
    capacity=25.12e6,
    said={
        "pin.diameter": "10 mm", "pin.length": "38 mm", "rod.small_end_width": "12.5 mm",
        "crank.crankpin_diameter": "13 mm", "rod.big_end_width": "11 mm", "rod.length": "90 mm",
        "rod.eye_wall": "6 mm", "rod.walls": "2", "rod.line_width": "0.4 mm", "rod.infill": "0.35",
        "rod.mass": "50 g", "rod.reciprocating_fraction": "0.3", "piston.mass": "900 g",
    },
    given={"strength_at_room": 48e6},
    peak=1.6e5,
    rpm=5000.0,
)  # fmt: skip


def melts(end: str, other: str) -> Example:
    """A printed eye that is warm on its pin, and the other end otherwise.

    Parameters
    ----------
    end, other
        As ``big_end``.
    """
    return Example(
        by="61 K over air of 12 °C; nothing is left at 190 °C, 178 K over it. Subtraction",
        demand=61.0,
        capacity=178.0,
        said={"surroundings.air_temperature": "12 °C", f"rod.{end}": "plain"},
        given={"melts_at": 463.15},
        rises={end: 61.0, other: 18.0},
    )


def lets_go(end: str, other: str) -> Example:
    """The print round a bush, as `melts`."""
    return Example(
        by="43 K over air of 12 °C; half is left at 68 °C, 56 K over it. Subtraction",
        demand=43.0,
        capacity=56.0,
        said={"surroundings.air_temperature": "12 °C", f"rod.{end}": "bush"},
        given={"softens_at": 341.15},
        rises={end: 43.0, other: 71.0},
    )
