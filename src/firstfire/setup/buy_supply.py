"""What to buy for spark, starting, load, coatings; fuel and air have a file of their own."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.catalog import Catalog
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.crank_joint import is_plated
from firstfire.setup.buy_fuel import fuel_items
from firstfire.setup.item import PRACTICE, Check, Item, Open
from firstfire.setup.words import mm, small
from firstfire.verdict.numbers import shown


def supply_items(engine: Engine, plain: PlainEngine) -> Iterator[Item]:
    """Everything to buy that makes it fire, breathe and turn."""
    rows = engine.catalog
    yield from _plugs(rows, plain)
    yield from _spark(plain)
    yield from fuel_items(rows, plain)
    yield from _start(rows, plain)
    yield from _load(plain)
    yield from _cooling(plain)
    yield from _coatings(plain)


def _plugs(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    for parts in plain.cylinders:
        plug, thread = parts.plug, rows.row("thread", parts.plug.thread)
        check = Check(
            "gap", "feeler_gauge", "after bending the side electrode", plug.gap,
            plug.gap - 0.05e-3, plug.gap + 0.05e-3, "mm",
            f"a wider gap asks more of the coil under pressure (limits: {PRACTICE})",
        )  # fmt: skip
        yield Item(
            "Spark", f"spark plug, thread {thread.key}", f"gap set to {mm(plug.gap)}", 1, "head",
            "ISO 261 thread", f"{thread['diameter'].source} ({thread['diameter'].sure})", "plug",
            (check,), "Reach as long as the head's metal or insert is thick there, not more.",
            ("thread", thread.key),
        )  # fmt: skip
        if plug.return_lead:
            yield Item(
                "Spark", "high-voltage return lead with a ring tag", f"for a plug {thread.key}", 1,
                "the way from the plug's shell back to the coil", "", PRACTICE, "plug.return_lead",
                note="Plastic is no earth: without it the spark finds its own way, by your hand."
                if parts.head.made == "printed"
                else "",
            )  # fmt: skip


def _spark(plain: PlainEngine) -> Iterator[Item]:
    spark, cylinders = plain.spark, len(plain.cylinders)
    double = spark.wasted and cylinders == 2
    yield Item(
        "Spark", "ignition coil" + (", two outlets" if double else ""),
        f"{shown(spark.coil_energy, 'mJ')} a spark at least", 1 if double else cylinders, "plugs",
        "", "engine file", "spark.coil_energy",
        note="With its driver (igniter), unless it is switched by points.",
    )  # fmt: skip
    if spark.source == "sensor":
        yield Item(
            "Spark", "Hall sensor with a small magnet", "switching, with open collector", 1,
            "flywheel or cam wheel", "", PRACTICE, "spark.source",
            (Check("switching", "multimeter", "at 5 V, magnet passed by hand", None, None, None,
                   "", "it must switch at the gap you will mount it with, on one pole only"),),
        )  # fmt: skip
        yield Item(
            "Spark", "microcontroller board",
            f"{shown(spark.latency, 'ms')} from edge to spark at most", 1, "spark timing", "",
            "engine file", "spark.latency",
        )  # fmt: skip
    else:
        yield Item(
            "Spark", "set of breaker points with condenser", "", 1, "cam or crank", "",
            "engine file", "spark.source",
            (Check("points' gap", "feeler_gauge", "at the cam's top", 0.4e-3, 0.3e-3, 0.5e-3,
                   "mm", "0.3 to 0.5 mm is usual (common practice, no source)"),),
        )  # fmt: skip
    yield Item(
        "Spark", "stop switch that cuts spark and fuel", "large, within reach", 1,
        "coil supply and fuel line", "", PRACTICE, "spark",
    )  # fmt: skip


def _start(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    starter = plain.starter
    row = rows.row("starter", starter.kind)
    by_hand = starter.kind in ("rope", "hand")
    if starter.kind != "hand":
        word, torque = small(row.name), shown(starter.stall_torque, "N*m")
        yield Item(
            "Starting and load", word,
            f"{torque} on its drum" if by_hand
            else f"{shown(starter.no_load_speed, 'rpm')}, {torque} stalled",
            1, "turning it over", "", f"{row['stall_torque'].source} ({row['stall_torque'].sure})",
            "starter.kind", row=("starter", row.key),
        )  # fmt: skip
    if starter.coupling == "one_way" and not by_hand:
        yield Item(
            "Starting and load", "one-way clutch or one-way bearing",
            f"to carry {shown(starter.stall_torque, 'N*m')}", 1, "between starter and crank", "",
            "torque from the engine file", "starter.coupling",
            note="Turn it both ways by hand: it must grip at once in one and be free in the other.",
        )  # fmt: skip


def _load(plain: PlainEngine) -> Iterator[Item]:
    load = plain.load
    if load.kind == "none":
        return
    sizes = {
        "propeller": f"{mm(load.diameter)} across, {mm(load.pitch)} pitch",
        "fan": f"{mm(load.diameter)} across",
    }
    size = sizes.get(
        load.kind, f"{shown(load.torque, 'N*m')} at {shown(load.torque_at, 'rpm')}"
    )  # fmt: skip
    checks: tuple[Check, ...] = ()
    if load.mass:
        checks = (
            Check("mass", "kitchen_scale", "once", load.mass, 0.8 * load.mass, 1.2 * load.mass,
                  "g", "its inertia is reckoned from it (limit: common practice, no source)"),
        )  # fmt: skip
    yield Item("Starting and load", load.kind, size, 1, "crank", "", "engine file", "load", checks)


def _cooling(plain: PlainEngine) -> Iterator[Item]:
    around = plain.surroundings
    if around.cooling == "fan":
        yield Item(
            "Starting and load", "fan", f"{shown(around.air_speed, 'm/s')} of air over the engine",
            1, "cooling", "", "engine file", "surroundings.cooling",
        )  # fmt: skip
    if around.cooling == "water_jacket":
        yield Item(
            "Starting and load", "water pump, hoses and clips", "", 1, "cooling", "",
            "engine file", "surroundings.cooling",
        )  # fmt: skip


_COATS = {
    "epoxy": "epoxy, thin", "resin": "sealing resin", "ceramic_paint": "ceramic exhaust paint",
    "metal_foil": "self-adhesive aluminium foil",
}  # fmt: skip


def _coatings(plain: PlainEngine) -> Iterator[Item]:
    for parts in plain.cylinders:
        for section in ("liner", "piston", "head"):
            coat = getattr(parts, section).coating
            if coat != "none":
                yield Item(
                    "Glue, grease and coatings", _COATS[coat], "", 1, f"coat of the {section}",
                    "", "engine file", f"{section}.coating",
                )  # fmt: skip
        if parts.body.sealed:
            yield Item(
                "Glue, grease and coatings", "thin epoxy or sealing resin", "", 1,
                "sealing the body's printed walls", "", "engine file", "body.sealed",
            )  # fmt: skip
    yield Item(
        "Glue, grease and coatings", "valve grinding paste, fine", "", 1, "lapping the valves",
        "", PRACTICE, "valves",
    )  # fmt: skip


def left_open(engine: Engine, plain: PlainEngine) -> tuple[Open, ...]:
    """What the engine needs and its file doesn't size."""
    found = [Open("camshaft and its bearings", "no size of them is in the file; the cams' base "
                  "circles leave the room there is")]  # fmt: skip
    shields = [p for p in plain.cylinders if p.piston.shield.thickness and p.piston.shield.screws]
    if shields:
        count = sum(p.piston.shield.screws for p in shields)
        found.append(Open(f"{count} small screws for the crown shield",
                          "the file says how many, not which: steel, countersunk, short enough "
                          "not to reach the pin"))  # fmt: skip
    if is_plated(plain.crank.joint) or is_plated(plain.crank.journal.joint):
        found.append(Open("screws that hold the plates to the cheeks",
                          "the file doesn't say: as many and as thick as the cheek leaves room "
                          "for"))  # fmt: skip
    found.append(Open("how tightly seats and guides sit in the head",
                      "the file doesn't say: glue, press or both"))  # fmt: skip
    found.append(Open("valve retainers, keepers, rockers or followers",
                      "they belong to the valve and cam you choose"))  # fmt: skip
    found.append(Open("counterweights",
                      "how heavy depends on where they can sit; `crank.balance_factor` is what "
                      "they are to carry"))  # fmt: skip
    if plain.fuel.gas:
        found.append(Open("bottle, regulator and gas hose", "by the gas dealer's rules"))
    found.append(Open("battery, fuse, wire and a switch for the coil of its own",
                      "as coil and controller ask for"))  # fmt: skip
    found.append(Open("screws that hold case halves, engine stand and shield",
                      "none of them is in the file"))  # fmt: skip
    if engine.cylinders == 2 and plain.intake.kind in ("y", "plenum"):
        found.append(Open("the intake's Y or plenum", "printed or bent; its arms are "
                          "`runner.length` and `runner.diameter` of each cylinder"))  # fmt: skip
    return tuple(found)
