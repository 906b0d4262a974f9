"""Bolted joints against Shigley, Example 8-3 and Eq. 8-17 to 8-30.

Source: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed. (the
example from memory, recomputed). Tolerance 0.2 to 0.3 %: the rounding of the printed answers.
"""

import pytest

from firstfire.formulas import bolt, thread, tightening

INCH = 0.0254
POUND_FORCE = 4.4482216
PSI = 6894.757

STRESS_AREA = 0.373 * INCH**2
PRELOAD = 25e3 * POUND_FORCE
LOAD = 6e3 * POUND_FORCE
SHARE = bolt.load_share(6.50, 13.8)


def test_three_quarter_inch_grade_5() -> None:
    share, preload_stress = SHARE, PRELOAD / STRESS_AREA
    assert share == pytest.approx(0.320, rel=2e-3)
    assert preload_stress == pytest.approx(67.02e3 * PSI, rel=2e-3)
    service = bolt.bolt_load(PRELOAD, LOAD, SHARE) / STRESS_AREA
    assert service == pytest.approx(72.17e3 * PSI, rel=2e-3)


def test_its_torque_by_nut_factor_and_by_friction() -> None:
    nut = tightening.torque_for_preload(PRELOAD, 0.75 * INCH, 0.20)
    assert nut == pytest.approx(3750 * POUND_FORCE * INCH, rel=2e-3)
    friction = tightening.torque_by_friction(
        PRELOAD,
        mean_diameter=(0.75 + 0.6685) / 2 * INCH,
        pitch=INCH / 16,
        thread_friction=0.15,
        collar_diameter=1.25 * 0.75 * INCH,
        collar_friction=0.15,
    )
    assert friction == pytest.approx(3551 * POUND_FORCE * INCH, rel=2e-3)


def test_m5_8_8_to_three_quarters_of_proof() -> None:
    # Computed with the standard's rounded proof load, 8230 N.
    preload = 0.75 * 8230
    assert preload == pytest.approx(6173, rel=1e-3)
    assert tightening.torque_for_preload(preload, 5e-3, 0.20) == pytest.approx(6.17, rel=2e-3)
    exact = 0.75 * thread.proof_load(thread.stress_area(5e-3, 0.8e-3), "8.8")
    assert exact == pytest.approx(preload, rel=1e-2)  # rounding of the standard's areas


def test_nut_factors_of_table_8_15() -> None:
    # From memory.
    assert sorted(tightening.NUT_FACTORS.values()) == [0.09, 0.12, 0.16, 0.18, 0.20, 0.30]
