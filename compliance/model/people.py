"""The project itself, the people in it, and the place whose rules apply."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from compliance.model.base import (
    Area,
    Described,
    FilePath,
    IsoDate,
    LengthAboveZero,
    LongText,
    Mark,
    Telling,
    Text,
    YesNo,
    no_items,
    refuse,
)
from compliance.record import record
from compliance.refused import RefusedError


class ProjectHead(Described):
    """What stands on the cover. `stage` is where the project stands: what is due later is not missing yet. `parcel` is
    the number of the lot, `occupancy` and `construction_type` are as the building code classes them, `floor_area` is
    that of all floors. `paper_of_drawings` is the size of the sheets of drawings in inches or by its name; without it
    they are 11 x 17 in, or A3 where the papers are A4."""

    name: Text
    number: Text | None = None
    address: Text | None = None
    description: LongText | None = None
    use: Literal["dwelling", "two-family", "townhouse", "accessory", "other"] | None = None
    stage: Literal["earth", "design", "application", "before-placing", "during-the-work", "completion"] | None = None
    parcel: Text | None = None
    permit_number: Text | None = None
    occupancy: Text | None = None
    construction_type: Text | None = None
    floor_area: Area | None = None
    revision: Text = "A"
    date: IsoDate
    units: Literal["us", "si"] = "us"
    paper: Literal["letter", "a4"] = "letter"
    paper_of_drawings: Literal["11x17", "18x24", "24x36", "a3", "a2"] | None = None
    stories: int | None = Field(default=None, ge=1, le=20)
    building_height: LengthAboveZero | None = None
    diaphragm: Literal["none", "flexible", "rigid"] | None = None


class Person(Described):
    """A person or firm. `licence` is the number a licensed person signs with, `accreditation` that of a laboratory or
    an agency, with who gave it."""

    name: Text
    firm: Text | None = None
    licence: Text | None = None
    accreditation: Text | None = None
    contact: Text | None = None


class People(Described):
    """`inspection_agency` is who the owner hires for special inspections."""

    owner: Person | None = None
    builder: Person | None = None
    designer: Person | None = None
    engineer: Person | None = None
    official: Person | None = None
    lab: Person | None = None
    inspection_agency: Person | None = None


class Jurisdiction(Described):
    """Whose rules apply. `rule_sets` names shipped rule sets or files of the project folder; `state` is the state of
    the United States by name or two letters. `adopting_text` is the law that says which code is in force;
    `adopts_earthen_code: no` says that it adopts none for walls like these."""

    name: Text
    state: Text | None = None
    adopting_text: Text | None = None
    adopts_earthen_code: YesNo | None = None
    rule_sets: list[Text] = Field(min_length=1, max_length=20)


def no_jurisdiction() -> Jurisdiction:
    """Of a project of the earth alone that names none: no rule set is adopted, so nothing is judged."""
    return Jurisdiction.model_construct(name="not chosen yet", rule_sets=[])


class Attachment(Described):
    """A file of the project folder that belongs to the bundle: a photo, a lab letter, a drawing. Without a `kind` a
    picture is a photo, and anything else written down."""

    file: FilePath
    title: Text
    date: IsoDate | None = None
    kind: Literal["photo", "measurement", "document"] | None = None


@record
class AttachedFile:
    """`content` is what the file holds, or why it cannot be read. `digest` is the SHA-256 of the file, `size` its
    bytes; empty and 0 for a file that cannot be read."""

    mark: str
    attachment: Attachment
    digest: str
    size: int
    content: bytes | str | RefusedError


class Answer(Described):
    """What a person says of one rule of one rule set. `rule` is its id, or RULE_SET/RULE where several adopted rule
    sets have that id: what is asked under one id differs from set to set."""

    rule: Text
    about: Text | None = None

    @property
    def rule_id(self) -> str:
        """The id of the rule that is named, without its rule set."""
        return self.rule.rpartition("/")[2]

    def is_of(self, rule_set: str, rule: str) -> bool:
        """Whether it names this rule; by the id alone it may name one of another rule set."""
        return self.rule in (rule, f"{rule_set}/{rule}")


class Attestation(Answer):
    """A yes or no that only a person can give: which rule, of what, who says so, when, on what evidence."""

    answer: YesNo
    by: Telling
    on: IsoDate
    evidence: list[Mark] = Field(default_factory=no_items, max_length=50)
    note: LongText | None = None


class InspectionRecord(Answer):
    """What came of a hold or witness point on site."""

    passed: YesNo
    by: Telling
    on: IsoDate
    evidence: list[Mark] = Field(default_factory=no_items, max_length=50)
    note: LongText | None = None


class AcceptedDeviation(Described):
    """What an official accepted outside a limit: which finding of which rule, as it stood then (value and limit in SI,
    the edition, a digest of the rule with all it rests on), who, when, in which document, on what condition, until
    when. The command `accept` writes it."""

    rule_set: Text
    rule: Text
    about: Text
    value: Text = ""
    limit: Text = ""
    edition: Text
    digest: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    official: Telling
    on: IsoDate
    document: Telling
    condition: LongText | None = None
    until: IsoDate | None = None


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
