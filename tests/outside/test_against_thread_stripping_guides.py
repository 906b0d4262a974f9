"""Pull-out of a screw from plastic.

Sources: the pitch-cylinder form of plastics makers' screw guides and the internal-thread area
of FED-STD-H28/2 Appendix B (both from memory, values computed from the forms).
"""

import pytest

from firstfire.formulas import thread

EXACT_FORM = 2e-3  # a closed form; the rest is the rounding of the printed number


def test_m5_in_plastic_over_8_mm() -> None:
    area = thread.shear_area_on_pitch_cylinder(5e-3, 0.8e-3, 8e-3)
    assert area == pytest.approx(112.6e-6, rel=EXACT_FORM)
    assert thread.pull_out_load(area, 18e6) == pytest.approx(2027, rel=EXACT_FORM)


def test_m5_by_the_internal_thread_area() -> None:
    area = thread.shear_area_of_nut_thread(5e-3, 0.8e-3, 8e-3)
    assert area == pytest.approx(110.0e-6, rel=EXACT_FORM)
    assert thread.pull_out_load(area, 18e6) == pytest.approx(1979, rel=EXACT_FORM)


@pytest.mark.parametrize(("d", "p"), [(3, 0.5), (4, 0.7), (5, 0.8), (6, 1.0), (8, 1.25)])
def test_the_two_forms_agree_within_3_per_cent(d: float, p: float) -> None:
    d, p = d * 1e-3, p * 1e-3
    one = thread.shear_area_on_pitch_cylinder(d, p, 2 * d)
    other = thread.shear_area_of_nut_thread(d, p, 2 * d)
    assert one == pytest.approx(other, rel=0.03)
