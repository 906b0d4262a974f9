"""``firstfire check FILE --report OUT.html``: what it refuses, and the browser it opens."""

import subprocess
import sys
import webbrowser
from pathlib import Path

import pytest

from firstfire.cli.reporting import report_wanted, reported
from firstfire.errors import FirstfireError

COMMAND = str(Path(sys.executable).with_name("firstfire"))
WREN = str(Path(__file__).resolve().parents[2] / "engines" / "wren.toml")


def run(*words):
    return subprocess.run([COMMAND, *words], capture_output=True, text=True, check=False)


def test_a_report_that_is_there_is_kept_and_nothing_is_run(tmp_path):
    target = tmp_path / "out.html"
    target.write_text("old")
    ran = run("check", WREN, "--report", str(target))
    assert ran.returncode == 2
    assert "stays as it is" in " ".join(ran.stderr.split())
    assert "Traceback" not in ran.stderr
    assert ran.stdout == ""
    assert target.read_text() == "old"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--report", "out.pdf"), "ends in .html"),
        (("--report", "nowhere/out.html"), "its folder isn't there"),
        (("--open",), "Say --report OUT.html too"),
    ],
)
def test_what_cannot_be_written_is_refused_in_words(tmp_path, words, said):
    ran = subprocess.run(
        [COMMAND, "check", WREN, *words], capture_output=True, text=True, check=False, cwd=tmp_path
    )
    assert ran.returncode == 2
    assert said in " ".join(ran.stderr.split())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("starts", [True, False])
def test_it_is_opened_if_wanted(wren, tmp_path, monkeypatch, capsys, starts):
    target, shown = tmp_path / "out.html", []
    monkeypatch.setattr(webbrowser, "open", lambda url: shown.append(url) or starts)
    reported(wren, target, overwrite=False, show=True)
    assert shown == [target.as_uri()]
    assert ("open it yourself" in capsys.readouterr().err) is not starts


def test_open_needs_a_report():
    with pytest.raises(FirstfireError, match="--report"):
        report_wanted(None, overwrite=False)
