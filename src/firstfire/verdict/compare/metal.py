"""Would metal help: what a part of metal does in place of a printed one, and what it costs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.parts.softness import is_metal
from firstfire.verdict.compare.records import Column, Pair
from firstfire.verdict.facts.differences import differences


@dataclass(frozen=True)
class _Kind:
    """A part by the path of its material; whose `made` says how; and the catalog's effort."""

    path: str
    name: str
    effort: str


_KINDS = (
    _Kind("crank.material", "crank", "turned_crank"),
    _Kind("crank.crankpin_material", "crankpin", "steel_pin"),
    _Kind("crank.journal.material", "main journals", "steel_journals"),
    _Kind("liner.material", "liner", "metal_liner"),
    _Kind("body.material", "body", "turned_body"),
    _Kind("piston.material", "piston", "turned_piston"),
    _Kind("pin.material", "piston pin", "steel_piston_pin"),
    _Kind("rod.material", "con rod", "machined_rod"),
    _Kind("case.material", "crankcase", "machined_case"),
    _Kind("flywheel.material", "flywheel", "metal_flywheel"),
    _Kind("head.material", "head", "machined_head"),
    _Kind("cam_drive.wheel_material", "cam pulley", "metal_pulley"),
)


@dataclass(frozen=True)
class Cost:
    """What a part of metal costs: hands, and what to buy.

    Attributes
    ----------
    part
        Its name.
    pieces
        How many of it.
    seconds, seconds_low, seconds_high
        Of work, for all of them.
    parts
        What to buy.
    """

    part: str
    pieces: int
    seconds: float
    seconds_low: float
    seconds_high: float
    parts: str


@dataclass(frozen=True)
class Metal:
    """Two engines of which one has parts of metal where the other's are of plastic.

    Attributes
    ----------
    metal, other
        Which is which.
    costs
        One for each part that is metal in the one and plastic in the other.
    printed
        Whether all of those are prints in the other.
    besides
        How many values somebody said differ that belong to none of those parts.
    """

    metal: Column
    other: Column
    costs: tuple[Cost, ...]
    printed: bool
    besides: int


def metal(pair: Pair) -> tuple[Metal, ...]:
    """Which of two engines has metal where the other has plastic; both where each has some."""
    found = []
    for this, other in ((pair.after, pair.before), (pair.before, pair.after)):
        kinds = list(_of_metal(this.result.plain, other.result.plain))
        if kinds:
            found.append(
                Metal(
                    metal=this,
                    other=other,
                    costs=tuple(_cost(this, kind) for kind in kinds),
                    printed=all(_printed(other.result.plain, kind) for kind in kinds),
                    besides=_besides(this, other, kinds),
                )
            )
    return tuple(found)


def _of_metal(this: PlainEngine, other: PlainEngine) -> Iterator[_Kind]:
    """Parts that are metal here and plastic there, pins of one piece with their crank left out."""
    whole = False
    for kind in _KINDS:
        here, there = _all(this, kind.path), _all(other, kind.path)
        if not (_there(this, kind) and _there(other, kind)):
            continue
        mine = all(is_metal(this.materials[key]) for key in here)
        if not mine or any(is_metal(other.materials[key]) for key in there):
            continue
        if kind.path == "crank.material":
            whole = this.crank.built == "one_piece"
        elif whole and kind.path.startswith("crank."):
            continue
        yield kind


def _there(plain: PlainEngine, kind: _Kind) -> bool:
    return kind.name != "flywheel" or plain.flywheel.thickness > 0


def _all(plain: PlainEngine, path: str) -> list[str]:
    """What a path says, of the engine or of each cylinder."""
    section, *rest = path.split(".")
    owners = [plain] if hasattr(plain, section) else list(plain.cylinders)
    found = []
    for owner in owners:
        here = getattr(owner, section)
        for name in rest:
            here = getattr(here, name)
        found.append(str(here))
    return found


def _printed(plain: PlainEngine, kind: _Kind) -> bool:
    section = kind.path.partition(".")[0]
    if section not in ("crank", "liner", "body", "piston", "rod", "case", "head"):
        return True
    return all(made == "printed" for made in _all(plain, f"{section}.made"))


def _cost(this: Column, kind: _Kind) -> Cost:
    row = this.engine.catalog.row("effort", kind.effort)
    pieces = len(_all(this.result.plain, kind.path))
    hours = row["hand_hours"]
    return Cost(
        part=kind.name,
        pieces=pieces,
        seconds=pieces * hours.si,
        seconds_low=pieces * hours.si_low,
        seconds_high=pieces * hours.si_high,
        parts=row.texts.get("parts", ""),
    )


def _besides(this: Column, other: Column, kinds: list[_Kind]) -> int:
    """Values that differ by what somebody said, outside the parts' own sections."""
    own = {kind.path.partition(".")[0] for kind in kinds}
    found = differences([other.engine, this.engine], [other.result.plain, this.result.plain])
    paths = [d.path.removeprefix("cylinders.") for d in found if d.own]
    sections = [p.partition(".")[2] if p[:1].isdigit() else p for p in paths]
    return sum(1 for path in sections if path.partition(".")[0] not in own)
