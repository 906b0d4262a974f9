"""How a section of the engine's description is declared: typed fields that know their units."""

from __future__ import annotations

import inspect
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Self, dataclass_transform


@dataclass(frozen=True)
class Quantity:
    """Marks a float field as SI of one dimension; the file writes it with a unit."""

    dimension: str


@dataclass(frozen=True)
class FromCatalog:
    """Marks a text field as the name of a catalog row of one kind."""

    kind: str


Length = Annotated[float, Quantity("length")]
Area = Annotated[float, Quantity("area")]
Volume = Annotated[float, Quantity("volume")]
VolumeFlow = Annotated[float, Quantity("volume_flow")]
Mass = Annotated[float, Quantity("mass")]
Angle = Annotated[float, Quantity("angle")]
Speed = Annotated[float, Quantity("speed")]
Velocity = Annotated[float, Quantity("velocity")]
Time = Annotated[float, Quantity("time")]
Force = Annotated[float, Quantity("force")]
Torque = Annotated[float, Quantity("torque")]
SpringRate = Annotated[float, Quantity("spring_rate")]
Pressure = Annotated[float, Quantity("pressure")]
Inertia = Annotated[float, Quantity("inertia")]
Temperature = Annotated[float, Quantity("temperature")]
Ratio = Annotated[float, Quantity("ratio")]
Power = Annotated[float, Quantity("power")]
Energy = Annotated[float, Quantity("energy")]
Viscosity = Annotated[float, Quantity("viscosity")]
Voltage = Annotated[float, Quantity("voltage")]
Resistance = Annotated[float, Quantity("resistance")]
Current = Annotated[float, Quantity("current")]
Inductance = Annotated[float, Quantity("inductance")]
Capacitance = Annotated[float, Quantity("capacitance")]

MaterialName = Annotated[str, FromCatalog("material")]
BearingName = Annotated[str, FromCatalog("bearing")]
ORingName = Annotated[str, FromCatalog("oring")]
ThreadName = Annotated[str, FromCatalog("thread")]
TubeName = Annotated[str, FromCatalog("tube")]
InsertName = Annotated[str, FromCatalog("insert")]
BeltName = Annotated[str, FromCatalog("belt")]
FuelName = Annotated[str, FromCatalog("fuel")]
StarterName = Annotated[str, FromCatalog("starter")]


@dataclass(frozen=True)
class Said:
    """What is noted about a value that a person may say; of what, see `said`."""

    description: str
    low: str | None
    high: str | None
    example: str | None
    row: tuple[str, str] | None
    columns: tuple[tuple[str, str], ...]
    optional: bool


def said(
    description: str,
    *,
    low: str | None = None,
    high: str | None = None,
    example: str | None = None,
    row: tuple[str, str] | None = None,
    columns: tuple[tuple[str, str], ...] = (),
    optional: bool = False,
) -> Any:
    """A field a person may say: what it is, between which values it makes sense.

    Parameters
    ----------
    description
        What it is, in the trade's words; shown in messages, schema and a full file.
    low, high
        Absurd below and above; written quantities (or plain numbers as text).
    example
        Written the way a file has it.
    row
        ``(field of this section, property)``: the catalog row that field names supplies
        this value unless the file says otherwise.
    columns
        Of a list or a table: between which values each column makes sense.
    optional
        Whether it may stay unsaid; the plain engine then holds None.
    """
    return Said(description, low, high, example, row, columns, optional)


@dataclass(frozen=True)
class Field:
    """One value of a section.

    Attributes
    ----------
    annotation
        Its type, with what it is annotated with.
    said
        What is noted about it; None of what no person says.
    section
        Its class, where it is a section itself.
    """

    annotation: Any
    said: Said | None
    section: type[Section] | None


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(said,))
class Section:
    """A part of the description. An instance is plain: SI floats, frozen, every field filled.

    What is read and resolved has been checked leaf by leaf, so that a section checks names alone.
    It is no pydantic model: fifty of those take longer to declare than a small command to answer.
    """

    model_fields: ClassVar[Mapping[str, Field]] = {}
    """Every value by name, inherited ones first."""
    _own: ClassVar[Mapping[str, Field]] = {}

    def __init_subclass__(cls) -> None:
        own = {
            name: Field(annotation, cls.__dict__.get(name), _section(annotation))
            for name, annotation in inspect.get_annotations(cls, eval_str=True).items()
        }
        for name, field in own.items():
            if field.said is not None:
                delattr(cls, name)  # an instance without it is to say so
        cls._own, fields = own, dict[str, Field]()
        for base in reversed(cls.__mro__):
            fields |= base.__dict__.get("_own", {})
        cls.model_fields = fields

    def __init__(self, **values: Any) -> None:
        fields = type(self).model_fields
        unknown = [name for name in values if name not in fields]
        optional = {name for name, field in fields.items() if field.said and field.said.optional}
        unsaid = [name for name in fields if name not in values and name not in optional]
        if unknown or unsaid:
            said = "; ".join(
                f"{word} {', '.join(names)}"
                for word, names in (("has no", unknown), ("needs", unsaid))
                if names
            )
            raise TypeError(f"{type(self).__name__} {said}")
        self.__dict__.update(dict.fromkeys(optional), **values)

    @classmethod
    def model_construct(cls, **values: Any) -> Self:
        """An instance of values that are known to be right; what is missing stays missing."""
        made = cls.__new__(cls)
        found = made.__dict__
        for name, field in cls.model_fields.items():
            if name in values:
                found[name] = values[name]
            elif field.said is not None and field.said.optional:
                found[name] = None
        return made

    def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Self:
        """The same, with some values exchanged, by name, if there are any."""
        made = type(self).__new__(type(self))
        made.__dict__.update(self.__dict__)
        made.__dict__.update(update or {})
        return made

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__} is frozen: {name} stays as it is.")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"{type(self).__name__} is frozen: {name} stays as it is.")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.__dict__ == other.__dict__

    def __hash__(self) -> int:
        return hash((type(self), *(self.__dict__.get(name) for name in self.model_fields)))

    def __repr__(self) -> str:
        said = ", ".join(f"{name}={value!r}" for name, value in self.__dict__.items())
        return f"{type(self).__name__}({said})"


def _section(annotation: Any) -> type[Section] | None:
    known = isinstance(annotation, type) and issubclass(annotation, Section)
    return annotation if known else None
