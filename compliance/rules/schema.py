"""The form of a rule, as pydantic models. Names and dimensions are checked in `compiling.py`."""

import re
from collections.abc import Mapping
from datetime import date
from typing import Annotated, Literal, Self, get_args

from pydantic import Field, field_validator, model_validator

from compliance.facts.catalogue import ABOUTS
from compliance.findings import Outcome, Standing
from compliance.model.base import Described, IsoDate, LongText, Telling, Text, no_items, refuse
from compliance.stages import UNSTAGED, Stage
from compliance.units import parse_number

RuleId = Annotated[str, Field(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$", max_length=60)]
RulePath = Annotated[str, Field(pattern=r"^[a-z][a-z0-9-]*/[a-z][a-z0-9-]*$", max_length=125)]
Name = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=40)]
Formula = Annotated[str, Field(min_length=1, max_length=500)]
StandingWord = Literal["confirmed", "read", "reported", "recalled", "open"]
PointStage = Literal[
    "trench", "footing", "stem", "moisture-break", "mix", "first-lift", "lifts", "openings", "anchors", "bond-beam",
    "before-roof", "finish",
]  # fmt: skip
STAGES: tuple[str, ...] = get_args(PointStage)
"""In the order of the work."""
DueStage = Literal["earth", "design", "application", "before-placing", "during-the-work", "completion"]
POINT_DUE: Mapping[str, Stage] = {
    **dict.fromkeys(("trench", "footing", "stem", "moisture-break", "mix"), Stage.BEFORE_PLACING),
    **dict.fromkeys(("first-lift", "lifts", "openings", "anchors", "bond-beam", "before-roof"), Stage.DURING_THE_WORK),
    "finish": Stage.COMPLETION,
}
"""When a point of the inspection plan is due, by its stage of the work, where its rule does not say so."""
OPEN = "open"
Lender = Annotated[str, Field(pattern=r"^[a-z0-9-]+/[a-z0-9-]+/[a-z][a-z0-9_]*$", max_length=160)]
Scalar = str | float | bool
LimitValue = Scalar | list[str]


def _refuse_nameless(standing: str | None, by: str | None, on: date | None) -> None:
    """What is confirmed was read by somebody on some day."""
    if standing == "confirmed" and not (by and on):
        wrong = "it is confirmed, and nobody is named who read it, or no day"
        raise refuse("limit-confirmed", wrong, "add by: and on:, or write standing: read")


class LimitText(Described):
    """A number of a rule: its value as people write it (`10 in`, `7`, a word, a list of words), or `open`. What is
    confirmed says `by` whom and `on` which day it was read.

    `borrowed_from` names limits of other rule sets, `RULE_SET/RULE/LIMIT`, one of which stands in where its rule set is
    adopted: the most restrictive, for numbers the smaller or the larger as `severest` says."""

    value: LimitValue
    kind: Text | None = None
    standing: StandingWord
    source: Text | None = None
    clause: Text | None = None
    read_in: Text | None = None
    note: LongText | None = None
    borrowed_from: list[Lender] = Field(default_factory=no_items, max_length=20)
    severest: Literal["smaller", "larger"] | None = None
    by: Telling | None = None
    on: IsoDate | None = None

    @model_validator(mode="after")
    def _borrowed_number_has_a_worse_side(self) -> Self:
        if self.borrowed_from and not isinstance(self.value, (list, bool)) and self.severest is None:
            wrong = "the borrowed limit does not say which of several is the most restrictive"
            raise refuse("limit-borrowed", wrong, "add severest: smaller or larger")
        return self

    @model_validator(mode="after")
    def _value_and_standing_agree(self) -> Self:
        if (self.value == OPEN) != (self.standing == OPEN):
            raise refuse(
                "limit-open", f"value {self.value!r} and standing {self.standing!r} contradict each other",
                "a limit is either open in both value and standing, or in neither",
            )  # fmt: skip
        if self.value == OPEN and not self.kind:
            raise refuse("limit-kind", "the open limit has no kind", "add kind:, for example kind: length")
        if self.standing in ("confirmed", "read", "reported") and not self.source:
            raise refuse("limit-source", f"a {self.standing} limit names no source", "add source:")
        _refuse_nameless(self.standing, self.by, self.on)
        return self

    @property
    def known_as(self) -> Standing:
        return Standing(self.standing)


class TableAxis(Described):
    """Rows or columns of a table. `worse` says which way lies the safer reading between two entries."""

    fact: Text
    at: list[Scalar] = Field(min_length=1, max_length=200)
    worse: Literal["smaller", "larger"] | None = None


class TableText(Described):
    """A table of limits. Between its entries the next worse one stands, or a straight line is drawn."""

    rows: TableAxis
    columns: TableAxis | None = None
    cells: list[list[str | float]] = Field(min_length=1, max_length=200)
    kind: Text
    between: Literal["next-worse", "linear"] = "next-worse"
    standing: StandingWord
    source: Text | None = None
    clause: Text | None = None
    read_in: Text | None = None
    note: LongText | None = None
    by: Telling | None = None
    on: IsoDate | None = None

    @model_validator(mode="after")
    def _cells_fill_the_table(self) -> Self:
        width = len(self.columns.at) if self.columns else 1
        if len(self.cells) != len(self.rows.at) or any(len(row) != width for row in self.cells):
            raise refuse(
                "table-shape",
                f"the table has {len(self.rows.at)} rows and {width} columns but its cells do not fill them exactly",
                "give one list of cells for each row, one cell for each column",
            )
        _refuse_nameless(self.standing, self.by, self.on)
        return self


class RemedyText(Described):
    """What a builder can change, in what steps, and how to say it."""

    say: LongText
    change: Text | None = None
    step: Text | None = None

    @field_validator("step")
    @classmethod
    def _step_goes_somewhere(cls, step: str | None) -> str | None:
        number = re.match(r"[0-9./ -]*", step or "")
        if number and parse_number(number[0].strip()) == 0:
            raise refuse("remedy-step", f"a step of {step} changes nothing", "write for example step: 1 in")
        return step


class TestText(Described):
    """Which specimens a test rule takes and which value of theirs stands as `result`.

    Each entry but `of` and `aspect` names a limit of the rule; `specimens` in the check is how many are left. `aspect`
    names a table by `specimen.height_to_width` whose factor each strength is multiplied by; `own_weight` a yes or no,
    whether beams count their own weight.
    """

    of: Literal["compression", "rupture", "shrinkage"]
    statistic: Name
    parameters: dict[Name, Name] = Field(default_factory=dict)
    shapes: Name | None = None
    dried: Name | None = None
    least_age: Name | None = None
    least_height_to_width: Name | None = None
    aspect: Name | None = None
    own_weight: Name | None = None


class CoversText(Described):
    """Test rules that must have passing sets for the mix of each wall: rules of the same file by id, or the rules of
    all adopted rule sets that answer a question. The check uses `passing` and `failing`, how many sets of the mix
    pass all of them and fail any."""

    rules: list[RuleId] = Field(default_factory=no_items, max_length=20)
    question: RuleId | None = None

    @model_validator(mode="after")
    def _names_one_form(self) -> Self:
        if bool(self.rules) == bool(self.question):
            wrong = "covers: names no rules, or names them in two ways"
            raise refuse("rule-covers", wrong, "give either rules: or question:")
        return self


class AttestText(Described):
    """A question only a person can answer yes to, and the evidence that goes with it."""

    ask: LongText
    evidence: list[Literal["photo", "document", "measurement", "none"]] = Field(default_factory=no_items)


Recorded = LongText | Annotated[list[Text], Field(min_length=1, max_length=12)]


class LookedAtText(Described):
    """What is looked at and written down of a subject of one kind."""

    look_at: LongText
    record: Recorded


class InspectText(Described):
    """A point of the inspection plan: at which stage, who looks at what, what is written down; `record` is one thing
    or a list of them. `by_kind` says otherwise of footings of a kind: no forms and steel stand in a rubble trench."""

    stage: PointStage
    point: Literal["hold", "witness"]
    who: Text
    look_at: LongText
    record: Recorded
    by_kind: dict[Text, LookedAtText] = Field(default_factory=dict, max_length=10)


class ExampleText(Described):
    """A case of the rule: facts in (and limits, where they are open), outcome out."""

    given: dict[str, Scalar | None] = Field(default_factory=dict)
    limits: dict[Name, LimitValue] = Field(default_factory=dict)
    gives: Literal["meets", "revise", "engineer", "missing", "confirm", "not-applicable"]

    @property
    def outcome(self) -> Outcome:
        return Outcome(self.gives)


class RuleText(Described):
    """One rule. What kind it is follows from which block it has: check alone, test, covers, attest or inspect.

    `standing` says how well it is known that the rule stands in the code at all. Where that is `open` the rule is never
    met: what holds gives `confirm`, what does not hold or is missing stays. `stage` is when the answer is due: until a
    project stands there, what lacks is not missing yet. `follows` names rules, as RULE_SET/RULE, of which this one says
    no more than they do: where one of them does not hold for a subject, this one is told under it. `gives_way_to` names
    questions: where an adopted code or standard answers one of them about the same subject by limits that are known,
    the rule is not applicable. `replaced_by` names rules, as RULE_SET/RULE, that take its place where they are adopted,
    as long as no amendment gave it a limit of its own. `waits_for` names rules of the same set about the wall: while
    one of them lacks its value, this one asks nothing.
    """

    id: RuleId
    title: Text
    clause: Text
    about: Literal[tuple(ABOUTS)]  # type: ignore[valid-type]
    when: Formula | None = None
    limits: dict[Name, LimitText] = Field(default_factory=dict)
    tables: dict[Name, TableText] = Field(default_factory=dict)
    check: Formula | None = None
    test: TestText | None = None
    covers: CoversText | None = None
    attest: AttestText | None = None
    inspect: InspectText | None = None
    stage: DueStage | None = None
    follows: list[RulePath] = Field(default_factory=no_items, max_length=20)
    otherwise: Literal["revise", "engineer"] = "revise"
    say: LongText
    remedy: RemedyText | None = None
    question: RuleId | None = None
    gives_way_to: list[RuleId] = Field(default_factory=no_items, max_length=10)
    replaced_by: list[RulePath] = Field(default_factory=no_items, max_length=10)
    waits_for: list[RuleId] = Field(default_factory=no_items, max_length=10)
    standing: StandingWord | None = None
    source: Text | None = None
    by: Telling | None = None
    on: IsoDate | None = None
    note: LongText | None = None
    examples: list[ExampleText] = Field(default_factory=no_items)

    @property
    def kind(self) -> str:
        for kind in ("test", "covers", "attest", "inspect"):
            if getattr(self, kind):
                return kind
        return "table" if self.tables else "limit"

    def due(self, of_set: str | None) -> Stage:
        """When its answer is due: as it says, by its point of the inspection plan, as its set says, else always."""
        if self.stage:
            return Stage(self.stage)
        if self.inspect:
            return POINT_DUE[self.inspect.stage]
        return Stage(of_set) if of_set else UNSTAGED

    @model_validator(mode="after")
    def _blocks_fit(self) -> Self:
        _refuse_nameless(self.standing, self.by, self.on)
        blocks = [name for name in ("test", "covers", "attest", "inspect") if getattr(self, name)]
        if len(blocks) > 1:
            raise refuse("rule-kind", f"the rule has both {blocks[0]} and {blocks[1]}", "make it two rules")
        needs_check = not blocks or blocks[0] in ("test", "covers")
        if needs_check and not self.check:
            raise refuse("rule-check", "the rule has nothing to check", "add check:, attest: or inspect:")
        if not needs_check and self.check:
            raise refuse("rule-check", f"an {blocks[0]} rule has no check", "remove check:, or make it two rules")
        if not needs_check and (not self.standing or not self.source):
            raise refuse(
                "rule-standing", f"an {blocks[0]} rule needs its own standing and source", "add standing: and source:"
            )
        if self.test and self.about != "mix":
            raise refuse("rule-test", "a test rule is about a mix", "write about: mix")
        if self.inspect and self.stage and not Stage(self.stage).asks_for(POINT_DUE[self.inspect.stage]):
            wrong = f"a point at stage {self.inspect.stage} of the work is due at {self.stage}, before that work"
            raise refuse("rule-stage", wrong, f"write stage: {POINT_DUE[self.inspect.stage]}, or a later one")
        if self.covers and self.about != "wall":
            raise refuse("rule-covers", "a covers rule is about a wall", "write about: wall")
        return self
