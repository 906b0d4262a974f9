"""Torque by friction against the torques that VDI 2230 tables.

Source: VDI 2230:2003, Table A1 for fine threads, class 8.8, as a screw maker prints it (read:
approximate values for preload and metric fine threads, 0.10 to 0.14). Heads by ISO 4014: M8 bears
on 11.6 mm round a hole of 9, M10 on 14.6 round 11 (from memory). Tolerance 1.5 %: both columns are
rounded to three or two figures.
"""

import pytest

from firstfire.formulas.tightening import preload_from_torque, torque_by_friction

TABLE = {
    # thread: d2 and pitch, mm; mean diameter under the head, mm; friction: kN, N·m
    "M8x1": (7.350, 1.0, 10.3, {0.10: (20.7, 22.8), 0.12: (20.2, 26.1), 0.14: (19.7, 29.2)}),
    "M10x1.25": (9.188, 1.25, 12.8, {0.10: (32.4, 44), 0.12: (31.6, 51), 0.14: (30.8, 57)}),
}


@pytest.mark.parametrize("name", TABLE)
def test_fine_threads_by_friction(name: str) -> None:
    mean, pitch, collar, rows = TABLE[name]
    for rubs, (kilonewton, torque) in rows.items():
        found = torque_by_friction(
            1e3 * kilonewton, mean_diameter=1e-3 * mean, pitch=1e-3 * pitch, thread_friction=rubs,
            collar_diameter=1e-3 * collar, collar_friction=rubs,
        )  # fmt: skip
        assert found == pytest.approx(torque, rel=0.015)


def test_a_nut_factor_of_a_fifth_lies_at_its_dry_end() -> None:
    # 29.2 N·m give 19.7 kN at 0.14 in thread and head; by K = 0.20 they give 18.3.
    assert preload_from_torque(29.2, 8e-3, 0.20) == pytest.approx(18.25e3, rel=1e-3)
    assert preload_from_torque(29.2, 8e-3, 0.20) < 19.7e3
