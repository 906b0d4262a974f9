"""A working written out and what moves it, from lines that a pocket calculator follows."""

from __future__ import annotations

import ast
import math
from types import SimpleNamespace

import pytest

from firstfire.engine.arithmetic import parsed
from firstfire.engine.records import Line, Way
from firstfire.formulas.normal import NINETY
from firstfire.verdict.explain import opening
from firstfire.verdict.explain.bench_units import Shown, plain, unit_of, with_unit
from firstfire.verdict.explain.opening import explanation, movers
from firstfire.verdict.explain.working import followed, short, turning
from firstfire.verdict.explain.written import written
from firstfire.verdict.facts.margin import Dependence, Margin, Raised, RunTime
from firstfire.verdict.numbers import THIN

# A thrust of 3 kN on a big end of 20 mm width against 60 MPa and a hole of 12 mm.
INPUTS = {
    "thrust": 3000.0, "rod.big_end_width": 0.020, "crank.crankpin_diameter": 0.012,
    "strength_at_room": 60e6, "face": 373.15, "temperature_leaves": 0.5,
}  # fmt: skip
LINES = (
    Line("area", "rod.big_end_width * crank.crankpin_diameter", "m^2", "area that bears, in all"),
    Line("demand", "thrust / area", "Pa", "pressure on it"),
    Line("capacity", "strength_at_room * temperature_leaves", "Pa", "what it bears"),
)
DEMAND, CAPACITY = 3000 / 0.00024, 30e6


def way(lines=LINES, inputs=INPUTS, demand=DEMAND, capacity=CAPACITY, **more):
    return Way(
        "rod.big_end.crush", "big end", "crushes", demand, capacity, "Pa", False, "section", None,
        "force over area", "a book", inputs=inputs, working=lines, **more,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (0.0123456, 4, "0.01235"), (999.96, 4, "1000"), (12.0, 4, "12"), (123456.0, 3, "123456"),
        (9.9e-9, 4, "0"), (1.1e-8, 3, "0.000000011"), (2e15, 3, "2.00e+15"), (math.inf, 4, "–"),
        (-0.5, 4, "-0.5"), (1.5, 5, "1.5"),
    ],
)  # fmt: skip
def test_a_number_as_it_is_keyed_in(value, digits, text):
    assert plain(value, digits) == text


@pytest.mark.parametrize(
    ("name", "si", "text"),
    [
        ("rod.big_end_width", 0.02, f"20{THIN}mm"), ("face", 373.15, f"100{THIN}°C"),
        ("speed", 100 * math.pi, f"3000{THIN}rpm"), ("gas_pressure", 3.5e6, f"3.5{THIN}MPa"),
        ("head.fasteners.torque", 3.0, f"3{THIN}N·m"), ("reciprocating_mass", 0.05, f"50{THIN}g"),
        ("spark.running_angle", math.pi / 9, "20°"), ("poisson", 0.35, "0.35"),
    ],
)  # fmt: skip
def test_a_number_in_its_unit_of_the_bench(name, si, text):
    assert with_unit(si, unit_of(name), 4) == text


def test_a_working_in_the_units_of_the_bench():
    """20 · 12 = 240 mm²; 3000 ÷ 240 = 12.5 N/mm², which are MPa; 60 · 0.5 = 30 MPa."""
    found = followed(way())
    assert found.digits == 4
    area, demand, capacity = found.lines
    assert (area.substituted, area.result_text) == ("20 × 12", f"240{THIN}mm²")
    assert (demand.substituted, demand.result_text) == ("3000 ÷ 240", f"12.5{THIN}MPa")
    assert demand.symbolic == "largest thrust in the rod ÷ area that bears"
    assert (capacity.substituted, capacity.result_text) == ("60 × 0.5", f"30{THIN}MPa")
    assert not any(line.turned for line in found.lines)
    assert (area.value, demand.value) == pytest.approx((0.00024, DEMAND))


def test_where_units_do_not_agree_a_factor_turns_them():
    """3000 N times 20 mm is 60 N·m: 60000 turned by a thousandth; a sum is held together first."""
    lines = (
        Line("arm", "rod.big_end_width + crank.crankpin_diameter", "m", "arm"),
        Line("demand", "thrust * (arm - crank.crankpin_diameter)", "N*m", "torque"),
        Line("capacity", "thrust * arm + thrust * rod.big_end_width", "N*m", "torque it bears"),
    )
    arm, demand, capacity = followed(way(lines)).lines
    assert (arm.substituted, arm.turned) == ("20 + 12", False)
    assert (demand.substituted, demand.turned) == ("3000 × (32 - 12) × 0.001", True)
    assert demand.result_text == f"60{THIN}N·m"
    assert capacity.substituted == "(3000 × 32 + 3000 × 20) × 0.001"
    assert capacity.result_text == f"156{THIN}N·m"


def test_a_factor_too_small_to_key_in_is_a_power_of_ten():
    """A square metre in square millimetres, of a force of a billion newtons."""
    lines = (Line("demand", "thrust * crank.crankpin_diameter ** 3", "", "a pure number"),)
    (one,) = followed(way(lines)).lines
    assert one.substituted == "3000 × 12³ × 1.000e-09"
    assert one.result_text == "0.005184"


def test_temperatures_are_put_in_in_celsius_and_angles_come_out_in_degrees():
    """200 °C less 100; 0.3 · 20 ÷ 12 = 0.5 rad = 28.65°."""
    inputs = INPUTS | {"melts_at": 473.15}
    lines = (
        Line("left", "melts_at - face", "K", "what is left"),
        Line("product", "face * thrust", "", "no law, but of a temperature by itself"),
        Line("demand", "0.3 * rod.big_end_width / crank.crankpin_diameter", "rad", "angle"),
    )
    found = followed(way(lines, inputs))
    left, product, angle = found.lines
    assert (left.substituted, left.result_text) == ("200 - 100", f"100{THIN}K")
    assert product.substituted.startswith("100 × 3000 × 3.732")
    assert angle.result_text == "28.65°"
    assert found.digits == 4


def test_as_many_figures_as_it_takes():
    """1.23456 less 1.23400: with four figures nothing is left of 0.00056, with seven it all is."""
    inputs = {"thrust": 1.23456, "pull": 1.234}
    lines = (Line("demand", "thrust - pull", "N", "difference"),)
    assert followed(way(lines, inputs)).digits == 6
    even = {"thrust": 1.235, "pull": 1.0}
    assert followed(way(lines, even)).digits == 4


def test_what_turns_a_line_is_found_from_both_units():
    line = Line("demand", "a * b", "N*m", "")
    values, units = {"a": 2.0, "b": 0.05, "demand": 0.1}, {"a": Shown("N"), "demand": Shown("N·m")}
    assert turning(line, values, units | {"b": Shown("mm", 1e-3)}) == pytest.approx(1e-3)
    assert turning(line, values, units | {"b": Shown("m")}) == 1.0
    warm = {"a": 1.0, "b": 300.0, "demand": 26.85}
    assert turning(line, warm, units | {"b": Shown("°C", 1.0, 273.15)}) == 1.0


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("a - (b - c)", "a - (b - c)"), ("a - b - c", "a - b - c"), ("a / (b / c)", "a ÷ (b ÷ c)"),
        ("a * (b * c)", "a × b × c"), ("(a + b) * c", "(a + b) × c"), ("-(a * b)", "-(a × b)"),
        ("sqrt(a) * 2", "√a × 2"), ("sqrt(a + b)", "√(a + b)"), ("a**3", "a³"), ("a**4", "a⁴"),
        ("a**0.5", "a^0.5"), ("(a + b)**c", "(a + b)^c"), ("a**(b + 1)", "a^(b + 1)"),
        ("min(a, b)", "the lesser of (a or b)"), ("exp(a)", "e^(a)"), ("log(a)", "ln(a)"),
        ("a * b**2", "a × b²"), ("a + b * c", "a + b × c"),
    ],
)  # fmt: skip
def test_arithmetic_as_it_is_written_by_hand(code, text):
    assert written(parsed(code), str, 4) == text
    assert isinstance(parsed(code), ast.expr)


def test_a_power_of_several_words_is_held_together():
    assert written(parsed("a**2"), lambda name: f"pin {name}", 4) == "(pin a)²"


def test_what_explains_is_left_out_of_later_lines():
    assert short("area that bears, in all") == "area that bears"
    assert short("width (of the hub); both") == "width"


def test_what_moves_a_factor_when_it_is_a_tenth_more():
    """Area and strength by 1.1, thrust by 1/1.1 = 0.909; what the wall leaves has no step."""
    told = sorted(one.rpartition(" ")[2] for one in movers(way()))
    assert told == ["0.909", "1.1", "1.1", "1.1"]
    assert "largest thrust in the rod 10 % more: factor × 0.909" in movers(way())


def test_a_temperature_is_moved_by_ten_kelvin_and_a_count_by_one():
    """80 K of 100 left are 70 ten warmer; four screws are five."""
    inputs = {"face": 393.15, "head.fasteners.count": 4.0, "thrust": 100.0}
    lines = (
        Line("demand", "thrust / head.fasteners.count", "N", "on each"),
        Line("capacity", "473.15 - face", "N", "what is left"),
    )
    told = movers(way(lines, inputs, 25.0, 80.0))
    assert [one.rpartition(" ")[2] for one in told] == ["1.25", "0.875", "0.909"]
    assert "one more (5)" in told[0]
    assert "10 K higher" in told[1]


@pytest.mark.parametrize(("thrust", "told"), [(0.08, ["1.01"]), (0.04, [])])
def test_what_moves_a_factor_by_less_than_half_a_hundredth_is_not_told(thrust, told):
    """1.088 over 1.08 is 0.7 % and 1.044 over 1.04 is 0.4 %."""
    lines = (Line("capacity", "1 + thrust", "N", ""), Line("demand", "1", "N", ""))
    found = movers(way(lines, {"thrust": thrust}, 1.0, 1 + thrust))
    assert [one.rpartition(" ")[2] for one in found] == told


def margin(**changes):
    parts = {
        "way": way(), "event": "full_throttle", "point": "full throttle 3000 rpm",
        "at_seconds": 1.0, "factor": 2.4, "factor_low": 2.4 / 1.5, "factor_high": 2.4 * 1.5,
        "word": "holds", "survival": 0.99, "depends_on": (),
    }  # fmt: skip
    return Margin(**{**parts, **changes})


@pytest.fixture
def opened(monkeypatch):
    """An explanation of a margin of a made-up result."""
    monkeypatch.setattr(opening, "numbers_put", lambda *_: ())
    monkeypatch.setattr(opening, "unknown_words", lambda _, path: path)
    cylinders = SimpleNamespace(cylinders=(None,))

    def of(one, run_times=()):
        result = SimpleNamespace(
            opened=lambda asked: asked.way, plain=cylinders, engine=None, read=lambda _: (),
            run_times=run_times,
        )  # fmt: skip
        return explanation(result, one)

    return of


def test_the_factor_is_capacity_over_demand(opened):
    """30 ÷ 12.5 = 2.4."""
    last = opened(margin()).working[-1]
    assert (last.substituted, last.result_text, last.value) == ("30 ÷ 12.5", "2.4", 2.4)


def test_makers_of_a_span_are_shares_of_its_variance(opened):
    """1.5 either way are ln 1.5 over 1.6449, 0.2465: 0.2 makes 0.04 of 0.06076, 0.0247 a hundredth.

    What is left of the whole is told last; of what makes more than the whole, the sum is the whole.
    """
    sigma = math.log(1.5) / NINETY
    depends = (Dependence("a", 0.2), Dependence("b", -0.1 * sigma * 1.01), Dependence("c", 0.01))
    first, second, rest = opened(margin(depends_on=depends)).makers
    assert (first.words, first.share) == ("a", pytest.approx(0.04 / sigma**2))
    assert (second.words, second.share) == ("b", pytest.approx(0.010201))
    left = 1 - 0.04 / sigma**2 - 0.010201 - 0.0001 / sigma**2
    assert rest.share == pytest.approx(left)
    both = (Dependence("a", 0.4), Dependence("b", 0.3))
    assert [one.share for one in opened(margin(depends_on=both)).makers] == pytest.approx(
        [0.16 / 0.25, 0.09 / 0.25]
    )
    assert opened(margin(depends_on=both, factor_high=1.6, factor_low=1.6)).makers == ()


def test_a_change_that_makes_an_end_of_it_no_longer_applies(opened):
    tried = [Raised("Do", {}, factor, "", 0.0, 0.5, "") for factor in (1e6, 3.26)]
    shown = opened(margin(raise_by=tuple(tried))).raises
    assert [one.after_text for one in shown] == ["it no longer applies", "factor 3.3"]


def test_the_clock_of_the_same_way_at_the_same_point_is_told(opened):
    limit = RunTime(
        "full_throttle", "full throttle 3000 rpm", way(), 45.0, 30.0, 60.0, None, None, False
    )
    elsewhere = RunTime("idle", "idle", way(), 7.0, 6.0, 8.0, None, None, False)
    said = opened(margin(), (elsewhere, limit)).clock
    assert said.startswith("Held at full throttle 3000 rpm from cold, it comes after about")
    assert opened(margin(), (elsewhere,)).clock == ""
