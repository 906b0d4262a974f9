"""Wanted cams by hand: their events, what none can do, and what goes into the engine file."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from firstfire.setup.cams import events, impossible_events, wanted
from firstfire.setup.cams.choose_words import chosen_words, opening_words
from firstfire.setup.cams.chosen import Chosen, Opening, Point
from firstfire.setup.cams.events import Wanted

DEG = math.pi / 180


def asked(which="inlet", opens=10.0, closes=50.0, centre=None, **but):
    """Open for 10° + 180° + 50° = 240°, an exhaust the other way round, to 5 mm."""
    if which == "exhaust":
        opens, closes = closes, opens
    put = {"at_lift": 0.0, "lift": 5e-3, "law": "polynomial_345"} | but
    middle = None if centre is None else centre * DEG
    return Wanted(which, opens * DEG, closes * DEG, centre=middle, **put)


@pytest.mark.parametrize(
    ("which", "centre", "early"),
    [("inlet", None, 120.0), ("exhaust", None, 120.0), ("inlet", 100.0, 110.0),
     ("exhaust", 100.0, 130.0)],
)  # fmt: skip
def test_the_nose_lies_midway_or_so_far_from_the_top_between(which, centre, early):
    """100° after the top it is 110° after an inlet opens; 100° before it, 110° before an exhaust
    shuts that shuts 10° late."""
    found = [angle / DEG for angle in events.apart(asked(which, centre=centre))]
    assert found == pytest.approx([early, 240.0 - early])


@pytest.mark.parametrize(
    ("which", "centre", "opens", "closes"),
    [("inlet", None, 130.0, 170.0), ("inlet", 100.0, 120.0, 180.0),
     ("exhaust", 100.0, 180.0, 120.0)],
)  # fmt: skip
def test_stated_at_half_lift_it_leaves_its_seat_half_a_flank_earlier(which, centre, opens, closes):
    """At half its lift a 3-4-5 flank is half done: flanks are twice 120°, or twice 110° and 130°.

    So it leaves its seat 120° (110°) before it is asked to be half open, and the like.
    """
    found = events.seat(asked(which, centre=centre, at_lift=2.5e-3))
    assert [angle / DEG for angle in found] == pytest.approx([opens, closes])


@pytest.mark.parametrize(
    ("opens", "closes", "may"),
    [(-59.0, 119.0, True), (-61.0, 0.0, False), (0.0, -61.0, False), (121.0, 0.0, False),
     (0.0, 121.0, False), (119.0, -59.0, True)],
)  # fmt: skip
def test_a_file_has_events_from_sixty_degrees_late_to_a_hundred_and_twenty_early(
    opens, closes, may
):
    assert events.in_a_file(opens * DEG, closes * DEG) is may


@pytest.mark.parametrize(("said", "law"), [("table", "polynomial_4567"), ("harmonic", "harmonic")])
def test_what_the_file_has_is_asked_for_as_it_is(said, law):
    valve = SimpleNamespace(opens_before_bottom=0.7, closes_after_top=0.2, lift=5e-3, cam_law=said)
    plain = SimpleNamespace(cylinders=[SimpleNamespace(valves=SimpleNamespace(exhaust=valve))])
    assert events.as_it_is(plain, "exhaust") == Wanted("exhaust", 0.7, 0.2, 0.0, 5e-3, law)
    assert events.as_it_is(plain, "exhaust", "cycloidal").law == "cycloidal"


def test_events_beyond_a_files_are_told_with_the_nearest():
    early, late = impossible_events.faults(asked(opens=-70.0, closes=130.0))
    assert early == "opens is -70°: -60° to 120° can be asked for. The nearest is -60°."
    assert late == "closes is 130°: -60° to 120° can be asked for. The nearest is 120°."
    assert not list(impossible_events.faults(asked(opens=-59.0, closes=119.0)))


def test_lifts_that_no_valve_has_are_told_with_the_nearest():
    (low,) = impossible_events.faults(asked(lift=0.2e-3))
    assert low == "lift is 0.2 mm: a valve lifts 0.3 to 20 mm. The nearest is 0.3 mm."
    high, under = impossible_events.faults(asked(lift=21e-3, at_lift=-0.5e-3))
    assert high == "lift is 21 mm: a valve lifts 0.3 to 20 mm. The nearest is 20 mm."
    assert under.startswith("at_lift is -0.5 mm")


@pytest.mark.parametrize("which", ["inlet", "exhaust"])
@pytest.mark.parametrize(
    ("centre", "nearest"),
    [(20.0, 39), (37.5, 39), (38.5, None), (181.5, None), (182.5, 181), (220.0, 181)],
)
def test_a_flank_is_a_fifth_of_the_opening_at_least(which, centre, nearest):
    """Of 240° 48° and 192°, less the 10° before the top: 38° to 182°, and a whole degree inside.

    Midway is 120° - 10° = 110°.
    """
    found = list(impossible_events.faults(asked(which, centre=centre)))
    if nearest is None:
        assert found == []
    else:
        assert f"Midway is 110°; the nearest is {nearest}°." in found[0]


def test_how_high_events_can_be_stated():
    """15° at both ends leave 105° to the nose; at half lift its flank is 210°, and it leaves its
    seat 15° + 105° = 120° early, the most. Of 5.01 mm that is 2.505 mm.

    Three quarters up a 3-4-5 flank, at 0.896484375 of its lift, the flank is 420° and the seat is
    left 15° + 315° early.
    """
    both = asked(opens=15.0, closes=15.0, lift=5.01e-3)
    assert not list(impossible_events.faults(replace(both, at_lift=2.504e-3)))
    (high,) = impossible_events.faults(replace(both, at_lift=0.896484375 * 5.01e-3))
    assert "off its seat until 330° past the dead centre: 120° is the most" in high
    assert "State them at 2.5 mm at most, lift it higher" in high
    (over,) = impossible_events.faults(replace(both, at_lift=15.03e-3))
    assert over == (
        "The events are stated at 15 mm, and it never lifts higher than 5.01 mm. "
        "State them at 2.5 mm at most."
    )


def test_events_stated_above_the_lift_can_be_stated_below_it():
    """37.5° late at both ends leave 52.5° to the nose: a flank of 210° is the most, a quarter of
    it above 0.896484375 of its lift. Of 5 mm that is 4.482 mm, of the 7.5 mm that were asked."""
    (over,) = impossible_events.faults(asked(opens=-37.5, closes=-37.5, at_lift=7.5e-3))
    assert over.endswith("never lifts higher than 5 mm. State them at 4.48 mm at most.")


def test_equal_flanks_go_in_as_two_angles():
    """Stated as it leaves its seat, they are what was asked."""
    put = wanted.values(asked())
    assert put == {
        "valves.inlet.opens_before_top": "10.00 deg",
        "valves.inlet.closes_after_bottom": "50.00 deg",
        "valves.inlet.lift": "5 mm", "valves.inlet.cam_law": "polynomial_345",
    }  # fmt: skip


@pytest.mark.parametrize(("centre", "law"), [(109.8, "polynomial_345"), (109.5, "table")])
def test_flanks_alike_to_half_a_degree_are_made_equal(centre, law):
    """0.2° off the middle the one is 0.4° longer than the other; 0.5° off it, 1°."""
    assert wanted.values(asked(centre=centre))["valves.inlet.cam_law"] == law


def test_unequal_flanks_go_in_as_a_table_of_both():
    """110° up and 130° down in 32 steps each: half lift at 55° and at 110° + 65° = 175°."""
    rows = wanted.values(asked(centre=100.0))["valves.inlet.lift_table"]
    assert len(rows) == 65
    assert rows[0] == ["0.0000 deg", "0.000000 mm"]
    assert rows[16] == ["55.0000 deg", "2.500000 mm"]
    assert rows[32] == ["110.0000 deg", "5.000000 mm"]
    assert rows[48] == ["175.0000 deg", "2.500000 mm"]
    assert rows[64] == ["240.0000 deg", "0.000000 mm"]


def test_a_step_of_the_search_is_degrees_or_per_cent():
    here = Point("cycloidal", {"inlet.opens_before_top": 10.0}, {"inlet": 5e-3, "exhaust": 4e-3})
    assert here.moved("inlet.opens_before_top", -4.0).angles == {"inlet.opens_before_top": 6.0}
    lifts = here.moved("exhaust", 8.0).lifts
    assert (lifts["inlet"], lifts["exhaust"]) == (5e-3, pytest.approx(4.32e-3))
    assert here.moved("inlet", -4.0).lifts["inlet"] == pytest.approx(4.8e-3)


def test_why_the_exhaust_opens_when_it_does():
    """5.3 bar after 5 bar is 6 % more; 60° is 15° earlier than 45°, and 37° is 8° later."""
    earlier = opening_words(Opening(45 * DEG, 60 * DEG, 5e5, 5.3e5, ()))
    assert earlier.startswith(
        "The exhaust opens 60° before bottom, 15° earlier than in the file: 6.0 % more work a cycle"
    )
    later = opening_words(Opening(45 * DEG, 37 * DEG, 5e5, 5.1e5, ()))
    assert "opens 37° before bottom, 8° later than in the file: 2.0 % more work" in later
    same = Opening(45 * DEG, 45 * DEG, 5e5, 5e5, (53 * DEG, 37 * DEG, 41 * DEG))
    assert opening_words(same) == (
        "The exhaust opens 45° before bottom as in the file: 37°, 41° and 53° give no more work a "
        "cycle, or lose filling."
    )


def test_what_was_chosen_is_said_in_rpm_and_per_cent():
    found = Chosen({"a": 1}, 0.8, 0.854, (100 * math.pi, 200 * math.pi), 7, 2, True)
    said = " ".join(chosen_words(found, 60).split())
    assert "These fill 85.4 % at 3000, 6000 rpm, the file's 80.0 %; 7 pairs of cams" in said
    assert all(len(line) <= 60 for line in chosen_words(found, 60).splitlines())
    none = replace(found, values={}, finished=False,
                   opening=Opening(45 * DEG, 45 * DEG, 5e5, 5e5, ()))  # fmt: skip
    said = " ".join(chosen_words(none, 60).split())
    assert said.startswith("Nothing fills better at 3000, 6000 rpm than the file's own cams")
    assert said.endswith("It was stopped: this is the best so far. The exhaust opens 45° before "
                         "bottom as in the file: no other was tried.")  # fmt: skip
    assert "These fill 85.4 % at" in chosen_words(replace(found, before=None), 60)
    none = replace(found, tried=0, finished=False)
    assert chosen_words(none, 60) == "It was stopped before any pair of cams was run.\n"
