"""Kinds of fields of the build file, and the base of its tables; how one value is read and written is in ``values``."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, PlainSerializer

from tutorial_lib.design.values import (
    more_than_nothing,
    of_a_board,
    over_nothing,
    read_hours,
    read_length_field,
    read_money,
    read_pounds,
    write_hours,
    write_length_field,
    write_money,
    write_pounds,
)

Length = Annotated[Fraction, BeforeValidator(read_length_field), PlainSerializer(write_length_field)]
Positive = Annotated[Length, AfterValidator(over_nothing)]
Size = Annotated[Length, AfterValidator(more_than_nothing)]
Across = Annotated[Size, AfterValidator(of_a_board)]
Pounds = Annotated[Fraction, BeforeValidator(read_pounds), PlainSerializer(write_pounds)]
Hours = Annotated[Fraction, BeforeValidator(read_hours), PlainSerializer(write_hours)]
Money = Annotated[Fraction, BeforeValidator(read_money), PlainSerializer(write_money)]
Address = Annotated[str, Field(pattern=r"^(https?://[^\s\x00-\x1f]{1,500})?$")]
Count = Annotated[int, Field(ge=1, le=200)]


class Section(BaseModel):
    """Base of all tables of the build file: frozen, strict, no unknown keys."""

    # What checks a table is made when it is first read: most commands need few of them at start.
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, arbitrary_types_allowed=True, defer_build=True)
