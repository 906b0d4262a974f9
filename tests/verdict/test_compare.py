"""Engines side by side: what is told as different, better and worse, from made-up margins."""

import json
from dataclasses import replace

import pytest

import firstfire as ff
from firstfire.verdict.compare import compare as comparing
from firstfire.verdict.compare.compare import Column, Figure, compare, side_by_side
from firstfire.verdict.compare.contract import CompareTold, comparison_json
from firstfire.verdict.compare.words import figure_change, judged_words, overall
from firstfire.verdict.facts.differences import differences


@pytest.fixture
def engine_file(tmp_path):
    def write(name, text):
        file = tmp_path / f"{name}.toml"
        file.write_text(f'schema = "firstfire.engine/1"\nname = "{name}"\n{text}')
        return ff.read(file)

    return write


SINGLE = """[layout]
kind = "single"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[printing]
material = "petg"
"""


def changes(*engines):
    return differences(engines, [ff.resolve(engine) for engine in engines])


def test_the_same_written_in_inches_is_no_difference(engine_file):
    a = engine_file("a", SINGLE)
    # 44 mm is 1.73228346... in; 1 in = 25.4 mm exactly.
    b = engine_file("b", SINGLE.replace('"44 mm"', '"1.732283465 in"'))
    assert changes(a, b) == ()


def test_what_was_said_comes_before_what_follows(engine_file):
    a = engine_file("a", SINGLE)
    b = ff.with_values(a, {"cylinder.bore": "46 mm"})
    found = changes(a, b)
    assert [d.path for d in found if d.own] == ["cylinder.bore"]
    assert [d.own for d in found] == sorted((d.own for d in found), reverse=True)
    first = found[0]
    assert [s.written for s in first.each] == ["44 mm", "46 mm"]
    assert [s.layer for s in first.each] == ["file", "trial"]
    # The rule's 0.9 × bore, by hand.
    length = next(d for d in found if d.path == "piston.length")
    assert [s.value for s in length.each] == pytest.approx([0.0396, 0.0414])
    assert "valves.inlet.seat_angle" not in {d.path for d in found}


def test_a_second_cylinder_that_is_like_the_first_is_no_difference(engine_file):
    single = engine_file("a", SINGLE)
    twin = ff.with_values(single, {"layout.kind": "parallel_twin"})
    found = {d.path: d for d in changes(single, twin)}
    assert found["layout.kind"].own
    assert "cylinder.bore" not in found
    assert not any(path.startswith("cylinders.") for path in found)


def test_one_cylinder_that_differs_is_named(engine_file):
    twin = engine_file("a", SINGLE.replace("single", "parallel_twin"))
    other = ff.with_values(twin, {"cylinders.2.runner.length": "140 mm"})
    found = [d for d in changes(twin, other) if d.own]
    assert [d.path for d in found] == ["cylinders.2.runner.length"]


def test_a_material_of_your_own_value_differs(engine_file):
    a = engine_file("a", SINGLE)
    b = ff.with_values(a, {"materials.petg.strength_in_plane": "30 MPa"})
    found = {d.path: d for d in changes(a, b)}
    assert found["materials.petg.strength_in_plane"].own
    assert found["materials.petg.strength_in_plane"].each[1].value == 30e6


def columns(result, *changed):
    return [
        Column(comparing.letter(place), f"engine {place}", r.engine, r)
        for place, r in enumerate((result, *changed))
    ]


def scaled(result, by, only=None):
    """A result whose factors (of one way to fail, or of all) are `by` times as large.

    What bursts and is marginal for its 1-in-1000 cycle alone stays so: a margin doesn't keep by
    how much that cycle passes it.
    """

    def scale(margin):
        if margin.factor is None or (only and margin.way.id != only):
            return margin
        low = margin.factor_low * by
        rare = margin.way.hazard and margin.word == "marginal" and margin.factor_low >= 1
        word = "fails" if margin.factor * by < 1 else "marginal" if low < 1 or rare else "holds"
        return replace(margin, factor=margin.factor * by, factor_low=low,
                       factor_high=margin.factor_high * by, word=word)  # fmt: skip

    margins = sorted((scale(m) for m in result.margins), key=lambda m: m.rank)
    return replace(result, margins=tuple(margins))


def counted(result):
    return [m for m in result.margins
            if m.factor is not None and not m.reported and m.way.unit != "K"]  # fmt: skip


def test_one_engine_against_itself(result):
    found = side_by_side(columns(result, result))
    assert found.differences == ()
    pair = found.pairs[0]
    assert pair.overall == "alike"
    assert pair.shifts == pair.new == pair.gone == ()
    assert {f.sense for f in pair.figures} == {"alike"}
    assert "Nothing differs" in str(found)


def test_better_is_said_only_where_nothing_got_worse(result):
    stronger = scaled(result, 1.3)
    assert side_by_side(columns(result, stronger)).pairs[0].overall == "better"
    assert side_by_side(columns(stronger, result)).pairs[0].overall == "worse"
    one = counted(result)[0].way.id
    mixed = scaled(stronger, 0.5, only=one)
    pair = side_by_side(columns(result, mixed)).pairs[0]
    assert pair.overall == "mixed"
    assert "simply better" in overall(pair)
    assert {s.id for s in pair.worse} == {one}
    assert one not in {s.id for s in pair.better}


def test_worst_first_and_words_told(result):
    pair = side_by_side(columns(result, scaled(result, 0.4))).pairs[0]
    least = [s.least for s in pair.worse]
    assert least == sorted(least)
    assert pair.better == ()
    worst = pair.worse[0]
    assert worst.after.word == "fails"
    assert "fails" in judged_words(worst.after)
    assert pair.overall == "worse"


def test_a_change_within_rounding_is_not_told(result):
    # What stands so near to 1 that its word changes is told, and rightly.
    clear = tuple(
        m for m in result.margins
        if m.factor is None or not any(0.99 < end < 1.01 for end in (m.factor_low, m.factor))
    )  # fmt: skip
    assert len(clear) > 0.9 * len(result.margins)
    told = replace(result, margins=clear)
    assert side_by_side(columns(told, scaled(told, 1.004))).pairs[0].shifts == ()


def test_what_is_judged_in_one_only(result):
    one = counted(result)[0].way.id
    less = replace(result, margins=tuple(m for m in result.margins if m.way.id != one))
    pair = side_by_side(columns(result, less)).pairs[0]
    assert {s.id for s in pair.gone} == {one}
    back = side_by_side(columns(less, result)).pairs[0]
    assert {s.id for s in back.new} == {one}
    # A new way to fail that doesn't hold counts against "better".
    if any(s.after.word != "holds" for s in back.new):
        assert back.overall == "worse"


def test_limits_of_heat_that_come_sooner_are_worse(result):
    held = [limit for limit in result.run_times if limit.seconds and not limit.reported]
    assert held, "wren is expected to have limits of heat"
    sooner = replace(
        result,
        run_times=tuple(
            replace(limit, seconds=limit.seconds / 2) if limit in held else limit
            for limit in result.run_times
        ),
    )
    pair = side_by_side(columns(result, sooner)).pairs[0]
    assert pair.clocks
    assert {clock.sense for clock in pair.clocks} == {"worse"}
    assert pair.overall == "worse"
    other = ff.with_values(result.engine, {"head.fasteners.count": 6})
    told = str(
        side_by_side(columns(result, replace(sooner, engine=other, plain=ff.resolve(other))))
    )
    assert "limits of heat (first: " in told
    assert "full throttle held from cold" in told.partition("What got worse")[2]
    back = side_by_side(columns(sooner, result)).pairs[0]
    assert {clock.sense for clock in back.clocks} == {"better"}


def test_a_limit_that_no_longer_comes_is_better(result):
    gone = replace(result, run_times=tuple(replace(r, seconds=None) for r in result.run_times))
    pair = side_by_side(columns(result, gone)).pairs[0]
    assert {clock.sense for clock in pair.clocks} == {"better"}
    assert all(clock.after is None for clock in pair.clocks)


HOSTILE = "a\\nb %s {x} [bold] \u202e <b>" + "long" * 60


def test_hostile_names_stay_text(result):
    a, b = columns(result, scaled(result, 0.5))
    text = str(side_by_side([replace(a, label=HOSTILE), replace(b, label="%(x)s {0}")]))
    assert "%(x)s {0}" in text
    assert "[bold]" in text
    json.loads(comparison_json(side_by_side([replace(a, label=HOSTILE), b])))


def test_figures_in_a_persons_units():
    power = Figure("power", "most power", 768.7, 1854.0, None, None, "W", "better")
    assert figure_change(power).replace("\u202f", " ") == "769 W → 1.85 kW"
    gone = Figure("run_time", "run", 8.42, None, (0.0, 20.0), (None, None), "s", "better")
    assert figure_change(gone).replace("\u202f", " ") == "8.4 s → over 10 min"


def test_masses_of_prints_are_compared_where_they_are_known(result):
    a, b = columns(result, result)
    pair = side_by_side([replace(a, printed_mass=0.4), replace(b, printed_mass=0.5)]).pairs[0]
    mass = next(f for f in pair.figures if f.id == "printed_mass")
    assert (mass.before, mass.after, mass.sense) == (0.4, 0.5, "worse")
    assert pair.overall == "worse"


def test_text_of_three_engines_in_eighty_columns(result):
    text = str(side_by_side(columns(result, scaled(result, 1.3), scaled(result, 0.6))))
    assert max(map(len, text.splitlines())) <= 80


def test_json_keeps_its_contract(result):
    other = ff.with_values(result.engine, {"head.fasteners.count": 6})
    changed = replace(scaled(result, 1.3), engine=other, plain=ff.resolve(other))
    data = json.loads(comparison_json(side_by_side(columns(result, changed))))
    CompareTold.model_validate(data)
    assert data["schema"] == "firstfire.compare/1"
    paths = {d["path"]: d for d in data["differences"]}
    assert paths["head.fasteners.count"]["said_by_someone"]
    assert [s["value"] for s in paths["head.fasteners.count"]["each"]] == [4.0, 6.0]
    assert data["pairs"][0]["overall"] == "better"


def test_one_alone_is_no_comparison(wren):
    with pytest.raises(ValueError, match="two engines"):
        compare([("wren", wren)])


def test_identical_engines_are_checked_once(wren, result, monkeypatch):
    asked = []

    def told(engine, **more):
        asked.append(engine)
        return result

    monkeypatch.setattr(comparing, "check", told)
    compare([("a", wren), ("b", wren), ("c", ff.with_values(wren, {"rings.count": 1}))])
    assert len(asked) == 2
