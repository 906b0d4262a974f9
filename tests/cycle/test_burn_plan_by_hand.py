"""A burn of round numbers, worked out apart from the program: its delay, duration and losses.

Petrol's flame after D. B. Rhodes and J. C. Keck, SAE 850047, 1985; the angles after S. D. Hires,
R. J. Tabaczynski and J. M. Novak, SAE 780232, 1978, both as in J. B. Heywood, *Internal Combustion
Engine Fundamentals*, 1988 (from memory), with the constants that `burn_duration` says.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from tests.loads.small_engines import engine_of

from firstfire.cycle.burn_plan import Burn, Charge, burn_plan, flame_speed
from firstfire.cycle.crevices import burning_share, crevice_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.gas_transport import viscosity

DEG = math.pi / 180
BORE, STROKE, ROD, RATIO = 44e-3, 40e-3, 70e-3, 7.0
AREA = math.pi / 4 * BORE**2
TOP = AREA * STROKE / (RATIO - 1)
SPEED, SPARK = 300.0, -25 * DEG
DRY = {"surroundings__humidity": 0.0, "surroundings__air_pressure": 1e5,
       "surroundings__air_temperature": 303.15}  # fmt: skip


@cache
def made(**values: object) -> PlainEngine:
    return engine_of(
        cylinder__bore=BORE, cylinder__stroke=STROKE, rod__length=ROD, intake__fuel="petrol",
        cylinder__compression_ratio=RATIO, **DRY | values,
    )  # fmt: skip


def doubted(**doubts: float) -> PlainEngine:
    engine = made()
    return engine.model_copy(update={"doubt": engine.doubt.model_copy(update=doubts)})


def volume(angle: float) -> float:
    """By the triangle of throw, rod and bore."""
    throw = STROKE / 2
    pin = throw * math.cos(angle) + math.sqrt(ROD**2 - (throw * math.sin(angle)) ** 2)
    return TOP + AREA * (throw + ROD - pin)


CHARGE = Charge(pressure=7e5, temperature=620.0, volume=volume(SPARK), burned_fraction=0.08,
                equivalence_ratio=1.05)  # fmt: skip


def flame(temperature: float, pressure: float, burned: float = 0.08, phi: float = 1.05) -> float:
    """Rhodes and Keck's fit for petrol, m/s."""
    still = 0.305 - 0.549 * (phi - 1.21) ** 2
    hot = (temperature / 298.0) ** (2.4 - 0.271 * phi**3.51)
    pressed = (pressure / 101325.0) ** (-0.357 + 0.14 * phi**2.77)
    return still * hot * pressed * (1 - 2.06 * burned**0.77)


def group(at: float, further: float = 1.0) -> float:
    """(Sp ν)^(1/3) (h / S_L)^(2/3) / stroke of the charge pressed to a volume."""
    pressing = (CHARGE.volume / at) ** 1.3 * further
    pressure, temperature = CHARGE.pressure * pressing, CHARGE.temperature * pressing ** (0.3 / 1.3)
    kinematic = viscosity(temperature) * 285.0 * temperature / pressure
    piston = 2 * STROKE * SPEED / (2 * math.pi)
    mixing = (piston * kinematic) ** (1 / 3)
    return mixing * (at / AREA / flame(temperature, pressure)) ** (2 / 3) / STROKE


def planned(engine: PlainEngine | None = None, charge: Charge = CHARGE) -> Burn:
    engine = made() if engine is None else engine
    burn = burn_plan(engine, engine.cylinders[0], SPEED, SPARK, charge)
    assert burn is not None
    return burn


def tenth(doubt: float = 1.0) -> float:
    """Angle at which the shares of 20° · group / 0.0320 / 0.785 add up to one."""

    def share(turned: float) -> float:
        return 0.0320 * 0.785 / (20 * DEG * group(volume(SPARK + turned)) * doubt)

    return brentq(lambda end: quad(share, 0.0, end)[0] - 1.0, 1 * DEG, 170 * DEG)


RAPID = 28 * DEG * BORE / (TOP / AREA) / (86 / 12) * group(TOP, 1.3) / 0.01917


# Steps of 1° along a smooth curve are within some 1e-4 of the integral.
STEPS = 1e-3


def test_from_spark_to_a_tenth() -> None:
    assert planned().development == pytest.approx(tenth(), rel=STEPS)
    slow = planned(doubted(burn_duration=1.5))
    assert slow.development == pytest.approx(tenth(1.5), rel=STEPS)


def test_a_kernel_that_is_not_there_after_half_a_turn_does_not_come() -> None:
    """Twenty times as long as usual is more than 180°, whatever the charge does on the way."""
    engine = doubted(burn_duration=20.0)
    assert tenth() * 20 > 180 * DEG
    assert burn_plan(engine, engine.cylinders[0], SPEED, SPARK, CHARGE) is None


def burned(burn: Burn, angle: float) -> float:
    """Wiebe's law with exponents 5 and 3."""
    return 1 - math.exp(-5 * ((angle - burn.spec.start) / burn.spec.duration) ** 3)


@pytest.mark.parametrize(("doubt", "phase"), [(1.0, 0.0), (1.3, 0.0), (1.0, 4 * DEG)])
def test_a_tenth_and_nine_tenths_are_where_the_law_says(doubt: float, phase: float) -> None:
    burn = planned(doubted(burn_duration=doubt, burn_phase=phase))
    at = SPARK + burn.development + phase
    assert burned(burn, at) == pytest.approx(0.1, rel=1e-9)
    assert burned(burn, at + doubt * RAPID) == pytest.approx(0.9, rel=1e-9)


def test_steam_dilutes_as_burned_gas_does() -> None:
    """Air of 30 °C and 60 %: 2548 Pa of steam (tables), 0.622 · 2548 / (1e5 - 0.378 · 2548)."""
    share = 0.622 * 2548 / (1e5 - 0.378 * 2548)
    damp = planned(made(surroundings__humidity=0.6))
    dry = planned(charge=replace(CHARGE, burned_fraction=0.08 + 0.92 * share))
    # The tables' steam and the formula's differ by a few thousandths, of a share of 1.6 %.
    assert damp.spec.duration == pytest.approx(dry.spec.duration, rel=2e-4)
    assert damp.spec.duration > 1.01 * planned().spec.duration


def keck(best: float, bend: float, at: float) -> float:
    """Metghalchi and Keck's fit at 600 K, 6 bar and φ 0.9, of a charge a tenth burned gas."""
    still = best + bend * (0.9 - at) ** 2
    hot, pressed = (600 / 298) ** (2.18 + 0.08), (6e5 / 101325) ** (-0.16 - 0.022)
    return still * hot * pressed * (1 - 0.21)


ETHANOL = (
    0.465 * 0.9**0.25 * math.exp(-6.34 * (0.9 - 1.075) ** 2) * 2**1.75
    * (6e5 / 101325) ** (-0.17 / math.sqrt(0.9)) * (1 - 0.23)
)  # fmt: skip
"""Gülder's fit at the same."""
PROPANE, METHANOL = keck(0.342, -1.387, 1.08), keck(0.369, -1.405, 1.11)


@pytest.mark.parametrize(
    ("vapours", "speed"),
    [
        ({"propane": 1.0}, PROPANE), ({"butane": 1.0}, PROPANE), ({"methanol": 1.0}, METHANOL),
        ({"iso_octane": 1.0}, keck(0.263, -0.847, 1.13)), ({"ethanol": 1.0}, ETHANOL),
        ({"petrol": 1.0}, flame(600.0, 6e5, 0.1, 0.9)),
        ({"propane": 0.25, "methanol": 0.75}, 0.25 * PROPANE + 0.75 * METHANOL),
    ],
)  # fmt: skip
def test_flames_by_their_published_fits(vapours: dict[str, float], speed: float) -> None:
    fuel = replace(made().fuel, vapours=tuple(vapours.items()))
    charge = replace(CHARGE, burned_fraction=0.1, equivalence_ratio=0.9)
    assert flame_speed(fuel, charge, 600.0, 6e5) == pytest.approx(speed, rel=1e-9)


CREVICES = {
    "piston__skirt_clearance": 0.4e-3, "piston__top_land": 5e-3, "gasket__inside_diameter": 45e-3,
    "gasket__thickness": 0.8e-3, "plug__thread": "M10x1", "rings__groove_width": 3.6e-3,
    "rings__groove_depth": 2.3e-3, "rings__section": 2.62e-3, "rings__count": 2,
}  # fmt: skip
LAND = math.pi * 43.8 * 5 * 0.2
EDGE = math.pi / 4 * (45**2 - 44**2) * 0.8
PLUG = 250 * (10 / 14) ** 3


def crevices(**values: object) -> float:
    """In mm³."""
    return crevice_volume(made(**CREVICES | values).cylinders[0], 10e-3) * 1e9


def test_crevices_without_rings() -> None:
    """Land 137.6, gasket's edge 55.9, plug 91.1 mm³."""
    assert crevices(rings__count=0) == pytest.approx(LAND + EDGE + PLUG, rel=1e-9)
    assert crevices(rings__kind="none") == pytest.approx(284.6, rel=1e-3)
    tight = crevices(rings__count=0, gasket__inside_diameter=43e-3)
    assert tight == pytest.approx(LAND + PLUG, rel=1e-9)
    thick = crevice_volume(made(**CREVICES, rings__kind="none").cylinders[0], 14e-3) * 1e9
    assert thick == pytest.approx(LAND + EDGE + 250, rel=1e-9)


def test_room_behind_the_first_ring() -> None:
    """3.6 by 2.5 mm less the ring's section, round 41.7 mm; nothing where it fills the groove."""
    rest = LAND + EDGE + PLUG
    round_ring = 9.0 - math.pi / 4 * 2.62**2
    assert crevices() == pytest.approx(rest + math.pi * 41.7 * round_ring, rel=1e-9)
    flat = {"rings__kind": "metal", "rings__axial_height": 1.5e-3, "rings__section": 2e-3,
            "rings__groove_width": 1.6e-3}  # fmt: skip
    assert crevices(**flat) == pytest.approx(rest + math.pi * 41.7 * (4.0 - 3.0), rel=1e-9)
    full = flat | {"rings__axial_height": 2.5e-3}
    assert crevices(**full) == pytest.approx(rest, rel=1e-9)


def test_what_burns_in_time() -> None:
    """Half of 0.052/0.035 of the crevices' share of the clearance and of 3.8 % elsewhere."""
    engine = made(**CREVICES, rings__kind="none")
    share = 0.5 * (0.052 / 0.035 * (LAND + EDGE + PLUG) / (TOP * 1e9) + 0.038)
    assert burning_share(engine, engine.cylinders[0]) == pytest.approx(1 - share, rel=1e-9)
    doubt = engine.model_copy(
        update={"doubt": engine.doubt.model_copy(update={"combustion_loss": 2.0})}
    )
    assert burning_share(doubt, doubt.cylinders[0]) == pytest.approx(1 - 2 * share, rel=1e-9)
    worst = engine.model_copy(
        update={"doubt": engine.doubt.model_copy(update={"combustion_loss": 20.0})}
    )
    assert burning_share(worst, worst.cylinders[0]) == 0.5
