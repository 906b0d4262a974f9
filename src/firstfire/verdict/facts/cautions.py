"""The cautions that this engine's materials, fuel and starter call for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.joint import has_bond


@dataclass(frozen=True)
class Caution:
    """One caution.

    Attributes
    ----------
    hazard
        What it is about, in a word or three.
    text
        The hazard and what to do.
    because
        What of this engine calls for it.
    """

    hazard: str
    text: str
    because: str


ESTIMATES = Caution(
    "estimates",
    "Everything here is an estimate and no permission. Local codes and licensed practice decide "
    "what may be run, where and behind which guard.",
    "every engine",
)

_ALWAYS = (
    Caution(
        "burst",
        "Head, plug, liner or flywheel can leave as splinters. Stand out of their plane, behind a "
        "shield, with eyes and ears covered; nobody else in reach.",
        "every first run of printed parts",
    ),
    Caution(
        "rotating parts",
        "No sleeve, hair or lead near crank, belt and flywheel. Keep hands off until it stands.",
        "every spinning engine",
    ),
    Caution(
        "high voltage",
        "The coil gives tens of kilovolts. Do not touch lead or plug while anything is powered.",
        "spark ignition",
    ),
    Caution(
        "stop",
        "A hot part can go on firing without spark: the stop switch cuts spark and fuel, and is "
        "within reach before the first spark.",
        "every spark-ignition engine",
    ),
    Caution(
        "fumes",
        "Exhaust has carbon monoxide. Run outdoors, or not at all.",
        "every combustion",
    ),
    Caution(
        "proving with pressure",
        "Shop air never proves a part: trapped air bursts it. Use liquid, by hand pump.",
        "every pressure part",
    ),
)


def cautions(engine: Engine, plain: PlainEngine) -> tuple[Caution, ...]:
    """What to mind with this engine, the general ones first."""
    found = [ESTIMATES, *_ALWAYS, *_fuel(engine, plain), *_starter(engine, plain), *_spark(plain)]
    return tuple(dict.fromkeys([*found, *_materials(engine, plain)]))


def _fuel(engine: Engine, plain: PlainEngine) -> Iterator[Caution]:
    row = engine.catalog.row("fuel", plain.intake.fuel)
    general = (
        "Fuel stays closed and metres away; a fire extinguisher for liquid fires stands at hand; "
        "wipe up spills before any spark."
    )
    hazard = row.texts.get("hazard", "")
    yield Caution(f"fuel: {row.name}", " ".join(filter(None, (hazard, general))), "intake.fuel")


def _starter(engine: Engine, plain: PlainEngine) -> Iterator[Caution]:
    row = engine.catalog.row("starter", plain.starter.kind)
    general = (
        "A first combustion before top centre throws it back: brace a drill's side handle against "
        "a stop, not against your wrist; never wind a rope round a hand."
    )
    rigid = plain.starter.coupling == "rigid" and plain.starter.kind not in ("rope", "hand")
    clutch = "Fit a one-way clutch: this one is rigid." if rigid else ""
    text = " ".join(filter(None, (row.texts.get("hazard", ""), general, clutch)))
    yield Caution(f"starter: {row.name}", text, "starter.kind")
    if plain.starter.decompression:
        yield Caution(
            "decompression",
            "The hole blows unburned mixture into the open, and flame once it fires: lead it away "
            "from brushes, spark and fuel, and keep hands and eyes out of its way.",
            "starter.decompression",
        )


def _spark(plain: PlainEngine) -> Iterator[Caution]:
    if plain.spark.source == "sensor":
        yield Caution(
            "stray spark: controller",
            "A controller's pins float at power-up, reset and flashing and fire the coil. Switch "
            "the coil on last, by a switch of its own.",
            "spark.source",
        )


def _materials(engine: Engine, plain: PlainEngine) -> Iterator[Caution]:
    """The hazard that a material's row names, for every material this engine is made of."""
    for key, where in _named(engine).items():
        if key not in plain.materials:
            continue
        row = engine.catalog.row("material", key)
        hazard = row.texts.get("hazard")
        if hazard and row.texts.get("structure") != "metal":
            yield Caution(f"{_word(hazard)}: {row.name}", hazard, ", ".join(where[:3]))


def _word(hazard: str) -> str:
    """What the hazard of a material is, in a word."""
    return next((word for sign, word in _SIGNS.items() if sign in hazard.lower()), "fumes")


_SIGNS = {"acid and fluorides": "acid", "asbestos": "asbestos", "dust": "dust", "skin": "skin"}
"""What a hazard's text speaks of, and its word: else of what it gives off when overheated."""


def _named(engine: Engine) -> dict[str, list[str]]:
    """Which parts name each material, leaving out parts this engine doesn't have."""
    found: dict[str, list[str]] = {}
    for cylinder in range(1, engine.cylinders + 1):
        values = engine.values(cylinder)
        absent = {
            "piston.shield.material": values.number("piston.shield.thickness") == 0,
            "rings.material": int(values["rings.count"]) == 0,
            "gasket.material": values["gasket.kind"] == "none",
            **{
                f"{joint}.bond": not has_bond(values[f"{joint}.kind"], values[f"{joint}.glued"])
                for joint in (
                    "crank.joint",
                    "crank.journal.joint",
                    "flywheel.joint",
                    "cam_drive.joint",
                )
            },
        }
        for path, leaf in leaves().items():
            if leaf.row_kind != "material" or absent.get(path):
                continue
            key = values[path]
            if key is not None and path not in found.setdefault(key, []):
                found[key].append(path)
    return found
