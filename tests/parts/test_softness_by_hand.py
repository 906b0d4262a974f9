"""What warmth and time leave of a plastic made of round numbers, read off its curves by hand.

At 23 °C all is left, 40 K warmer 0.8, 60 K warmer 0.2; a semi-crystalline one melts 80 K above 23.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfire.catalog import CurvePoint
from firstfire.engine.materials import Material
from firstfire.errors import OutsideValidity
from firstfire.parts import softness

ROOM = 296.15


def curve(*points: tuple[float, float]) -> tuple[CurvePoint, ...]:
    return tuple(CurvePoint(at, value, value, value, "temperature", "", "") for at, value in points)


MADE = Material(
    key="made_up", name="made-up plastic", yours=False, structure="semi-crystalline",
    properties={"melting": ROOM + 80, "hdt_045": ROOM + 50, "glass_transition": ROOM + 100,
                "continuous_use": ROOM + 25, "creep_factor_1000h": 0.5, "modulus_in_plane": 2e9},
    curves={
        "strength": curve((ROOM + 40, 0.8), (ROOM + 60, 0.2)),
        "modulus": curve((ROOM + 40, 0.6), (ROOM + 60, 0.1)),
        "relaxation_warm": curve((0.5, 0.9), (1.0, 0.4)),
    },
)  # fmt: skip
GLASSY = replace(MADE, structure="amorphous")


@pytest.mark.parametrize(
    ("warmer", "strength", "modulus"),
    [
        (-30, 1.0, 1.0), (0, 1.0, 1.0), (20, 0.9, 0.8), (40, 0.8, 0.6), (50, 0.5, 0.35),
        # Beyond the last point straight to nothing at melting, 20 K on; a thousandth stays stiff.
        (65, 0.15, 0.075), (80, 0.0, 0.001), (200, 0.0, 0.001),
    ],
)  # fmt: skip
def test_curves_are_straight_between_points(warmer: float, strength: float, modulus: float) -> None:
    assert softness.strength_left(MADE, ROOM + warmer) == pytest.approx(strength)
    assert softness.modulus_left(MADE, ROOM + warmer) == pytest.approx(modulus)


@pytest.mark.parametrize(
    ("share", "warmer"),
    [(0.9, 20), (0.8, 40), (0.65, 45), (0.35, 55), (0.2, 60), (0.15, 65), (0.05, 75)],
)
def test_where_a_share_is_left(share: float, warmer: float) -> None:
    assert softness.softens_at(MADE, share) == pytest.approx(ROOM + warmer)
    far = replace(MADE, properties={**MADE.properties, "melting": ROOM + 140})
    beyond = 60 + (warmer - 60) * 4 if warmer > 60 else warmer  # 80 K to melting, not 20
    assert softness.softens_at(far, share) == pytest.approx(ROOM + beyond)


def test_what_has_no_melting_point_is_gone_20_kelvin_beyond_its_curve() -> None:
    """Whatever its row says of melting."""
    far = replace(GLASSY, properties={**MADE.properties, "melting": ROOM + 500})
    assert softness.strength_left(far, ROOM + 75) == pytest.approx(0.05)
    assert softness.softens_at(far, 0.05) == pytest.approx(ROOM + 75)
    assert softness.last_known(far) == ROOM + 60


def test_without_a_curve_only_room_is_known() -> None:
    """ISO 291 tests at 23 °C and up to 2 K beside it: 25 °C is still known, 25.1 °C is not."""
    bare = replace(MADE, curves={})
    for left in (softness.strength_left, softness.modulus_left):
        assert left(bare, ROOM + 1.9) == 1.0
        assert left(bare, ROOM - 40) == 1.0
        with pytest.raises(OutsideValidity, match="curve of"):
            left(bare, ROOM + 2.1)


@pytest.mark.parametrize(("hours", "kept"), [(1000.0, 0.5), (12.0, 0.5 ** (3.63548 / 5.5563))])
def test_creep_is_a_straight_line_in_log_stress_over_log_time(hours: float, kept: float) -> None:
    """From 1 at 10 s to 0.5 at 1000 h, lg(3.6e5) = 5.5563 decades; 12 h, 4320 times, are 3.6355."""
    assert softness.stress_left(MADE, hours, ROOM) == pytest.approx(kept, rel=1e-5)
    assert softness.stress_left(MADE, hours, ROOM - 20) == pytest.approx(kept, rel=1e-5)


def test_creep_in_a_press_fit() -> None:
    """0.83 of it at 1000 h (M. Yaeger, 2017, as `creep` has it)."""
    pressed = softness.stress_left(MADE, 1000.0, ROOM, press_fit=True)
    assert pressed == pytest.approx(0.83 * 0.5)


def test_times_beyond_a_minute_and_ten_thousand_hours_are_taken_as_these() -> None:
    """A minute, six times 10 s: 0.778 decades. Ten thousand hours: one decade more than 1000."""
    minute = 0.5 ** (0.778151 / 5.556303)
    assert softness.stress_left(MADE, 0.0, ROOM) == pytest.approx(minute, rel=1e-6)
    assert softness.stress_left(MADE, 1e9, ROOM) == pytest.approx(
        0.5 ** (6.556303 / 5.556303), rel=1e-6
    )


@pytest.mark.parametrize(
    ("structure", "soft"),
    [("semi-crystalline", 50), ("amorphous", 100), ("elastomer", 25), ("composite", 25)],
)
def test_warmth_counts_by_the_way_from_room_to_where_it_goes_soft(
    structure: str, soft: float
) -> None:
    """A quarter of the way 0.95 is left, three quarters 0.65, all of it and beyond 0.4."""
    it = replace(MADE, structure=structure)
    for way, left in ((0.25, 0.95), (0.5, 0.9), (0.75, 0.65), (1.0, 0.4), (1.5, 0.4)):
        kept = softness.stress_left(it, 1000.0, ROOM + way * soft)
        assert kept == pytest.approx(0.5 * left)


def test_what_is_soft_at_room_and_metal() -> None:
    soft = replace(MADE, properties={**MADE.properties, "hdt_045": ROOM})
    with pytest.raises(OutsideValidity, match="soft at room"):
        softness.stress_left(soft, 12.0, ROOM + 1)
    metal = replace(MADE, structure="metal")
    assert softness.is_metal(metal)
    assert softness.stress_left(metal, 1000.0, ROOM + 40) == 1.0


def test_one_that_melts_at_the_end_of_its_curve_is_gone_there() -> None:
    low = replace(MADE, properties={**MADE.properties, "melting": ROOM + 60})
    assert softness.strength_left(low, ROOM + 60) == pytest.approx(0.2)
    assert softness.strength_left(low, ROOM + 61) == 0.0
