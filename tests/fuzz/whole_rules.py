"""Targets that read whole rule-set files and amendment files, as a check does, without touching a disk."""

from __future__ import annotations

from functools import cache

from pydantic import ValidationError

from compliance.judging.examples import ExampleError, run_example
from compliance.problems import Problem, ProblemsFound
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import place_of
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.rules.amending import amend
from compliance.rules.compiling import compile_rule_set
from compliance.rules.rule_set import RuleSet
from compliance.rules.schema import AmendmentText, RuleSetText
from tests.sentences import sentence


@cache
def _amended() -> RuleSet:
    return read_shipped("cob-practice")


def rule_set(data: bytes) -> bool:
    """A rule set compiles and its examples run, or there are problems."""
    text = data.decode("utf-8", "surrogateescape")
    try:
        tree = parse_yaml(text, "fuzz.yaml")
        try:
            read = RuleSetText.model_validate(tree)
        except ValidationError as error:
            raise ProblemsFound(problems_of(error, tree, RuleSetText)) from None
        compiled = compile_rule_set(read, "fuzz.yaml", lambda loc: place_of(tree, loc))
    except ProblemsFound as found:
        assert found.problems
        return False
    for rule in compiled.rules:
        for example in rule.examples:
            try:
                found_now = run_example(rule, example)
            except ExampleError:
                continue
            assert sentence(found_now)
            assert len([step.says for step in found_now.steps]) < 1_000
    return True


def amendments(data: bytes) -> bool:
    """Amendments are laid over a rule set, or there are problems."""
    text = data.decode("utf-8", "surrogateescape")
    problems: list[Problem] = []
    try:
        tree = parse_yaml(text, "fuzz.yaml")
        try:
            read = AmendmentText.model_validate(tree)
        except ValidationError as error:
            raise ProblemsFound(problems_of(error, tree, AmendmentText)) from None
    except ProblemsFound as found:
        assert found.problems
        return False
    (after,), records = amend([_amended()], read, lambda loc: place_of(tree, loc), problems)
    assert len(records) + len(problems) == len(read.changes) + len(read.drops)
    assert len(after.rules) >= len(_amended().rules) - len(records)
    return not problems
