"""Where laws are put together: what is handed on to whom, with no engine run."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.formulas import gas_transport
from firstfire.formulas.vapour_diffusion import surface
from firstfire.runs import fuel_path, meanwhile, wholly
from firstfire.runs.drawn import SPEED, SPEED_SPREAD


def test_a_combustion_that_may_reverse_a_drawn_engine_is_its_own_with_its_own_haste(monkeypatch):
    """One standard deviation of speed is one factor of its spread, two are its square."""
    told = {}

    def followed_up(plain, centre, *, quicker, rare):
        told.update(plain=plain, centre=centre, quicker=quicker, rare=rare)
        return "its own"

    monkeypatch.setattr(wholly, "followed_up", followed_up)
    centre = SimpleNamespace(point=SimpleNamespace(event="kick_back"))
    draw = SimpleNamespace(shared={SPEED: 2.0})
    assert wholly.wholly("at centre", "drawn", centre, draw) == "its own"
    assert told.pop("quicker") == pytest.approx(SPEED_SPREAD * SPEED_SPREAD)
    assert told == {"plain": "drawn", "centre": centre, "rare": False}


def test_a_point_beside_another_keeps_its_walls_and_starts_from_its_gas(monkeypatch):
    """Walls of the one that was followed, the spark of the engine at hand at its new speed."""
    asked = []
    nothing = SimpleNamespace(stacks=(), lumps=())
    monkeypatch.setattr(meanwhile, "network", lambda *_: nothing)
    monkeypatch.setattr(meanwhile, "spark_angle", lambda *of, **_: of)
    monkeypatch.setattr(meanwhile, "gas_cycles", lambda point, plain: ("gases", point, plain))
    monkeypatch.setattr(meanwhile, "replace", lambda _, **to: to)

    def operating_point(*given, **named):
        asked.append((given, named))
        return "point"

    monkeypatch.setattr(meanwhile, "operating_point", operating_point)
    plain = SimpleNamespace(cylinders=(1,))
    old = SimpleNamespace(
        event="full_throttle", name="at 4000", walls="warm",
        fired=SimpleNamespace(cycle=SimpleNamespace(state="as it was"), burns="as it burned"),
    )  # fmt: skip
    made = SimpleNamespace(network=nothing)
    bout = SimpleNamespace(point=old, histories=(made,))
    found = meanwhile.meanwhile(plain, bout, 300.0)
    assert asked == [
        (
            (plain, "full_throttle", "at 4000", 300.0, "warm", (plain, 300.0)),
            {"start": "as it was", "guess": "as it burned", "stop": None},
        )
    ]
    assert found == {"point": "point", "gases": ("gases", "point", plain)}
    rod = SimpleNamespace(stacks=(), lumps=(SimpleNamespace(name="rod"),))
    other = SimpleNamespace(network=rod)
    bout.histories = (other,)
    assert meanwhile.meanwhile(plain, bout, 300.0) is None


CHARGE = fuel_path.Charge(45e-6, 310.0, 300.0, 1e5, 0.2)
PATH = fuel_path.FuelPath("injector", 16e-3, 40e-3, 40e-3, 36e-3, 8.0)


@pytest.mark.parametrize("liquid", [2e-6, 1e-3])
def test_what_wets_a_cylinder_gives_off_by_woschnis_law(liquid):
    """40 x 36 mm at 600 rpm: air along the walls at 6.18 times 0.72 m/s.

    Little wets as far as a thin film reaches, much all of the two ends and the side, 0.00704 m².
    """
    fuel = {"ethanol": liquid}
    spread = surface(fuel, 310.0, 1e5).diffusivity
    viscosity = gas_transport.viscosity(300.0) / CHARGE.density
    speed = 6.18 * 0.72
    sherwood = 0.035 * (speed * 0.04 / viscosity) ** 0.8 * (viscosity / spread / 0.71) ** (1 / 3)
    whole = 2 * math.pi / 4 * 0.04**2 + math.pi * 0.04 * 0.036
    assert whole == pytest.approx(0.007037, rel=1e-3)
    area = min(fuel_path.volume(fuel) / fuel_path._THIN_INSIDE, whole)
    # From the intake's beginning to half the compression: three quarters of a turn of two.
    passed = sherwood * spread / 0.04 * area * 0.375 * 0.2
    near = 1.0 - math.exp(-passed * CHARGE.density / 45e-6)
    stays, off = fuel_path.from_cylinder(fuel, PATH, CHARGE)
    most = fuel_path.given_off(fuel, near * 45e-6, 310.0, 1e5)
    assert off == pytest.approx(most)
    assert stays["ethanol"] + off.get("ethanol", 0.0) == pytest.approx(liquid)
    assert 0.0 < off["ethanol"] < liquid
