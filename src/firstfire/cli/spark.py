"""``firstfire spark``: what fires an engine, and when; ``firstfire wiring``: its leads."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from firstfire.cli.terminal import columns

if TYPE_CHECKING:
    from firstfire.engine.wires import Wiring


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


def wiring_told(
    file: Path, out: Sequence[Path], paper: str, tried: Sequence[str], layers: Sequence[Path], *,
    as_json: bool, overwrite: bool,
) -> str:  # fmt: skip
    """The wiring of an engine, as text or JSON, drawn into files besides.

    Raises
    ------
    FirstfireError
        With every problem of the file, or where one of the drawings can't be written.
    """
    from firstfire.cli.asking import asked_engine
    from firstfire.engine.resolve import resolve
    from firstfire.engine.wires import wiring
    from firstfire.setup.wiring.contract import wiring_json
    from firstfire.setup.wiring.text import wiring_text

    _refuse(out)
    engine = asked_engine(file, tried, layers)
    plain = resolve(engine)
    found = wiring(plain)
    _draw(engine.name, found, out, paper, overwrite=overwrite)
    if as_json:
        return wiring_json(engine, plain, found)
    said = wiring_text(engine.name, found, width=columns())
    return "\n".join([said, *(f"Drawn: {place}" for place in out)])


def _refuse(out: Sequence[Path]) -> None:
    from firstfire.errors import FirstfireError

    wrong = [str(place) for place in out if place.suffix.lower() not in (".svg", ".pdf", ".dxf")]
    if wrong:
        raise FirstfireError(
            f"{', '.join(wrong)}: a wiring is drawn as .svg, .pdf or .dxf. Name the file so."
        )


def _draw(
    name: str, found: Wiring, out: Sequence[Path], paper: str, *, overwrite: bool
) -> None:  # fmt: skip
    if not out:
        return
    from firstfire.drawing.dxf import to_dxf
    from firstfire.drawing.svg import to_svg
    from firstfire.drawing.templates.pages import template_pdf
    from firstfire.drawing.wiring.sheet import wiring_sheet, wiring_template
    from firstfire.errors import FirstfireError
    from firstfire.files import write_bytes

    sizes: dict[str, Literal["A4", "Letter"]] = {"a4": "A4", "letter": "Letter"}
    if paper.lower() not in sizes:
        raise FirstfireError(f'--paper is "{paper}": there is A4 and Letter. Write one of them.')
    sheet = wiring_sheet(name, found)
    for place in out:
        end = place.suffix.lower()
        data = (
            template_pdf(wiring_template(name, found), paper=sizes[paper.lower()])
            if end == ".pdf"
            else (to_svg(sheet) if end == ".svg" else to_dxf(sheet)).encode()
        )
        write_bytes(place, data, overwrite=overwrite)
