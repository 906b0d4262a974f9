"""What is handed on where engines are drawn, moved and judged, with no gas run."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import pytest
from tests.runs.stand_ins import told

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.runs import ensemble, moments, moved, one_by_one
from firstfire.runs.moved import Trials

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"


def test_a_doubt_is_moved_alone_and_the_engine_is_another():
    engine = ff.read(WREN)
    centre = resolve(engine)
    found = moved.with_one(engine, centre, "doubt.friction.ring", 1.25)
    assert found.doubt.friction.ring == 1.25
    assert found.doubt.flow == centre.doubt.flow
    assert found.cylinders == centre.cylinders
    assert found.sha256 != centre.sha256


def test_an_engine_is_moved_from_the_one_written_and_its_centre(monkeypatch):
    monkeypatch.setattr(moved, "resolve", lambda _: "centre")
    monkeypatch.setattr(moved, "unknowns", lambda _: ())
    stepped = told(monkeypatch, moved, "one_step", 7.0)
    asked = told(monkeypatch, moved, "with_one", "moved")
    trials, unknown = Trials("engine"), SimpleNamespace(path="doubt.flow", high=1.0)
    assert trials.moved(unknown) == trials.moved(unknown) == "moved"
    assert asked == [("engine", "centre", "doubt.flow", 7.0)]
    assert stepped == [(unknown, False)]


@pytest.mark.parametrize("clocked", [True, False])
def test_engines_drawn_are_looked_at_ahead_and_each_has_its_fate(monkeypatch, clocked):
    """Of eight drawn six are looked at ahead where a clock runs, and none where it doesn't."""
    draws, plains = tuple("abcdefgh"), tuple("ABCDEFGH")
    drew = told(monkeypatch, ensemble, "drawn", draws)
    made = told(monkeypatch, ensemble, "engines", plains)
    answers = []

    class Response:
        def __init__(self, *given):
            answers.append(given)
            self.bout = given[1]

        def seen(self, plain, draw):
            return {"way": (self.bout, plain, draw)}

        def fate(self, plain, draw, follow):
            return (self.bout, plain, draw, follow)

    shared = []

    def shared_out(work, count, *, stop, on_progress=None, hands):
        shared.append((count, stop, on_progress, hands))
        return [work(number) for number in range(count)]

    monkeypatch.setattr(ensemble, "Response", Response)
    monkeypatch.setattr(ensemble, "shared_out", shared_out)
    monkeypatch.setattr(ensemble, "_worth_following", len)
    monkeypatch.setattr(ensemble, "EVENTS", {"event": SimpleNamespace(clocked=clocked)})
    bouts = [SimpleNamespace(point=SimpleNamespace(event="event")) for _ in range(2)]
    found = ensemble.ensembles(
        "trials", bouts, ["one", "other"], slower="slower", stop="stop", on_progress="tell",
        count=8, hands=3,
    )  # fmt: skip
    assert drew == [("trials", 8, ensemble.SEED)]
    assert made == [("trials", draws, "stop")]
    assert answers == [
        ("trials", bouts[0], "one", "slower"),
        ("trials", bouts[1], "other", "slower"),
    ]
    ahead = 6 if clocked else 0
    assert shared == [(6, "stop", None, 3)] * clocked + [(8, "stop", "tell", 3)]
    assert [one.draws for one in found] == [draws, draws]
    for bout, one in zip(bouts, found, strict=True):
        assert one.fates == tuple(
            (bout, plain, draw, ahead) for plain, draw in zip(plains, draws, strict=True)
        )


def test_a_bout_keeps_the_loads_it_was_asked_for_under_each_cylinders_own_peak(monkeypatch):
    scaled = told(monkeypatch, moments, "stronger", lambda gas, peak: (gas, peak))
    asked = told(monkeypatch, moments, "loads", "loads")
    plain = SimpleNamespace()
    monkeypatch.setattr(moments, "ref", lambda one: lambda: one)
    bout = SimpleNamespace(felt=[], gases=("one", "other"))
    assert moments.loads_at(bout, plain, [3e6, 4e6]) == "loads"
    assert moments.loads_at(bout, plain, [3e6, 4e6]) == "loads"
    assert scaled == [("one", 3e6), ("other", 4e6)]
    assert asked == [(plain, [("one", 3e6), ("other", 4e6)])]
    assert moments.loads_at(bout, plain, [3e6, 5e6]) == "loads"
    assert len(asked) == 2


def test_joints_feel_each_cylinders_mean_cycle(monkeypatch):
    scaled = told(monkeypatch, moments, "stronger", lambda gas, peak: (gas, peak))
    asked = told(monkeypatch, moments, "joint_vectors", "forces")
    peaks = (SimpleNamespace(mean=3e6), SimpleNamespace(mean=4e6))
    bout = SimpleNamespace(gases=("one", "other"), point=SimpleNamespace(peaks=peaks))
    assert moments.joints_at(bout, "plain") == "forces"
    assert scaled == [("one", 3e6), ("other", 4e6)]
    assert asked == [("plain", [("one", 3e6), ("other", 4e6)])]


@pytest.mark.parametrize(("seconds", "looked"), [(30.0, 30.0), (90.0, 60.0)])
def test_beyond_its_history_a_part_is_as_warm_as_at_its_end(monkeypatch, seconds, looked):
    monkeypatch.setattr(moments, "replace", lambda what, **to: (what, to))
    asked = told(monkeypatch, moments, "temperatures_at", "warmth")
    histories = (SimpleNamespace(seconds=[0.0, 60.0]), SimpleNamespace(seconds=[0.0, 60.0]))
    bout = SimpleNamespace(histories=histories)
    assert moments.temperatures(bout, 1, seconds) == ("warmth", {"seconds": seconds})
    assert asked == [(histories[1], looked)]


def test_a_moment_asks_its_own_cylinders_warmth_where_none_is_known(monkeypatch):
    monkeypatch.setattr(moments, "Moment", SimpleNamespace)
    cycled = told(monkeypatch, moments, "cycles_by", 50.0)
    warm = told(monkeypatch, moments, "temperatures", "warmth")
    traced = (None, SimpleNamespace(inlet_shut=0.5, spat_back=0.1))
    fired = SimpleNamespace(cycle=SimpleNamespace(cylinders=traced))
    bout = SimpleNamespace(
        point=SimpleNamespace(fired=fired, event="event", speed=300.0), climbs=(),
        gases=(None, SimpleNamespace(mean_crankcase_pressure=9e4)),
    )  # fmt: skip
    found = moments.moment(bout, "plain", 1, 12.0, [3e6, 4e6], "loads")
    assert warm == [(bout, 1, 12.0)]
    assert cycled == [(bout, 12.0)]
    assert (found.temperatures, found.cycles, found.peak_pressure) == ("warmth", 50.0, 4e6)
    assert (found.crankcase_pressure, found.speed, found.cylinder) == (9e4, 300.0, 1)
    assert (found.breath.inlet_shut, found.breath.spat_back) == (0.5, 0.1)
    known = moments.moment(bout, "plain", 1, 12.0, [3e6, 4e6], "loads", "known")
    assert known.temperatures == "known"


@pytest.mark.parametrize(("horizon", "warmed_for"), [(600.0, 1.0), (0.5, 0.5)])
def test_what_walls_ask_for_moves_and_valves_and_strengths_do_not(monkeypatch, horizon, warmed_for):
    """A second of warming shows what a wall asks for."""

    def watched(plain, asked):
        asked.add("materials.petg.density")
        return f"watched {plain}"

    monkeypatch.setattr(one_by_one, "watched", watched)
    warms = told(monkeypatch, one_by_one, "warmed", ())
    paths = ("materials.petg.density", "materials.petg.strength", "valves.inlet.lash", "doubt.flow")
    unknowns = tuple(SimpleNamespace(path=path) for path in paths)
    trials = SimpleNamespace(centre="centre", unknowns=unknowns)
    bout = SimpleNamespace(point="point", gases="gases", horizon=horizon)
    assert one_by_one.moving(trials, [bout]) == {"materials.petg.density", "doubt.flow"}
    assert warms == [("watched centre", "point", "gases", warmed_for)]
