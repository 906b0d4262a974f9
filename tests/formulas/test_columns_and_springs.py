"""Columns and springs: what must hold for every size."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import column, spring, spring_wire, valve_float

AREA, INERTIA = 112e-6, 597.3e-12


@given(st.floats(5e-3, 0.5), st.floats(1.001, 3.0))
def test_a_longer_column_never_bears_more(length: float, times: float) -> None:
    short = column.critical_load(length, AREA, INERTIA, 2e9, 45e6)
    assert column.critical_load(length * times, AREA, INERTIA, 2e9, 45e6) < short
    assert short <= AREA * 45e6


@given(st.floats(3.5, 19.0), st.floats(2.0, 20.0))
def test_a_spring_stretches_by_its_wires_twist(index: float, coils: float) -> None:
    # Castigliano with torsion alone: δ = F (D/2)² π D N/(G J)
    wire, mean = 1e-3, index * 1e-3
    twist = (mean / 2) ** 2 * math.pi * mean * coils / (80e9 * math.pi * wire**4 / 32)
    assert spring.rate(wire, mean, coils, 80e9) == pytest.approx(1 / twist)


@given(st.floats(3.0, 20.0))
def test_stress_factors_fall_toward_one(index: float) -> None:
    assert 1 < spring.bergstrasser_factor(index) < spring.wahl_factor(index)


@given(st.floats(0.3e-3, 2.4e-3), st.sampled_from(spring_wire.WIRES))
def test_thinner_wire_is_stronger(wire: float, kind: str) -> None:
    try:
        thick = spring_wire.wire_strength(kind, wire * 1.1)
        thin = spring_wire.wire_strength(kind, wire)
    except OutsideValidity:
        return
    assert thin > thick > 1.2e9


def test_rough_ends_take_one_wire_more() -> None:
    assert spring.solid_length(1.2e-3, 7, ground=False) == pytest.approx(8 * 1.2e-3)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: column.transition_slenderness(2e9, 45e6, 5.0), "no column"),
        (lambda: column.critical_load(0.1, AREA, 0.0, 2e9, 45e6), "second moment"),
        (lambda: spring.rate(1e-3, 2e-3, 5, 80e9), "not wound"),
        (lambda: spring.critical_free_length(9e-3, 3.0), "no spring end"),
        (lambda: spring_wire.wire_strength("string", 1e-3), "no wire"),
        (lambda: spring_wire.wire_strength("music wire", 9e-3), "table of wires"),
        (lambda: valve_float.float_speed(3000, -1.0, 0.02, 650), "spring force"),
    ],
)
def test_what_the_laws_do_not_hold_for_is_refused(call, words: str) -> None:
    with pytest.raises(OutsideValidity, match=words):
        call()
