"""The example of docs/heat.md does what it says, and its numbers are the model's."""

import math
import re
from pathlib import Path

import pytest
from tests.heat.made_cycle import made_cycle

from firstfire.formulas.solid import Solid
from firstfire.heat.first_cycle import first_cycles
from firstfire.heat.gas_side import gas_side
from firstfire.heat.layers import Layer
from firstfire.heat.stack import flat_stack

PAGE = (Path(__file__).parents[2] / "docs" / "heat.md").read_text(encoding="utf-8")
(PYTHON,) = re.findall(r"```python\n(.*?)```", PAGE, re.DOTALL)


def test_python_of_the_page():
    cycle = made_cycle(bore=0.040, stroke=0.036, rod=0.066, compression_ratio=6.5)
    wren = Path(__file__).parents[2] / "engines" / "wren.toml"
    names: dict[str, object] = {"cycle": cycle}
    exec(PYTHON.replace("engines/wren.toml", str(wren)), names)
    assert names["history"].seconds[-1] == 70.0
    assert names["shield"].surface == names["seen"].crown
    assert names["late"] is None or names["late"] < 10.0


@pytest.mark.parametrize(
    ("solid", "factor", "said"),
    [
        (Solid(0.2, 1270.0, 1250.0), 1.0, 144),
        (Solid(0.2, 1270.0, 1250.0), (590 + 622 + 945) / 3 / 622, 161),
        (Solid(167.0, 2700.0, 896.0), 1.0, 30),
    ],
)
def test_first_cycle_of_the_page(solid, factor, said):
    gas = gas_side(made_cycle(speed=3000 * math.pi / 30)).scaled(factor)
    stack = flat_stack("wall", (Layer("wall", solid, 6e-3),), 1.0)
    assert first_cycles(stack, gas, 300.15).peak - 273.15 == pytest.approx(said, abs=1.0)
