"""A check that is stopped keeps what is finished; a starter that can't turn it is told."""

import json
import math
import os
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

import firstfire as ff
from firstfire.cli.main import app
from firstfire.errors import Interrupted, Stopped
from firstfire.verdict import check as checking
from firstfire.verdict.facts.starting import too_weak
from firstfire.verdict.numbers import THIN
from firstfire.verdict.told.contract import ResultTold
from firstfire.verdict.words.sentences import sentence

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"
CTRL_C_AT_FULL_THROTTLE = """
import os, signal
import firstfire.verdict.check as checking
run = checking.run
def stopped_by_hand(engine, event, *more, **named):
    if event == "full_throttle":
        os.kill(os.getpid(), signal.SIGINT)
    return run(engine, event, *more, **named)
checking.run = stopped_by_hand
from firstfire.cli.main import run as command
command()
"""


def command(code, *words):
    return subprocess.run(
        [sys.executable, "-c", code, *map(str, words)],
        capture_output=True, text=True, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def firstfire(*words):
    return command("from firstfire.cli.main import run; run()", *words)


def test_ctrl_c_shows_what_was_finished_and_exits_with_130():
    done = command(CTRL_C_AT_FULL_THROTTLE, "check", WREN, "--full", "--engines", "16")
    assert done.returncode == 130
    assert "Traceback" not in done.stderr
    assert "What was finished is shown above.\nStopped.\n" in done.stderr
    text = " ".join(done.stdout.split())
    assert text.startswith("wren, single of 40")
    assert "stopped when only cranking, first fire and kick back had been finished" in text
    assert "whatever comes after: the check was stopped before it was run" in text
    # Nothing is said of a full throttle that was never reached.
    assert "nothing judged gives way up to the first second of full throttle" not in text


def test_ctrl_c_ends_other_commands_in_a_word():
    done = command(CTRL_C_AT_FULL_THROTTLE, "compare", WREN, WREN)
    assert done.returncode == 130
    assert done.stderr.endswith("Stopped.\n")
    assert "Traceback" not in done.stderr


def test_ctrl_c_keeps_the_json_contract():
    done = command(CTRL_C_AT_FULL_THROTTLE, "check", WREN, "--json", "--engines", "16")
    assert done.returncode == 130
    told = json.loads(done.stdout)
    ResultTold.model_validate(told)
    assert {point["event"] for point in told["operating_points"]} == {"cranking", "first_fire"}
    assert {margin["event"] for margin in told["margins"]} == {
        "cranking",
        "first_fire",
        "kick_back",
    }


def stopped_after(events):
    """What is left of a check stopped once so many events are finished."""
    finished = []

    def told(what, share):
        if what == "" and share == 1.0:
            finished.append(what)

    # with screws of M4 and three cross pins there is something to raise
    weaker = {"head.fasteners.thread": "M4", "crank.journal.joint.cross_pins": 3}
    weak = ff.with_values(ff.read(WREN), weaker)
    with pytest.raises(Stopped) as halted:
        ff.check(weak, stop=lambda: len(finished) >= events, on_progress=told)
    return halted.value.partial


def test_stop_keeps_what_was_finished_on_the_exception():
    partial = stopped_after(1)
    assert [event.event for event in partial.events] == ["cranking"]
    assert {m.event for m in partial.margins} == {"cranking"}
    assert "stopped" in partial.sentence
    # Its own drill turns it.
    assert not too_weak(partial)
    assert "too weak" not in sentence(partial)


def test_stop_before_anything_is_finished_keeps_nothing():
    with pytest.raises(Stopped) as halted:
        ff.check(ff.read(WREN), stop=lambda: True)
    assert halted.value.partial is None


def test_ctrl_c_stays_a_keyboard_interrupt(monkeypatch):
    """So that a sweep over engines that goes on after refusals doesn't go on after Ctrl-C."""

    def by_hand(*_, **__):
        raise KeyboardInterrupt

    monkeypatch.setattr(checking, "run", by_hand)
    with pytest.raises(Interrupted) as halted:
        ff.check(ff.read(WREN))
    assert halted.value.partial is None
    assert isinstance(halted.value, KeyboardInterrupt)


@pytest.mark.slow
def test_stop_ends_changes_that_are_tried(monkeypatch):
    """Stopped is a refusal too; the trying of changes must not take it for a change refused."""
    trying = []

    def told(what, share):
        if what == "what would raise it":
            trying.append(what)

    with pytest.raises(Stopped) as halted:
        ff.check(
            ff.read(WREN), only=["first_fire", "full_throttle"], speeds=[2500 * math.pi / 30],
            drawn=14, stop=lambda: bool(trying), on_progress=told,
        )  # fmt: skip
    assert "full_throttle" in {event.event for event in halted.value.partial.events}


# A tiny drill: through a gear of 8 turns of the crank for one of its own it is as fast as before
# and has an eighth of the torque; by hand, at 120 rpm and 5 N*m.
TINY = {"starter.kind": "hand", "starter.ratio": 8, "use.cranking_speed": "800 rpm"}


@pytest.fixture(scope="module")
def feeble():
    """Wren with that drill, checked once for all that is shown of it."""
    tiny = ff.with_values(ff.read(WREN), TINY)
    return ff.check(tiny, only=["cranking", "first_fire"], drawn=14)


@pytest.fixture
def shown(feeble, monkeypatch):
    """The command's own ways with a result: which engine it was asked of is looked at."""

    def known(engine, **_):
        assert ff.resolve(engine).sha256 == feeble.plain.sha256
        return feeble

    monkeypatch.setattr(checking, "check", known)
    given = [word for path, value in TINY.items() for word in ("--set", f"{path}={value}")]
    return lambda *words: CliRunner().invoke(app, ["check", str(WREN), *given, *words])


def test_a_starter_that_is_too_weak_is_told_in_the_sentence_and_strict_exits_with_1(shown):
    done = shown("--strict", "--json")
    assert done.exit_code == 1, done.output
    told = json.loads(done.stdout)
    said = told["verdict"]["sentence"].replace(THIN, " ")
    starting = told["starting"]
    assert starting["comes_over_top"] is False
    assert starting["speed_reached_rpm"] is None
    assert "it does not come over the top: that takes" in said
    # By hand: 5 N*m at a stand, nothing at 120 rpm, in a straight line; at the crank an eighth.
    gives = 5 / 8
    assert starting["stall_torque_nm"] == pytest.approx(gives)
    assert f"the starter gives {gives:.2g} N·m at a stand" in said
    assert f"{starting['torque_lacking_nm']:.2g} N·m too little even with a run-up" in said
    # A hand this slow is helped by no gear: nothing is offered that doesn't do it.
    assert all(change["text"].lower() in said.lower() for change in starting["would_help"])


def test_a_starter_that_is_too_slow_is_told_with_the_speed_it_reaches():
    """Not a failure: 14 N*m at a stand, nothing at 400 rpm, asked for 390 rpm."""
    done = firstfire(
        "check", WREN, "--json", "--for", "cranking", "--set", "starter.stall_torque=14 N*m",
        "--set", "starter.no_load_speed=400 rpm", "--set", "use.cranking_speed=390 rpm",
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    said = told["verdict"]["sentence"].replace(THIN, " ")
    reached = told["starting"]["speed_reached_rpm"]
    assert told["starting"]["comes_over_top"] is True
    assert 200 < reached < 390
    assert told["starting"]["slowest_rpm"] < reached
    assert f"turns it at about {round(reached, -1):.0f} rpm only, not at 390 rpm" in said


def test_the_card_says_that_it_does_not_come_over_the_top(shown):
    done = shown()
    assert done.exit_code == 0, done.output
    text = " ".join(done.stdout.replace(THIN, " ").split())
    assert "starter does not come over the top: takes up to" in text
