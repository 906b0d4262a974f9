"""The command that opens the pages: what it says, what it refuses, how it ends."""

import signal
import subprocess

import pytest
from tests.pages.served import COMMAND, Served, surroundings


def said(folder, *words):
    return subprocess.run(
        [*COMMAND, *words], cwd=folder, env=surroundings(folder), text=True,
        capture_output=True, stdin=subprocess.DEVNULL, timeout=120, check=False,
    )  # fmt: skip


def test_without_a_browser_the_address_is_printed_and_ctrl_c_ends_it(folder):
    with Served(folder, "wren.toml") as served:
        assert served.said.startswith("The pages are at http://127.0.0.1:")
        assert len(served.token) >= 32
        served.process.send_signal(signal.SIGINT)
        rest = served.process.stdout.read()
        assert served.process.wait(20) == 130
    assert "copy the address" in rest
    assert "Traceback" not in rest


def test_each_start_has_a_key_of_its_own(folder):
    tokens = set()
    for _ in range(2):
        with Served(folder) as served:
            tokens.add(served.token)
    assert len(tokens) == 2


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [("missing.toml", None, "is not there"), ("folder.toml", "/", "is a folder"),
     ("bytes.toml", b"\xff\xfe\0", "not a text file"), ("large.toml", b"#" * 1_000_001, "1.0 MB")],
)  # fmt: skip
def test_what_can_not_be_opened_is_refused_in_one_message(folder, name, content, words):
    if content == "/":
        (folder / name).mkdir()
    elif content is not None:
        (folder / name).write_bytes(content)
    done = said(folder, "open", name)
    assert (done.returncode, done.stdout) == (2, "")
    assert words in done.stderr
    assert "Traceback" not in done.stderr


def test_a_file_is_open_in_one_firstfire_at_a_time(folder):
    with Served(folder, "wren.toml"):
        done = said(folder, "open", "wren.toml")
    assert done.returncode == 2
    assert "open already" in done.stderr


def test_a_port_that_is_taken_is_said(folder):
    with Served(folder) as served:
        done = said(folder, "open", "--port", str(served.port))
    assert done.returncode == 2
    assert "can't be listened on" in done.stderr


def test_alone_and_with_nobody_there_it_shows_its_help(folder):
    done = said(folder)
    assert done.returncode == 2
    assert "Commands:" in done.stdout


def test_no_module_of_the_folder_is_run(folder):
    """What lies where somebody works is data, whatever its name."""
    for name in ("random", "numpy", "firstfire"):
        (folder / f"{name}.py").write_text("open('run', 'w'); raise SystemExit(9)")
    with Served(folder, "wren.toml"):
        pass
    assert not (folder / "run").exists()
