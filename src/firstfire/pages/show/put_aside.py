"""A changed engine saved as a new file of the folder, never over one that is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from firstfire.engine.typed import typed
from firstfire.engine.write import set_in_text
from firstfire.errors import CannotWrite, FirstfireError
from firstfire.files import write_text
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.history import History
from firstfire.pages.desk.journal import Journal, journal_beside
from firstfire.pages.desk.on_disk import digest
from firstfire.pages.desk.sheet import Sheet
from firstfire.pages.show.folder import free_name, stem_of
from firstfire.toml_text import parsed


def put_aside(
    desk: Desk, name: str, values: Mapping[str, str], why: Mapping[str, str]
) -> tuple[Path, int]:
    """Write the present engine's text with some values set, under a new name in its folder.

    What was measured lies over the new file as it does over the present one: no engine file holds
    it, so its desk begins with it.

    Parameters
    ----------
    desk
        The present engine.
    name
        What somebody called it: of that only letters and figures count.
    values, why
        Written values by path, and a few words that are put behind some of them.

    Returns
    -------
    tuple[Path, int]
        The file, and how many things that were measured lie over it.

    Raises
    ------
    NotToml
        Where the text isn't TOML at present.
    CannotWrite
        Where such a file is there already, or can't be written.
    """
    text, laid, folder = desk.sheet.text, desk.sheet.laid, desk.path.absolute().parent
    parsed(text)
    path = folder / f"{stem_of(name)}.toml"
    if path.exists() or path.is_symlink():
        free = free_name(folder, name).name
        raise CannotWrite(f"{path.name} is there already and stays as it is. {free} is free.")
    written = {at: typed(at, said) for at, said in values.items()}
    text = set_in_text(text, written, why)
    if not laid:
        write_text(path, text, overwrite=False)
        return path, 0
    try:
        journal = Journal(journal_beside(desk.kept_in, path))
    except CannotWrite:
        raise
    except FirstfireError:
        raise CannotWrite(f"{path.name} is open in another firstfire: choose a new name.") from None
    try:
        write_text(path, text, overwrite=False)
        _begin(journal, Sheet(text, laid=laid), f"saved from {desk.path.name}")
    finally:
        journal.close()
    return path, len(laid)


def _begin(journal: Journal, sheet: Sheet, why: str) -> None:
    """Let a desk begin with a sheet; what was left of a file of that name can be had by undo."""
    left = journal.read()
    history = History.begun(sheet, why) if left is None else left[0].then(sheet, why)
    journal.begin(history, digest(sheet.text))


def steps_words(steps: Sequence[int]) -> str:
    """What a trial of some steps of a plan is called.

    Examples
    --------
    >>> steps_words([0]), steps_words([0, 1, 3])
    ('step 1 of the plan', 'steps 1, 2, 4 of the plan')
    """
    each = ", ".join(str(step + 1) for step in steps)
    return f"step{'' if len(steps) == 1 else 's'} {each} of the plan"
