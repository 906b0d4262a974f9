"""Engines drawn from what is uncertain: a fair design, an input alike in every engine."""

from __future__ import annotations

from inspect import signature
from types import SimpleNamespace

import numpy as np
import pytest

import firstfire as ff
from firstfire.cli.main import check
from firstfire.engine.resolve import resolve
from firstfire.engine.unknowns import Unknown
from firstfire.formulas.normal import NINETY
from firstfire.runs.drawn import (
    SCATTER,
    by_piece,
    drawn,
    engine_at,
    piece_of,
    pieces,
    strata,
    unknowns_of,
)
from firstfire.runs.ensemble import COUNT
from firstfire.runs.moved import Trials, value_at


@pytest.fixture(scope="module")
def trials():
    return Trials(ff.read("engines/wren.toml"))


def test_each_column_has_one_engine_in_each_equal_share():
    found = strata(16, list("abcde"), seed=3)
    for column in found.T:
        assert sorted((column * 16).astype(int)) == list(range(16))


def test_columns_do_not_go_with_each_other():
    found = strata(256, list("abcdefghijkl"), seed=3)
    apart = np.corrcoef(found.T)[np.triu_indices(12, 1)]
    # A correlation of 256 independent pairs scatters by 1/16; of 66 the largest is about 2.7 times.
    assert np.abs(apart).max() < 4 / 16


def test_the_command_draws_as_many_as_everything_else():
    assert signature(check).parameters["engines"].default == COUNT


def test_the_same_seed_gives_the_same_draws_and_another_others(trials):
    first = drawn(trials, 4, 5)
    assert first == drawn(trials, 4, 5)
    assert first != drawn(trials, 4, 6)


def test_what_two_engines_share_is_drawn_alike(trials):
    """Else a comparison would tell the difference of two draws as that of two engines."""
    wren = ff.read("engines/wren.toml")
    cast = ff.with_values(wren, {"crank.main_bearing": "6203", "head.material": "petg"})
    for one, other in zip(drawn(trials, 8, 5), drawn(Trials(cast), 8, 5), strict=True):
        both = one.shared.keys() & other.shared.keys()
        assert len(both) > 0.8 * len(one.shared)
        assert one.shared.keys() != other.shared.keys()
        assert {name: one.shared[name] for name in both} == {n: other.shared[n] for n in both}
        assert one.pieces == other.pieces


@pytest.mark.parametrize("shape", ["normal", "lognormal"])
def test_ends_of_a_span_are_where_nine_tenths_end(shape):
    unknown = Unknown("doubt.flow", shape, 1.0, 0.8, 1.25 if shape == "lognormal" else 1.2, "", "")
    assert value_at(unknown, -NINETY) == pytest.approx(unknown.low)
    assert value_at(unknown, NINETY) == pytest.approx(unknown.high)


def test_a_loguniform_unknown_stays_between_its_ends(trials):
    leak = next(u for u in trials.unknowns if u.path == "leak.ring")
    found = [value_at(leak, d.shared["leak.ring"]) for d in drawn(trials, 64, 5)]
    assert leak.low * 0.999 < min(found) < 1.1 * leak.low
    assert 0.9 * leak.high < max(found) < leak.high * 1.001


def test_every_unknown_reaches_the_engine(trials):
    """All at once, as written one by one."""
    draw = drawn(trials, 4, 5)[0]
    plain = engine_at(trials, trials.unknowns, draw)
    asked = {u.path: value_at(u, draw.shared[u.path]) for u in trials.unknowns if u.path != SCATTER}
    assert plain.doubt.wall_heat == asked["doubt.wall_heat"]
    assert plain.cylinders[0].cylinder.bore == asked["cylinder.bore"]
    assert plain.materials["pa12_cf"]["strength_in_plane"] == pytest.approx(
        asked["materials.pa12_cf.strength_in_plane"]
    )
    assert plain.doubt.strength_scatter == trials.centre.doubt.strength_scatter


def test_scatter_is_drawn_for_each_piece(trials):
    draws = drawn(trials, 200, 5)
    known = pieces(1)
    assert {piece_of("piston.crown.break"), piece_of("rod.tear")} <= set(known)
    engines = [by_piece(trials.centre, trials.unknowns, draw) for draw in draws]
    piston, rod = (
        np.log([one[piece].doubt.strength_scatter for one in engines])
        for piece in ("piston", "rod")
    )
    # Log deviation of 0.82 to 1.22, 5-95 %: ln(1.22/0.82)/2/1.645; 200 draws, three errors: 15 %.
    assert np.std(piston) == pytest.approx(0.1208, rel=0.15)
    assert abs(np.corrcoef(piston, rod)[0, 1]) < 3 / np.sqrt(200)


def test_a_mixture_at_a_first_combustion_is_less_sure(trials):
    class Point:
        event, speed = "first_fire", 40.0

    class First:
        point = Point()

    wide = next(u for u in unknowns_of(trials, First()) if u.path == "intake.equivalence_ratio")
    assert (wide.high - wide.low) / 2 == pytest.approx(0.35)


def test_a_burn_of_a_first_combustion_is_half_or_double():
    """Heron is cranked at 2000 rpm, where Wiebe's law is as sure as it was fitted: 0.7 to 1.4."""
    trials = Trials(ff.read("engines/heron.toml"))

    def ends(event):
        bout = SimpleNamespace(point=SimpleNamespace(event=event, speed=200.0))
        burn = next(u for u in unknowns_of(trials, bout) if u.path == "doubt.burn_duration")
        return burn.low / burn.centre, burn.high / burn.centre

    assert ends("first_fire") == pytest.approx((0.5, 2.0))
    assert ends("full_throttle") == pytest.approx((0.7, 1.4))


def test_softening_moves_the_curves_and_not_the_room_strength():
    wren = ff.read("engines/wren.toml")
    usual, early = resolve(wren), resolve(wren, {"doubt.softening": 0.9})
    for key, material in usual.materials.items():
        curve = material.curves.get("strength", ())
        for before, after in zip(
            curve, early.materials[key].curves.get("strength", ()), strict=True
        ):
            assert after.at - 296.15 == pytest.approx(0.9 * (before.at - 296.15))
            assert after.value == before.value
        assert early.materials[key].get("strength_in_plane") == material.get("strength_in_plane")
