"""The formulas that the gas kernel uses compile by themselves and give the same numbers."""

import math
from collections.abc import Callable
from typing import Any

import numba
import pytest

from firstfire.formulas import (
    burn_duration,
    cam_law,
    gas_transport,
    knock,
    laminar_speed,
    nozzle_flow,
    oring_friction,
    slider_crank,
    turbulent_flame,
    wall_heat,
)

MECHANISM = (0.02, 0.07, 0.001)

CALLS: list[tuple[Callable[..., Any], tuple[Any, ...]]] = [
    (slider_crank.pin_motion, (0.8, 0.6, *MECHANISM)),
    (slider_crank.piston_height, (1.0, *MECHANISM)),
    (slider_crank.rod_angle, (1.0, *MECHANISM)),
    (nozzle_flow.mass_flow, (1.0, 1e5, 300.0, 287.0, 1.4, 0.9e5)),
    (nozzle_flow.mass_flow, (1.0, 1e5, 300.0, 287.0, 1.4, 0.9999e5, 1e-3)),
    (wall_heat.woschni, (0.05, 1e5, 400.0, 27.8)),
    (wall_heat.woschni_gas_speed, (2.28, 3e-3, 4.5, 9e-5, 330.0, 1e5, 1e-4, 2e6, 9e5)),
    (wall_heat.hohenberg, (2e-5, 25e5, 2200.0, 4.5)),
    (wall_heat.annand, (0.05, 3.9, 7e-5, 0.13, 4.5, 0.49)),
    (wall_heat.annand_radiation, (2200.0, 450.0)),
    (burn_duration.flame_group, (0.04, 4.0, 6e-6, 0.012, 0.6)),
    (gas_transport.viscosity, (600.0,)),
    (gas_transport.conductivity, (2000.0, 1.3, 1250.0)),
    (laminar_speed.rhodes_keck_petrol, (1.0, 600.0, 1e6)),
    (laminar_speed.rhodes_keck_dilution, (0.1,)),
    (laminar_speed.gulder, (1.0, 600.0, 1e6, laminar_speed.GULDER_METHANOL)),
    (laminar_speed.power_law_speed, (laminar_speed.PowerLaw(0.3, 2.1, -0.2), 600.0, 1e6)),
    (laminar_speed.metghalchi_keck, (1.0, 600.0, 1e6, laminar_speed.METGHALCHI_KECK_PROPANE)),
    (knock.douaud_eyzat, (95.0, 3e6, 800.0)),
    (turbulent_flame.keck_speed, (20.0, 7.0, 1.0)),
    (turbulent_flame.keck_length, (9e-3, 7.0, 1.0)),
    (turbulent_flame.keck_rates, (1e-6, 1e-3, 6.0, 1e-3, 0.6, 4.0, 1.5e-3)),
    (turbulent_flame.pressed_intensity, (2.0, 7.0, 6.0)),
    (turbulent_flame.pressed_length, (2e-3, 7.0, 6.0)),
    (turbulent_flame.taylor_microscale, (2e-3, 2.0, 5e-6)),
    (turbulent_flame.tabaczynski_rates, (1e-6, 6.0, 1e-3, 0.6, 2.0, 0.25e-3)),
    (oring_friction.running_friction, (130.0, 0.14, 3e-4, 1e6)),
    (cam_law.polynomial_4567, (0.3,)),
    (cam_law.cycloidal, (0.3,)),
    (cam_law.modified_trapezoid, (0.6,)),
    (cam_law.modified_sine, (0.3,)),
]


@pytest.mark.slow
@pytest.mark.parametrize(("function", "arguments"), CALLS)
def test_compiled_gives_the_same(function: Callable[..., Any], arguments: tuple[Any, ...]) -> None:
    compiled = numba.njit(function)(*arguments)
    # A compiled power or root may differ in the last bit.
    assert compiled == pytest.approx(function(*arguments), rel=1e-13)
    assert math.isfinite(sum(compiled) if isinstance(compiled, tuple) else compiled)
