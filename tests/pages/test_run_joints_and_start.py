"""What *Will it run* is told of joints' forces and of how a start sounds."""

import base64
import math
import re

import numpy as np
import pytest
from tests.pages.served import ROOT
from tests.pages.test_run_answers import points_of

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.pages.answers import start_told
from firstfire.pages.answers.joints import joints
from firstfire.pages.answers.motion import DEGREES, motion
from firstfire.pages.answers.run import cycle_charts
from firstfire.pages.answers.start_told import sound_of_start
from firstfire.runs.at import bout_at
from firstfire.runs.start.heard import Puffs


def fired(name):
    plain = resolve(ff.read(ROOT / "engines" / f"{name}.toml"))
    return bout_at(plain, "full_throttle", plain.use.full_throttle_speeds[0]), plain


@pytest.fixture(scope="module")
def heron():
    return fired("heron")


def test_arrows_have_the_size_that_the_curves_have(heron):
    """Each joint's pair of parts, put together by Pythagoras, is its curve in the charts."""
    bout, plain = heron
    told, charts = joints(bout, plain), {c.id: c for c, _ in cycle_charts(bout, plain)}
    for row, each in enumerate(told["cylinders"], start=1):
        for name, curve in (("pin", "in the rod"), ("crankpin", "on the crankpin"),
                            ("wall", "on the wall")):  # fmt: skip
            drawn = points_of(charts[f"joint-forces-{row}"], curve)
            size = np.interp(drawn[:, 0], DEGREES, np.hypot(*each[name]))
            # A chart thins its points by what can't be seen; a degree is two steps of the forces.
            assert size == pytest.approx(np.abs(drawn[:, 1]), abs=0.02 * told["most"])
    for main, name in zip(told["mains"], ("flywheel", "far end"), strict=True):
        drawn = points_of(charts["mains"], f"at the {name}")
        own = (drawn[:, 0] + 360) % 720 - 360
        size = np.interp(own, DEGREES, np.hypot(*main["force"]))
        assert size == pytest.approx(drawn[:, 1], abs=0.004 * told["most"])
    sizes = [np.hypot(*f).max() for c in told["cylinders"] for f in (c["pin"], c["crankpin"])]
    sizes += [np.hypot(*main["force"]).max() for main in told["mains"]]
    assert told["most"] == pytest.approx(max(sizes), rel=0.01)


def test_at_the_peak_the_pin_presses_the_rod_down_its_own_bore(heron):
    bout, plain = heron
    moved = motion(bout, plain)
    for c, each in zip(moved["cylinders"], moved["joints"]["cylinders"], strict=True):
        at = int(np.argmax(c["pressure"]))  # of its own degrees, each cylinder at its own fire
        across, along = each["pin"][0][at], each["pin"][1][at]
        assert along < -0.8 * moved["joints"]["most"]
        assert 0 < across < -along
        assert each["wall"][0][at] == pytest.approx(-across, abs=2e-4)


def test_mains_that_feel_alike_are_one_curve():
    charts = {chart.id: chart for chart, _ in cycle_charts(*fired("wren"))}
    drawn = points_of(charts["mains"], "on each main bearing")
    rod = points_of(charts["joint-forces-1"], "in the rod")
    # Halves of what the rod presses with, but for what its crank throws outwards.
    assert drawn[:, 1].max() == pytest.approx(rod[:, 1].max() / 2, rel=0.05)


def test_a_start_is_heard_in_its_own_seconds_and_loudest_where_it_is():
    """A puff of a tenth of a second at 1.0 s: ``ω m / 4πr`` over a hum of 200 Hz, 94 dB is 1 Pa."""
    time = np.linspace(0.5, 2.0, 60_001)
    within = (time > 1.0) & (time < 1.2)
    flow = np.where(within, 2e-2 * np.sin(2 * np.pi * 200 * (time - 1.0)), 0.0)
    found = sound_of_start(Puffs(time, flow))
    heard = np.frombuffer(base64.b64decode(found["samples"]), "<i2").astype(float)
    when = found["from"] + np.flatnonzero(np.abs(heard) > 0.4 * 32767) / found["rate"]
    assert (found["from"], found["rate"]) == (0.5, 22_050.0)
    assert (when.min(), when.max()) == (pytest.approx(1.0, abs=0.01), pytest.approx(1.2, abs=0.01))
    root = 2 * np.pi * 200 * 2e-2 / (4 * np.pi * math.sqrt(2))
    level = int(re.search(r"some (\d+) dB", found["words"])[1])
    # At most half of the 0.2 s that a level is taken over may lie beside the puff: 3 dB.
    assert 20 * math.log10(root / 20e-6) - 3.1 <= level <= 20 * math.log10(root / 20e-6) + 0.6
    assert "Computed" in found["words"]
    assert "estimate" in found["words"]


def test_a_start_without_a_breath_has_no_sound():
    time = np.linspace(0.0, 1.0, 101)
    assert sound_of_start(Puffs(time, np.zeros(101))).keys() == {"words"}


def test_a_long_start_is_cut_to_what_a_page_takes(monkeypatch):
    """12 s of 16 bits at 22 050 a second in base 64 are 0.7 MB."""
    assert start_told._HEARD * start_told._RATE * 2 * 4 / 3 < 1e6
    monkeypatch.setattr(start_told, "_HEARD", 0.3)
    time = np.linspace(0.0, 2.0, 2_001)
    long = sound_of_start(Puffs(time, np.sin(300 * time)))
    assert len(base64.b64decode(long["samples"])) / 2 == pytest.approx(0.3 * 22_050, rel=0.01)
