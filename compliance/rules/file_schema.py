"""The form of whole files, as pydantic models: a rule set, and amendments laid over it."""

from typing import Literal, Self

from pydantic import Field, model_validator

from compliance.model.base import Described, IsoDate, LongTelling, LongText, Telling, Text, no_items, refuse
from compliance.model.materials import EarthForm
from compliance.rules.schema import OPEN, DueStage, LimitValue, Name, RuleId, RuleText, StandingWord


class ChangeText(Described):
    """Another value for one limit, or for one cell of a table (`row` and `column` count from 1)."""

    rule_set: RuleId
    rule: RuleId
    limit: Name
    row: int | None = Field(default=None, ge=1)
    column: int | None = Field(default=None, ge=1)
    value: LimitValue
    standing: StandingWord
    by: Telling
    on: IsoDate
    where: Telling
    edition: Text | None = None
    authority: Telling | None = None
    reason: LongTelling | None = None

    @model_validator(mode="after")
    def _is_a_value(self) -> Self:
        if self.value == OPEN or self.standing == OPEN:
            raise refuse("amendment-open", "an amendment cannot open a limit", "give the value you read")
        if self.column is not None and self.row is None:
            raise refuse("amendment-cell", "the change names a column but no row", "add row:, counted from 1")
        return self


class DropText(Described):
    """A rule that does not apply here, and why."""

    rule_set: RuleId
    rule: RuleId
    reason: LongTelling
    by: Telling
    on: IsoDate
    authority: Telling


class RuleSetText(Described):
    """A whole rule-set file. `forms` are the types of earth construction that its rules are made for, or `any`; what
    extends another rule set has those of that one where it says none. `stage` is when the answers of its rules are due
    that name no stage of their own."""

    rule_set: RuleId
    title: Text
    edition: Text
    jurisdiction: Text
    material: Text
    forms: list[EarthForm | Literal["any"]] = Field(default_factory=no_items, max_length=20)
    status: Literal["code", "standard", "guide", "practice"]
    stage: DueStage | None = None
    scope: LongText
    source: Text
    verify: LongText
    notes: list[LongText] = Field(default_factory=no_items)
    extends: Text | None = None
    changes: list[ChangeText] = Field(default_factory=no_items)
    drops: list[DropText] = Field(default_factory=no_items)
    rules: list[RuleText] = Field(default_factory=no_items, max_length=2000)

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if not self.extends and not self.rules:
            raise refuse("rule-set-empty", "the rule set has no rules", "add rules:, or extends: another rule set")
        if not self.extends and (self.changes or self.drops):
            raise refuse("rule-set-extends", "changes: and drops: go with extends:", "name the rule set it extends")
        if not self.extends and not self.forms:
            wrong = "the rule set does not say which types of earth construction it covers"
            raise refuse("rule-set-forms", wrong, "add forms:, such as forms: [cob], or forms: [any]")
        if "any" in self.forms and len(self.forms) > 1:
            raise refuse("rule-set-forms", "forms: has any beside other words", "write forms: [any] alone")
        return self

    @property
    def covered(self) -> frozenset[str] | None:
        """The forms of earth that it covers; None where it covers any."""
        return None if "any" in self.forms else frozenset(self.forms)


class AmendmentText(Described):
    """A whole amendment file. `rules` are added to the rule sets; they form a rule set of their own."""

    title: Text | None = None
    changes: list[ChangeText] = Field(default_factory=no_items)
    drops: list[DropText] = Field(default_factory=no_items)
    rules: list[RuleText] = Field(default_factory=no_items)
