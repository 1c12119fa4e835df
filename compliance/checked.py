"""A checked project: everything the documents are made from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from pathlib import Path

from compliance.facts.evidence.described_things import ChangedThings
from compliance.facts.evidence.gathered import NO_EVIDENCE, Evidence
from compliance.facts.geometry.subjects import Facts
from compliance.findings import Finding, Outcome
from compliance.judging.conditions.due import ReachedStage
from compliance.judging.questions import Question
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Problem
from compliance.record import record
from compliance.references import References
from compliance.rules.amending import AmendmentRecord
from compliance.rules.rule_set import RuleSet


@record
class Checked:
    """`findings` in the order of judging; `questions` are those that several rule sets answer; `fingerprint` is a
    hash of all input files; `evidence` are the records of soils, trials, mixes and sets, and the chain of each
    wall; `references` is the shipped data it was checked with (None only where findings alone are looked at);
    `inputs` are the files it was read from, which nothing may replace, `digests` their SHA-256 by name; `reached` is
    the stage it is judged at; `type_files` the file of each wall type; `changed` are the things that are not as they
    were in a revision that was issued."""

    project: Project
    rule_sets: tuple[RuleSet, ...]
    facts: Facts
    findings: tuple[Finding, ...]
    specimens: Mapping[str, Sequence[Specimen]]
    warnings: tuple[Problem, ...]
    fingerprint: str
    amendments: tuple[AmendmentRecord, ...] = ()
    questions: tuple[Question, ...] = ()
    evidence: Evidence = NO_EVIDENCE
    references: References | None = None
    inputs: frozenset[Path] = frozenset()
    digests: Mapping[str, str] = field(default_factory=dict)
    reached: ReachedStage = ReachedStage()
    type_files: Mapping[str, str] = field(default_factory=dict)
    changed: ChangedThings = field(default_factory=dict)

    @property
    def needed_references(self) -> References:
        """Raises ValueError where a project was checked without them."""
        if self.references is None:
            raise ValueError("checked without reference data")
        return self.references

    def tally(self) -> dict[Outcome, int]:
        """How many findings have each outcome, worst first, none left out."""
        counts = dict.fromkeys(Outcome, 0)
        for finding in self.findings:
            counts[finding.outcome] += 1
        return counts

    @property
    def all_meet(self) -> bool:
        """True when something meets and all else is not applicable or not due yet: a project of which nothing is
        checked does not meet, nor does one without walls, however good its earth."""
        if self.project.is_earth_only:
            return False
        outcomes = {one.outcome for one in self.findings}
        return Outcome.MEETS in outcomes and outcomes <= {Outcome.MEETS, Outcome.LATER, Outcome.NOT_APPLICABLE}
