"""Whether a spark lights a charge, each limit found by hand and tried from both its sides."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.runs.start.books import engine

from firstfire.cycle.burn_plan import Charge, flame_speed, with_steam
from firstfire.formulas import gas_transport, ignition, spark_gap
from firstfire.runs.start.lit import not_lit

CHARGE = Charge(pressure=7e5, temperature=560.0, volume=1e-5, burned_fraction=0.05,
                equivalence_ratio=1.05)  # fmt: skip
CALM, EDDY, COIL = 0.2, 1.3e-3, 30e-3


def found(charge=CHARGE, *, energy=COIL, intensity=CALM, gap=0.6e-3):
    plain = engine("wren")
    parts = plain.cylinders[0]
    plug = parts.plug.model_copy(update={"gap": gap})
    return not_lit(
        plain, parts.model_copy(update={"plug": plug}), charge, energy, intensity, EDDY
    )  # fmt: skip


class ByHand:
    """Density by 287 J/(kg K); air's viscosity; a Prandtl number of 0.7; ten and forty thick."""

    def __init__(self, charge=CHARGE):
        self.laminar = flame_speed(
            engine("wren").fuel,
            with_steam(engine("wren"), charge),
            charge.temperature,
            charge.pressure,
        )
        self.density = charge.pressure / (287.0 * charge.temperature)
        self.viscosity = gas_transport.viscosity(charge.temperature) / self.density
        self.diffusivity = self.viscosity / 0.7
        self.thickness = self.diffusivity / self.laminar
        self.heat = self.density * 1050.0 * 1900.0 * (1.0 - charge.burned_fraction)


def test_a_charge_of_a_cranked_engine_lights():
    assert found() is None


def test_a_coil_that_does_not_charge_the_plug_to_its_gaps_voltage_is_weak():
    """Half C U² in 20 pF: 0.6 mm asks for some 10 kV, near 1 mJ, before there is any spark."""
    volts = spark_gap.breakdown_voltage(0.6e-3, CHARGE.pressure, CHARGE.temperature)
    at_once = 0.5 * 20e-12 * volts**2
    assert 0.5e-3 < at_once < 2e-3
    assert found(energy=0.99 * at_once) == "weak"
    assert found(energy=1.01 * at_once) is None


def test_the_least_coil_is_that_of_both_theories_mean():
    """√(π/6 H (10δ)³ · H δ (40δ)²) is what 0.94 of 20 pF's charge and a tenth of the rest give.

    At 3 bar, where the kernel is thick and wants more than the plug's own charge.
    """
    charge = replace(CHARGE, pressure=2.2e5, temperature=400.0, burned_fraction=0.1, volume=3e-5)
    hand = ByHand(charge)
    least = math.pi / 6 * hand.heat * (10 * hand.thickness) ** 3
    most = hand.heat * hand.thickness * (40 * hand.thickness) ** 2
    gap = 1.2 * 10 * hand.thickness
    volts = spark_gap.breakdown_voltage(gap, charge.pressure, charge.temperature)
    at_once = 0.5 * 20e-12 * volts**2
    coil = at_once + (math.sqrt(least * most) - 0.94 * at_once) / 0.1
    assert coil > 1.2 * at_once
    assert found(charge, energy=1.01 * coil, gap=gap) is None
    assert found(charge, energy=0.99 * coil, gap=gap) == "weak"


def test_a_gap_of_less_than_ten_thicknesses_lights_nothing():
    ball = 10 * ByHand().thickness
    assert found(gap=1.01 * ball) is None
    assert found(gap=0.99 * ball) == "quenched"


def test_walls_forty_thicknesses_apart_put_it_out():
    height = 40 * ByHand().diffusivity / ByHand().laminar
    area = math.pi / 4 * engine("wren").cylinders[0].cylinder.bore ** 2
    assert found(replace(CHARGE, volume=1.01 * height * area)) is None
    assert found(replace(CHARGE, volume=0.99 * height * area)) == "quenched"


@pytest.mark.parametrize(
    ("changed", "named"),
    [
        ({}, "quenched"),
        ({"equivalence_ratio": 0.84}, "lean"),
        ({"equivalence_ratio": 1.36}, "rich"),
        ({"burned_fraction": 0.21}, "thinned"),
        ({"equivalence_ratio": 0.84, "burned_fraction": 0.21}, "lean"),
    ],
)
def test_what_turbulence_tears_apart_is_named_by_what_made_it_slow(changed, named):
    """0.157 (u'/S_L)² (u' L/ν)^-½ of 1.5, solved for u'."""
    charge = replace(CHARGE, **changed)
    hand = ByHand(charge)
    tears = 1.5 / 0.157 * hand.laminar**2 * math.sqrt(EDDY / hand.viscosity)
    tears = tears ** (1 / 1.5)
    assert found(charge, intensity=1.01 * tears) == named
    assert found(charge, intensity=0.99 * tears, gap=3e-3, energy=1.0) is None
    assert ignition.STRONGEST_STRETCH == 1.5
