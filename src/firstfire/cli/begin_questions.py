"""The questions of ``firstfire new``, in one table."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from firstfire.cli import begin_choices as lists
from firstfire.cli.begin_choices import Choice, Given, Known
from firstfire.engine.grammar import leaves
from firstfire.engine.leaf import read_leaf
from firstfire.engine.quantity import DIMENSIONS, NotAQuantity, read_quantity
from firstfire.engine.write import file_value, rounded_length

Choices = tuple[Choice, ...] | Callable[[Known], Iterable[Choice]]
"""What ``?`` shows: a list, or one that depends on what is known."""
Read = Callable[[str, Known], dict[str, object]]
"""An answer as written values by path; `NotAQuantity` where it is none."""


def as_leaf(path: str) -> Read:
    """What reads an answer as what its path holds, units forgiven."""

    def read(answer: str, known: Known) -> dict[str, object]:
        leaf = leaves()[path]
        value = read_leaf(leaf, forgiven(answer, path), known.rows, comma=True)
        return {path: file_value(leaf, value)}

    return read


def forgiven(answer: str, path: str) -> str:
    """An answer with the unit that was left out, and its unit in small letters if that is meant.

    Examples
    --------
    >>> forgiven("44", "cylinder.bore"), forgiven("1,75 IN", "cylinder.bore")
    ('44 mm', '1,75 in')
    >>> forgiven("20", "printing.infill"), forgiven("6 walls", "printing.walls")
    ('20 %', '6')
    """
    leaf, said = leaves()[path], answer.strip()
    bare = re.fullmatch(r"[+-]?[\d.,]+", said) is not None
    if leaf.form == "integer":
        return re.sub(r"\s*[a-z]+$", "", said)
    if leaf.form != "quantity":
        return said
    if leaf.dimension == "ratio":
        hundreds = bare and leaf.high == "1" and read_quantity(said, "ratio", comma=True) > 1
        return f"{said} %" if hundreds else said
    if bare:
        return f"{said} {DIMENSIONS[leaf.dimension].shown}"
    try:
        read_quantity(said, leaf.dimension, comma=True)
    except NotAQuantity:
        return said.lower()
    return said


def _always(_: Given) -> bool:
    return True


@dataclass(frozen=True)
class Question:
    """One question.

    Attributes
    ----------
    key
        The path it fills, or its own name where it fills several.
    ask
        Its words.
    suggested
        What Enter takes.
    choices
        What ``?`` shows.
    read
        What makes values of an answer; as its path holds, if not said.
    applies
        Whether it is asked, by what is said so far.
    """

    key: str
    ask: str
    suggested: str | Callable[[Given], str]
    choices: Choices
    read: Read
    applies: Callable[[Given], bool] = _always

    def shown(self, known: Known) -> Iterable[Choice]:
        """What there is to answer, by what is known so far."""
        return self.choices if isinstance(self.choices, tuple) else self.choices(known)

    def suggestion(self, given: Given) -> str:
        """What Enter takes, by what is said so far."""
        return self.suggested if isinstance(self.suggested, str) else self.suggested(given)


def _nine_tenths(given: Given) -> str:
    return rounded_length(0.9 * read_quantity(given["cylinder.bore"], "length", comma=True))


def _is_v(given: Given) -> bool:
    return given.get("layout.kind") == "v_twin"


def _is_twin(given: Given) -> bool:
    return given.get("layout.kind") not in (None, "single")


def _usual_offset(given: Given) -> str:
    return "180 deg" if given.get("layout.kind") == "opposed_twin" else "0 deg"


def _firing(answer: str, known: Known) -> dict[str, object]:
    """``even`` leaves it to the tool; else one of the two angles at which it can fire."""
    path = "layout.second_fires_after"
    if answer.strip().lower() == "even":
        return {}
    said = as_leaf(path)(answer, known)
    wanted = read_quantity(said[path], "angle")
    can = lists.second_fires(known.given)
    if min(abs(wanted - one) for one in can) > math.radians(1):
        tops = " or ".join(f"{math.degrees(one):.0f}" for one in can)
        cure = f'Cylinder 2 can fire only {tops} deg after cylinder 1, or say "even".'
        raise NotAQuantity(f'is "{answer}"', cure)
    return said


_PARTS = {
    "body": ("aluminium_6061_t6", "cylinder body"),
    "piston": ("aluminium_piston", "piston"),
    "rod": ("aluminium_6061_t6", "con rod"),
    "head": ("aluminium_6061_t6", "head"),
    "crank": ("steel_mild", "crank cheeks"),
    "case": ("aluminium_6061_t6", "crankcase"),
}
"""What may be printed or bought, with what it is usually made of if bought, and its name."""


def _bought(answer: str, _: Known) -> dict[str, object]:
    """Parts by name, each of them bought; ``none`` for none."""
    words = [word for word in re.split(r"[\s,;]+|\band\b", answer.strip().lower()) if word]
    if words in (["none"], ["no"], ["nothing"]):
        return {}
    for word in words:
        if word not in _PARTS:
            raise NotAQuantity(f'names "{word}"', f"Parts are {', '.join(_PARTS)}, or say none.")
    return {f"{word}.made": "bought" for word in words}


def _parts(known: Known) -> Iterable[Choice]:
    yield Choice("none", "all of these are printed")
    for part, (usual, name) in _PARTS.items():
        yield Choice(
            part, f"{name}, which is then usually {known.rows.row('material', usual).name}"
        )


def _material_of(part: str) -> Question:
    usual, name = _PARTS[part]
    return Question(
        f"{part}.material", f"Material of the {name}", usual, lists.part_materials,
        as_leaf(f"{part}.material"), lambda given: given.get(f"{part}.made") == "bought",
    )  # fmt: skip


def _infill(answer: str, known: Known) -> dict[str, object]:
    """``each`` leaves it to each part; ``solid`` is all of it."""
    word = answer.strip().lower()
    if word == "each":
        return {}
    return as_leaf("printing.infill")("1" if word == "solid" else answer, known)


_INFILLS = (
    Choice("each", "each part as it needs: solid where it is loaded, else 40 %"),
    Choice("solid", "every print solid"),
    Choice("20 %", "every print so much filled; what gas or bolts load then gives way sooner"),
)


def _leaf_question(
    path: str,
    ask: str,
    suggested: str | Callable[[Given], str],
    choices: Choices | None = None,
    applies: Callable[[Given], bool] = _always,
) -> Question:
    return Question(path, ask, suggested, choices or lists.words_of(path), as_leaf(path), applies)


QUESTIONS = (
    _leaf_question("layout.kind", "Layout", "single", lists.LAYOUTS),
    _leaf_question("layout.v_angle", "Angle of the V", "90 deg", lists.V_ANGLES, _is_v),
    _leaf_question("layout.crank_offset", "Angle between the two crankpins", _usual_offset,
                   lists.pin_offsets, _is_twin),
    Question("layout.second_fires_after", "Cylinder 2 fires after cylinder 1 by", "even",
             lists.firing_choices, _firing, _is_twin),
    _leaf_question("layout.rotation", "It turns, seen at the flywheel", "clockwise",
                   lists.ROTATIONS, _is_twin),
    _leaf_question("cylinder.bore", "Bore", "40 mm"),
    _leaf_question("cylinder.stroke", "Stroke", _nine_tenths),
    _leaf_question("liner.kind", "The piston runs in", "tube", lists.SURFACES),
    _leaf_question("printing.material", "Material most parts are printed in", "petg",
                   lists.print_materials),
    Question("bought", "Parts that you buy or have made, not print", "none", _parts, _bought),
    *(_material_of(part) for part in _PARTS),
    _leaf_question("printing.walls", "Wall lines of the prints", "6"),
    Question("printing.infill", "Infill of the prints", "each", _INFILLS, _infill),
    _leaf_question("intake.fuel", "Fuel", "petrol", lists.fuels),
    _leaf_question("starter.kind", "Starter", "cordless drill", lists.starters),
)  # fmt: skip
