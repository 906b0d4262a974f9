"""``firstfire draw`` as a person runs it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from tests.drawing.conftest import FILES, Measured

COMMAND = str(Path(sys.executable).with_name("firstfire"))


def draw(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [COMMAND, "draw", *words], capture_output=True, text=True, check=False, timeout=120
    )


@pytest.mark.parametrize("end", ["svg", "dxf", "pdf"])
def test_writes_what_the_name_ends_in(tmp_path: Path, end: str) -> None:
    out = tmp_path / f"wren.{end}"
    done = draw(str(FILES["wren"]), "--out", str(out), "--angle", "-20")
    assert done.returncode == 0, done.stderr
    assert "20° before firing top" in done.stdout
    start = out.read_bytes()[:8]
    assert start.startswith({"svg": b"<svg", "dxf": b"  0", "pdf": b"%PDF"}[end])


def test_along_the_crank_with_a_trial_value(tmp_path: Path) -> None:
    out = tmp_path / "wren.svg"
    done = draw(str(FILES["wren"]), "--out", str(out), "--along-crank", "--set",
                "flywheel.diameter=120 mm")  # fmt: skip
    assert done.returncode == 0, done.stderr
    _, top, _, low = Measured(out.read_text()).box("flywheel")
    assert low - top == pytest.approx(120, abs=2e-3)


def test_nothing_is_overwritten_unless_asked(tmp_path: Path) -> None:
    out = tmp_path / "wren.svg"
    out.write_text("mine")
    done = draw(str(FILES["wren"]), "--out", str(out))
    assert done.returncode == 2
    assert "there already" in " ".join(done.stderr.split())
    assert out.read_text() == "mine"
    assert draw(str(FILES["wren"]), "--out", str(out), "--overwrite").returncode == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--out", "x.png"), "ends in none of .svg, .dxf, .pdf"),
        (("--out", "x.svg", "--angle", "nan"), "--angle is nan"),
        (("--out", "x.svg", "--angle", "721"), "A cycle is 0 to 720"),
        (("--out", "x.svg", "--angle", "-361"), "A cycle is 0 to 720"),
        (("--out", "x.pdf", "--paper", "A3"), "there is A4 and Letter"),
        (("--out", "x.svg", "--along-crank", "--forces"), "across the crank"),
        (("--out", "nowhere/x.svg"), "can't be written"),
    ],
)
def test_refusals_are_sentences(words: tuple[str, ...], said: str) -> None:
    done = draw(str(FILES["wren"]), *words)
    assert done.returncode == 2
    assert said in " ".join(done.stderr.split())
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("end", ["svg", "dxf", "pdf"])
def test_one_part_to_be_made(tmp_path: Path, end: str) -> None:
    out = tmp_path / f"rod.{end}"
    done = draw(str(FILES["plover"]), "--part", "rod", "-o", str(out), "--paper", "Letter")
    assert done.returncode == 0, done.stderr
    assert "Con rod" in done.stdout
    assert "on Letter" in done.stdout
    assert "estimate" in done.stdout
    start = out.read_bytes()[:8]
    assert start.startswith({"svg": b"<svg", "dxf": b"  0", "pdf": b"%PDF"}[end])


def test_a_part_follows_what_is_tried(tmp_path: Path) -> None:
    out = tmp_path / "pin.svg"
    done = draw(str(FILES["wren"]), "--part", "pin", "-o", str(out), "--set", "pin.length=32 mm")
    assert done.returncode == 0, done.stderr
    assert float(Measured(out.read_text()).measures()["pin.length"].attrib["data-value"]) == 0.032
    again = draw(str(FILES["wren"]), "--part", "pin", "-o", str(out))
    assert again.returncode == 2
    assert "there already" in " ".join(again.stderr.split())


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("-o", "x.svg", "--part", "crnk"), "Did you mean crank?"),
        (("-o", "x.svg", "--part", "gasket"), "There is crank, pin, rod"),
        (("-o", "x.png", "--part", "rod"), "ends in none of .svg, .dxf, .pdf"),
        (("-o", "nowhere/x.svg", "--part", "rod"), "can't be written"),
        (("-o", "x.svg", "--part", "rod", "--paper", "A3"), "there is A4 and Letter"),
        (("-o", "x.svg", "--part", "rod", "--cylinder", "2"), "wren has one cylinder"),
        (("-o", "x.svg", "--part", "rod", "--angle", "20"), "--angle goes with the whole engine"),
        (("-o", "x.svg", "--cylinder", "2"), "name the part with --part"),
        (("-o", "x.svg", "--part", "rod", "--angle", "1", "--forces"), "--angle and --forces go"),
        (("-o", "x.svg", "--part", "rod", "--forces"), "--forces goes with the whole engine"),
        (("-o", "x.svg", "--part", "rod", "--set", "rod.lenght=2 mm"), "rod.length"),
    ],
)
def test_refusals_of_a_part_are_sentences(
    tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    done = subprocess.run(
        [COMMAND, "draw", str(FILES["wren"]), *words], capture_output=True, text=True,
        check=False, timeout=120, cwd=tmp_path,
    )  # fmt: skip
    assert done.returncode == 2
    assert said in " ".join(done.stderr.split())
    assert "Traceback" not in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.slow
def test_forces_of_full_throttle(tmp_path: Path) -> None:
    out = tmp_path / "wren.svg"
    done = draw(str(FILES["wren"]), "--out", str(out), "--forces", "--angle", "15")
    assert done.returncode == 0, done.stderr
    found = {g.attrib.get("data-force"): g for g in Measured(out.read_text()).root.iter()}
    # 15° after firing at full throttle: more than 5 and less than 60 bar on a 40 mm bore
    assert 600 < float(found["gas"].attrib["data-newtons"]) < 7500
