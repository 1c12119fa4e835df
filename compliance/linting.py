"""Linting a rule-set file: everything loading checks, and what only a careful author would notice."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from compliance.findings import Outcome
from compliance.judging.examples import ExampleError, run_example
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.placed import PlacedDict, place_of
from compliance.reading.question_list import OWN, Asked, answered_about, read_questions
from compliance.reading.refused import nearest
from compliance.reading.rule_library import read_rule_set
from compliance.reading.strict_yaml import read_yaml
from compliance.rules.rule_set import Rule

_FAILS = (Outcome.REVISE, Outcome.ENGINEER)


def lint_file(path: Path) -> list[Problem]:
    """Every problem of one file, sorted. A file that cannot be read gives only those that stop it."""
    shown = path.as_posix()
    try:
        rule_set = read_rule_set(path, shown)
        tree = read_yaml(path, shown)
    except ProblemsFound as found:
        return found.problems
    own = {rule["id"]: index for index, rule in enumerate(tree.get("rules", []))}
    rules = [(rule, own[rule.id]) for rule in rule_set.rules if rule.id in own and rule.place.file == shown]
    questions = read_questions()
    return sorted(problem for rule, index in rules for problem in _lint_rule(rule, index, tree, questions))


def _lint_rule(rule: Rule, index: int, tree: PlacedDict, questions: dict[str, Asked]) -> Iterator[Problem]:
    path = ("rules", index)
    outcomes = set()
    for number, example in enumerate(rule.examples):
        place = place_of(tree, (*path, "examples", number))
        try:
            found = run_example(rule, example)
        except ExampleError as error:
            at = place_of(tree, (*path, "examples", number, *error.where))
            yield Problem(at, "example", error.wrong, error.instead)
            continue
        outcomes.add(found.outcome)
        if found.outcome is not example.outcome:
            wrong = f"the example gives {found.outcome.value}, not {example.gives}: {found.reason}"
            yield Problem(place, "example-outcome", wrong, "correct the rule or the example")
    yield from _coverage(rule, outcomes, place_of(tree, path))
    yield from _constants(rule, path, tree)
    yield from _question(rule, path, tree, questions)


def _coverage(rule: Rule, outcomes: set[Outcome], place: Place) -> Iterator[Problem]:
    """A rule shows at least one case that meets and one that does not; else nobody knows it can do either."""
    if Outcome.MEETS not in outcomes:
        yield Problem(
            place, "example-meets", f"no example of {rule.id} meets it", "add one; fill an open limit with limits:"
        )
    if not outcomes & set(_FAILS):
        yield Problem(
            place, "example-fails", f"no example of {rule.id} fails it", f"add one that gives {rule.otherwise.value}"
        )


def _constants(rule: Rule, path: tuple[str | int, ...], tree: PlacedDict) -> Iterator[Problem]:
    """Numbers compared in a formula belong under limits, with a standing and a source."""
    for name, formula in (("when", rule.when), ("check", rule.check)):
        for constant in formula.constants() if formula else ():
            if constant.compared and constant.value != 0:
                start = place_of(tree, (*path, name))
                place = Place(start.file, start.line, start.column + constant.offset)
                yield Problem(place, "formula-constant", f"the limit {constant.text} stands in the formula",
                              "give it a name, standing and source under limits:")  # fmt: skip


def _question(
    rule: Rule, path: tuple[str | int, ...], tree: PlacedDict, questions: dict[str, Asked]
) -> Iterator[Problem]:
    """A question under another name, or about another subject, is laid beside no answer to it: nothing would govern."""
    named = [(rule.question, (*path, "question"))]
    if rule.covers:
        named.append((rule.covers.question, (*path, "covers", "question")))
    for name, where in named:
        if name and name not in questions and not name.startswith(OWN):
            near = nearest(name, questions)
            hint = f"did you mean {near}? " if near else ""
            instead = f"{hint}see earthwall rules questions, or begin the name of your own with {OWN}"
            yield Problem(place_of(tree, where), "question-unknown", f"{name!r} is not in the list", instead)
    asked = questions.get(rule.question)
    if asked and asked.about != answered_about(rule):
        wrong = (
            f"{asked.id} is asked about a {asked.about}, and findings of this rule are about a {answered_about(rule)}"
        )
        yield Problem(place_of(tree, (*path, "question")), "question-subject", wrong,
                      f"take another question, or begin the name of your own with {OWN}")  # fmt: skip
