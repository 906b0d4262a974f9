"""The cams of an engine as asked for from Python: found, told, and as JSON."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.setup.cams import cam
from firstfire.setup.cams.choose import choose
from firstfire.setup.cams.chosen import Chosen
from firstfire.setup.cams.contract import cams_json
from firstfire.setup.cams.text import cams_text


@dataclass(frozen=True)
class ToldCams(cam.Cams):
    """The cams of an engine, that print as ``firstfire cam`` shows them."""

    def __str__(self) -> str:
        return cams_text(self)

    def to_json(self) -> str:
        """As ``firstfire.cam/1``: SI, angles in rad."""
        return cams_json(self)


def cams(engine: Engine, *, lash: float | None = None) -> ToldCams:
    """The cams of `engine`: shape, forces, springs, least gaps, a suction-opened inlet.

    Parameters
    ----------
    engine
        As written down; with other events, `with_values` first.
    lash
        As measured, m: gaps with it too. None: nothing was.
    """
    return ToldCams(**vars(cam.cams(engine, lash=lash)))


def choose_cams(
    engine: Engine,
    speeds: Sequence[float] | None = None,
    *,
    stop: Callable[[], bool] = lambda: False,
    on_progress: Callable[[str, float], None] = lambda _what, _share: None,
) -> Chosen:
    """The cams that fill `engine` best, of those near its own that can be made and hold.

    Parameters
    ----------
    engine
        As written down.
    speeds
        At which it shall fill, rad/s; None: its full throttle speeds.
    stop
        Asked at least every 0.1 s; true ends it with the best so far.
    on_progress
        Told what is done, and the share.

    Raises
    ------
    OutsideValidity
        Where no pair of cams near the file's can be made.
    """
    return choose(engine, speeds, stop=stop, on_progress=on_progress)
