"""Rows of a lab table judged by a rule about tests: which specimens count, what governs, and what comes out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path

from pydantic import Field

from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Fact, known, lacking
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.findings import Finding
from compliance.judging.context import Context
from compliance.judging.examples import filled_in
from compliance.judging.prepared import prepare
from compliance.judging.test_sets import judge_test
from compliance.model.base import Described
from compliance.model.lab import Lab
from compliance.model.materials import TestSet
from compliance.model.people import Jurisdiction, ProjectHead
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.rules.limit_values import plain_value
from compliance.rules.rule_set import Limit, Plain, Rule
from compliance.rules.schema import ExampleText
from compliance.rules.tables import Table
from compliance.units import Writer
from tests.rule_changes import moved, table_changes

LISTED = Path(__file__).with_name("specimen_cases.yaml")
_CAST = date(2026, 1, 1)
_SIDE, _FORM = 0.1, 1.0
_WORDS = {"shapes": ("cube", "prism", "cylinder", "bar"), "dried": ("air", "oven")}
_SIMPLE = ("lowest", "highest", "mean")
"""Statistics without parameters."""


class Row(Described):
    """A specimen, or `times` of them. `result` is its strength or its shrinkage."""

    result: str
    times: int = 1
    shape: str | None = "cube"
    dried: str | None = "air"
    ratio: float = 1.0


class SpecimenCase(ExampleText):
    """`result` is what governs, worked by hand; none where the case gives no result."""

    rule: str
    name: str
    rows: list[Row] = Field(min_length=1)
    result: str | None = None


class SpecimenCases(Described):
    cases: list[SpecimenCase]


@cache
def specimen_cases() -> dict[str, list[SpecimenCase]]:
    """By rule set and rule, as `cob-irc-2021-au/shrinkage`."""
    found: dict[str, list[SpecimenCase]] = {}
    for case in SpecimenCases.model_validate(read_yaml(LISTED, LISTED.name)).cases:
        found.setdefault(case.rule, []).append(case)
    return found


def judged(rule: Rule, case: SpecimenCase) -> Finding:
    """The finding of the rule, as it is, for the one set of the case. Open limits are filled in beforehand."""
    assert rule.test is not None
    subjects = _subjects(case)
    specimens = {"S": list(_specimens(rule.test.of, case.rows))}
    project = Project.model_construct(
        project=ProjectHead(name="case", date=_CAST),
        jurisdiction=Jurisdiction(name="case", rule_sets=[rule.rule_set]),
        walls={},
        lab=Lab(),
        test_sets={"S": TestSet.model_validate({"kind": rule.test.of, "mix": "M"})},
    )
    facts = Facts({"set": {"S": subjects["set"]}, "mix": {"M": subjects["mix"]}})
    context = Context(project, facts=facts, specimens=specimens, where=lambda _: Place("case"), writer=Writer("si"))
    (found,) = judge_test(context, prepare(rule), subjects["mix"])
    return found


def filled(rule: Rule, case: SpecimenCase) -> Rule:
    return filled_in(rule, case)


def _subjects(case: SpecimenCase) -> dict[str, Subject]:
    facts: dict[str, dict[str, Fact]] = {}
    for name, spec in FACTS.items():
        raw = case.given.get(name)
        facts.setdefault(spec.about, {})[name] = (
            lacking((spec.about, name)) if raw is None else known(_value(name, raw))
        )
    marks = {"set": "S", "mix": "M"}
    subjects = {about: Subject(about, marks.get(about, ""), (about,), of) for about, of in facts.items()}
    for one in subjects.values():
        one.parents = subjects
    return subjects


def _value(name: str, raw: object) -> float | str | bool:
    kind = FACTS[name].kind
    if kind == "word":
        return str(raw)
    if kind == "yes-no":
        return raw is True or raw == "yes"
    value = plain_value(raw, kind)[0]  # type: ignore[arg-type]
    assert isinstance(value, float)
    return value


def _specimens(kind: str, rows: list[Row]) -> Iterator[Specimen]:
    for number, row in enumerate(one for one in rows for _ in range(one.times)):
        value = result_of(row.result, kind)
        shrinks = kind == "shrinkage"
        yield Specimen(
            kind,
            set="S",
            mark=f"S-{number + 1}",
            mix="M",
            place=Place("case"),
            cast=_CAST,
            tested=_CAST + timedelta(days=28),  # type: ignore[arg-type]
            dried=row.dried,
            shape=row.shape,
            width=_SIDE,
            depth=_SIDE,
            height=_SIDE * row.ratio,  # type: ignore[arg-type]
            strength=None if shrinks else value,
            form_length=_FORM if shrinks else None,
            dried_length=_FORM * (1 - value) if shrinks else None,
        )


def result_of(text: str, kind: str) -> float:
    value = plain_value(text, "share" if kind == "shrinkage" else "stress")[0]
    assert isinstance(value, float)
    return value


def picking_limits(rule: Rule) -> dict[str, Limit]:
    """The limits that pick specimens or say what governs and stand in no formula."""
    assert rule.test is not None
    return {name: rule.limits[name] for name in rule.test.limit_names if name in rule.limits}


def picking_changes(rule: Rule) -> Iterator[tuple[str, Rule]]:
    """The rule with one change of what picks its specimens. What is open stays open."""
    assert rule.test is not None
    for name, limit in picking_limits(rule).items():
        words = next((_WORDS[part] for part in _WORDS if getattr(rule.test, part) == name), ())
        for says, value in _other_values(limit, words, name == rule.test.statistic):
            yield f"{name}: {says}", replace(rule, limits={**rule.limits, name: replace(limit, value=value)})
    aspect: Mapping[str, Table] = {rule.test.aspect: rule.tables[rule.test.aspect]} if rule.test.aspect else {}
    for name, table in aspect.items():
        for says, change in table_changes(table):
            yield f"{name}: {says}", replace(rule, tables={**rule.tables, name: change(table)})


def _other_values(limit: Limit, words: tuple[str, ...], governs: bool) -> Iterator[tuple[str, Plain]]:
    value = limit.value
    if governs and value is not None:
        yield from ((other, other) for other in _SIMPLE if other != value)
    elif isinstance(value, frozenset):
        yield from ((f"without {word}", value - {word}) for word in sorted(value))
        yield from ((f"with {word}", value | {word}) for word in words if word not in value)
    elif isinstance(value, bool):
        yield "the other answer", not value
    elif isinstance(value, float):
        yield from ((says, moved(value, limit.kind, sign)) for says, sign in (("higher", 1), ("lower", -1)))
