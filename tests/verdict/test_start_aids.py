"""What is said of a start's helps and hindrances: compression let off, a battery that sags."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.runs.start.account import account
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.bangs import Bang
from firstfire.runs.start.knocking import EndGas, Knocking
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.start.contract import told
from firstfire.verdict.start.text import start_text
from firstfire.verdict.start.words import story

RPM = math.pi / 30
WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"


@pytest.fixture(scope="module")
def found():
    """Wren on a starter motor with a battery that sags much, and a hole."""
    read = with_values(
        ff.read(WREN),
        {
            "starter.kind": "electric_motor", "starter.battery_resistance": "0.1 ohm",
            "starter.decompression": True, "starter.decompression_diameter": "2.2 mm",
            "starter.decompression_until": "400 rpm", "starter.decompression_shuts": "80 deg",
        },
    )  # fmt: skip
    return account(read, Asked(seconds=1.0, after=0.5, seed=1), count=2, tries=1)


def text(found):
    """On one line, without thin spaces."""
    lines = start_text(found, full=True).splitlines()
    assert max(len(line) for line in lines) <= 80
    return " ".join(" ".join(lines).replace("\u202f", " ").split())


def test_hole_is_told_in_card_story_and_json(found):
    said, at = text(found), found.lived.compressed_from
    assert (
        "let off by a hole of 2.2 mm, shut 80° before each top, until it turns at 400 rpm" in said
    )
    assert any(one.seconds == at and "no longer let off" in one.what for one in story(found))
    tells = told(found, "0").let_off
    assert tells.hole_diameter_m == pytest.approx(2.2e-3)
    assert tells.until_rpm == pytest.approx(400.0)
    assert tells.shuts_before_top_deg == pytest.approx(80.0)
    assert tells.shut_after_seconds == at
    assert "unburned mixture" in said
    assert any(one.hazard == "decompression" for one in cautions(found.engine, found.plain))


def test_a_hole_that_stays_open_says_so(found):
    never = replace(found, lived=replace(found.lived, compressed_from=None))
    assert "it never does, and stays let off" in text(never)
    assert "no longer let off" not in text(never)
    assert json.loads(told(never, "0").model_dump_json())["let_off"]["shut_after_seconds"] is None


def test_battery_is_told_in_card_and_json(found):
    """0.1146 ohm and 0.1: 55.9 A; U where the rotor is slowest in cranking's last second."""
    tells = told(found, "0").battery
    assert tells.winding_ohm == pytest.approx(0.11459, rel=1e-4)
    assert tells.stalled_a == pytest.approx(55.92, rel=1e-3)
    assert tells.torque_kept == pytest.approx(0.5340, rel=1e-3)
    late = found.cranked.spun.since(found.cranked.spun.time[-1] - 1.0)
    draws = 1.0 - float(np.min(late.rotor)) / found.cranked.shaft.starter_free
    assert tells.least_cranked_v == pytest.approx(12.0 - 5.592 * draws, rel=1e-3)
    assert tells.spark_share == pytest.approx((tells.least_cranked_v / 12.0) ** 2)
    assert "stalled 56 A" in text(found)
    assert f"{round(100 * tells.spark_share)} % of its spark" in text(found)


def test_without_them_nothing_is_told(found):
    plain = found.plain
    starter = plain.starter.model_copy(update={"decompression": False, "battery_voltage": None})
    bare = replace(found, plain=plain.model_copy(update={"starter": starter}))
    tells = told(bare, "0")
    assert tells.let_off is None
    assert tells.battery is None
    assert "no longer let off" not in text(
        replace(bare, lived=replace(found.lived, compressed_from=None))
    )


def test_breaking_loose_is_told_in_card_and_json(found):
    """After a minute and after a night, at the crank, as `break_loose` has it."""
    tells, said = told(found, "0").standing, text(found)
    assert tells.stood_seconds == 60.0
    assert tells.ring_factor == pytest.approx(1.6015, rel=1e-3)
    assert 0.5 < tells.asks_nm < tells.asks_after_a_night_nm < tells.starter_nm
    assert tells.lacks_nm == 0.0
    assert tells.broken_loose
    assert tells.oil_m2_s == pytest.approx(344e-6, rel=1e-2)
    assert f"asks {tells.asks_nm:.1f} N·m after 1 min of standing" in said
    assert "after a night; the starter has" in said


def test_one_that_does_not_break_loose_says_what_it_lacks(found):
    """Its starter a hundredth, and a shaft that never went half a turn."""
    spun = found.cranked.spun
    still = replace(spun, angle=np.full_like(spun.angle, spun.angle[0]))
    shaft = replace(found.cranked.shaft, starter_stall=0.4)
    stuck = replace(found, cranked=replace(found.cranked, over=False, spun=still, shaft=shaft))
    said, tells = text(stuck), told(stuck, "0").standing
    assert "does not start: its starter does not break it loose" in said
    assert tells.lacks_nm == pytest.approx(tells.asks_nm - 0.4)
    assert f"lacks {tells.lacks_nm:.2g} N·m" in said
    assert not tells.broken_loose
    strong = replace(stuck.cranked, shaft=found.cranked.shaft)
    assert "does not bring it over the top" in text(replace(stuck, cranked=strong))


def test_knock_is_told_in_card_story_and_json(found):
    burns = (
        EndGas(0, 0.31, 40.0, 1.0, 0.41), EndGas(0, 0.42, 90.0, 0.7, 0.0),
        EndGas(0, 0.53, 120.0, 1.0, 0.01),
    )  # fmt: skip
    hears = replace(found, knock=Knocking(95.0, burns))
    assert "1 of 3 burns, first after 0.31 s with 41 % unburned" in text(hears)
    assert [one.seconds for one in story(hears) if "knocks" in one.what] == [0.31]
    tells = told(hears, "0").knock
    assert (tells.burns, tells.knocking_burns, tells.octane) == (3, 1, 95.0)
    assert (tells.first_seconds, tells.first_unburned) == (0.31, 0.41)
    assert tells.first_rpm == pytest.approx(40.0 / RPM)
    quiet = replace(found, knock=Knocking(95.0, burns[1:2]))
    assert "none: its end gas comes to 0.7 of the wait" in text(quiet)
    assert told(quiet, "0").knock.first_seconds is None
    unjudged = replace(found, knock=Knocking(60.0, (), "it was not fitted there"))
    assert "not judged: it was not fitted there" in text(unjudged)
    assert not told(unjudged, "0").knock.judged
    assert told(unjudged, "0").knock.most_waited is None
    assert "knock nothing burns" in text(replace(found, knock=Knocking(95.0, ())))


def test_bangs_are_told_in_story_and_json(found):
    fires = Bang("after_fire", "hot_gas_meets_it", 0, 0.4, 500.0, 27.0, 5.9e5)
    more = Bang("after_fire", "hot_gas_meets_it", 0, 0.6, 500.0, 28.0, 6.1e5)
    spits = Bang("spit_back", "still_burning", 0, 0.5, 40.0, 22.0, 4.2e5)
    loud = replace(found, bangs=(fires, spits, more))
    said = text(loud)
    assert "after-fire in the exhaust, 2 times: burned gas comes to an unburned charge" in said
    assert "27 J, at most 6.1 bar if nothing left the pipe" in said
    assert "spit-back into the intake, once: the flame is alive as the valve opens; 22 J" in said
    tells = told(loud, "0").bangs
    assert [one.seconds for one in tells] == [0.4, 0.5, 0.6]
    assert (tells[1].kind, tells[1].cylinder) == ("spit_back", 1)
    assert tells[1].speed_rpm == pytest.approx(40.0 / RPM)
    assert (tells[0].heat_j, tells[0].most_rise_pa) == (27.0, 5.9e5)
    assert "after-fire" not in text(replace(found, bangs=()))
