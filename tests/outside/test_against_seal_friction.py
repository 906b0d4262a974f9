"""O-ring and rolling-bearing friction against the seal handbooks and the bearing makers' rule.

Sources: the friction-estimation chapter of the seal handbooks (method and break-away read as quoted
in public; chart levels from memory, low confidence: asserted as bands); makers' rule of thumb that
a deep-groove bearing's friction is 0.0015 of load times bore radius (common practice).
"""

import pytest

from firstfire.formulas import oring_friction
from firstfire.formulas.oring_friction import POUND_PER_INCH

# Chart bands, lbf per inch, 70 Shore A
LINE_BANDS = {0.05: (0.3, 0.5), 0.10: (0.6, 0.9), 0.15: (0.9, 1.3), 0.20: (1.2, 1.7)}


@pytest.mark.parametrize("squeeze", LINE_BANDS)
def test_line_level_lies_in_the_chart_band(squeeze: float) -> None:
    low, high = LINE_BANDS[squeeze]
    assert low < oring_friction.line_friction(squeeze, 70.0) / POUND_PER_INCH < high


@pytest.mark.parametrize("squeeze", LINE_BANDS)
def test_90_shore_drags_about_twice_as_much(squeeze: float) -> None:
    soft = oring_friction.line_friction(squeeze, 70.0)
    assert oring_friction.line_friction(squeeze, 90.0) == pytest.approx(2 * soft)
