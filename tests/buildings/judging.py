"""A building of the corpus checked, and what must be found in it looked for."""

from __future__ import annotations

import tempfile
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from compliance.checking import check_folder
from compliance.judging.reasons import GivesWay
from compliance.problems import ProblemsFound
from tests.buildings.laying_out import lay_out
from tests.buildings.reading import KINDS, Building, Sought, list_buildings
from tests.sentences import sentence


@dataclass(frozen=True)
class FoundFinding:
    """A finding, as far as the corpus needs it: SET/RULE, subject, outcome and the share of the limit that is left;
    `decided_by` is the SET/RULE that decides the same question in its place."""

    rule: str
    subject: str
    outcome: str
    margin: float | None
    reason: str
    decided_by: str = ""


@dataclass(frozen=True)
class Result:
    """What a check says of a building: findings and warnings, or the problems that keep it from being judged."""

    building: Building
    findings: tuple[FoundFinding, ...] = ()
    warnings: tuple[str, ...] = ()
    problems: Mapping[str, str] = field(default_factory=dict)
    crash: str = ""

    def has(self, sought: Sought) -> bool:
        if sought.kind == "problem":
            return sought.name in self.problems
        if sought.kind == "warning":
            return sought.name in self.warnings
        return any(
            one.rule == sought.name and sought.about in ("", one.subject) and self._names(one, sought.outcomes)
            for one in self.findings
        )

    def _names(self, found: FoundFinding, outcomes: Collection[str]) -> bool:
        """Whether a finding names a danger itself, or the one that decides the same question about the same subject."""
        if found.outcome in outcomes:
            return True
        return any(
            (one.rule, one.subject) == (found.decided_by, found.subject) and self._names(one, outcomes)
            for one in self.findings
        )

    @property
    def misses(self) -> tuple[Sought, ...]:
        """What is not found though it must be; of a variant whose danger is gone, what is found all the same."""
        wanted = self.building.expect == "found"
        return tuple(sought for sought in self.building.must_find if self.has(sought) is not wanted)

    @property
    def unwanted_problems(self) -> list[str]:
        """Codes of the problems that the building is not there to show."""
        wanted = {sought.name for sought in self.building.must_find if sought.kind == "problem"}
        return sorted(set(self.problems) - wanted)

    @property
    def alarms(self) -> dict[str, list[str]]:
        """Subjects of the engineer findings by rule."""
        return self._by_rule("engineer")

    @property
    def unexplained(self) -> dict[str, list[str]]:
        """Those whose rule the building does not explain, and each explanation that nothing needs."""
        explained = self.building.explained
        found = {rule: subjects for rule, subjects in self.alarms.items() if rule not in explained}
        return found | {rule: ["explained, but not found"] for rule in explained if rule not in self.alarms}

    @property
    def revisions(self) -> dict[str, list[str]]:
        """Subjects of the findings to revise by rule, of the sets about structure."""
        found = self._by_rule("revise")
        return {rule: subjects for rule, subjects in found.items() if rule.partition("/")[0] in STRUCTURAL}

    def _by_rule(self, outcome: str) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for one in self.findings:
            if one.outcome == outcome:
                found.setdefault(one.rule, []).append(one.subject)
        return {rule: sorted(subjects) for rule, subjects in sorted(found.items())}

    @property
    def lacking(self) -> list[str]:
        """Rules of the sets about structure that lack a value. Of a building described in full there are none."""
        return sorted({f"{one.rule} {one.subject}" for one in self.findings
                       if one.outcome == "missing" and one.rule.partition("/")[0] in STRUCTURAL})  # fmt: skip

    def worst_margin(self, rule: str) -> float:
        """The least share of its limit that a rule leaves anywhere in the building; raises ValueError without one."""
        return min(one.margin for one in self.findings if one.rule == rule and one.margin is not None)


STRUCTURAL = ("structural-screening", "engineers-list")


def check_building(building: Building) -> Result:
    """Lays a building out in a temporary folder and checks it."""
    with tempfile.TemporaryDirectory() as folder:
        try:
            checked = check_folder(lay_out(building, Path(folder) / "building"))
        except ProblemsFound as found:
            return Result(building, problems={one.code: str(one) for one in found.problems})
        except (ArithmeticError, AssertionError, LookupError, TypeError, ValueError) as error:
            return Result(building, crash=f"{type(error).__name__}: {error}")
    findings = tuple(
        FoundFinding(
            f"{one.rule_set}/{one.rule}",
            subject=one.subject,
            outcome=one.outcome.value,
            margin=one.margin,
            reason=sentence(one),
            decided_by=f"{decisive.rule_set}/{decisive.rule}" if isinstance(decisive := one.reason, GivesWay) else "",
        )
        for one in checked.findings
    )
    return Result(building, findings, tuple(one.code for one in checked.warnings))


def check_corpus() -> tuple[Result, ...]:
    """Every building of the corpus and its variants, checked one after the other."""
    return tuple(check_building(building) for kind in KINDS for building in list_buildings(kind))


def order_breaks(results: Sequence[Result]) -> dict[str, str]:
    """The buildings that do not come off better than those they are said to be milder than.

    By the rule named: the least margin it leaves on the milder one is to lie above that on the other."""
    found = {one.building.mark: one for one in results}
    broken = {}
    for one in results:
        for worse, rule in one.building.milder_than.items():
            ours, theirs = one.worst_margin(rule), found[worse].worst_margin(rule)
            if not ours > theirs:
                broken[one.building.mark] = f"{rule} leaves {ours:.3f} here and {theirs:.3f} in {worse}"
    return broken
