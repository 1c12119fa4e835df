"""Findings as they are written out: for other programs, and for what was issued under each revision."""

import hashlib
import json
import math
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, JsonValue

from compliance.model.base import Described, no_items
from compliance.units import unit

ISSUED_FOLDER = "issued"
"""Of the project: what was issued under each revision."""

OutcomeWord = Literal["engineer", "revise", "missing", "confirm", "later", "meets", "not-applicable"]
StageWord = Literal["earth", "design", "application", "before-placing", "during-the-work", "completion"]
StandingWord = Literal["confirmed", "read", "reported", "recalled", "open"]
Fingerprint = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
Day = Annotated[str, Field(pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$")]


class ValueRecord(Described):
    """`text` as a reader sees it; `number` and `unit` where it is a number (`unit` empty for a plain one)."""

    text: str
    number: float | None = None
    unit: str | None = None


_SAME = 1e-9


def is_same_value(one: ValueRecord | None, other: ValueRecord | None) -> bool:
    """Whether both are the same in whatever units, but for last digits; texts where one is no number."""
    if one is None or other is None:
        return one is other
    here, there = _si(one), _si(other)
    if here is None or there is None:
        return one.text == other.text
    return math.isclose(here, there, rel_tol=_SAME)


def _si(value: ValueRecord) -> float | None:
    """None where it is no number, or in a unit that is not known any more."""
    if value.number is None or not value.unit:
        return value.number
    try:
        return unit(value.unit).to_si(value.number)
    except KeyError:
        return None


class PlaceRecord(Described):
    """A file of the project folder and the line in it, from 1; 0 stands for the whole file."""

    file: str
    line: int = Field(ge=0)


class MissingRecord(Described):
    """Something that is lacking: a field of the project by the parts of its path, or a record that `kind` names."""

    kind: Literal["field", "test-set", "passing-set", "rows", "cells", "cell", "answer"]
    parts: list[str | int]
    file: str


class AcceptedRecord(Described):
    """A deviation that an official accepted; the finding keeps its outcome."""

    official: str
    on: str
    document: str
    condition: str = ""
    until: str = ""


class FoldedRecord(Described):
    """The finding that another is told under."""

    rule_set: str
    rule: str
    subject: str


class StageRecord(Described):
    """The stage a project was asked at, the one it states, and why it was asked for more than that."""

    judged: StageWord
    stated: StageWord | None = None
    because: str | None = None


class FindingRecord(Described):
    """One finding. `standing` is that of the lowest limit it rests on; `margin` the share of the limit that is left.
    `why` is the kind of reason, `reason_values` what it holds, `beside` what is named beside it, `reason` the
    sentence made of all. `stage` is when the answer is due; `cause` is alike for findings told on one line of the first
    screen, `folded_under` the finding that says all this one does. What is issued leaves these three out."""

    rule_set: str
    rule: str
    kind: Literal["limit", "table", "test", "covers", "attest", "inspect"]
    title: str
    clause: str
    about: str
    subject: str
    wall: str | None = None
    outcome: OutcomeWord
    verdict: str
    standing: StandingWord | None = None
    value: ValueRecord | None = None
    relation: str | None = None
    limit: ValueRecord | None = None
    margin: float | None = None
    steps: list[str] = Field(default_factory=no_items)
    say: str = ""
    why: str
    reason_values: dict[str, JsonValue]
    beside: list[dict[str, JsonValue]] = Field(default_factory=no_items)
    reason: str
    remedy: str | None = None
    accepted: AcceptedRecord | None = None
    missing: list[MissingRecord] = Field(default_factory=no_items)
    at: PlaceRecord
    stage: StageWord | None = None
    cause: str | None = None
    folded_under: FoldedRecord | None = None


class AmendedRecord(Described):
    """What an amendment did to a limit: the value before, by whom, when, on what authority, why."""

    before: ValueRecord | None = None
    after: ValueRecord | None = None
    by: str
    on: str
    where: str = ""
    standing: str = ""
    authority: str
    reason: str
    cell: str = ""


class LimitRecord(Described):
    """A limit that findings rest on; `value` is null while it is open. `amended` is the last of its `changes`."""

    rule_set: str
    rule: str
    name: str
    title: str
    clause: str
    value: ValueRecord | None = None
    standing: StandingWord
    source: str
    amended: AmendedRecord | None = None
    shipped: ValueRecord | None = None
    changes: list[AmendedRecord] = Field(default_factory=no_items)


class HeadRecord(Described):
    """The project at that time. `fingerprint` is a hash over the names and bytes of all input files."""

    name: str
    number: str | None = None
    revision: str
    date: Day
    units: Literal["us", "si"]
    fingerprint: Fingerprint
    stage: StageRecord | None = None


class RuleSetRecord(Described):
    rule_set: str
    title: str
    edition: str
    status: str
    jurisdiction: str


class SpecimenText(Described):
    """A row of a set: its result, what decides whether it counts, and why adopted rules set it `aside`."""

    specimen: str
    result: ValueRecord | None = None
    shape: str = ""
    dried: str = ""
    cast: str = ""
    tested: str = ""
    aside: list[str] = Field(default_factory=no_items)


class TestSetText(Described):
    """A set of specimens as it was issued."""

    set: str
    mix: str
    kind: Literal["compression", "rupture", "shrinkage"]
    specimens: list[SpecimenText]


class DescribedThen(Described):
    """What the project described: of walls, openings, parts, mixes and sets, by mark, the fields as written, by
    their path; and the specimens of each set."""

    things: dict[str, dict[str, dict[str, str]]]
    test_sets: list[TestSetText]


class FindingsRecord(Described):
    """The result of a check. Kept of what is issued: `described`, and `inputs`, the values the user stated by their
    path; a measure's `number` is in SI. Records of earlier versions have neither."""

    project: HeadRecord
    rule_sets: list[RuleSetRecord]
    tally: dict[OutcomeWord, int]
    findings: list[FindingRecord]
    limits: list[LimitRecord]
    warnings: list[str] = Field(default_factory=no_items)
    inputs: dict[str, ValueRecord] | None = None
    described: DescribedThen | None = None


class IssuedHead(Described):
    """The beginning of a record of what was issued: all that a check needs of it. A record of an earlier version has
    no description and no digest of its beginning."""

    issue: int = Field(ge=1)
    follows: str | None = None
    project: HeadRecord
    described: DescribedThen | None = None
    head_digest: Fingerprint | None = None


class IssuedRecord(FindingsRecord):
    """What was issued under a revision, without worked lines and what the rules say. `issue` counts from 1; `follows`
    is the revision issued before it. Its date is that of the project. `digest` is `record_digest` of all
    else: a slip or a change by hand shows, though not one by somebody who works the digest out anew."""

    issue: int = Field(ge=1)
    follows: str | None = None
    head_digest: Fingerprint | None = None
    digest: Fingerprint


HEAD_NAMES = ("issue", "follows", "project", "described", "head_digest")
"""How a record begins."""


def head_digest(data: Mapping[str, Any]) -> str:
    """The SHA-256 of the beginning of a record as data, without its own digest."""
    return _digest({name: data.get(name) for name in HEAD_NAMES[:-1]})


def record_digest(data: Mapping[str, Any]) -> str:
    """The SHA-256 of a record as data, without its own digest, whatever the order of its names."""
    return _digest({name: value for name, value in data.items() if name != "digest"})


def _digest(data: Mapping[str, Any]) -> str:
    text = json.dumps(data, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8")).hexdigest()
