"""Events that can be turned on the degree wheel, each as a trial beside the present engine."""

from __future__ import annotations

from dataclasses import dataclass, replace

from firstfire.pages.desk.sheet import Sheet, Trial


@dataclass(frozen=True)
class Handle:
    """An event that can be turned.

    Attributes
    ----------
    id, name
        As the timing table has it.
    path
        What is changed in the engine file.
    before, after
        What a positive and a negative angle there is called.
    sign
        Of the angle in the file over how much later it happens: -1 for what is told *before*.
    """

    id: str
    name: str
    path: str
    before: str
    after: str
    sign: int


HANDLES = (
    Handle("exhaust-opens", "exhaust opens", "valves.exhaust.opens_before_bottom",
           "before bottom", "after bottom", -1),
    Handle("inlet-opens", "inlet opens", "valves.inlet.opens_before_top",
           "before top", "after top", -1),
    Handle("exhaust-closes", "exhaust closes", "valves.exhaust.closes_after_top",
           "after top", "before top", 1),
    Handle("inlet-closes", "inlet closes", "valves.inlet.closes_after_bottom",
           "after bottom", "before bottom", 1),
    Handle("running-spark", "running spark", "spark.running_angle",
           "before top", "after top", -1),
    Handle("start-spark", "start spark", "spark.start_angle", "before top", "after top", -1),
)  # fmt: skip
_BY_PATH = {one.path: one for one in HANDLES}
_APART = "; "


def handle_at(path: str) -> Handle:
    """The handle of a path.

    Raises
    ------
    KeyError
        Where there is none.
    """
    return _BY_PATH[path]


def said(handle: Handle, degrees: float) -> str:
    """Where it is, in words.

    Examples
    --------
    >>> said(HANDLES[1], 12.0), said(HANDLES[1], -3.5)
    ('inlet opens 12° before top', 'inlet opens 3.5° after top')
    """
    side = handle.before if degrees >= 0 else handle.after
    return f"{handle.name} {abs(degrees):g}° {side}"


def turned(sheet: Sheet, path: str, degrees: float) -> Sheet:
    """A sheet with an event turned: in the trial that is shown where it turns one already.

    Parameters
    ----------
    sheet
        As it stands.
    path, degrees
        Which, and the angle as the file is to have it.

    Raises
    ------
    KeyError
        Where nothing at that path can be turned.
    """
    handle, on = handle_at(path), sheet.trial
    before = on.words.split(_APART) if on else []
    kept = [words for words in before if not words.startswith(f"{handle.name} ")]
    trial = Trial(
        _APART.join([*kept, said(handle, degrees)]),
        {**(on.set if on else {}), path: f"{degrees:g} deg"},
    )
    if on is not None and not _BY_PATH.keys().isdisjoint(on.set):
        return replace(sheet, trials=tuple(trial if one is on else one for one in sheet.trials))
    return sheet.with_trial(trial)
