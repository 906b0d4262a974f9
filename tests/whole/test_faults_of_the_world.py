"""Full disks, read-only homes, broken caches, signals, poor terminals: each ends in a sentence."""

import os
import resource
import signal
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
WREN = ROOT / "engines" / "wren.toml"
RUN = "from firstfire.cli.main import run; run()"


def firstfire(*words, before="", out=subprocess.PIPE, limit=None, **world):
    """A command in a world of its own: what stands in its environment, how much it may write."""

    def small() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    return subprocess.run(
        [sys.executable, "-c", before + RUN, *map(str, words)],
        stdout=out, stderr=subprocess.PIPE, text=True, check=False, encoding="utf-8",
        errors="replace", env={**os.environ, "COLUMNS": "80", **world},
        preexec_fn=small if limit is not None else None,
    )  # fmt: skip


def told(done, code):
    """Its sentence: one for people, never a traceback."""
    assert done.returncode == code, done.stderr
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr
    return " ".join(done.stderr.split())


def test_a_disk_that_is_full_at_a_drawing(tmp_path):
    done = firstfire("draw", WREN, "--out", tmp_path / "a.svg", limit=4096)
    assert "can't be written" in told(done, 2)
    assert not list(tmp_path.iterdir()), "nothing is left half written"


def test_a_disk_that_is_full_at_a_new_file_and_leaves_the_old_one_whole(tmp_path):
    file = tmp_path / "mine.toml"
    file.write_text("old")
    words = ("new", file, "--from", WREN, "--overwrite")
    assert "can't be written" in told(firstfire(*words, limit=512), 2)
    assert file.read_text() == "old"
    assert list(tmp_path.iterdir()) == [file]


@pytest.mark.parametrize("words", [("catalog", "fuel"), ("schema", "engine")])
def test_an_output_that_is_full(words):
    """Little is held back until the end, much is written on the way."""
    with Path("/dev/full").open("w") as full:
        assert "the disk is full" in told(firstfire(*words, out=full), 1)


def test_a_reader_that_has_gone():
    near, far = os.pipe()
    os.close(near)
    try:
        assert told(firstfire("catalog", "fuel", out=far), 1) == ""
    finally:
        os.close(far)


@pytest.mark.parametrize(
    "world",
    [{"LANG": "C", "LC_ALL": "C"}, {"PYTHONIOENCODING": "ascii"}, {"PYTHONIOENCODING": "latin-1"}],
)
def test_a_terminal_that_knows_few_signs(world):
    done = firstfire("catalog", "material", "petg", **world)
    told(done, 0)
    assert "PETG" in done.stdout


@pytest.mark.parametrize("columns", ["20", "300", "wide"])
def test_narrow_and_wide_terminals(columns):
    done = firstfire("parts", WREN, COLUMNS=columns)
    told(done, 0)
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_a_cache_folder_that_can_not_be_written(tmp_path):
    """Named by hand it is refused; a home that can't be written is passed over."""
    file = tmp_path / "file"
    file.write_text("")
    code = "from firstfire.cycle.compile import cache_folder; print(cache_folder()); "
    named = firstfire("check", WREN, FIRSTFIRE_CACHE=str(file / "in it"))
    assert told(named, 2).startswith("FIRSTFIRE_CACHE is")
    home = {"HOME": str(file), "XDG_CACHE_HOME": str(file), "FIRSTFIRE_CACHE": ""}
    elsewhere = firstfire("schema", "engine", before=code, **home)
    told(elsewhere, 0)
    assert str(file) not in elsewhere.stdout.splitlines()[0]


KEPT = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[1])
from firstfire.compiled import compiled
from twice import twice
print(compiled(twice, Path(sys.argv[2]))(21.0))
"""


def keeper(tmp_path, **popen):
    (tmp_path / "twice.py").write_text("def twice(x):\n    return 2 * x\n")
    words = [sys.executable, "-c", KEPT, str(tmp_path), str(tmp_path / "kept")]
    return subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                            **popen)  # fmt: skip


def answers(process):
    out, err = process.communicate(timeout=300)
    assert process.returncode == 0, err
    assert "Traceback" not in err
    assert out.strip() == "42.0"


@pytest.mark.parametrize(("kind", "rest"), [("*.nbi", b"\x80\x04half"), ("*.nbc", b"")])
def test_a_cache_that_is_broken_is_made_anew(tmp_path, kind, rest):
    answers(keeper(tmp_path))
    files = list((tmp_path / "kept").rglob(kind))
    assert files
    for file in files:
        file.write_bytes(rest)
    answers(keeper(tmp_path))
    assert all(file.read_bytes() != rest for file in (tmp_path / "kept").rglob(kind))
    answers(keeper(tmp_path))


def test_a_cache_that_two_first_runs_share(tmp_path):
    both = keeper(tmp_path), keeper(tmp_path)
    for one in both:
        answers(one)
    answers(keeper(tmp_path))


def test_a_cache_on_a_full_disk(tmp_path):
    def small() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (64, 64))

    answers(keeper(tmp_path, preexec_fn=small))


TERM = """
import os, signal
import firstfire.setup.parts_list as listing
def ended(*words):
    os.kill(os.getpid(), signal.SIGTERM)
    for _ in range(1000): pass
listing.parts_list = ended
"""


def test_a_request_to_end_is_told():
    done = firstfire("parts", WREN, before=TERM)
    assert told(done, 128 + signal.SIGINT) == "Stopped."
