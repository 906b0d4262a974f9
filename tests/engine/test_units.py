"""Units that are known beforehand are what Pint says they are, and shipped files need no others."""

import subprocess
import sys

import pytest

from firstfire.units import asked_of_pint, dimension_by_pint
from firstfire.usual_units import USUAL


@pytest.mark.parametrize("unit", USUAL)
def test_pint_says_the_same(unit: str) -> None:
    factor, offset, dimension = USUAL[unit]
    assert (factor, offset) == asked_of_pint(unit)
    assert dimension == dimension_by_pint(unit)


def test_reading_a_shipped_engine_does_not_wait_for_pint() -> None:
    code = (
        "import sys, firstfire as ff; from firstfire.engine.resolve import resolve;"
        "resolve(ff.read('engines/wren.toml')); assert 'pint' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
