"""Checks of many engines in one process, all processors busy; a process of its own for tests.

    python many_checks.py COUNT SIDE_BY_SIDE

Prints a JSON object: what each check came to, and the memory held on the way, MB.
"""

from __future__ import annotations

import gc
import itertools
import json
import sys
from collections.abc import Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import psutil

import firstfire as ff
from firstfire.engine.read import with_values

ROOT = Path(__file__).resolve().parents[2]
DEMOS = ("engines/wren.toml", "engines/heron.toml", "engines/plover.toml")
STRANGERS = ("1_resin_methanol", "2_v_twin", "3_inches", "4_even_v", "5_metal_wren")
CHANGES: tuple[Mapping[str, object], ...] = (
    {},
    {"leak.ring": "5 mm^2"},
    {"use.cranking_speed": "60 rpm"},
)


def engines() -> Iterator[tuple[str, ff.Engine]]:
    """Twenty engines: the demonstration engines and strangers, leaky and slowly turned too."""
    files = [*DEMOS, *(f"tests/strangers/{name}.toml" for name in STRANGERS)]
    named = ((f"{f} {c}", f, c) for c, f in itertools.product(CHANGES, files))
    for name, file, change in itertools.islice(named, 20):
        engine = ff.read(ROOT / file)
        yield name, with_values(engine, change) if change else engine


def checked(engine: ff.Engine) -> str:
    """The sentence of a check, or the refusal."""
    try:
        return ff.check(engine).sentence
    except ff.FirstfireError as why:
        return f"refused: {why}"


def held() -> float:
    """Memory this process holds now, MB."""
    gc.collect()
    return float(psutil.Process().memory_info().rss) / 1e6


def main(count: int, side_by_side: int) -> None:
    listed = list(engines())
    said: list[tuple[str, str]] = []
    memory = []
    with ThreadPoolExecutor(side_by_side) as pool:
        for begun in range(0, count, len(listed)):
            batch = listed[: count - begun]
            sentences = pool.map(checked, (engine for _, engine in batch))
            said += zip((name for name, _ in batch), sentences, strict=True)
            memory.append(held())
    print(json.dumps({"said": said, "memory": memory}))


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
