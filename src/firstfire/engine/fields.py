"""How a section of the engine's description is declared: typed fields that know their units."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field
from pydantic.fields import FieldInfo


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


class Section(BaseModel):
    """A part of the description. An instance is plain: SI floats, frozen, every field filled."""

    # Built on first validation: what is read and resolved has been checked leaf by leaf, and
    # schemas of fifty sections take longer than the rest of a small command.
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, defer_build=True)


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
    extra: dict[str, Any] = {
        "low": low, "high": high, "example": example, "row": row, "columns": columns
    }  # fmt: skip
    if optional:
        return Field(default=None, description=description, json_schema_extra={"said": extra})
    return Field(description=description, json_schema_extra={"said": extra})


def spoken_limits(info: FieldInfo) -> dict[str, Any]:
    """What `said` noted about a field: low, high, example, row, columns."""
    extra = info.json_schema_extra
    if not isinstance(extra, dict):
        return {}
    found = extra.get("said")
    return dict(found) if isinstance(found, dict) else {}
