"""The header, compiled for an 8-bit microcontroller and read back from its flash."""

from __future__ import annotations

import re
import shutil
import struct
import subprocess
from pathlib import Path

import pytest

MISSING = [tool for tool in ("avr-gcc", "simavr") if shutil.which(tool) is None]
pytestmark = pytest.mark.skipif(
    bool(MISSING), reason=f"{' and '.join(MISSING)} missing: see system-packages.txt"
)

PROGRAM = """
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>
#include <avr/sleep.h>
#define TABLE_PLACE PROGMEM
#include "tables.h"
static void put(char one) { while (!(UCSR0A & (1 << UDRE0))) {} UDR0 = one; }
static void words(const char *text) { while (*text) put(*text++); }
static void hex(uint8_t byte) {
  put("0123456789abcdef"[byte >> 4]); put("0123456789abcdef"[byte & 15]);
}
static void dump(const char *name, uint16_t at, uint16_t size) {
  for (uint16_t place = 0; place < size; place++) {
    if (place % 24 == 0) { if (place) put('\\n'); words(name); put(' '); }
    hex(pgm_read_byte(at + place));
  }
  put('\\n');
}
int main(void) {
  UCSR0B = 1 << TXEN0;
  DUMPS
  words("end\\n");
  cli(); sleep_mode();
  return 0;
}
"""
CODES = {"uint8_t": "B", "uint16_t": "H", "int16_t": "h"}


def declared(header: str) -> dict[str, tuple[str, int]]:
    """Each array's type and how many entries it has."""
    found = {}
    for kind, name, shape in re.findall(r"static const (\w+) (\w+)((?:\[\d+\])+)", header):
        count = 1
        for size in re.findall(r"\d+", shape):
            count *= int(size)
        found[name] = (kind, count)
    return found


def simulated(folder: Path, place: Path) -> dict[str, list[int]]:
    """What a simulated microcontroller reads of every array."""
    arrays = declared((folder / "tables.h").read_text("ascii"))
    dumps = " ".join(f'dump("{n}", (uint16_t){n}, sizeof {n});' for n in arrays)
    (place / "read.c").write_text(PROGRAM.replace("DUMPS", dumps), "ascii")
    flags = ["-mmcu=atmega328p", "-Os", "-std=c11", "-Wall", "-Wextra", "-Werror"]
    subprocess.run(
        ["avr-gcc", *flags, f"-I{folder}", "read.c", "-o", "read.elf"], cwd=place, check=True
    )
    said = subprocess.run(
        ["simavr", "-m", "atmega328p", "-f", "16000000", "read.elf"],
        cwd=place, capture_output=True, timeout=120, check=True,
    )  # fmt: skip
    text = re.sub(r"\x1b\[[0-9;]*m", "", (said.stdout + said.stderr).decode("ascii", "replace"))
    assert "end" in text
    bytes_of: dict[str, str] = {}
    for name, digits in re.findall(r"(\w+) ([0-9a-f]{2,48})\.?\s", text):
        if name in arrays:
            bytes_of[name] = bytes_of.get(name, "") + digits
    return {
        name: [one for (one,) in struct.iter_unpack(f"<{CODES[kind]}", bytes.fromhex(digits))]
        for name, digits in bytes_of.items()
        for kind in [arrays[name][0]]
    }


def rows(path: Path) -> list[list[str]]:
    return [line.split(",") for line in path.read_text("ascii").splitlines()]


def written(folder: Path) -> dict[str, list[int]]:
    """Every number of the CSVs, under the name of its array and of what it goes by."""
    found: dict[str, list[int]] = {}
    for path in sorted(folder.glob("*.csv")):
        if path.name == "tables.csv":
            continue
        (first, *heads), *body = rows(path)
        name = re.sub(r"_\d+$", "", path.stem)
        if " by " in first:
            load, speed = first.split(" by ")
            found.setdefault(name, []).extend(int(one) for row in body for one in row[1:])
            found[load] = [int(row[0]) for row in body]
            found[speed] = [int(one) for one in heads]
        else:
            found[first] = [int(row[0]) for row in body]
            found[heads[0]] = [int(row[1]) for row in body]
    return found


def test_it_reads_what_the_csvs_say(folder: Path, tmp_path: Path) -> None:
    read, said = simulated(folder, tmp_path), written(folder)
    assert read == said
    assert {"pulse_us", "end_tenth_degree", "advance_tenth_degree", "dead_us"} <= set(read)
    assert len(read["pulse_us"]) == 2 * len(read["throttle_permille"]) * len(read["speed_rpm"])


def test_the_index_names_every_array(folder: Path) -> None:
    listed = {row[0]: row for row in rows(folder / "tables.csv")[1:]}
    arrays = declared((folder / "tables.h").read_text("ascii"))
    assert set(listed) == set(arrays)
    for name, (kind, count) in arrays.items():
        size = 1
        for part in listed[name][4].split("x"):
            size *= int(part)
        assert (listed[name][3], size) == (kind, count)
