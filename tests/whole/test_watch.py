"""``firstfire check --watch`` as a person has it: at a terminal, with an editor that saves."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import shutil
import signal
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

import pytest

from firstfire.cli.watch import Files

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"
RUN = "from firstfire.cli.main import run; run()"
PATIENCE = 240
"""Seconds after which a command that says nothing is given up: the gas model may be compiled."""


class Terminal:
    """A command at a terminal of 80 by 24, its words as they come."""

    def __init__(self, folder, *words):
        self.pid, self.end = pty.fork()
        if self.pid == 0:
            os.chdir(folder)
            os.environ.pop("COLUMNS", None)
            os.execv(sys.executable, [sys.executable, "-c", RUN, *words])
        fcntl.ioctl(self.end, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.heard, self.read = b"", 0

    def until(self, said):
        """What it says up to some words that it hasn't said yet."""
        ends = time.monotonic() + PATIENCE
        while (place := self.heard.find(said.encode(), self.read)) < 0:
            assert time.monotonic() < ends, self.heard[self.read :].decode()
            self._hear()
        begun, self.read = self.read, place + len(said)
        return self._plain(self.heard[begun : self.read])

    def ended(self):
        """Its exit code, and all that was left to say."""
        while self._hear():
            pass
        _, status = os.waitpid(self.pid, 0)
        os.close(self.end)
        return os.waitstatus_to_exitcode(status), self._plain(self.heard[self.read :])

    def _hear(self):
        if not select.select([self.end], [], [], 0.2)[0]:
            return True
        try:
            piece = os.read(self.end, 65536)
        except OSError:  # the other end has closed
            return False
        self.heard += piece
        return bool(piece)

    def _plain(self, heard):
        """Without the line of progress, which is written over."""
        text = heard.decode().replace("\r\n", "\n").replace("\u202f", " ")
        return "\n".join(line.rpartition("\r")[2] for line in text.split("\n"))


def replaced(file, text):
    """As an editor saves: to the side, then moved into place."""
    aside = file.with_name(".aside")
    aside.write_text(text)
    aside.replace(file)


def test_it_follows_every_save(tmp_path):
    file, text = tmp_path / "finch.toml", WREN.read_text()
    shutil.copy(WREN, file)
    at = Terminal(tmp_path, "check", "finch.toml", "--watch", "--for", "cranking,first_fire")
    told = "Watching finch.toml: save to check again, Ctrl-C to end."
    first = at.until(told)
    assert "wren, single of 40 × 36 mm" in first
    assert len(first.strip().splitlines()) <= 24

    replaced(file, text.replace("compression_ratio = 6.5", "compression_ratio = 9"))
    second = at.until(told)
    assert re.search(r"^-- \d\d:\d\d:\d\d -+$", second, re.M)
    above = second.partition("wren, single")[0].strip().splitlines()[1:]
    assert 1 <= len(above) <= 3
    assert "Since the last: odds 19 in 20 → " in above[0]
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
    code, rest = at.ended()
    assert code == 130
    assert "Stopped." in rest
    assert "Traceback" not in rest


def test_it_does_next_to_nothing_while_it_waits(tmp_path):
    """Looking twice a second takes a hundredth of a processor, not one."""
    shutil.copy(WREN, tmp_path / "finch.toml")
    at = Terminal(tmp_path, "check", "finch.toml", "--watch", "--for", "cranking")
    at.until("Ctrl-C to end.")
    before = _used(at.pid)
    time.sleep(3.0)
    assert _used(at.pid) - before < 0.3
    os.kill(at.pid, signal.SIGTERM)
    assert at.ended()[0] == 130


def _used(pid):
    """Seconds of processor that a process has taken."""
    fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


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
        [sys.executable, "-c", RUN, "check", *words],
        capture_output=True, text=True, check=False, cwd=tmp_path,
    )  # fmt: skip
    assert done.returncode == 2
    assert says in " ".join(done.stderr.split())
    assert done.stdout == ""
