"""Why a print laid otherwise is judged alike: solid already, carried by metal, or no print."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.description import CylinderParts
from firstfire.engine.grammar import split
from firstfire.engine.readings import material_words
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.make import Filled, Made
from firstfire.engine.shapes import BOSS_OUTSIDE
from firstfire.parts.crank_joint import is_plated
from firstfire.parts.head import counted_thickness_of
from firstfire.parts.softness import is_metal

_FILL = ("walls", "line_width", "infill")
_WORDS = {
    "liner": "liner", "body": "body", "piston": "piston", "piston.boss": "pin bosses",
    "rod": "con rod", "head": "head", "crank": "crank cheeks", "crank.crankpin": "crankpin",
    "crank.journal": "main journals", "case": "crankcase",
}  # fmt: skip
_ALONG = {"along_bore": "along the bore", "across_bore": "across the bore",
          "along_crank": "along the crank"}  # fmt: skip


def why_alike(before: PlainEngine, after: PlainEngine, path: str) -> str:
    """A sentence on why another way of laying a print changes nothing that is judged.

    Parameters
    ----------
    before, after
        Two engines that are judged alike.
    path
        What differs between them: ``rod.walls``, ``cylinders.2.piston.infill``. For another path
        the answer is "".
    """
    cylinder, plain = split(path)
    place, _, name = plain.rpartition(".")
    if place not in _WORDS or name not in (*_FILL, "layers_stacked"):
        return ""
    words = _WORDS[place]
    number = (cylinder or 1) - 1
    if why := _no_print(after, number, place):
        return why
    if place == "crank" and is_plated(after.crank.joint) and is_plated(after.crank.journal.joint):
        return "Steel plates carry pin and journals, so how the printed cheeks are laid changes " \
               "nothing that is judged."  # fmt: skip
    old, new = (_laid(engine, number, place) for engine in (before, after))
    if name == "layers_stacked":
        ways = " or ".join(_ALONG[getattr(how, name)] for how in (old, new))
        return f"Layers stacked {ways}: what is judged of the {words} pulls them apart as much " \
               "one way as the other."  # fmt: skip
    return _filled_alike((old, new), words, name, dict(_walls(after, number, place)))


def _filled_alike(
    each: tuple[Filled, Filled], words: str, name: str, walls: dict[str, float]
) -> str:
    if name != "infill" and all(how.infill >= 1.0 for how in each):
        return f"The {words} {_are(words)} printed solid (infill 1), so more walls or fewer " \
               "change nothing."  # fmt: skip
    thickest = max(walls, key=walls.__getitem__)
    lines = min(2 * how.walls * how.line_width for how in each)
    if lines >= walls[thickest]:
        fewer = min(each, key=lambda how: how.walls * how.line_width)
        return f"With {fewer.walls} walls of {1e3 * fewer.line_width:.3g} mm at each face " \
               f"{thickest} ({1e3 * walls[thickest]:.3g} mm) is solid already, so " \
               f"{'infill' if name == 'infill' else 'more'} changes nothing."  # fmt: skip
    return ""


def _no_print(engine: PlainEngine, number: int, place: str) -> str:
    """That it is no print; "" where it is."""
    made = _part(engine, number, place)
    key = {"crank.crankpin": engine.crank.crankpin_material,
           "crank.journal": engine.crank.journal.material}.get(place, made.material)  # fmt: skip
    if made.made == "printed" and not is_metal(engine.materials[key]):
        return ""
    words, name = _WORDS[place], material_words(engine.materials[key].name)
    return f"The {words} {_are(words)} of {name} and not printed: nothing is laid in lines there."


def _are(words: str) -> str:
    return "are" if words.endswith("s") else "is"


def _part(engine: PlainEngine, number: int, place: str) -> Made:
    part = place.split(".", maxsplit=1)[0]
    if part in ("crank", "case"):
        made: Made = getattr(engine, part)
    else:
        made = getattr(engine.cylinders[number], part)
    return made


def _laid(engine: PlainEngine, number: int, place: str) -> Filled:
    made = _part(engine, number, place)
    within = place.partition(".")[2]
    laid: Filled = getattr(made, within) if within else made
    return laid


def _walls(engine: PlainEngine, number: int, place: str) -> Iterator[tuple[str, float]]:
    """What is judged by a place's walls, each in words and with its thickness, m."""
    parts, crank = engine.cylinders[number], engine.crank
    if place in ("liner", "body"):
        yield from _round_the_bore(parts, place)
    elif place == "piston":
        yield "the crown", parts.piston.crown_thickness
        yield "a land", parts.piston.top_land
    elif place == "piston.boss":
        yield "a boss", (BOSS_OUTSIDE - 1) / 2 * parts.pin.diameter
    elif place == "rod":
        yield "the shank", min(parts.rod.shank_width, parts.rod.shank_thickness)
        yield "an eye's wall", parts.rod.eye_wall
    elif place == "head":
        yield "the head's plate", counted_thickness_of(parts.head)
        yield "the face under a washer", parts.head.fasteners.washer_diameter
    elif place == "crank":
        yield "a cheek", crank.cheek_thickness
        yield "the wall round a pin", (crank.cheek_width - crank.joint.diameter) / 2
    elif place == "crank.crankpin":
        yield "the pin", crank.crankpin_diameter
    elif place == "crank.journal":
        yield "a journal", crank.main_journal_diameter
    else:
        yield "the case's wall", engine.case.wall


def _round_the_bore(parts: CylinderParts, place: str) -> Iterator[tuple[str, float]]:
    liner, body = parts.liner, parts.body
    if place == "liner":
        yield "the liner's wall", (liner.outside_diameter - parts.cylinder.bore) / 2
        return
    yield "the body's wall", (body.outside_diameter - liner.outside_diameter) / 2
    yield "its foot", body.foot.thickness
