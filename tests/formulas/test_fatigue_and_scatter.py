"""Fatigue, scatter and belts: what must hold for every case."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import belt, fatigue, mean_stress, scatter, staircase, strongest_of_n

shares = st.floats(0.02, 0.9)


@given(st.floats(10e6, 100e6), shares, st.floats(0.05, 1.0))
def test_stress_and_cycles_turn_round(strength: float, fraction: float, share: float) -> None:
    line = fatigue.line_through(strength, fraction)
    cycles = fatigue.cycles_to_failure(line, share * strength)
    if math.isfinite(cycles):
        assert fatigue.stress_for_cycles(line, cycles) == pytest.approx(share * strength)


def test_the_steel_line_passes_through_both_its_ends() -> None:
    line = fatigue.steel_line(551e6, 276e6, 0.9)
    assert fatigue.stress_for_cycles(line, 1e3) == pytest.approx(0.9 * 551e6)
    assert fatigue.stress_for_cycles(line, 1e6) == pytest.approx(276e6)


def test_no_stress_lasts_for_ever_and_does_no_damage() -> None:
    line = fatigue.line_through(40e6, 0.2)
    assert fatigue.cycles_to_failure(line, 0.0) == math.inf
    assert fatigue.damage([1e9], [math.inf]) == 0.0


@given(st.floats(0.1, 9.0), st.floats(0.0, 30.0))
def test_the_four_rules_keep_their_order(amplitude: float, mean: float) -> None:
    case = (amplitude, mean, 10.0)
    soderberg = mean_stress.soderberg_factor(*case, 40.0)
    goodman = mean_stress.goodman_factor(*case, 50.0)
    gerber = mean_stress.gerber_factor(*case, 50.0)
    assert soderberg <= goodman * (1 + 1e-12) <= gerber * (1 + 2e-12)
    assert mean_stress.elliptic_factor(*case, 40.0) >= soderberg


@given(st.floats(0.1, 9.0), st.floats(0.0, 30.0))
def test_gerber_lies_on_its_parabola(amplitude: float, mean: float) -> None:
    n = mean_stress.gerber_factor(amplitude, mean, 10.0, 50.0)
    assert n * amplitude / 10.0 + (n * mean / 50.0) ** 2 == pytest.approx(1.0)


@given(st.floats(0.1, 9.0))
def test_without_a_mean_all_rules_agree_and_pressing_gives_nothing(amplitude: float) -> None:
    for rule in (
        mean_stress.goodman_factor,
        mean_stress.gerber_factor,
        mean_stress.soderberg_factor,
        mean_stress.elliptic_factor,
    ):
        assert rule(amplitude, 0.0, 10.0, 50.0) == pytest.approx(10.0 / amplitude)
        assert rule(amplitude, -20.0, 10.0, 50.0) == pytest.approx(10.0 / amplitude)


@given(st.floats(0.011, 0.9))
def test_the_shape_gives_back_the_variation(variation: float) -> None:
    shape = scatter.weibull_shape(variation)
    assert scatter.weibull_variation(shape) == pytest.approx(variation, rel=1e-6)


@given(st.floats(0.0, 3.0), st.floats(1.0, 50.0))
def test_survival_is_a_share_and_falls_with_load(load: float, shape: float) -> None:
    survival = scatter.weibull_survival(load, shape)
    assert 0.0 <= scatter.weibull_survival(load + 0.1, shape) <= survival <= 1.0


@given(st.floats(0.01, 0.2), st.floats(0.01, 0.2))
def test_equal_means_fail_half_the_time(one: float, other: float) -> None:
    index = scatter.safety_index(30.0, one, 30.0, other)
    assert scatter.failure_probability(index) == pytest.approx(0.5)


@given(st.floats(0.5, 0.999), st.floats(0.5, 0.99))
def test_success_run_turns_round(reliability: float, confidence: float) -> None:
    tests = scatter.failure_free_tests(reliability, confidence)
    assert scatter.reliability_shown(tests, confidence) == pytest.approx(reliability)


@given(st.floats(1.0, 1e8), st.floats(1.1, 10.0))
def test_more_draws_bring_a_higher_peak(count: float, times: float) -> None:
    assert strongest_of_n.expected_strongest(count) < strongest_of_n.expected_strongest(
        count * times
    )


def test_staircase_of_survivals_mirrors_failures() -> None:
    failures = staircase.dixon_mood(400.0, 25.0, [1, 3, 2], of_failures=True)
    survivals = staircase.dixon_mood(375.0, 25.0, [1, 3, 2], of_failures=False)
    assert failures == pytest.approx(survivals)


@given(st.integers(12, 40), st.floats(1.0, 3.0), st.floats(1.05, 4.0))
def test_the_centre_distance_suits_its_belt(teeth: int, ratio: float, apart: float) -> None:
    small = belt.pulley_pitch_diameter(teeth, 3e-3)
    large = small * ratio
    centre = (small + large) / 2 * apart
    length = belt.belt_length(small, large, centre)
    assert belt.centre_distance_for(small, large, length) == pytest.approx(centre, rel=1e-9)


def test_equal_pulleys_wrap_by_half_a_turn() -> None:
    assert belt.wrap_on_small(20e-3, 20e-3, 60e-3) == pytest.approx(math.pi)
    assert belt.belt_length(20e-3, 20e-3, 60e-3) == pytest.approx(0.12 + math.pi * 20e-3)


def test_half_the_pull_at_rest_just_keeps_the_slack_side() -> None:
    pull = belt.effective_pull(0.6, 17.19e-3)
    assert belt.slack_side_tension(pull / 2, pull) == pytest.approx(0.0)
    assert belt.slack_side_tension(0.4 * pull, pull) < 0


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: fatigue.steel_line(500e6, 480e6, 0.8), "fall to the limit"),
        (lambda: fatigue.line_through(40e6, 1.2), "falls with cycles"),
        (lambda: fatigue.cycles_to_failure(fatigue.line_through(4e7, 0.2), 5e7), "at once"),
        (lambda: fatigue.line_of_slope(1.0, 1e6, 50.0), "no material"),
        (lambda: mean_stress.equivalent_reversed_stress(1.0, 60.0, 50.0), "strength left"),
        (lambda: mean_stress.goodman_factor(0.0, 0.0, 10.0, 50.0), "stress is 0"),
        (lambda: scatter.weibull_variation(0.1), "scatters so"),
        (lambda: scatter.safety_index(40.0, 0.0, 30.0, 0.0), "scatter is 0"),
        (lambda: scatter.failure_free_tests(1.0, 0.9), "unreliability"),
        (lambda: strongest_of_n.expected_strongest(0.5), "draws"),
        (lambda: staircase.dixon_mood(1.0, 1.0, [9, 0], of_failures=True), "mean only"),
        (lambda: staircase.dixon_mood_mean(1.0, 1.0, [0], of_failures=True), "events counted"),
        (lambda: belt.belt_length(20e-3, 40e-3, 20e-3), "overlap"),
        (lambda: belt.mesh_factor(1.5), "not rated"),
        (lambda: belt.centre_distance_for(20e-3, 40e-3, 100e-3), "go round"),
    ],
)
def test_what_the_laws_do_not_hold_for_is_refused(call, words: str) -> None:
    with pytest.raises(OutsideValidity, match=words):
        call()
