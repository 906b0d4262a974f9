"""What Ctrl-C does to a command that is running."""

from __future__ import annotations

import os
import signal
import threading
from pathlib import Path

import pytest
import typer

import firstfire as ff
from firstfire.cli.stopped import stoppable
from firstfire.errors import Stopped
from firstfire.verdict.compare import compare as comparing
from firstfire.verdict.compare.compare import compare

WREN = Path(__file__).parents[2] / "engines" / "wren.toml"


def press() -> None:
    os.kill(os.getpid(), signal.SIGINT)


def stopped_in_time() -> None:
    with stoppable() as stop:
        assert not stop()
        press()
        assert stop()
        raise Stopped("The run was stopped.")


def test_a_press_is_noted_and_comes_in_between_nowhere() -> None:
    before = signal.getsignal(signal.SIGINT)
    with pytest.raises(typer.Exit) as left:
        stopped_in_time()
    assert left.value.exit_code == 130
    assert signal.getsignal(signal.SIGINT) is before


def pressed_twice() -> None:
    with stoppable():
        press()
        press()


def test_a_second_press_ends_it_wherever_it_is() -> None:
    with pytest.raises(KeyboardInterrupt):
        pressed_twice()


def test_a_press_after_all_is_finished_still_says_130() -> None:
    shown: list[str] = []

    def pressed_late() -> None:
        with stoppable():
            press()
            shown.append("all of it")

    with pytest.raises(typer.Exit) as left:
        pressed_late()
    assert left.value.exit_code == 130
    assert shown


def test_outside_the_main_thread_nothing_is_pressed() -> None:
    found = []

    def work() -> None:
        with stoppable() as stop:
            found.append(stop())

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert found == [False]


@pytest.fixture(scope="module")
def result() -> ff.Result:
    """What every check that isn't stopped comes to: wren's, run once."""
    return ff.check(ff.read(WREN), only=["cranking"], changes=False, drawn=14)


def stopped_at(monkeypatch: pytest.MonkeyPatch, result: ff.Result, nth: int, count: int) -> object:
    """What is left of a comparison of so many engines that is stopped in the nth check."""
    bores = [f"{40 + n} mm" for n in range(count)]
    others = [ff.with_values(result.engine, {"cylinder.bore": bore}) for bore in bores]
    begun = []

    def checked(*_: object, **__: object) -> ff.Result:
        begun.append(1)
        if len(begun) == nth:
            raise Stopped("The run was stopped.", "what the check had finished")
        return result

    monkeypatch.setattr(comparing, "check", checked)
    with pytest.raises(Stopped) as halted:
        compare([(f"engine {n}", one) for n, one in enumerate(others)])
    return halted.value.partial


def test_a_stopped_comparison_keeps_the_engines_that_are_finished(
    monkeypatch: pytest.MonkeyPatch, result: ff.Result
) -> None:
    partial = stopped_at(monkeypatch, result, 3, 4)
    assert isinstance(partial, comparing.Comparison)
    assert [column.label for column in partial.columns] == ["engine 0", "engine 1"]


def test_a_comparison_stopped_in_its_second_check_keeps_the_first(
    monkeypatch: pytest.MonkeyPatch, result: ff.Result
) -> None:
    assert isinstance(stopped_at(monkeypatch, result, 2, 3), ff.Result)


def test_a_comparison_stopped_in_its_first_check_keeps_what_that_keeps(
    monkeypatch: pytest.MonkeyPatch, result: ff.Result
) -> None:
    assert stopped_at(monkeypatch, result, 1, 2) == "what the check had finished"
