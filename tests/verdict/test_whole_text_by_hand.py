"""What the whole text of a check asks of whom, in its order, from stand-ins."""

from __future__ import annotations

from types import SimpleNamespace as Some

import pytest

from firstfire.verdict.words.text import show

FOUND = Some(
    sentence="It holds.", engine=Some(story=""), margins="margins", plain="plain",
    run_times="limits", unjudged=(), cautions=(), points=[], geometry=Some(speeds="speeds"),
)  # fmt: skip


def only(*right, gives):
    """A stand-in that is asked for just this."""

    def told(*got, **named):
        assert got + tuple(named.values()) == right
        return gives

    return told


@pytest.fixture
def parts(monkeypatch):
    def of(**given):
        for name, gives in given.items():
            monkeypatch.setattr(show, name, gives)

    of(heading=lambda title: [f"[{title.partition(',')[0].partition(':')[0]}]"])
    return of


def test_the_text_has_its_parts_in_their_order(parts):
    parts(
        card_lines=only(FOUND, 70, gives=["card"]), _verdict=only(FOUND, 70, gives=["ledger"]),
        _points=only(FOUND, 70, gives=["points"]), _engine_rows=only(FOUND, gives="rows"),
        pairs=only("rows", gives=["arithmetic"]), _cylinder_lines=only(FOUND, gives=["cylinder"]),
        _speed_lines=only("speeds", gives=["speeds"]),
    )  # fmt: skip
    assert show.check_text(FOUND, width=70).splitlines() == [
        "It holds.", "[The card]", "card", "ledger", "points", "[By arithmetic]", "arithmetic",
        "cylinder", "[Piston speed]", "speeds", "[Not judged yet]", "[Cautions]",
    ]  # fmt: skip


def test_the_verdict_has_its_ledger_its_clocks_and_its_moves(parts):
    def run_time_lines(limits, plain, event="full_throttle", *, most=10, width):
        assert (limits, plain, width) == ("limits", "plain", 70)
        return [f"{event} {most}"]

    parts(
        ledger_lines=only("margins", "plain", 70, gives=["ledger"]), run_time_lines=run_time_lines,
        _teeth=only(FOUND, 70, gives=["teeth"]), TITLE="Teeth",
        _curve=lambda found, event, width: [f"curve of {event}"] * (found is FOUND and width == 70),
        brake_words=only(FOUND, gives=["Brakes."]), _moves=only(FOUND, 70, gives=["moves"]),
    )  # fmt: skip
    lines = [line for line in show._verdict(FOUND, 70) if not line.startswith("[")]
    assert lines == [
        "ledger", "teeth", "full_throttle 10", "curve of full_throttle", "  Brakes.", "idle 6",
        "curve of idle", "moves",
    ]  # fmt: skip


def test_moves_come_before_what_none_is_offered_for(parts):
    parts(
        next_moves=only("margins", "plain", gives=[*"abcdef"]),
        without_a_move=only("margins", "plain", gives="None for the rod."),
        move_lines=lambda one, width: [f"{one} {width}"],
    )  # fmt: skip
    _, *lines = show._moves(FOUND, 70)
    assert lines == ["a 70", "b 70", "c 70", "d 70", "e 70", "  None for the rod."]


def test_teeth_stand_behind_their_words(parts):
    """2, 9, 16 and 17 letters."""
    tooth = Some(word="meets", when="late", told="1 mm", which="inlet")
    parts(
        tooth_lines=only("plain", gives=[tooth]), why_none=only("plain", gives=""),
        beside=lambda told, which, at, *, width: [(len(told), which, at, width)],
    )  # fmt: skip
    assert list(show._teeth(FOUND, 70)) == [(44, "inlet", 44, 70)]


def test_the_strongest_points_pressure_is_drawn(parts):
    best = Some(speed=300.0, walls=[1])
    found = Some(points=["point"], events="events", plain="plain")
    parts(
        made_lines=only("events", gives=["made"]), filling_lines=only(["point"], gives=["fills"]),
        breathing_words=lambda _: [], strongest=only(found, gives=best),
        friction_words=only(best, gives="Friction."), spark_words=only(best, gives="Spark."),
        pressure_curve=only(best, "plain", gives=["curve"]), which_cylinder=lambda *_: "it",
    )  # fmt: skip
    lines = [line for line in show._points(found, 70) if line and not line.startswith("[")]
    assert lines == [
        "made",
        "fills",
        "  Friction.",
        "curve",
        "  Spark. Every figure is an estimate.",
    ]


def test_areas_and_gaps_go_from_curtain_to_throat_and_from_wall_to_valve(parts):
    parts(_areas=lambda *of: of, _gaps=lambda *of: of, shown=lambda *of: of)
    names = (
        "displacement", "clearance_volume", "compression_ratio", "inlet_curtain", "inlet_throat",
        "exhaust_curtain", "exhaust_throat", "valve_to_wall", "valve_to_valve", "rod_to_skirt",
        "reciprocating_mass",
    )  # fmt: skip
    shape = Some(**{name: at + 1.0 for at, name in enumerate(names)}, ring_squeeze=None)
    rows = dict(show._cylinder_rows(shape))
    assert rows["inlet: curtain, throat"] == (4.0, 5.0)
    assert rows["exhaust: curtain, throat"] == (6.0, 7.0)
    assert rows["valve to wall, valve to valve"] == (8.0, 9.0)
