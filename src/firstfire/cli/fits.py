"""``firstfire fits`` and ``coupon``: what sits where, and what a test piece says."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from firstfire.cli.asking import asked_engine
from firstfire.cli.terminal import columns
from firstfire.errors import FirstfireError
from firstfire.files import write_text
from firstfire.verdict.words.text.lines import wrapped

if TYPE_CHECKING:
    from firstfire.engine.pieces import Piece
    from firstfire.setup.proof.bench_tests import BenchTests


@dataclass(frozen=True)
class Wanted:
    """What was asked for beside the file.

    Attributes
    ----------
    read
        Readings as typed.
    out
        Where the layer goes; None: nowhere.
    drawn
        Folder that drawings go into; None: none are made.
    overwrite
        Whether what is there may be replaced.
    as_json
        For machines.
    """

    read: Sequence[str]
    out: Path | None
    drawn: Path | None
    overwrite: bool
    as_json: bool


def fits_told(file: Path, wanted: Wanted, tried: Sequence[str], layers: Sequence[Path]) -> str:
    """The fits that were asked for, as text or JSON; layer and gauge written where named.

    Raises
    ------
    FirstfireError
        With every problem of the file or of the readings, or where something is there already.
    """
    from firstfire.setup.fits.fits import fits
    from firstfire.setup.fits.text import fits_text

    _refuse(wanted, '--measured "hole 12=11.82 mm"')
    found = fits(asked_engine(file, tried, layers), wanted.read)
    if wanted.out is not None and not found.layer:
        raise FirstfireError(
            "No printed hole or shaft was read, so there is no layer to write: say "
            '--measured "hole 12=11.82 mm". What a bore reads belongs into the engine file.'
        )
    written = list(_written(file, wanted, found.layer))
    if wanted.drawn is not None:
        from firstfire.setup.fits.gauge import gauge

        written += _drawn(wanted, found.engine.name, [gauge(found.seats)])
    if wanted.as_json:
        return found.to_json()
    return "\n".join([fits_text(found, width=columns()), *written])


def _refuse(wanted: Wanted, like: str) -> None:
    """Refuse what can't be done before anything is reckoned."""
    if wanted.out is not None and not wanted.read:
        raise FirstfireError(f"-o writes what was read, and nothing was: say {like}.")
    if wanted.out is not None and wanted.out.exists() and not wanted.overwrite:
        raise FirstfireError(
            f"{wanted.out} is there already and stays as it is. Choose another name, or say "
            "--overwrite."
        )


def _written(file: Path, wanted: Wanted, layer: str) -> Sequence[str]:
    if not layer:
        return ()
    if wanted.out is None:
        return ("", "Nothing is written. Say -o LAYER.toml to keep what was read.")
    write_text(wanted.out, layer, overwrite=wanted.overwrite)
    use = f"  firstfire check {file} --layer {wanted.out}"
    return ("", f"{wanted.out} is written. Use it with:", use)


def _drawn(wanted: Wanted, engine: str, pieces: Sequence[Piece]) -> Sequence[str]:
    from firstfire.report.shop import piece_files, write_files

    if wanted.drawn is None:
        return ()
    files = list(piece_files(engine, pieces))
    write_files(wanted.drawn, files, overwrite=wanted.overwrite)
    names = ", ".join(piece.slug for piece in pieces)
    said = f"Written into {wanted.drawn}, each as PDF, SVG, DXF and STL: {names}."
    return ("", *wrapped(said, width=columns()))


def coupons_told(
    file: Path, wanted: Wanted, tried: Sequence[str], layers: Sequence[Path], *,
    which: bool, stop: Callable[[], bool],
) -> str:  # fmt: skip
    """Test pieces and proof, as text or JSON; layer and drawings written where named.

    Parameters
    ----------
    file, wanted, tried, layers
        As `fits_told` takes them.
    which
        Whether to say which piece narrows the verdict most, for which the engine is checked.
    stop
        Asked every 0.05 s of that check.

    Raises
    ------
    FirstfireError
        As `fits_told`; `Stopped` if ``stop`` said so.
    """
    from firstfire.setup.proof.bench_tests import bench_tests
    from firstfire.setup.proof.text import bench_text

    _refuse(wanted, '--reading "bar=3.4 kg"')
    found = bench_tests(asked_engine(file, tried, layers), wanted.read)
    said = _which(found, stop) if which and not wanted.as_json else []
    written = list(_written(file, wanted, found.layer))
    pieces = [one.piece for one in found.coupons]
    written += _drawn(wanted, found.engine.name, pieces) if pieces else ()
    if wanted.as_json:
        return found.to_json()
    return "\n".join([*said, bench_text(found, width=columns()), *written])


def _which(found: BenchTests, stop: Callable[[], bool]) -> list[str]:
    """What narrows the verdict most, above all else."""
    from firstfire.cli.progress import Working
    from firstfire.setup.proof.text import which_lines
    from firstfire.setup.proof.which import which_first
    from firstfire.verdict.explain.run import look_into

    with Working() as working:
        result = look_into(found.engine, stop=stop, on_progress=working)
        working("each input by itself", 0.75)
        told = which_first(result, found.coupons, stop)
    return [*which_lines(told, width=columns()), ""]
