"""Synthetic checked projects for the document tests: plain numbers, every outcome, any number of walls."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Any

from compliance.checked import Checked
from compliance.facts.derive import derive
from compliance.findings import Finding, Lack, LimitUsed, Missing, Outcome, Standing
from compliance.judging.questions import Question
from compliance.judging.reasons import RuleSays
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place, Problem
from compliance.reading.reference_files.all_references import read_references
from compliance.reading.reference_files.load_tables import read_action_tables
from compliance.rules.amending import AmendmentRecord
from compliance.rules.rule_set import Rule, RuleSet
from compliance.steps import Given, Step
from tests.support_rules import RULES as SUPPORTS

PLACE = Place("project.yaml", 12, 3)
INCH = 0.0254
OUTCOMES = (Outcome.MEETS, Outcome.REVISE, Outcome.ENGINEER, Outcome.MISSING, Outcome.CONFIRM, Outcome.NOT_APPLICABLE)


def project(walls: int = 6, **head: Any) -> Project:
    """A row of walls of 16 in, each with a window."""
    return Project.model_validate(
        {
            "project": {
                "name": "Row of walls", "number": "T-1", "revision": "B", "date": "2026-05-14", "units": "us",
                "address": "1 Test Lane", **head,
            },
            "people": {"owner": {"name": "Zoë Müller-Łukasz"}, "engineer": {"name": "E. Ngineer", "licence": "00000"}},
            "jurisdiction": {"name": "Test County", "rule_sets": ["test-rules"]},
            "soils": {"S1": {"name": "Pit soil", "clay": "22 %", "sand": "60 %", "depth": "4 ft"}},
            "mixes": {"M1": {"name": "Site mix", "parts": {"S1": 2.0, "sand": 1.0}, "straw": "wheat"}},
            "test_sets": {"C1": {"kind": "compression", "mix": "M1", "made_by": "the builder"}},
            "stems": {"ST1": {"material": "concrete", "thickness": "16 in", "above_grade": "9 in"}},
            "footings": {"F1": {"kind": "concrete", "width": "20 in"}},
            "roofs": {"R1": {"kind": "framed", "overhang": "24 in", "bears_on": [{"wall": "W1"}]}},
            "walls": {
                f"W{number}": {
                    "run": {"from": [f"{20 * number} ft", "0 ft"], "to": [f"{20 * number + 12} ft", "0 ft"]},
                    "height": "8 ft", "thickness": "16 in", "mix": "M1", "bears_load": "yes", "stem": "ST1",
                    "openings": {
                        "A": {"kind": "window", "start": "4 ft", "width": "3 ft", "height": "3 ft", "sill": "3 ft"}
                    },
                }
                for number in range(1, walls + 1)
            },
        }
    )  # fmt: skip


def specimens() -> list[Specimen]:
    """Five cubes of 4 in: loads of 2,000 lbf and 100 more each, so 125 psi and 6.25 psi more each."""
    lbf = 4.4482216152605
    return [
        Specimen(
            "compression",
            set="C1",
            mark=f"C1-{index + 1}",
            mix="M1",
            place=Place("lab/compression.csv", index + 2),
            cast=date(2026, 3, 1),
            tested=date(2026, 4, 1),
            dried="air",
            shape="cube",
            width=4 * INCH,
            depth=4 * INCH,
            height=4 * INCH,
            mass=1.8,
            peak_load=(2000 + 100 * index) * lbf,
            texts={"width": "4", "depth": "4", "height": "4", "mass": "1800", "peak_load": str(2000 + 100 * index)},
            extra={"moisture [%]": "2.1"},
            note="edge chipped" if index == 3 else "",
        )
        for index in range(5)
    ]


def limit_used(rule: str, standing: Standing = Standing.REPORTED) -> LimitUsed:
    value = None if standing is Standing.OPEN else Given("least", 10 * INCH, "thickness")
    return LimitUsed(
        "test-rules",
        rule=rule,
        name="least",
        clause="T.1",
        value=value,
        standing=standing,
        source="Synthetic source, table 1",
        note="a note",
    )


def finding(rule: str, outcome: Outcome, subject: str = "W1", about: str = "wall", **more: Any) -> Finding:
    """A finding with a value of 16 in against 10 in, and one worked line."""
    standing = Standing.OPEN if outcome is Outcome.CONFIRM else Standing.REPORTED
    wall = subject.partition(".")[0] if about in ("wall", "opening", "pier") else ""
    step = Step("Least thickness", formula="min(t_base, t_top)",
                given=(Given("t_base", 16 * INCH, "thickness"), Given("t_top", 16 * INCH, "thickness")),
                result=Given("t", 16 * INCH, "thickness"), source="from the plan")  # fmt: skip
    compared = outcome in (Outcome.MEETS, Outcome.REVISE, Outcome.ENGINEER)
    values: dict[str, Any] = {
        "value": Given("t", 16 * INCH, "thickness") if compared else None,
        "relation": ">=" if compared else "",
        "limit": Given("least", 10 * INCH, "thickness") if compared else None,
        "margin": 0.6 if compared else None,
        "remedy": f"thicken {subject}" if outcome is Outcome.REVISE else "",
        "missing": (Missing(Lack.FIELD, ("walls", subject, "method"), "project.yaml"),)
        if outcome is Outcome.MISSING
        else (),
        "limits": () if outcome is Outcome.NOT_APPLICABLE else (limit_used(rule, standing),),
        "worked": (lambda: (step,)) if compared else (lambda: ()),
        "kind": "limit",
        "title": f"Title of {rule}",
        "clause": f"T.{rule[5:]}",
        "say": f"What {rule} asks for.",
        "reason": f"reason of {rule} for {subject}",
        "source": "Synthetic source",
    }
    values |= more
    if isinstance(values["reason"], str):
        values["reason"] = RuleSays(values["reason"])
    return Finding(
        rule_set="test-rules", rule=rule, about=about, subject=subject, outcome=outcome, standing=standing, place=PLACE,
        wall=wall, **values,
    )  # fmt: skip


def rule_set(rules: int, **more: Any) -> RuleSet:
    made = tuple(
        Rule(
            "test-rules",
            id=f"rule-{number}",
            kind="limit",
            title=f"Title of rule-{number}",
            clause=f"T.{number}",
            about="wall",
            say="What it asks.",
            otherwise=Outcome.REVISE,
            place=PLACE,
        )
        for number in range(1, rules + 1)
    )
    said = {
        "title": "Rules for tests", "edition": "first", "jurisdiction": "nowhere", "material": "cob", "status": "code",
        "scope": "Walls in tests.", "source": "Synthetic source", "verify": "Read the source.", "notes": ("A note.",),
        "file": "test-rules.yaml",
    }  # fmt: skip
    return RuleSet("test-rules", rules=made, **(said | more))


def checked(
    walls: int = 6, rules: int = 8, findings: list[Finding] | None = None, with_specimens: bool = True,
    of: Project | None = None, sets: tuple[RuleSet, ...] = (), amendments: tuple[AmendmentRecord, ...] = (),
    questions: tuple[Question, ...] = (),
) -> Checked:  # fmt: skip
    """Every rule for every wall with its window, the outcomes taking turns."""
    building = of or project(walls)
    lab = {"C1": specimens()} if with_specimens else {}
    tables = partial(read_action_tables, building.project.units)
    made = findings if findings is not None else turns(list(building.walls), rules)
    warning = Problem(PLACE, "implausible", "the height of W1 is odd", "between 1 ft and 20 ft is usual", warning=True)
    return Checked(
        project=building, rule_sets=sets or (rule_set(max(rules, 1)),), amendments=amendments,
        facts=derive(building, lab, SUPPORTS, tables=tables), findings=tuple(made), questions=questions, specimens=lab,
        warnings=(warning,), fingerprint="0123456789abcdef" * 4, references=read_references(),
    )  # fmt: skip


def turns(walls: list[str], rules: int) -> list[Finding]:
    made = []
    for number in range(1, rules + 1):
        for place, wall in enumerate(walls):
            outcome = OUTCOMES[(number + place) % len(OUTCOMES)]
            made.append(finding(f"rule-{number}", outcome, wall))
            if number == 2:
                made.append(finding(f"rule-{number}", outcome, f"{wall}.A", "opening"))
        if number == 3:
            made.append(finding("rule-3", Outcome.MEETS, "M1", "mix"))
    return made
