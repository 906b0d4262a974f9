"""What to measure first: shares of a doubt against known answers, and what is said of them."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path
from statistics import NormalDist

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.parts.all import REPORTED
from firstfire.runs.drawn import SCATTER, Draw
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import FIRST, Fate, moment_between
from firstfire.runs.one_by_one import SIDE, OneByOne, crossing
from firstfire.runs.spread import Spread
from firstfire.verdict.doubt import questions
from firstfire.verdict.doubt.contract import DoubtTold, told
from firstfire.verdict.doubt.doubt import Doubts, doubts, weighed
from firstfire.verdict.doubt.enders import Curve, Ender, Swayed, first_of
from firstfire.verdict.doubt.enders_fitted import enders
from firstfire.verdict.doubt.questions import asked, may_be_first
from firstfire.verdict.doubt.text import doubt_text
from firstfire.verdict.doubt.words import bears_words, sentence, span_words
from firstfire.verdict.facts.decide import in_the_odds
from firstfire.verdict.facts.odds import DRAWS, Bells, name_of, outcomes
from firstfire.verdict.facts.share import BINS, read_with_error, shares_told
from firstfire.verdict.facts.spans import Bend

ROOT = Path(__file__).resolve().parents[2]
NYLON = ROOT / "tests" / "field" / "nylon_pistons.toml"
# Twenty thousand draws know a share of 0.5 to this, three standard deviations: that of a squared
# correlation r², 2 r (1 - r²) / sqrt(n), at its largest.
SAMPLED = 3 * 2 * 0.58 * (1 - 0.33) / math.sqrt(DRAWS)


@pytest.fixture(scope="module")
def bells():
    return Bells()


@pytest.fixture(scope="module")
def found(result) -> Doubts:
    return doubts(result)


# Shares against known answers


def test_a_sum_is_shared_as_its_variances(bells):
    a, b, c = (bells.of(name) for name in "abc")
    shares = [shares_told(np.array([a + 2 * b]), one)[0] for one in (a, b, c)]
    assert shares == pytest.approx([0.2, 0.8, 0.0], abs=SAMPLED)


@pytest.mark.parametrize("spare", [0.5, 1.5, 2.3])
def test_a_yes_or_no_is_shared_as_a_normal_integral_has_it(bells, spare):
    """Holds where ``spare + a x + b y >= 0``: V(Φ((spare + a x)/b)) over p (1 - p)."""
    a, b = 0.6, 0.8
    normal = NormalDist()
    grid = np.array([normal.inv_cdf((at + 0.5) / 20_000) for at in range(20_000)])
    told_by_x = np.array([normal.cdf((spare + a * x) / b) for x in grid])
    p = normal.cdf(spare / math.hypot(a, b))
    exact = float(np.var(told_by_x)) / (p * (1 - p))
    holds = (spare + a * bells.of("x") + b * bells.of("y") >= 0).astype(float)
    share = shares_told(np.array([holds]), bells.of("x"))[0]
    assert share == pytest.approx(exact, abs=3 * 0.01)  # thirty repeated draws spread by 0.01


def test_a_bend_that_a_correlation_misses_is_told(bells):
    """Of a square nothing is linear, and all of it is known from the input."""
    square = bells.of("x") ** 2
    share = shares_told(np.array([square]), bells.of("x"))[0]
    assert abs(np.corrcoef(square, bells.of("x"))[0, 1]) < 0.05
    assert share > 0.95  # the outermost bins are wide


@pytest.mark.parametrize("left", [0.0, 0.3, 0.7, 1.0])
def test_a_reading_with_an_error_tells_what_its_span_loses(bells, left):
    true, reading = bells.of("x"), read_with_error(bells.of("x"), left, bells.of("luck"))
    share = shares_told(np.array([true]), reading)[0]
    assert share == pytest.approx(1 - left**2, abs=max(SAMPLED, 1 / BINS))


def test_what_never_changes_is_in_no_doubt(bells):
    assert shares_told(np.ones((1, DRAWS)), bells.of("x"))[0] == 0.0


def test_the_odds_count_as_much_as_both_times():
    assert weighed({"odds": 0.2, "full_throttle": 0.0, "idle": 0.0}) == pytest.approx(0.1)
    assert weighed({"odds": 0.0, "full_throttle": 0.2, "idle": 0.2}) == pytest.approx(0.1)
    assert weighed({}) == 0.0


# When ways give way


def curve():
    """A factor of which nothing is lost up to 1 s, and then as much as the time's logarithm."""
    logs = np.log(np.array([0.25, 0.5, 1.0, 4.0, 16.0, 64.0]))
    return Curve(logs, np.maximum(logs, 0.0) + 1e-9 * np.arange(6))


def test_a_curve_is_read_backwards_and_carried_on():
    times = curve().when(np.array([-0.1, math.log(4.0), math.log(100.0), 20.0]))
    assert times[0] == pytest.approx(math.log(FIRST))
    assert times[1:3] == pytest.approx([math.log(4.0), math.log(100.0)], rel=1e-6)
    assert times[3] == math.inf


def ender(ident, in_factor, in_time, factor=1.0):
    """A way that takes e seconds at the centre, plus what is said."""
    return Ender(
        ident, "full throttle 4000 rpm", math.log(600), factor, curve(), 0.0,
        in_factor, in_time, None, np.zeros(32),
    )  # fmt: skip


def test_how_long_an_engine_lasts_is_shared_as_its_sums(bells):
    """In factor and in time alike, since the curve loses as much as the time's logarithm."""
    one = ender("rod.tear", {"a": (0.06, 0.0)}, {"b": (0.08, 0.0)})
    first, which = first_of([one], lambda _: bells.of, bells.engine(32))
    assert not which.any()
    shares = [shares_told(first[None, :], bells.of(name))[0] for name in "abc"]
    assert shares == pytest.approx([0.36, 0.64, 0.0], abs=SAMPLED)


def test_an_engine_goes_with_whichever_way_is_first(bells):
    """Of two alike ways the first: shares as of the smaller of two normal numbers.

    Each of two independent ones tells ``V(E(min | x))`` of ``V(min) = 1 - 1/π``, with
    ``E(min | x) = x Φ(-x) - φ(x)``.
    """
    normal = NormalDist()
    grid = np.array([normal.inv_cdf((at + 0.5) / 20_000) for at in range(20_000)])
    told_by_x = np.array([x * normal.cdf(-x) - normal.pdf(x) for x in grid])
    exact = float(np.var(told_by_x)) / (1 - 1 / math.pi)
    two = [ender("rod.tear", {}, {"a": (0.1, 0.0)}), ender("rod.buckle", {}, {"b": (0.1, 0.0)})]
    first, which = first_of(two, lambda _: bells.of, bells.engine(32))
    assert np.mean(which) == pytest.approx(0.5, abs=0.02)
    for name in "ab":
        share = shares_told(first[None, :], bells.of(name))[0]
        assert share == pytest.approx(exact, abs=SAMPLED)


def test_scatter_is_each_piece_s_own(bells):
    first = bells.of(name_of(SCATTER, "rod.tear"))
    assert first is bells.of(name_of(SCATTER, "rod.buckle"))
    assert first is not bells.of(name_of(SCATTER, "piston.swell"))


def test_a_crossing_is_found_between_neighbours():
    assert crossing(lambda _: -1.0, 50, 10) == ((0, -1.0), (0, -1.0))
    assert crossing(lambda _: 1.0, 50, 10) is None
    before, after = crossing(lambda at: 1.0 if at <= 33 else -20.0, 50, 10)
    assert (before[0], after[0]) == (33, 34)


# Which form fits

NAMES = ("doubt.wall_heat", "materials.petg.strength_in_plane")


def made(how, count=32):
    """A way followed one input by one, and engines drawn, all lasting as long as `how` says."""
    random = np.random.default_rng(5)
    places = random.standard_normal((count, 2))
    seconds = tuple(np.geomspace(0.25, 600.0, 57).tolist())
    draws = tuple(Draw(dict(zip(NAMES, row.tolist(), strict=True)), {"rod": 0.0}) for row in places)
    fates = tuple(Fate(*how(*row)) for row in places)
    logs = {"rod.tear": 1.0 - 0.3 * np.log(np.array(seconds))}
    centre = Fate(*how(0.0, 0.0))
    up, down = ({NAMES[0]: Fate(*how(side, 0.0))} for side in (SIDE, -SIDE))
    moved = OneByOne(600.0, seconds, logs, centre, up, down)
    spread = Spread(NAMES, {"rod.tear": (0.0, 0.15)}, (1,))
    bends = {"rod.tear": Bend(0.0, 1.0, 0.0, 0.15, 0.0)}
    return enders("full throttle", moved, spread, Ensemble(draws, fates), bends)[0]


def lasts(heat, strength):
    """Heat shortens the time; strength lengthens it as the curve of the factor has it."""
    log = 1.0 + 0.15 * strength
    return {"rod.tear": log}, {"rod.tear": math.exp(log / 0.3 - 0.4 * heat)}


def test_what_each_input_does_is_recovered():
    fitted = made(lasts)
    assert fitted.in_time[NAMES[0]][0] == pytest.approx(-0.4, abs=0.01)
    assert fitted.in_factor[NAMES[1]][0] == pytest.approx(0.15)
    assert float(np.std(fitted.left)) < 0.02


def test_what_nothing_explains_is_nobody_s():
    luck = iter(np.random.default_rng(7).standard_normal(100))

    def lucky(heat, strength):
        log = 1.0 + 0.15 * strength
        still = heat in (0.0, SIDE, -SIDE) and strength == 0.0
        return {"rod.tear": log}, {"rod.tear": math.exp(3.0 + (2 * heat if still else next(luck)))}

    fitted = made(lucky)
    assert fitted.curve is None
    assert not fitted.names
    assert float(np.mean(fitted.left)) == pytest.approx(0.0, abs=1e-9)


def test_what_recovers_goes_by_its_course():
    """A way comes nearest at 20 s and recovers, and heat tells only later than it is judged."""
    seconds = np.geomspace(0.25, 600.0, 57)

    def how(heat, strength):
        late = np.clip(np.log(seconds) / math.log(20.0), 0.0, None)
        log = 0.3 + 0.4 * np.log(seconds / 20.0) ** 2 - 0.4 * heat * late + 0.15 * strength
        at = int(np.argmax(log < 0))
        gone = (
            math.inf if at == 0 else moment_between(seconds, (at - 1, log[at - 1]), (at, log[at]))
        )
        judged = float(np.interp(0.0, np.log(seconds), log))
        return {"rod.tear": judged}, {"rod.tear": gone}, 0.0, 0.0, {"rod.tear": tuple(log)}

    random = np.random.default_rng(5)
    places = random.standard_normal((64, 2))
    draws = tuple(Draw(dict(zip(NAMES, row.tolist(), strict=True)), {"rod": 0.0}) for row in places)
    fates = tuple(Fate(*how(*row)) for row in places)
    assert 5 < sum(math.isfinite(fate.seconds["rod.tear"]) for fate in fates) < 30
    centre = Fate(*how(0.0, 0.0))
    up, down = ({NAMES[0]: Fate(*how(side, 0.0))} for side in (SIDE, -SIDE))
    logs = {"rod.tear": np.array(centre.courses["rod.tear"])}
    moved = OneByOne(600.0, tuple(seconds.tolist()), logs, centre, up, down)
    spread = Spread(NAMES, {"rod.tear": (0.0, 0.15)}, (1,))
    bends = {"rod.tear": Bend(0.0, 1.0, 0.0, 0.15, 0.0)}
    fitted = enders("full throttle", moved, spread, Ensemble(draws, fates), bends)[0]
    assert isinstance(fitted.curve, Swayed)
    assert fitted.names == set(NAMES)
    assert float(np.max(np.abs(fitted.left))) < 0.25


# Of real engines


def test_the_odds_asked_are_those_of_the_verdict(result, found):
    assert found.odds == result.verdict.odds
    again = outcomes(result.events, in_the_odds(result.margins))
    assert float(again.holds.mean()) == result.verdict.odds
    assert not any(gone[again.holds].any() for _, gone in again.gone)


def test_no_doubt_is_shared_out_more_than_once(found):
    """First-order shares of independent inputs come to one at the most."""
    for which in found.doubtful:
        shares = [one.known[which] for one in (*found.readings, *found.beyond)]
        assert sum(shares) < 1.0 + 0.02
        assert max(shares) > 0.02


def test_a_reading_tells_no_more_than_knowing(found):
    for one in (*found.readings, *found.beyond):
        for which in found.doubtful:
            assert 0.0 <= one.told[which] <= one.known[which] <= 1.0
        assert one.told.keys() == one.known.keys()


def test_every_input_is_there_once_and_has_its_path(result, found):
    paths = [span.path for one in (*found.readings, *found.beyond) for span in one.spans]
    assert len(paths) == len(set(paths))
    assert {name for event in result.events for s in event.spreads for name in s.names} <= {
        *paths,
        "speed before top",
    }


def test_luck_is_not_to_be_measured(found):
    lucky = next(one for one in found.beyond if one.reading.pattern == SCATTER)
    assert max(lucky.known.values()) > 0
    assert max(lucky.told.values()) == 0.0
    assert all(one.reading.pattern != SCATTER for one in found.readings)


def test_what_takes_a_running_engine_comes_too_late_for_its_first_fire(found):
    mixture = next(one for one in found.readings if "mixture" in one.reading.words)
    assert mixture.told["odds"] == 0.0
    assert mixture.known["full_throttle"] > 0.0
    assert mixture.reading.spins


def test_most_worth_stands_first(found):
    ranks = [weighed(one.told) for one in found.readings]
    assert ranks == sorted(ranks, reverse=True)
    beyond = [weighed(one.known) for one in found.beyond]
    assert beyond == sorted(beyond, reverse=True)


def test_what_a_row_bears_on_is_judged_there(result, found):
    judged = {(m.way.id, m.point) for m in result.margins}
    for one in (*found.worth_it, *found.out_of_reach):
        if one.reading.pattern.startswith("which"):
            continue
        assert one.bears_on is not None
        assert (one.bears_on.way, one.bears_on.point) in judged
        assert one.known[one.bears_on.asked] == max(one.known.values())


def test_an_input_that_moves_one_way_alone_bears_on_that(result):
    """Torque to preload bears on what bolts hold together, nothing else."""
    nut = next(one for one in doubts(result).readings if one.reading.pattern == "doubt.nut_factor")
    if nut.bears_on is not None:
        part = nut.bears_on.way.split(".")[0]
        assert part in ("gasket", "head", "body", "plug")


@pytest.mark.long
def test_a_measured_input_decides_nothing_more(wren):
    """Once the groove was measured as well as a caliper can, another reading tells nothing."""
    speeds = [4000 * math.pi / 30]
    measured = ff.read(ROOT / "engines" / "wren.toml")
    depth = measured.values(1).spoken("rings.groove_depth").value
    measured = with_values(
        measured,
        {"rings.groove_depth": {"value": f"{1e3 * depth:.4f} mm", "with": "caliper"}},
    )
    again = doubts(ff.check(measured, speeds=speeds))
    groove = next(o for o in again.readings if o.reading.pattern == "rings.groove_depth")
    assert groove.left == pytest.approx(1.0)
    assert max(groove.told.values()) == 0.0


@pytest.fixture(scope="module")
def nylon():
    life = ("cranking", "first_fire", "idle", "full_throttle")
    return ff.check(ff.read(NYLON), only=life, changes=False)


def test_a_nylon_piston_hangs_on_its_clearance(nylon):
    """By hand: it ends where its rise times its expansion fills the gap, and the gap is known to a
    third. What heats it is known to a third as well, but acts through a growing layer.
    """
    first = doubts(nylon).worth_it[0]
    assert first.reading.pattern == "piston.skirt_clearance"
    assert first.told["idle"] > 0.4
    assert first.bears_on is not None
    assert first.bears_on.way == "piston.swell"
    assert first.reading.instrument == "feeler_gauge"


def test_what_was_moved_one_by_one_explains_the_engines_drawn(nylon):
    """Of the engines drawn all but a tenth of the variance is explained: none was used to fit it
    but to choose a form.
    """
    for event in nylon.events:
        if event.event not in ("idle", "full_throttle"):
            continue
        moved = questions._moved(nylon, event, None)
        found = list(questions._enders(event, moved))
        drawn = event.ensembles[0].draws
        firsts = np.full(len(drawn), math.inf)
        explained = np.full(len(drawn), math.inf)
        for one in found:
            number = [bout.point.name for bout in event.bouts].index(one.point)
            times = one.clipped(np.log(event.ensembles[number].seconds(one.id)))
            firsts = np.minimum(firsts, times)
            explained = np.minimum(explained, times - one.left)
        assert np.var(firsts - explained) < 0.1 * np.var(firsts)


def test_ways_far_from_being_first_are_not_followed(nylon):
    event = next(e for e in nylon.events if e.event == "idle")
    ways, horizon = may_be_first(event)
    assert "piston.swell" in ways
    assert len(ways) < 6
    assert horizon <= 600.0


def test_what_ends_no_engine_is_in_no_doubt(nylon):
    """An idle that all engines drawn hold to its end: nothing is followed, and nothing asked."""
    held = [
        replace(
            event,
            ensembles=tuple(
                Ensemble(e.draws, tuple(Fate(f.factors, {}) for f in e.fates))
                for e in event.ensembles
            ),
        )
        if event.event == "idle"
        else event
        for event in nylon.events
    ]
    found = doubts(replace(nylon, events=tuple(held)))
    assert "idle" in found.sure
    assert "how long it idles" in doubt_text(found)


def test_questions_are_answered_alike_each_time(nylon):
    one, other = asked(nylon), asked(nylon)
    for before, after in zip(one.questions, other.questions, strict=True):
        assert np.array_equal(before.answer, after.answer)


@pytest.mark.long
@pytest.mark.parametrize("file", ["engines/wren.toml", "tests/field/nylon_pistons.toml"])
def test_times_are_shared_as_in_four_hundred_engines_drawn(file):
    """Each input's share by a cubic through 400 engines that were drawn and followed.

    Such a share of s is itself known to sqrt(4 s (1 - s)/n), 0.05 at the most; two of those, and
    a tenth for engines that answer to several inputs at once, which sums of each can't know.
    """
    many = ff.check(ff.read(ROOT / file), drawn=400)
    few = doubts(ff.check(ff.read(ROOT / file)))
    for event in many.events:
        if event.event not in few.doubtful:
            continue
        shares = _by_engines(event, may_be_first(event)[1])
        mine = {s.path: one.known for one in (*few.readings, *few.beyond) for s in one.spans}
        for path, share in shares.items():
            if path not in mine or len(mine[path]) == 0:
                continue
            assert mine[path][event.event] == pytest.approx(share, abs=0.2), path
        top = max(shares, key=lambda path: shares[path])
        ranked = sorted(mine, key=lambda path: -mine[path][event.event])
        assert top in ranked[:3]


def _by_engines(event, horizon):
    """Shares of the first time's logarithm by what is drawn: lines of all at once, then cubics."""
    draws = event.ensembles[0].draws
    firsts = np.full(len(draws), math.inf)
    for ensemble in event.ensembles:
        for number, fate in enumerate(ensemble.fates):
            times = [t for way, t in fate.seconds.items() if way.partition("#")[0] not in REPORTED]
            firsts[number] = min(firsts[number], *times)
    answer = np.log(np.clip(firsts, 1.0, horizon))
    names = list(draws[0].shared)
    places = np.array([[draw.shared[name] for name in names] for draw in draws])
    lines = np.column_stack([np.ones(len(draws)), places])
    slopes, *_ = np.linalg.lstsq(lines, answer, rcond=None)
    rest = answer - lines @ slopes
    found = {}
    for column, name in enumerate(names):
        z = places[:, column]
        own = rest + slopes[column + 1] * z
        cubic = np.polynomial.Polynomial.fit(z, own, 3)(z)
        by_chance = 3 * np.var(own - cubic) / len(draws)
        found[name] = float((np.var(cubic) - by_chance) / np.var(answer))
    return found


# What is said


def test_the_sentence_names_the_reading_its_tool_its_minutes_and_what_it_decides(nylon):
    said = sentence(doubts(nylon))
    assert said.startswith("nylon pistons: measure the gap between piston and bore first: a feeler")
    assert "5 minutes" in said
    assert "of 100 of the doubt about how long it idles" in said


def test_the_text_keeps_to_eighty_columns_and_eight_rows(found):
    text = doubt_text(found)
    assert max(map(len, text.splitlines())) <= 80
    assert "What nobody can measure at home" in text
    assert text.count("bears on:") <= 8
    assert "common practice, no source" in text


def test_an_engine_that_surely_fails_needs_no_reading(found):
    sure = replace(found, odds=0.0, doubtful=(), sure=("odds", "full_throttle", "idle"))
    assert "change what gives way first" in " ".join(doubt_text(sure).split())
    assert "measure" not in doubt_text(sure).splitlines()[0]


def test_an_engine_that_surely_holds_needs_none_either(found):
    sure = replace(found, odds=1.0, doubtful=(), sure=("odds", "full_throttle", "idle"))
    assert "Neither whether it holds nor for how long is in doubt" in sentence(sure)


def test_where_nothing_could_be_judged_it_says_so(result):
    bare = doubts(replace(result, events=(), margins=()))
    assert not bare.doubtful
    said_of_it = " ".join(doubt_text(bare).split())
    assert said_of_it.startswith("wren: none of its ways to fail could be judged")


def test_where_nothing_at_home_tells_it_says_so(found):
    bare = replace(found, readings=())
    assert "Nothing" not in sentence(bare)  # after the engine's name
    assert "nothing that can be measured at home decides as much as 1 in 100" in sentence(bare)
    assert "What nobody can measure at home" in doubt_text(bare)


def test_the_caution_stands_where_the_engine_is_turned(found):
    still = tuple(one for one in found.readings if not one.reading.spins)
    turned = tuple(one for one in found.readings if one.reading.spins and max(one.told.values()))
    assert "Caution" in doubt_text(replace(found, readings=turned))
    assert "Caution" not in doubt_text(replace(found, readings=still))


def test_spans_are_said_in_the_bench_s_units(wren, found):
    said = {s.path: span_words(wren, s) for one in found.readings for s in one.spans}
    assert said["rings.groove_depth"].replace("\u202f", " ").endswith(" mm")
    assert said["doubt.nut_factor"] == "0.7 to 1.35 times"
    assert "°C" in said["surroundings.air_temperature"]


def test_a_twin_s_judgement_is_said_with_its_cylinder(found):
    place = next(one.bears_on for one in found.worth_it if one.bears_on is not None)
    second = replace(place, way="piston.swell#2", point="idle 900 rpm")
    assert "cylinder 2" in bears_words(second, 2)
    assert "cylinder" not in bears_words(replace(second, way="piston.swell"), 1)


def test_the_json_has_all_of_it_and_no_number_that_is_none(found):
    plain = json.loads(told(found).model_dump_json(by_alias=True))
    assert plain["schema"] == "firstfire.doubt/1"
    assert len(plain["readings"]) + len(plain["beyond"]) > 60
    assert all(one["minutes"] is None and one["why_not"] for one in plain["beyond"])
    assert all(one["spans"][0]["low"] < one["spans"][0]["high"] for one in plain["readings"])


def test_the_contract_is_the_one_that_was_stored():
    """A change must be meant: fields are added, never renamed or given another meaning."""
    stored = json.loads((Path(__file__).parent / "stored" / "doubt.schema.json").read_text())
    assert DoubtTold.model_json_schema(by_alias=True, mode="serialization") == stored
