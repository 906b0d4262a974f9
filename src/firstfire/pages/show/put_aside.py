"""A changed engine saved as a new file of the folder, never over one that is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from firstfire.engine.typed import typed
from firstfire.engine.write import set_in_text
from firstfire.errors import CannotWrite
from firstfire.files import write_text
from firstfire.pages.show.folder import free_name, stem_of
from firstfire.toml_text import parsed


def put_aside(
    folder: Path, name: str, text: str, values: Mapping[str, str], why: Mapping[str, str]
) -> Path:
    """Write a file's text with some values set, under a new name.

    Parameters
    ----------
    folder, name
        Where, and what somebody called it: of that only letters and figures count.
    text
        Of the present engine.
    values, why
        Written values by path, and a few words that are put behind some of them.

    Raises
    ------
    NotToml
        Where the text isn't TOML at present.
    CannotWrite
        Where such a file is there already, or can't be written.
    """
    parsed(text)
    path = folder / f"{stem_of(name)}.toml"
    if path.exists() or path.is_symlink():
        free = free_name(folder, name).name
        raise CannotWrite(f"{path.name} is there already and stays as it is. {free} is free.")
    written = {at: typed(at, said) for at, said in values.items()}
    write_text(path, set_in_text(text, written, why), overwrite=False)
    return path


def steps_words(steps: Sequence[int]) -> str:
    """What a trial of some steps of a plan is called.

    Examples
    --------
    >>> steps_words([0]), steps_words([0, 1, 3])
    ('step 1 of the plan', 'steps 1, 2, 4 of the plan')
    """
    each = ", ".join(str(step + 1) for step in steps)
    return f"step{'' if len(steps) == 1 else 's'} {each} of the plan"
