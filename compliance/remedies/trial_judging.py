"""Judging a changed building again: one finding, or all that the change touches."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from compliance.checked import Checked
from compliance.facts.catalogue import ABOUTS
from compliance.facts.common.fact import FieldPath
from compliance.facts.common.kept_facts import Before
from compliance.facts.derive import derive
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.facts.geometry.wall_views import wall_lines
from compliance.findings import Finding, FindingKey
from compliance.judging.conditions.due import as_judged
from compliance.judging.conditions.forms import within_forms
from compliance.judging.conditions.giving_way import RuleKey
from compliance.judging.context import Context, inspection_points
from compliance.judging.covers import judge_covers
from compliance.judging.judge import judge_one
from compliance.judging.prepared import Prepared, prepare
from compliance.model.project import Project
from compliance.problems import Place
from compliance.references import References
from compliance.remedies.affected_facts import AffectedFacts, compared_facts, is_given, is_local
from compliance.remedies.answers_in_force import DecidingAnswers
from compliance.remedies.changes import Change
from compliance.remedies.difference import Difference
from compliance.rules.rule_set import Rule
from compliance.units import Writer

if TYPE_CHECKING:
    from compliance.remedies.field_changes import ChangeOption

Changes = tuple[tuple["ChangeOption", float], ...]
"""Ways to change something, each with the value it is set to."""

_REACH = 2.0
"""How much further than its thickness a changed wall is looked for neighbours, m."""

_MOST_KEPT = 600
"""Trials that are remembered at a time."""


class ChangeTester:
    """A checked building to try changes on. Changes nothing, and remembers what it tried: many findings ask for the
    same change.

    `references` are those it was checked with.
    """

    def __init__(self, checked: Checked, references: References) -> None:
        self.checked, self.references = checked, references
        self.supports, self.gravity = references.supports, references.practice.settling.gravity
        self.writer, self.points = Writer(checked.project.project.units), inspection_points(checked.rule_sets)
        self.rules: dict[RuleKey, Rule] = {(one.id, rule.id): rule for one in checked.rule_sets for rule in one.rules}
        self._prepared: dict[RuleKey, Prepared] = {}
        self._parts: dict[str, Before] = {}
        self._whole = Before(checked.project, checked.facts)
        self._tried: dict[tuple[int, tuple[Change, ...]], Context | None] = {}
        self._touched: dict[tuple[Change, ...], tuple[Difference, ...]] = {}
        self._all_given: dict[RuleKey, bool] = {}
        self._as_checked = self._context(checked.project, checked.facts)
        self._within: Callable[[Finding], Finding] = within_forms(self._as_checked, checked.rule_sets)
        self.volume = earth(checked.project, checked.facts)
        self._before: dict[FindingKey, Finding] = {one.key: as_judged(one) for one in checked.findings}
        self._deciding = DecidingAnswers(
            checked.rule_sets, checked.project.accepted, before=self._before, judge_again=self._judged_again
        )
        self._covering = [key for key, rule in self.rules.items() if rule.covers]
        self._tests = {key: one for key, one in self._before.items() if self.rules[key[:2]].test}

    def prepared(self, key: RuleKey) -> Prepared:
        if key not in self._prepared:
            self._prepared[key] = prepare(self.rules[key])
        return self._prepared[key]

    def sound(self, project: Project, of: Before | None = None) -> bool:
        """Whether walls, openings, buttresses and what they stand on and carry still fit each other; changed from the
        part `of`, whose plan is known to be sound."""
        shaped = (of is not None and of.same_plan(project)) or self.references.plan_is_possible(project)
        return shaped and self.references.structure_is_possible(project)

    def context(self, project: Project, of: Before | None = None) -> Context:
        """The facts of a building, changed from the whole or from the part `of`."""
        building = self.checked.facts.building
        tables = building.supply if building else None
        before = of or self._whole
        facts = derive(
            project,
            specimens=self.checked.specimens,
            rules=self.supports,
            evidence=self.checked.evidence,
            tables=tables,
            before=before,
        )
        return self._context(project, facts)

    def _context(self, project: Project, facts: Facts) -> Context:
        return Context(
            project,
            facts=facts,
            specimens=self.checked.specimens,
            where=_nowhere,
            writer=self.writer,
            gravity=self.gravity,
            doubts=self.checked.evidence.doubts,
            oldest_paper=self.references.practice.plausible.oldest_paper,
            points=self.points,
            changed=self.checked.changed,
        )

    def tried(self, changes: Changes, part: Before | None = None) -> Context | None:
        """All of the building, or the part of it that `around` gave, with the changes made; None where it cannot be."""
        of = part or self._whole
        key = (id(of), _made(changes))
        if key not in self._tried:
            if len(self._tried) >= _MOST_KEPT:
                self._tried.clear()
            project: Project | None = of.project
            for option, value in changes:
                project = option.apply(project, value) if project is not None else None
            sound = project is not None and self.sound(project, of)
            self._tried[key] = self.context(project, of) if sound and project is not None else None
        return self._tried[key]

    def touched(self, changes: Changes) -> tuple[Difference, ...]:
        """Every finding of the whole building that the changes touch."""
        key = _made(changes)
        if key not in self._touched:
            context = self.tried(changes)
            self._touched[key] = self.differences(context) if context else ()
        return self._touched[key]

    def around(self, finding: Finding) -> Before:
        """The part of the building that a finding can depend on: where its rule, and all that answer the same question,
        use only what follows from the wall itself and from what meets it, that wall and those near it; else all of
        it."""
        project = self.checked.project
        subject = self.checked.facts.of(finding.about)[finding.subject]
        names = {name for key in self._asking_the_same(finding) for name in self.prepared(key).fact_names}
        if not all(is_local(name, subject) for name in names):
            return self._whole
        if finding.wall not in self._parts:
            walls = {mark: project.walls[mark] for mark in self._near(finding.wall)} if finding.wall else {}
            part = project.model_copy(update={"walls": walls, "test_sets": {}})
            self._parts[finding.wall] = Before(part, self.context(part).facts, finding.wall)
        return self._parts[finding.wall]

    def _near(self, mark: str) -> list[str]:
        """Walls that stand so close that a change could make them meet the wall, in the order of the project."""
        lines = wall_lines(self.checked.project)
        x0, y0, x1, y1 = lines[mark].line.box()
        near = []
        for name, other in lines.items():
            reach = _REACH + other.thickness + lines[mark].thickness
            a0, b0, a1, b1 = other.line.box()
            if a0 <= x1 + reach and a1 >= x0 - reach and b0 <= y1 + reach and b1 >= y0 - reach:
                near.append(name)
        return near

    def judged(self, context: Context, finding: Finding) -> Finding | None:
        """What the rule of a finding says there, or where that holds, what is in force of all answers to its question;
        None where there is no such subject. For rules that check."""
        subject = context.facts.of(finding.about).get(finding.subject)
        if subject is None:
            return None
        judged = (self._alone(context, key, subject) for key in self._asking_the_same(finding))
        return self._deciding.among([one for of_rule in judged for one in of_rule], finding.key)

    def _asking_the_same(self, finding: Finding) -> list[RuleKey]:
        rule = self.rules[finding.rule_set, finding.rule]
        same = self._deciding.asking_the_same(rule)
        return [key for key in same if not (self.rules[key].covers or self.rules[key].test)]

    def _alone(self, context: Context, key: RuleKey, subject: Subject) -> list[Finding]:
        """What one rule says of a subject, whatever decides."""
        return list(map(self._within, judge_one(context, self.prepared(key), subject)))

    def _judged_again(self, key: FindingKey) -> Finding:
        """A finding of the building as it stands, as its own rule judges it, whatever decides."""
        about, mark = key[2:]
        before = self._before[key]
        if self.rules[before.rule_set, before.rule].covers:
            return before
        again = self._alone(self._as_checked, (before.rule_set, before.rule), self.checked.facts.of(about)[mark])
        return next((one for one in again if one.key == key), before)

    def differences(self, context: Context) -> tuple[Difference, ...]:
        """Every finding that a change touches: judged anew only where a fact that the rule uses is another, and decided
        anew among all that answer the same question."""
        now, before = context.facts.subjects, self.checked.facts.subjects
        gone = {(about, mark) for about, marks in before.items() for mark in marks.keys() - now.get(about, {}).keys()}
        found = [Difference(one, None) for key, one in self._before.items() if gone and key[2:] in gone]
        affected = AffectedFacts(self.checked.facts, context.facts)
        touched = {
            one.key: (one, compared)
            for key, rule in self.rules.items() if not rule.covers
            for one, compared in self._rule(context, key, affected)
        }  # fmt: skip
        touched |= {one.key: (one, True) for one in self._coverage(context, [one for one, _ in touched.values()])}
        after = self._deciding.after({key: one for key, (one, _) in touched.items()})
        differences = {key: Difference(self._before.get(key), one) for key, one in after.items()}
        return (
            *found,
            *(one for key, one in differences.items() if one.altered or (key in touched and touched[key][1])),
        )

    def _coverage(self, context: Context, found: Sequence[Finding]) -> Iterator[Finding]:
        """Rules that rest on the findings of test rules, all judged anew where the outcome of one of those is
        another."""
        tests = {one.key: one for one in found if self.rules[one.rule_set, one.rule].test}
        touched = {key: one for key, one in tests.items() if Difference(self._before.get(key), one).altered}
        for rule in self._covering:
            prepared = self.prepared(rule)
            for mark, subject in context.facts.of("wall").items():
                old = self.checked.facts.of("wall").get(mark)
                if touched or old is None or self._changed(prepared, old, subject, context.facts):
                    chain = self.checked.evidence.chains.get(mark)
                    known = [*(self._tests | touched).values()]
                    yield self._within(
                        judge_covers(context, prepared=prepared, subject=subject, tests=known, chain=chain)
                    )

    def _rule(self, context: Context, key: RuleKey, affected: AffectedFacts) -> Iterator[tuple[Finding, bool]]:
        """What a rule says of each subject that the change touches, and whether a fact that it compares is another."""
        prepared, about = self.prepared(key), self.rules[key].about
        after = context.facts.of(about)
        touched = (
            affected.of(about, frozenset(prepared.fact_names)) if self._given(key) else self._looked_at(context, key)
        )
        for mark, changed in touched:
            compared = changed is None or bool(changed & compared_facts(prepared.rule))
            for one in self._alone(context, key, after[mark]):
                yield one, compared

    def _looked_at(self, context: Context, key: RuleKey) -> Iterator[tuple[str, set[str] | None]]:
        """Marks with the facts that are others, each of them asked for."""
        prepared, before = self.prepared(key), self.checked.facts.of(self.rules[key].about)
        for mark, subject in context.facts.of(self.rules[key].about).items():
            changed = self._changed(prepared, before[mark], subject, context.facts) if mark in before else None
            if changed is None or changed:
                yield mark, changed

    def _given(self, key: RuleKey) -> bool:
        """Whether all facts that a rule uses are given with the subjects, and none is worked out from the building or
        from tests."""
        if key not in self._all_given:
            prepared = self.prepared(key)
            subjects = self.checked.facts.of(prepared.rule.about).values()
            self._all_given[key] = not prepared.rule.test and all(
                is_given(name, one) for name in prepared.fact_names for one in subjects
            )
        return self._all_given[key]

    def _changed(self, prepared: Prepared, old: Subject, new: Subject, facts: Facts) -> set[str]:
        """The facts that the rule uses and that are no longer the same."""
        names = prepared.fact_names
        if not prepared.rule.test:
            return {name for name in names if old.fact(name) != new.fact(name)}
        of_mix = ("mix", *ABOUTS["mix"])
        own = {name for name in names if name.partition(".")[0] in of_mix and old.fact(name) != new.fact(name)}
        before = self.checked.facts.of("set")
        for mark, one in facts.of("set").items():
            own |= {name for name in one.facts if before[mark].facts[name] != one.facts[name]}
        return own


def tester_for(checked: Checked) -> ChangeTester:
    """With the references it was checked with; tables of loads come with the facts."""
    return ChangeTester(checked, checked.needed_references)


def _made(changes: Changes) -> tuple[Change, ...]:
    return tuple(option.change(value) for option, value in changes)


def _nowhere(path: FieldPath) -> Place:
    return Place("")


def earth(project: Project, facts: Facts) -> float:
    """Earth in walls and buttresses, m³."""
    walls = [one.facts["wall.volume"].value for one in facts.of("wall").values()]
    buttresses = (one.projection.si * one.width.si * one.height.si for one in project.buttresses.values())
    return sum(value for value in walls if isinstance(value, float)) + sum(buttresses)
