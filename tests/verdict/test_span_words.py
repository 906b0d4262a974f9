"""Spans are written with the signs of the trade."""

from types import SimpleNamespace

from firstfire.verdict.made import power_span, torque_span


def test_a_span_from_below_nothing_has_a_real_minus() -> None:
    span = SimpleNamespace(power_low=-26.0, power_high=840.0, torque_low=-0.1, torque_high=2.1)
    assert power_span(500.0, span) == "(−26 to 840)"  # type: ignore[arg-type]
    assert torque_span(span) == "(−0.1 to 2.1)"  # type: ignore[arg-type]
