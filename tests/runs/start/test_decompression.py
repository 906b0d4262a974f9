"""Compression let off while an engine is started: the hole's area, when it shuts, what it helps."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.engine.by_hand import plain as plain_of
from tests.engine.by_hand import unknown
from tests.runs.start.books import DEG, RPM, engine, read

from firstfire.runs.cranking import cranked, gauge_reading
from firstfire.runs.spun import starter_line
from firstfire.runs.start import changes as changing
from firstfire.runs.start.asked import Asked, Wrong
from firstfire.runs.start.going import at_speed
from firstfire.runs.start.life import Life

OPEN = {"starter__decompression": True, "starter__decompression_until": "5000 rpm"}


def speed_of_last_turn(spun, seconds):
    angle = np.interp(seconds, spun.time, spun.angle)
    return 2 * math.pi / (seconds - np.interp(angle - 2 * math.pi, spun.angle, spun.time))


def test_a_hole_held_open_is_a_leak_of_its_area():
    """0.7 of 1.1310 mm², a hole of 1.2 mm, beside a gasket that leaks 0.1: 0.8917 mm²."""
    holed = engine(
        "wren", leak__gasket="0.1 mm^2", starter__decompression_diameter="1.2 mm", **OPEN
    )
    leaking = engine("wren", leak__gasket="0.89168 mm^2")
    shaft = starter_line(leaking)
    readings = [gauge_reading(plain, shaft, 1.5) for plain in (holed, leaking)]
    assert readings[0] == pytest.approx(readings[1], rel=2e-4)
    assert readings[0] < 0.6 * gauge_reading(engine("wren"), shaft, 1.5)


def test_the_rule_halves_compression():
    """2 mm² of effective area for 50 by 45 mm at 400 rpm, as SciPy has it; 1.907 mm with 0.7."""
    lines = {"cylinder.bore": "50 mm", "cylinder.stroke": "45 mm", "use.cranking_speed": "400 rpm"}
    starter = plain_of(lines).starter
    assert starter.decompression_diameter == pytest.approx(1.9e-3)
    assert starter.decompression_until == pytest.approx(280 * RPM)
    assert starter.decompression_shuts == 0.0
    assert not starter.decompression


def test_hole_and_speed_are_as_uncertain_as_hands_make_them():
    found = unknown({"starter.decompression": True, "starter.decompression_diameter": "2 mm"})
    hole, until = found["starter.decompression_diameter"], found["starter.decompression_until"]
    assert (hole.low, hole.high) == pytest.approx((2e-3 / 1.1, 2.2e-3))
    assert (until.low, until.high) == pytest.approx((until.centre / 1.25, until.centre * 1.25))
    assert not any(path.startswith("starter.") for path in unknown({}))


def test_it_lets_go_at_the_first_turn_that_is_fast_enough_and_never_again_opens():
    slow = {"starter__stall_torque": "4 N*m", "starter__decompression_until": "330 rpm"}
    plain = engine("wren", starter__decompression=True, **slow)
    life = Life(plain, Asked(seconds=1.5, after=0.0, fires_from=9.0))
    lived = life.lived()
    shut_at = lived.compressed_from
    assert 0.4 < shut_at < 1.2
    assert speed_of_last_turn(lived.spun, shut_at) == pytest.approx(330 * RPM, rel=0.05)
    quarter = np.interp(shut_at, lived.spun.time, lived.spun.angle) - 0.5 * math.pi
    before = float(np.interp(quarter, lived.spun.angle, lived.spun.time))
    assert speed_of_last_turn(lived.spun, before) < 330 * RPM
    rows = life.engines[0]["passages"]["area"][life.letting_off.rows]
    assert np.all(rows == 0.0)
    assert not life.letting_off.acts


def test_from_a_speed_it_is_never_reached_the_hole_stays():
    lived = Life(engine("wren", **OPEN), Asked(seconds=0.6, after=0.0, fires_from=9.0)).lived()
    assert lived.compressed_from is None
    tight = Life(engine("wren"), Asked(seconds=0.6, after=0.0, fires_from=9.0)).lived()
    assert lived.spun.pressure[:, 0].max() < 0.6 * tight.spun.pressure[:, 0].max()


@pytest.mark.parametrize("shuts", [60.0, 90.0])
def test_where_it_shuts_before_top_the_rest_is_compressed_as_without_it(shuts):
    """From there on what is left is pressed by the same law: equal ratios of pressure to 3 %."""

    def compressed(plain):
        """Pressures where it shuts and at the peak, of the last compression; its least speed."""
        life = Life(plain, Asked(seconds=1.6, after=0.0, fires_from=9.0))
        spun = life.lived().spun
        top = 4 * math.pi * math.floor(spun.angle[-1] / (4 * math.pi))
        place = spun.angle - top
        within = (place > -math.pi) & (place < 0.2)
        at = np.interp(top - shuts * DEG, spun.angle, spun.pressure[:, 0])
        return at, spun.pressure[within, 0].max()

    until = {**OPEN, "starter__decompression_diameter": "3 mm"}
    holed = compressed(engine("wren", starter__decompression_shuts=f"{shuts} deg", **until))
    tight = compressed(engine("wren"))
    assert holed[0] < 0.8 * tight[0]
    assert holed[1] / holed[0] == pytest.approx(tight[1] / tight[0], rel=0.03)


def test_a_hole_opens_at_the_bottom_and_shuts_where_it_should():
    plain = engine("wren", starter__decompression_shuts="75 deg", **OPEN)
    life = Life(plain, Asked(seconds=1.0, after=0.0, fires_from=9.0))
    row, seen = life.letting_off.rows[0], []
    was = float(life.engines[0]["passages"]["area"][row])
    assert was == 0.0
    while life.now < 0.9:
        life.step()
        area = float(life.engines[0]["passages"]["area"][row])
        if (area > 0.0) != (was > 0.0):
            seen.append((area > 0.0, life.angle % (4 * math.pi)))
        was = area
    assert len(seen) > 4
    for opens, angle in seen:
        where = 3 * math.pi if opens else 4 * math.pi - 75 * DEG
        assert angle == pytest.approx(where, abs=1e-5)


def test_a_weak_starter_comes_over_with_it_and_the_change_is_listed(monkeypatch):
    weak = {"starter__stall_torque": "2 N*m", "starter__inertia": "0 kg*m^2"}
    assert not cranked(engine("wren", **weak), 2.5).over
    assert cranked(engine("wren", **weak, **OPEN), 2.5).over

    def told(trials, *_, numbers, **__):
        let_off = trials.centre.starter.decompression
        one = SimpleNamespace(
            why=None if let_off else "torque", started_at=1 if let_off else None
        )  # fmt: skip
        return SimpleNamespace(each=(one,) * len(numbers), stopped=False)

    monkeypatch.setattr(changing, "odds", told)
    found = changing.changes(read("wren", starter__stall_torque="2 N*m"), Asked(), 0.1)
    assert {"starter.decompression", "starter.decompression_diameter"} == set(found[0].values)
    holes = [one.values["starter.decompression_diameter"] for one in found]
    assert holes == ["1.3 mm", "2.6 mm"]
    assert "hole of 1.3 mm" in found[0].text


def test_an_engine_that_is_held_to_a_speed_has_it_shut():
    plain, without = engine("wren", **OPEN), engine("wren")
    held = [at_speed(one, Asked(), 600 * RPM).gas for one in (plain, without)]
    assert held[0] == pytest.approx(held[1], rel=1e-9)


def test_copies_open_and_shut_by_themselves():
    life = Life(engine("wren", **OPEN), Asked(seconds=1.0, fires_from=9.0))
    other = life.again()
    other.letting_off.feel(math.inf, 0.0)
    row = life.letting_off.rows[0]
    assert life.engines[0]["passages"]["area"][row] > 0.0
    assert other.engines[0]["passages"]["area"][row] == 0.0
    assert life.letting_off.acts


def test_turned_backwards_it_still_turns():
    plain = engine("wren", starter__decompression_shuts="90 deg", **OPEN)
    asked = Asked(seconds=0.5, after=0.0, fires_from=9.0, wrong=Wrong(backwards=True))
    assert Life(plain, asked).lived().spun.angle[-1] < -2 * math.pi


def test_ways_are_laid_anew_as_holes_shut():
    life = Life(engine("wren", **OPEN), Asked(seconds=1.0))
    engine_record = life.engines[0]
    before = engine_record["ways"]["area"][: engine_record["way_count"]].sum()
    life.letting_off.feel(math.inf, 0.0)
    after = engine_record["ways"]["area"][: engine_record["way_count"]].sum()
    hole = 0.7 * math.pi / 4 * life.plain.starter.decompression_diameter**2
    assert before - after == pytest.approx(hole, rel=1e-9)


def test_cranking_and_a_start_of_mere_air_are_one():
    """Both step the same holes along the same compressions: pressures agree to 2 % of the peak."""
    how = {"starter__stall_torque": "4 N*m", "starter__decompression_shuts": "100 deg", **OPEN}
    plain = engine("wren", **how)
    turned = cranked(plain, 1.2)
    asked = Asked(seconds=1.2, after=0.0, fires_from=9.0, mixture=0.001)
    lived = Life(plain, asked, turned.shaft).lived()
    along = np.linspace(turned.spun.angle[0], turned.spun.angle[-1] - 1.0, 800)
    one, other = (
        np.interp(along, spun.angle, spun.pressure[:, 0]) for spun in (turned.spun, lived.spun)
    )
    assert one.max() > 3e5
    assert np.abs(one - other).max() < 0.02 * one.max()
    assert np.all(np.diff(turned.spun.time) > 0.0)


def test_cranked_fast_enough_it_has_its_compression_back():
    """Let go within the first turns, later peaks are those of an engine without a hole, to 1 %."""
    slow = {"starter__stall_torque": "4 N*m"}
    early = {"starter__decompression": True, "starter__decompression_until": "330 rpm"}
    holed, tight = cranked(engine("wren", **slow, **early)), cranked(engine("wren", **slow))
    peaks = [one.spun.since(3.0).pressure[:, 0].max() for one in (holed, tight)]
    assert peaks[0] == pytest.approx(peaks[1], rel=0.01)
    first = holed.spun.time < 0.5
    assert holed.spun.pressure[first, 0].max() < 0.7 * peaks[0]
