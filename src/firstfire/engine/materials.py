"""A material as physics sees it: plain SI numbers and curves, overlays applied."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from firstfire.catalog import CurvePoint
from firstfire.catalog.properties import properties
from firstfire.engine.grammar import leaves
from firstfire.engine.layers import Stack
from firstfire.engine.values import Values
from firstfire.errors import OutsideValidity

_METAL = 40e9
"""No plastic is as stiff, Pa."""


@dataclass(frozen=True)
class Material:
    """One material's numbers.

    Attributes
    ----------
    key, name
        Catalog key, and as a person would say it.
    properties
        SI value by property.
    curves
        Curves by name (``strength``, ``modulus`` against temperature ...).
    yours
        Whether the row is a person's own, or a property of it was set by them.
    structure
        As the row has it: ``metal``, ``amorphous``, ``semi-crystalline`` ...; "" where untold.
    fibres
        Whether fibres lie in it, along the layers of a print: it is then told twice, along the
        layers and across them. What has none is alike in all directions but for its strength.
    """

    key: str
    name: str
    properties: Mapping[str, float]
    curves: Mapping[str, tuple[CurvePoint, ...]]
    yours: bool
    structure: str = ""
    fibres: bool = False

    @property
    def metal(self) -> bool:
        """Whether it is a metal: as its row says, or as stiff as one."""
        if self.structure:
            return self.structure == "metal"
        return self["modulus_in_plane"] > _METAL

    def along_or_across(self, prop: str, *, across: bool) -> float:
        """A property told twice where fibres lie in it: along the layers, or across them."""
        return self[f"{prop}_across"] if across and self.fibres else self[prop]

    def __getitem__(self, prop: str) -> float:
        """A property in SI.

        Raises
        ------
        OutsideValidity
            Where the row doesn't tell it: what asks for it can't be judged.
        """
        try:
            return self.properties[prop]
        except KeyError:
            raise OutsideValidity(self.untold(prop)) from None

    def curve(self, name: str) -> tuple[CurvePoint, ...]:
        """A curve by its name.

        Raises
        ------
        OutsideValidity
            As for a property.
        """
        found = self.curves.get(name)
        if not found:
            raise OutsideValidity(self.untold(f"curve of {name}"))
        return found

    def untold(self, prop: str) -> str:
        """That its row doesn't tell something, and where to add it."""
        return (
            f"The row of {self.name} tells no {_words(prop)}. Add it in your own catalog.toml "
            f"under [material.{self.key}]."
        )

    def get(self, prop: str) -> float | None:
        """A property in SI, or None where it isn't known."""
        return self.properties.get(prop)


def _words(prop: str) -> str:
    """A property by name, and what it is."""
    known = properties("material").get(prop)
    name = prop.replace("_", " ")
    return name if known is None else f"{name} ({known.means})"


def material(values: Values, key: str) -> Material:
    """The material of that key with a person's own values on top of the catalog's."""
    row = values.catalog.row("material", key)
    over = dict(_overlaid(values.stack, key))
    properties = {**{prop: datum.si for prop, datum in row.data.items()}, **over}
    softer = values.number("doubt.softening")
    return Material(
        key=row.key,
        name=row.name,
        properties=_softened(properties, softer),
        curves={
            name: _later(curve, softer) if name in _OF_WARMTH else curve
            for name, curve in row.curves.items()
        },
        yours=row.origin != "catalog" or bool(over),
        structure=row.texts.get("structure", ""),
        fibres="fibres" in row.texts or "expansion_across" in row.data,
    )


_ROOM = 296.15
_OF_WARMTH = ("strength", "modulus")


def _later(curve: tuple[CurvePoint, ...], doubt: float) -> tuple[CurvePoint, ...]:
    """A curve against temperature whose rises over 23 °C are so many times as large."""
    if doubt == 1.0:
        return curve
    return tuple(replace(point, at=_ROOM + doubt * (point.at - _ROOM)) for point in curve)


def _softened(properties: Mapping[str, float], doubt: float) -> Mapping[str, float]:
    """The same of a glass transition, which an amorphous plastic without a curve follows."""
    glass = properties.get("glass_transition")
    if doubt == 1.0 or glass is None:
        return properties
    return {**properties, "glass_transition": _ROOM + doubt * (glass - _ROOM)}


def _overlaid(stack: Stack, key: str) -> Iterator[tuple[str, float]]:
    prefix = f"materials.{key}."
    for path in stack.paths():
        if path.startswith(prefix):
            entry = stack.top(path)
            if entry is not None:
                yield path.removeprefix(prefix), float(entry.value)


def named_materials(values: Values) -> dict[str, Material]:
    """Every material that a cylinder and what it shares name, by key."""
    keys = [values[path] for path, leaf in leaves().items() if leaf.row_kind == "material"]
    return {key: material(values, key) for key in dict.fromkeys(keys) if key is not None}
