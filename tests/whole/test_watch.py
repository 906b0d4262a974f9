"""``firstfire check --watch`` as a person has it: at a terminal, with an editor that saves."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from tests.whole.terminal import CODE, Terminal

from firstfire.cli.watch import Files, _until_saved

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"


def replaced(file, text):
    """As an editor saves: to the side, then moved into place."""
    aside = file.with_name(".aside")
    aside.write_text(text)
    aside.replace(file)


def test_it_follows_every_save(tmp_path):
    file, text = tmp_path / "finch.toml", WREN.read_text()
    shutil.copy(WREN, file)
    at = Terminal(tmp_path, "check", "finch.toml", "--watch", "--for", "first_fire",
                  "--engines", "16")  # fmt: skip
    told = "Watching finch.toml: save to check again, Ctrl-C to end."
    first = at.until(told)
    assert "wren, single of 40 × 36 mm" in first
    assert len(first.strip().splitlines()) <= 24

    replaced(file, text.replace("compression_ratio = 6.5", "compression_ratio = 9"))
    second = at.until(told)
    assert re.search(r"^-- \d\d:\d\d:\d\d -+$", second, re.M)
    above = second.partition("wren, single")[0].strip().splitlines()[1:]
    assert 1 <= len(above) <= 3
    # The odds as the first screen says them, then as the second does.
    was, now = (re.search(r"(\S+ in 20) that it survives", one)[1] for one in (first, second))
    assert was != now
    assert above[0].startswith(f"Since the last: odds {was} → {now}")
    assert len(second.strip().splitlines()) <= 24

    replaced(file, text.replace('bore = "40 mm"', 'bore = "40 kg"'))
    broken = at.until(told)
    assert 'cylinder.bore is "40 kg"' in broken
    assert "The answer above is of the file as it was." in broken
    assert "Traceback" not in broken

    os.utime(file)
    at.until("Saved without a change.")

    file.unlink()
    file.write_text(text)
    assert "Since the last: odds " in at.until(told)

    (tmp_path / "catalog.toml").write_text("# my own rows\n")
    also = at.until("Watching finch.toml and catalog.toml: save to check again, Ctrl-C to end.")
    assert "Nothing that is judged changed." in also

    os.kill(at.pid, signal.SIGINT)
    assert at.ends() == 130
    rest = at.rest()
    assert "Stopped." in rest
    assert "Traceback" not in rest


def test_it_rests_between_two_looks(tmp_path, monkeypatch):
    """While it waits it sleeps half a second before each look at its files, and looks but once."""
    done = []
    file = tmp_path / "a.toml"
    file.write_text("x = 1")
    files = Files([file])
    monkeypatch.setattr("firstfire.cli.watch.time.sleep", done.append)
    monkeypatch.setattr(Files, "saved", lambda _: done.append("looks") or False)
    _until_saved(files, lambda: len(done) >= 6)
    assert done == [0.5, "looks"] * 3


def test_it_ends_when_it_is_told_to(tmp_path):
    shutil.copy(WREN, tmp_path / "finch.toml")
    at = Terminal(tmp_path, "check", "finch.toml", "--watch", "--for", "cranking")
    at.until("Ctrl-C to end.")
    os.kill(at.pid, signal.SIGTERM)
    assert at.ends() == 130


def test_a_file_is_seen_to_be_saved_however_it_is(tmp_path, monkeypatch):
    """Written anew, replaced by a rename, taken away, come into being."""
    monkeypatch.setattr("firstfire.cli.watch._LOOK", 0.0)
    file, other = tmp_path / "a.toml", tmp_path / "catalog.toml"
    file.write_text("x = 1")
    files = Files([file, other])
    assert not files.saved()
    for change in (
        lambda: file.write_text("x = 22"),
        lambda: replaced(file, "x = 3"),
        lambda: other.write_text("y = 1"),
        other.unlink,
    ):
        change()
        assert files.saved()
        assert files.changed()
        files.note()
        assert not files.saved()
    os.utime(file, ns=(1, 1))
    assert files.saved()
    assert not files.changed()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["gone.toml", "--watch"], "gone.toml is not there"),
        ([str(WREN), "--watch", "--json"], "leave --json out"),
        ([str(WREN), "--watch", "--strict"], "leave --strict out"),
    ],
)
def test_what_can_not_be_watched(tmp_path, words, says):
    done = subprocess.run(
        [sys.executable, "-c", CODE, "check", *words],
        capture_output=True, text=True, check=False, cwd=tmp_path,
    )  # fmt: skip
    assert done.returncode == 2
    assert says in " ".join(done.stderr.split())
    assert done.stdout == ""
