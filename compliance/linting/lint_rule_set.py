"""Linting a rule set or an amendment file: everything loading checks, and what only a careful author would notice."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pydantic import ValidationError

from compliance.linting.lint_layers import lint_each_rule
from compliance.linting.lint_rule import tried
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.rule_files.rule_cases import cases_beside, read_cases
from compliance.reading.rule_files.rule_library import LOCAL, read_rule_set, read_shipped, shipped_rule_sets
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.record import replace
from compliance.refused import nearest
from compliance.rules.amending import amend
from compliance.rules.compiling import compile_rules
from compliance.rules.file_schema import AmendmentText
from compliance.rules.rule_set import RuleSet

_OF_AMENDMENTS = frozenset(AmendmentText.model_fields)


def lint_file(path: Path) -> list[Problem]:
    """Every problem of a rule set and of the case file beside it, or of an amendment file, sorted. What is wrong with
    one rule hides nothing of the others, nor of the rest of that rule; what is no YAML gives only what stops it."""
    shown = path.as_posix()
    try:
        tree = read_yaml(path, shown)
    except ProblemsFound as found:
        return found.problems
    if set(tree) <= _OF_AMENDMENTS:
        return sorted(_lint_amendments(path, tree))
    problems = lint_each_rule(tree)
    try:
        rule_set = read_rule_set(path, shown)
    except ProblemsFound as found:
        return sorted({*problems, *found.problems})
    return sorted([*problems, *_lint_cases(cases_beside(path), rule_set)])


def _lint_amendments(path: Path, tree: PlacedDict) -> list[Problem]:
    """Changes and drops against the rule sets they name, added rules like those of a rule set."""
    problems = lint_each_rule(tree)
    try:
        text = AmendmentText.model_validate(tree)
    except ValidationError as error:
        return [*{*problems, *problems_of(error, tree, AmendmentText)}]

    def placed(loc: tuple[str | int, ...]) -> Place:
        return place_of(tree, loc)

    named = _named(path, {one.rule_set for one in text.changes} | {one.rule_set for one in text.drops})
    of_file: list[Problem] = []
    amend(named, text, placed, of_file)
    of_file = [_unknown_set(one, tree) if one.code == "amendment-rule-set" else one for one in of_file]
    compile_rules(text.rules, LOCAL, placed, of_file)
    return [*{*problems, *of_file}]


def _unknown_set(problem: Problem, tree: PlacedDict) -> Problem:
    """What the reader of a project says of a rule set that is not adopted, in words for a file read by itself."""
    names = [one["rule_set"] for section in ("changes", "drops") for one in tree.get(section, [])]
    name = next(one for one in names if repr(one) in problem.wrong)
    near = nearest(name, shipped_rule_sets())
    instead = f"did you mean {near}?" if near else "write the name of a shipped one, or of a file beside this one"
    return replace(problem, wrong=f"there is no rule set {name!r}", instead=instead)


def _named(path: Path, names: set[str]) -> list[RuleSet]:
    """The rule sets of these names: shipped ones, and others from files beside the amendment file."""
    found = [read_shipped(name) for name in shipped_rule_sets() if name in names]
    for other in sorted(path.parent.glob("*.yaml")) if names - {one.id for one in found} else ():
        try:
            if other != path and "rule_set" in read_yaml(other, other.as_posix()):
                found.append(read_rule_set(other, other.as_posix()))
        except ProblemsFound:  # Another file of the folder; what is wrong with it is told where it is read.
            continue
    return [one for one in found if one.id in names]


def _lint_cases(path: Path, rule_set: RuleSet) -> Iterator[Problem]:
    """The case file beside a rule set, where there is one, run against its rules."""
    if not path.is_file():
        return
    try:
        cases, tree = read_cases(path, path.as_posix())
    except ProblemsFound as found:
        yield from found.problems
        return
    if cases.cases_of != rule_set.id:
        wrong = f"these are cases of {cases.cases_of}, and the rule set beside them is {rule_set.id}"
        yield Problem(place_of(tree, ("cases_of",)), "case-rule", wrong, f"write cases_of: {rule_set.id}")
    rules = {rule.id: rule for rule in rule_set.rules}
    for number, case in enumerate(cases.cases):
        if case.rule in rules:
            yield from tried(rules[case.rule], case, ("cases", number), tree)
        else:
            near = nearest(case.rule, rules)
            yield Problem(place_of(tree, ("cases", number, "rule")), "case-rule", f"there is no rule {case.rule!r}",
                          f"did you mean {near}?" if near else "write the id of a rule of this rule set")  # fmt: skip
