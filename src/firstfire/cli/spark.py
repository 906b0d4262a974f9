"""``firstfire spark``: what fires an engine, and when; ``firstfire wiring``: its leads."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from firstfire.cli.terminal import columns


def spark_told(
    file: Path, tried: Sequence[str], layers: Sequence[Path], *,
    as_json: bool, table: bool, stop: Callable[[], bool] | None = None,
) -> str:  # fmt: skip
    """The spark of an engine, as text or JSON.

    Raises
    ------
    FirstfireError
        With every problem of the file.
    """
    width = columns()

    def found() -> str:
        from firstfire.cli.asking import asked_engine
        from firstfire.setup.spark.sparking import spark
        from firstfire.setup.spark.text import spark_text

        sparks = spark(asked_engine(file, tried, layers), table=table, stop=stop)
        return sparks.to_json() if as_json else spark_text(sparks, width=width)

    from firstfire.cli.answers import answered

    return answered("spark", file, layers, (*tried, as_json, table, width), found)
