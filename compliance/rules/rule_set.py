"""A rule set ready to judge with: formulas read, limits in SI, every name and dimension already checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from compliance.findings import Amended, LimitUsed, Outcome, Standing
from compliance.problems import Place
from compliance.record import record
from compliance.rules.formulas.formula import Formula
from compliance.rules.schema import ExampleText, RemedyText
from compliance.rules.tables import Table
from compliance.stages import UNSTAGED, Stage
from compliance.steps import Given

Plain = float | str | bool | frozenset[str]


@record
class Limit:
    """A limit of a rule. `value` in SI, a word, or a set of words; None while it is open. `lenders` are the limits of
    other rule sets, RULE_SET/RULE/LIMIT, that it is borrowed from, of numbers the `severest`, smaller or larger."""

    name: str
    value: Plain | None
    kind: str
    written: str
    standing: Standing
    source: str
    clause: str
    place: Place
    read_in: str = ""
    note: str = ""
    history: tuple[Amended, ...] = ()
    lenders: tuple[str, ...] = ()
    severest: str = ""

    @property
    def given(self) -> Given | None:
        """As it prints; None while it is open."""
        if self.value is None:
            return None
        value = ", ".join(sorted(self.value)) if isinstance(self.value, frozenset) else self.value
        return Given(self.name, value, self.kind)


@record
class Test:
    """Which specimens count and which statistic of their results stands as `result`; entries name limits, `aspect` a
    table."""

    of: str
    statistic: str
    parameters: Mapping[str, str]
    shapes: str | None
    dried: str | None
    least_age: str | None
    least_height_to_width: str | None
    aspect: str | None = None
    own_weight: str | None = None

    @property
    def limit_names(self) -> tuple[str, ...]:
        names = (
            self.statistic,
            *self.parameters.values(),
            self.shapes,
            self.dried,
            self.least_age,
            self.least_height_to_width,
            self.aspect,
            self.own_weight,
        )
        return tuple(name for name in names if name)


@record
class Covers:
    """The test rules that sets must pass: by id in the same rule set, or by question in all."""

    rules: tuple[str, ...]
    question: str


@record
class Attest:
    ask: str
    evidence: tuple[str, ...]


@record
class LookedAt:
    """What is looked at, and each thing that is written down."""

    look_at: str
    record: tuple[str, ...]


@record
class Inspect:
    """`by_kind` is what is looked at of footings of a kind, where that differs."""

    stage: str
    point: str
    who: str
    look_at: str
    record: tuple[str, ...]
    by_kind: Mapping[str, LookedAt]

    def looked_at(self, kind: str) -> LookedAt:
        """Of a subject of this kind; empty for what has none."""
        return self.by_kind.get(kind) or LookedAt(self.look_at, self.record)


@record
class Rule:
    """One rule. `about` is the kind of subject it judges; `stage` is when its answer is due; `status` what its rule set
    is: code, standard, guide or practice. `replaced_by` are rules, RULE_SET/RULE, that take its place where adopted;
    `waits_for` rules of the same set that ask first."""

    rule_set: str
    id: str
    kind: str
    title: str
    clause: str
    about: str
    say: str
    otherwise: Outcome
    place: Place
    when: Formula | None = None
    check: Formula | None = None
    limits: Mapping[str, Limit] = field(default_factory=dict)
    tables: Mapping[str, Table] = field(default_factory=dict)
    test: Test | None = None
    attest: Attest | None = None
    inspect: Inspect | None = None
    remedy: RemedyText | None = None
    standing: Standing | None = None
    source: str = ""
    question: str = ""
    note: str = ""
    examples: tuple[ExampleText, ...] = ()
    covers: Covers | None = None
    stage: Stage = UNSTAGED
    follows: tuple[str, ...] = ()
    gives_way_to: tuple[str, ...] = ()
    status: str = "code"
    replaced_by: tuple[str, ...] = ()
    waits_for: tuple[str, ...] = ()

    @property
    def looked_up(self) -> Mapping[str, Table]:
        """The tables that stand in the check; not the one that corrects single specimens."""
        aspect = self.test.aspect if self.test else None
        return {name: table for name, table in self.tables.items() if name != aspect}

    def limit_used(self, limit: Limit | Table) -> LimitUsed:
        given = limit.given if isinstance(limit, Limit) else Given(limit.name, "see the table", limit.kind)
        value = None if limit.standing is Standing.OPEN else given
        return LimitUsed(
            self.rule_set,
            rule=self.id,
            name=limit.name,
            clause=limit.clause or self.clause,
            value=value,
            standing=limit.standing,
            source=limit.source or self.source,
            note=limit.note,
            read_in=limit.read_in,
            history=limit.history,
        )


@record
class RuleSet:
    """A rule set and what it says of itself. `file` is as shown to the user; `forms` are the types of earth
    construction that it covers, None where it covers any."""

    id: str
    title: str
    edition: str
    jurisdiction: str
    material: str
    status: str
    scope: str
    source: str
    verify: str
    notes: tuple[str, ...]
    rules: tuple[Rule, ...]
    file: str
    forms: frozenset[str] | None = None

    @property
    def forms_in_words(self) -> str:
        """As a reader sees them."""
        return "any" if self.forms is None else ", ".join(sorted(one.replace("-", " ") for one in self.forms))
