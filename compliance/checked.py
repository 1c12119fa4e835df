"""A checked project: everything the documents are made from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from compliance.facts.subjects import Facts
from compliance.findings import Finding, Outcome
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Problem
from compliance.rules.rule_set import RuleSet


@dataclass(frozen=True)
class Checked:
    """`findings` in the order of judging; `fingerprint` is a hash of the input files."""

    project: Project
    rule_sets: tuple[RuleSet, ...]
    facts: Facts
    findings: tuple[Finding, ...]
    specimens: Mapping[str, Sequence[Specimen]]
    warnings: tuple[Problem, ...]
    fingerprint: str

    def tally(self) -> dict[Outcome, int]:
        """How many findings have each outcome, worst first, none left out."""
        counts = dict.fromkeys(Outcome, 0)
        for finding in self.findings:
            counts[finding.outcome] += 1
        return counts

    @property
    def all_meet(self) -> bool:
        """True when every finding meets or stands apart; nothing else counts as meeting."""
        return all(one.outcome in (Outcome.MEETS, Outcome.APART) for one in self.findings)
