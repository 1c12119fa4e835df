"""Linting one rule: its examples are run, and what only a careful author would notice is named."""

from __future__ import annotations

from collections.abc import Generator, Iterator, Mapping, Set

from compliance.findings import Outcome, Standing
from compliance.judging.examples import ExampleError, run_example
from compliance.problems import Place, Problem
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.refused import nearest
from compliance.report.words.missing_words import reason_text
from compliance.rules.question import OWN, ListedQuestion, answered_about
from compliance.rules.rule_set import Rule
from compliance.rules.schema import ExampleText, RuleText
from compliance.units import Writer

_WRITER = Writer("us")  # as the examples are run
_FAILS = (Outcome.REVISE, Outcome.ENGINEER)


def lint_rule(rule: Rule, index: int, tree: PlacedDict, questions: Mapping[str, ListedQuestion]) -> Iterator[Problem]:
    """`index` is the place of the rule under `rules:` of the file that `tree` holds."""
    path = ("rules", index)
    outcomes = set()
    for number, example in enumerate(rule.examples):
        outcome = yield from tried(rule, example, (*path, "examples", number), tree)
        outcomes.add(outcome)
    yield from _coverage(rule, outcomes, place_of(tree, path))
    yield from _constants(rule, path, tree)
    yield from lint_questions(rule, path, tree, questions)


def tried(
    rule: Rule, example: ExampleText, path: tuple[str | int, ...], tree: PlacedDict
) -> Generator[Problem, None, Outcome | None]:
    """Runs an example or a case; its outcome, None where it cannot be run."""
    try:
        found = run_example(rule, example)
    except ExampleError as error:
        yield Problem(place_of(tree, (*path, *error.where)), "example", error.wrong, error.instead)
        return None
    if found.outcome is not example.outcome:
        wrong = f"the example gives {found.outcome.value}, not {example.gives}: {reason_text(found, _WRITER)}"
        yield Problem(place_of(tree, path), "example-outcome", wrong, "correct the rule or the example")
    return found.outcome


def _coverage(rule: Rule, outcomes: Set[Outcome | None], place: Place) -> Iterator[Problem]:
    """A rule shows at least one case that meets and one that does not; else nobody knows it can do either. A rule
    that is itself open cannot be met: it shows one that gives `confirm`."""
    if rule.standing is Standing.OPEN:
        if Outcome.CONFIRM not in outcomes:
            wrong = f"no example of {rule.id}, which is itself open, gives confirm"
            yield Problem(place, "example-meets", wrong, "add one where its check holds or the answer is yes")
    elif Outcome.MEETS not in outcomes:
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


def lint_questions(
    rule: Rule | RuleText, path: tuple[str | int, ...], tree: PlacedDict, questions: Mapping[str, ListedQuestion]
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
    listed = questions.get(rule.question or "")
    if listed and listed.about != answered_about(rule):
        wrong = (
            f"{listed.id} is asked about a {listed.about}, and findings of this rule are about a {answered_about(rule)}"
        )
        yield Problem(place_of(tree, (*path, "question")), "question-subject", wrong,
                      f"take another question, or begin the name of your own with {OWN}")  # fmt: skip
