"""The project itself, the people in it, and the place whose rules apply."""

from typing import Literal, Self

from pydantic import Field, model_validator

from compliance.model.base import (
    Described,
    FilePath,
    IsoDate,
    LengthAboveZero,
    LongText,
    Mark,
    Text,
    YesNo,
    no_items,
    refuse,
)
from compliance.record import record
from compliance.refused import RefusedError


class ProjectHead(Described):
    """What stands on the cover."""

    name: Text
    number: Text | None = None
    address: Text | None = None
    description: LongText | None = None
    use: Literal["dwelling", "two-family", "townhouse", "accessory", "other"] | None = None
    revision: Text = "A"
    date: IsoDate
    units: Literal["us", "si"] = "us"
    paper: Literal["letter", "a4"] = "letter"
    stories: int | None = Field(default=None, ge=1, le=20)
    building_height: LengthAboveZero | None = None
    diaphragm: Literal["none", "flexible", "rigid"] | None = None


class Person(Described):
    """A person or firm. `licence` is the number a licensed person signs with."""

    name: Text
    firm: Text | None = None
    licence: Text | None = None
    contact: Text | None = None


class People(Described):
    owner: Person | None = None
    builder: Person | None = None
    designer: Person | None = None
    engineer: Person | None = None
    official: Person | None = None
    lab: Person | None = None


class Jurisdiction(Described):
    """Whose rules apply. `rule_sets` names shipped rule sets or files of the project folder."""

    name: Text
    adopting_text: Text | None = None
    rule_sets: list[Text] = Field(min_length=1, max_length=20)


class Attachment(Described):
    """A file of the project folder that belongs to the bundle: a photo, a lab letter, a drawing."""

    file: FilePath
    title: Text
    date: IsoDate | None = None


@record
class AttachedFile:
    """`content` is what the file holds, or why it cannot be read. `digest` is the SHA-256 of the file, `size` its
    bytes; empty and 0 for a file that cannot be read."""

    mark: str
    attachment: Attachment
    digest: str
    size: int
    content: bytes | str | RefusedError


class Attestation(Described):
    """A yes or no that only a person can give: which rule, of what, who says so, when, on what evidence."""

    rule: Text
    about: Text | None = None
    answer: YesNo
    by: Text
    on: IsoDate
    evidence: list[Mark] = Field(default_factory=no_items, max_length=50)
    note: LongText | None = None


class InspectionRecord(Described):
    """What came of a hold or witness point on site."""

    rule: Text
    about: Text | None = None
    passed: YesNo
    by: Text
    on: IsoDate
    evidence: list[Mark] = Field(default_factory=no_items, max_length=50)
    note: LongText | None = None


class OfficialComment(Described):
    """A comment of the official on an earlier revision, and the answer to it."""

    comment: LongText
    by: Text | None = None
    on: IsoDate | None = None
    answer: LongText | None = None
    met_in: Text | None = None

    @model_validator(mode="after")
    def _place_needs_answer(self) -> Self:
        if self.met_in and not self.answer:
            raise refuse("comment-answer", "the comment says where it is met but has no answer", "add answer:")
        return self
