"""``--traces FILE``: every curve of every point, as CSV or Parquet."""

from __future__ import annotations

import io
from pathlib import Path

from firstfire.errors import CannotWrite, FirstfireError
from firstfire.files import write_bytes
from firstfire.runs.traces import trace_table
from firstfire.verdict.result import Result

_KINDS = (".csv", ".parquet")


def trace_file(file: Path, *, overwrite: bool) -> None:
    """Refuse a file that couldn't be written, before anything is run.

    Raises
    ------
    FirstfireError
        Another ending, or a file that is there.
    """
    if file.suffix.lower() not in _KINDS:
        raise FirstfireError(f"--traces {file}: write a file that ends in .csv or .parquet.")
    if file.exists() and not overwrite:
        raise CannotWrite(
            f"{file} is there already and stays as it is. Choose another name, or say --overwrite."
        )


def write_traces(file: Path, result: Result, *, overwrite: bool) -> None:
    """Write the curves of all points.

    Raises
    ------
    CannotWrite
        Where the file can't be written; what was there is left whole.
    """
    import pyarrow as pa
    from pyarrow import csv, parquet

    table = pa.table(trace_table(result.points, result.plain))
    out = io.BytesIO()
    if file.suffix.lower() == ".csv":
        csv.write_csv(table, out)
    else:
        parquet.write_table(table, out)
    write_bytes(file, out.getvalue(), overwrite=overwrite)
