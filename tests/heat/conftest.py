"""Demo engines with their networks, and a gas cycle made for each."""

import math
from pathlib import Path

import pytest
from tests.heat.made_cycle import made_cycle

from firstfire.engine.read import read
from firstfire.engine.resolve import resolve
from firstfire.heat.cylinder import network
from firstfire.heat.exhaust_flow import exhaust_side
from firstfire.heat.running import running

ENGINES = Path(__file__).resolve().parents[2] / "engines"


class Made:
    """An engine, the network of its first cylinder and what full throttle exposes it to."""

    def __init__(self, engine, *, speed_rpm=4000, filling=1.0, **powers):
        self.engine = engine
        self.parts = engine.cylinders[0]
        self.network = network(engine, 0)
        cylinder = self.parts.cylinder
        self.cycle = made_cycle(
            bore=cylinder.bore,
            stroke=cylinder.stroke,
            rod=self.parts.rod.length,
            compression_ratio=cylinder.compression_ratio,
            speed=speed_rpm * math.pi / 30,
            filling=filling,
        )
        # one charge a cycle at a volumetric efficiency of 0.75 (common practice, no source)
        charge = 0.75 * 1.2 * filling * math.pi / 4 * cylinder.bore**2 * cylinder.stroke
        exhaust = exhaust_side(
            charge * speed_rpm / 120, 1050.0, self.parts.valves.exhaust.throat_diameter
        )
        powers = {"ring_power": 60.0, "skirt_power": 10.0, "pin_power": 2.0} | powers
        self.exposure = running(engine, 0, self.network, self.cycle, exhaust=exhaust, **powers)


@pytest.fixture(scope="session")
def demo():
    kept = {}

    def made(name):
        if name not in kept:
            kept[name] = Made(resolve(read(ENGINES / f"{name}.toml")))
        return kept[name]

    return made


@pytest.fixture(scope="session")
def make():
    return Made
