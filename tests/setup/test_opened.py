"""Numbers of cams and timing opened: each working, followed line by line, ends in its number."""

from __future__ import annotations

import itertools
import json
import math
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.arithmetic import worked_out
from firstfire.errors import FirstfireError
from firstfire.setup.opened.by_law import ByLaw
from firstfire.setup.opened.explain import opened
from firstfire.setup.opened.rooms import numbers_of
from firstfire.verdict.explain.text import explain_text

ENGINES = Path(__file__).resolve().parents[2] / "engines"
STRANGERS = Path(__file__).resolve().parents[1] / "strangers"
_ROCKER = {
    "valves.inlet.rocker": "rocker", "valves.inlet.rocker_ratio": "1.3",
    "valves.inlet.rocker_arm": "28 mm", "valves.inlet.follower": "roller",
    "valves.inlet.base_radius": "14 mm", "valves.inlet.follower_radius": "6 mm",
}  # fmt: skip
_FLAT = {
    "valves.inlet.follower": "flat", "valves.inlet.base_radius": "22 mm",
    "valves.exhaust.follower": "flat", "valves.exhaust.base_radius": "22 mm",
}  # fmt: skip
_FLAT_ROCKER = _FLAT | {"valves.inlet.rocker": "rocker", "valves.inlet.rocker_ratio": "1.3"}
_SIDE = {"valves.placed": "side", "cylinder.compression_ratio": "5"}


def _engine(name, put):
    engine = ff.read(ENGINES / f"{name}.toml")
    return ff.with_values(engine, put) if put else engine


@pytest.mark.parametrize("room", ["cam", "timing"])
@pytest.mark.parametrize(
    ("name", "put"),
    [("wren", {}), ("plover", {}), ("heron", {}), ("wren", _ROCKER), ("wren", _FLAT),
     ("wren", _FLAT_ROCKER), ("wren", _SIDE)],
)  # fmt: skip
def test_every_working_ends_in_its_number(name, put, room) -> None:
    found = numbers_of(_engine(name, put), room)
    assert len(found) > 8
    for ident, (number, sheet) in found.items():
        if not number.judged:
            continue
        values = {**sheet.paths, **{key: one.value for key, one in sheet.given.items()}}
        for line in sheet.lines:
            values[line.name] = worked_out(line.expression, values)
        # gaps read the piston's travel between half degrees: off by less than a micrometre
        near = 1e-6 if ".gap." in ident else 1e-8
        assert values["value"] == pytest.approx(number.value, rel=1e-5, abs=near), ident
        used = " ".join(line.expression for line in sheet.lines)
        for key in values:
            assert key == "value" or key in used, f"{ident}: {key} is put in and not used"


@pytest.mark.parametrize("name", ["wren", "plover"])
def test_every_number_opens_in_words(name) -> None:
    engine = _engine(name, {})
    for room in ("cam", "timing"):
        for ident, (number, _) in numbers_of(engine, room).items():
            text = explain_text(opened(engine, ident))
            assert number.words in " ".join(text.split())
            assert max(map(len, text.splitlines())) <= 80, ident


def test_springs_gaps_and_lag_are_among_them() -> None:
    cam, timing = (numbers_of(_engine("wren", {}), room) for room in ("cam", "timing"))
    for ident in ("inlet.spring.stress", "exhaust.spring.surge_times", "inlet.spring.free",
                  "gap.floating_inlet", "gap.hung_exhaust"):  # fmt: skip
        assert f"cam.{ident}" in cam
    # 0.1 ms at 4000 rpm: 2.4°
    assert math.degrees(timing["timing.lag.top"][0].value) == pytest.approx(2.4)
    alone = numbers_of(_engine("plover", {}), "cam")
    # plover: √(6 g/0.15 N/mm) · arccos(0.5/(0.5 + 0.15 · 3.5)) · 3000 rpm
    lag = math.sqrt(6e-3 / 150) * math.acos(0.5 / 1.025) * 100 * math.pi
    assert alone["cam.suction.lag"][0].value == pytest.approx(lag, rel=1e-9)


_MORE_ROOMS = [
    ("wren", "spark"), ("wren", "fuel"), ("wren", "fits"), ("wren", "proof"), ("heron", "spark"),
    ("heron", "fits"), ("heron", "proof"), ("plover", "fuel"), ("2_v_twin", "fuel"),
]  # fmt: skip


def _worked(worked) -> tuple[dict[str, float], list[str]]:
    """Every number of a working by its name, and what was put in and not used."""
    if isinstance(worked, ByLaw):
        put, lines = dict(worked.way.inputs), worked.way.working
    else:
        given = {key: one.value for key, one in worked.given.items()}
        put, lines = {**worked.paths, **given}, worked.lines
    used = " ".join(line.expression for line in lines)
    values = dict(put)
    for line in lines:
        values[line.name] = worked_out(line.expression, values)
    return values, [key for key in put if key not in used]


@pytest.mark.parametrize(("name", "room"), _MORE_ROOMS)
def test_every_working_of_the_other_chapters_ends_in_its_number(name, room) -> None:
    """And its limit's line in the limit, nothing put in that is not used."""
    path = STRANGERS / f"{name}.toml" if name[0].isdigit() else ENGINES / f"{name}.toml"
    found = numbers_of(ff.read(path), room)
    assert len(found) >= 4
    for ident, (number, worked) in found.items():
        if not number.judged:
            assert number.why
            continue
        values, idle = _worked(worked)
        ends = [values[key] for key in ("value", "demand", "capacity") if key in values]
        assert any(end == pytest.approx(number.value, rel=1e-6) for end in ends), ident
        if number.limit is not None and "limit" in values:
            # a gap is halved to half a micrometre, a bore to a nanometre
            assert values["limit"] == pytest.approx(number.limit, rel=2e-3), ident
        if not isinstance(worked, ByLaw):
            assert not idle, f"{ident}: {idle} put in and not used"


def test_a_plugs_voltage_and_a_coils_by_hand() -> None:
    """Figures keyed in from what is shown, by the laws as the books print them."""
    wren = ff.read(ENGINES / "wren.toml")
    wants, gives = opened(wren, "spark.cranked.wants"), opened(wren, "spark.cranked.gives")
    put = {one.name: one.value for one in wants.numbers}
    # uniform field, air at 1 atm and 20 °C: 24.22 kV/cm and 6.08 kV/√cm
    cm = 100 * put["gap"] * put["pressure"] / 101_325 * 293.15 / put["warm"]
    assert wants.working[-1].value == pytest.approx(24_220 * cm + 6_080 * math.sqrt(cm))
    put = {one.name.removeprefix("spark.coil."): one.value for one in gives.numbers}
    ohms = put["resistance"] + put["resistor"]
    steps = np.linspace(0.0, put["charging"], 20_001)
    current = 0.0
    for before, after in itertools.pairwise(steps):  # dI/dt = (U - R I)/L
        current += (
            (after - before)
            * (put["supply"] - put["driver_drop"] - ohms * current)
            / (put["inductance"])
        )
    energy = 0.5 * put["inductance"] * current**2
    volts = math.sqrt(2 * put["passed_on"] * energy / put["capacitance"])
    top = put["driver_clamp"] * put["turns_ratio"]
    assert gives.working[-1].value == pytest.approx(min(volts, top), rel=1e-3)


def test_what_moves_a_number_is_told() -> None:
    """A tenth more tension of a string."""
    told = opened(ff.read(ENGINES / "heron.toml"), "fits.belt_pitch")
    # f = √(T/m')/(2 L): a tenth more tension gives √1.1 = 1.049
    assert any("tension" in text and "× 1.05" in text for text in told.movers), told.movers
    assert "What moves it" in explain_text(told)


def test_a_contact_by_hand() -> None:
    """Hertz as in Shigley, 9th ed., Eq. 3-73: every figure keyed in from what is shown."""
    told = opened(ff.read(ENGINES / "wren.toml"), "cam.inlet.contact")
    put = {one.name: one.value for one in told.numbers}
    soft = (1 - put["cam_poisson"] ** 2) / put["cam_modulus"]
    hard = (1 - put["rider_poisson"] ** 2) / put["rider_modulus"]
    curved = 1 / put["edge"] + 1 / put["valves.inlet.follower_radius"]
    (force,) = (line.value for line in told.working if line.name == "force")
    width = put["valves.inlet.cam_width"]
    peak = math.sqrt(force / width * curved / (math.pi * (soft + hard)))
    assert told.working[-1].value == pytest.approx(peak, rel=1e-9)
    assert told.word == "holds"
    assert told.factor > 1


def test_a_rim_by_hand() -> None:
    """140° of a rim of 110 mm before its mark: π · 110 · 140/360 = 134.4 mm."""
    text = explain_text(opened(ff.read(ENGINES / "wren.toml"), "timing.1.inlet-closes.rim"))
    assert "134.4" in text
    assert "110" in text
    assert max(map(len, text.splitlines())) <= 80


def test_an_unknown_number_names_the_nearest() -> None:
    with pytest.raises(FirstfireError, match=r"cam\.inlet\.contact"):
        opened(ff.read(ENGINES / "wren.toml"), "cam.inlet.kontact")


def firstfire(*words):
    return subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *map(str, words)],
        capture_output=True, text=True, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def test_explain_opens_and_lists_them() -> None:
    wren = ENGINES / "wren.toml"
    told = json.loads(firstfire("explain", wren, "cam.gap.tooth_late_2", "--json").stdout)
    assert told["schema"] == "firstfire.explanation/1"
    assert told["working"][-1]["name"] == "value"
    listed = firstfire("explain", wren, "timing").stdout
    assert "timing.tooth:" in listed
    assert max(map(len, listed.splitlines())) <= 80
    refused = firstfire("explain", wren, "cam.inlet.contact", "--event", "crank")
    assert refused.returncode == 2
    assert "Leave out --event" in refused.stderr
