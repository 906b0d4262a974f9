"""What every JSON contract is built from: a part, its numbers, cautions and where it came from."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Annotated, Self

from pydantic import AliasPath, BaseModel, BeforeValidator, ConfigDict, Field


class Told(BaseModel):
    """A part of the contract.

    It is read from the record whose attributes bear its fields' names, or the names that a field
    gives as its alias: a field is written once, here.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        from_attributes=True,
        populate_by_name=True,
    )

    @classmethod
    def made_of(cls, record: object) -> Self:
        """What the contract tells of a record."""
        return cls.model_validate(record)

    @classmethod
    def each_of(cls, records: Iterable[object]) -> list[Self]:
        """What the contract tells of each of some records."""
        return [cls.model_validate(record) for record in records]


def finite(value: float | None) -> float | None:
    """A number as JSON can have it: None where it is infinite or none at all."""
    return value if value is not None and math.isfinite(value) else None


Finite = Annotated[float | None, BeforeValidator(finite)]
"""A number, null where it is infinite or none at all."""

Rpm = Annotated[float, BeforeValidator(lambda speed: speed * 30 / math.pi)]
"""A speed, from rad/s."""


class UnjudgedTold(Told):
    """Something a person will ask that isn't answered, and why."""

    subject: str
    why: str


class CautionTold(Told):
    """A hazard, what to do, and what of this engine calls for it."""

    hazard: str
    text: str
    because: str


class ProvenanceTold(Told):
    """What it was computed by and from."""

    version: str
    engine_file_sha256: str = Field(validation_alias=AliasPath("engine", "sha256"))
    inputs_sha256: str = Field(
        validation_alias=AliasPath("plain", "sha256"),
        description="of the resolved engine: the key of every cache",
    )
