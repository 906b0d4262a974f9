"""One injected twin's tables, made once."""

from __future__ import annotations

from pathlib import Path

import pytest

import firstfire as ff
from firstfire.setup.tables.tables import TableSet, tables
from firstfire.setup.tables.written import write

V_TWIN = Path(__file__).parents[2] / "strangers" / "2_v_twin.toml"


@pytest.fixture(scope="session")
def twin() -> TableSet:
    return tables(ff.read(V_TWIN))


@pytest.fixture(scope="session")
def folder(twin: TableSet, tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("tables") / "twin"
    write(twin, place)
    return place
