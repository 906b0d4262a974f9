"""Tables as files: a C header of plain integer arrays, and a CSV for each."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from firstfire.errors import CannotWrite
from firstfire.files import write_text
from firstfire.setup.tables.table import Integers, Table
from firstfire.setup.tables.tables import TableSet
from firstfire.version import VERSION

HEADER, INDEX = "tables.h", "tables.csv"
_WIDE = 96
CAUTION = (
    "Estimates and no permission. Before the injector and the coil are connected, watch the pins "
    "with a lamp at power-up, reset and flashing: they float, and fire the coil. The stop switch "
    "cuts spark and fuel without any program. Keep a fire extinguisher for liquid fires at hand."
)


def write(found: TableSet, folder: Path, *, overwrite: bool = False) -> tuple[str, ...]:
    """Write header and CSVs into a folder, which is made where it isn't there.

    Parameters
    ----------
    found, folder
        The tables, and where to.
    overwrite
        Whether files of these names may be replaced.

    Raises
    ------
    CannotWrite
        Where one is there already (then none is written), or the folder can't be made.
    """
    files = texts(found)
    refuse(folder, tuple(files), overwrite=overwrite)
    try:
        folder.mkdir(exist_ok=True)
    except OSError as why:
        raise CannotWrite(f"{folder} can't be made: {why.strerror or why}.") from None
    for name, text in files.items():
        write_text(folder / name, text, overwrite=overwrite)
    return tuple(files)


def texts(found: TableSet) -> dict[str, str]:
    """Each file's name and what is in it: the header, then the CSVs."""
    return {HEADER: header(found), **dict(csvs(found))}


def refuse(folder: Path, names: tuple[str, ...], *, overwrite: bool) -> None:
    """Refuse a place that can't be a folder, or files that are there already.

    Raises
    ------
    CannotWrite
        With what to do.
    """
    if folder.exists() and not folder.is_dir():
        raise CannotWrite(f"{folder} is a file. Name a folder.")
    if not folder.absolute().parent.is_dir():
        raise CannotWrite(
            f"{folder} can't be made: the folder it lies in isn't there. Make it first."
        )
    there = [name for name in names if (folder / name).exists()]
    if there and not overwrite:
        raise CannotWrite(
            f"{folder} has {', '.join(there[:3])} already; nothing was written. Choose another "
            "folder, or say --overwrite."
        )


def header(found: TableSet) -> str:
    """All tables as a C header."""
    return "\n".join(_header(found)) + "\n"


def _header(found: TableSet) -> Iterator[str]:
    name = _ascii(found.engine.name).replace("*/", "")
    said = f"{name}: tables for a controller, written by firstfire {VERSION}."
    made = f"Engine file sha256 {found.engine.sha256}."
    yield from _comment(said, made, CAUTION, *found.notes)
    yield from (
        "#ifndef FIRSTFIRE_TABLES_H", "#define FIRSTFIRE_TABLES_H", "#include <stdint.h>", "",
        "/* Define TABLE_PLACE as PROGMEM before (with <avr/pgmspace.h>) to keep them in flash. */",
        "#ifndef TABLE_PLACE", "#define TABLE_PLACE", "#endif", "",
    )  # fmt: skip
    for word, value, what in found.constants:
        yield f"#define {word} {value} /* {what} */"
    for one in found.tables:
        yield ""
        yield from _array(one)
    yield from ("", "#endif")


_PLAIN = str.maketrans({"°": " degrees", "µ": "u", "·": "*", "×": "x", "–": "-", "−": "-"})


def _ascii(text: str) -> str:
    """What any compiler reads.

    Examples
    --------
    >>> _ascii("60° – 3 µs, ü")
    '60 degrees - 3 us, ?'
    """
    return text.translate(_PLAIN).encode("ascii", "replace").decode()


def _comment(*said: str) -> Iterator[str]:
    lines = [line for text in said for line in textwrap.wrap(_ascii(text), _WIDE - 3)]
    first, *rest = [*lines[:-1], f"{lines[-1]} */"]
    yield f"/* {first}"
    yield from (f"   {line}" for line in rest)


def _array(one: Table) -> Iterator[str]:
    by = f", by {', '.join(one.over)}" if one.over else ""
    yield from _comment(f"{one.what}{by}. One step is {one.unit}; in SI times {one.scale:.9g}.")
    shape = "".join(f"[{size}]" for size in one.values.shape)
    yield f"static const {one.kind} {one.name}{shape} TABLE_PLACE = {{"
    yield from _rows(one.values, "  ")
    yield "};"


def _rows(values: Integers, indent: str) -> Iterator[str]:
    if values.ndim == 1:
        yield from (f"{indent}{line}" for line in textwrap.wrap(_joined(values), _WIDE))
        return
    for row in values:
        if row.ndim == 1:
            yield f"{indent}{{{_joined(row)}}},"
        else:
            yield f"{indent}{{"
            yield from _rows(row, indent + "  ")
            yield f"{indent}}},"


def _joined(row: Integers) -> str:
    return ", ".join(str(int(value)) for value in row)


def csvs(found: TableSet) -> Iterator[tuple[str, str]]:
    """Names and texts of the CSVs: one a table, or a cylinder's; and one that lists them."""
    index = ["name,one_step,scale_si,type,shape,by,what"]
    for one in found.tables:
        shape = "x".join(str(size) for size in one.values.shape)
        what = one.what.replace('"', "")
        named = f"{one.name},{one.unit},{one.scale:.9g},{one.kind},{shape}"
        index.append(f'{named},{" ".join(one.over)},"{what}"')
        if one.over:
            yield from _csv(found, one)
    yield INDEX, "\n".join(index) + "\n"


def _csv(found: TableSet, one: Table) -> Iterator[tuple[str, str]]:
    if one.values.ndim == 3:
        for number, values in enumerate(one.values, 1):
            yield f"{one.name}_{number}.csv", _flat(found, one.over[1:], values)
    elif one.values.ndim == 2:
        yield f"{one.name}.csv", _flat(found, one.over, one.values)
    else:
        axis = found.named(one.over[0])
        pairs = np.column_stack([axis.values, one.values])
        lines = [f"{axis.name},{one.name}", *(_joined(row).replace(" ", "") for row in pairs)]
        yield f"{one.name}.csv", "\n".join(lines) + "\n"


def _flat(found: TableSet, over: tuple[str, ...], values: Integers) -> str:
    """Rows by load, columns by speed; the first cell names both."""
    loads, speeds = (found.named(name).values for name in over)
    lines = [",".join([f"{over[0]} by {over[1]}", *(str(int(speed)) for speed in speeds)])]
    for load, row in zip(loads, values, strict=True):
        lines.append(",".join([str(int(load)), *(str(int(value)) for value in row)]))
    return "\n".join(lines) + "\n"
