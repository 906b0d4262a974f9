"""Words typed are taken as they are: nothing in Typer's own ways is changed by that."""

from pathlib import Path
from typing import Annotated

import pytest
import typer
from typer.testing import CliRunner

from firstfire.cli.main import _InOrder

WORDS = [
    ["a"],
    ["a", "--text", "12", "--many", "x", "--many", "3", "--where", "b", "--flag"],
    ["a", "--count", "7", "--paths", "p", "--paths", "q/r"],
    ["a", "--count", "seven"],
    ["a", "--count", "700"],
    [],
    ["a", "--where"],
    ["a", "--no-such"],
    ["--help"],
]


def made(cls):
    app = typer.Typer(cls=cls, add_completion=False, rich_markup_mode=None)

    @app.callback()
    def before() -> None:
        """So that a command has to be named."""

    @app.command()
    def do(
        file: Path,
        text: str = "as it was",
        many: Annotated[list[str] | None, typer.Option()] = None,
        paths: Annotated[list[Path] | None, typer.Option()] = None,
        where: Annotated[Path | None, typer.Option()] = None,
        flag: Annotated[bool, typer.Option("--flag")] = False,
        count: Annotated[int, typer.Option(min=1, max=99)] = 3,
    ) -> None:
        print(repr((file, text, many, paths, where, flag, count)))

    return app


@pytest.mark.parametrize("words", WORDS, ids=" ".join)
def test_the_same_as_typer_itself_takes(words) -> None:
    ours, theirs = (CliRunner().invoke(made(cls), ["do", *words]) for cls in (_InOrder, None))
    assert (ours.exit_code, ours.output) == (theirs.exit_code, theirs.output)
