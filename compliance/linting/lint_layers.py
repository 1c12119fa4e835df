"""Each rule of a file by itself, through all layers: its form, its limits and formulas, its examples.

A rule that is wrong in its form is mended as far as that does not touch what the next layers look at, so that an
author sees all that is wrong with it at once, and not one layer after another.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import ValidationError

from compliance.linting.lint_rule import lint_rule
from compliance.problems import Place, Problem
from compliance.reading.rule_files.question_list import read_questions
from compliance.reading.yaml.placed import PlacedDict, PlacedList, place_of
from compliance.rules.compiling import compile_rule
from compliance.rules.question import ListedQuestion
from compliance.rules.schema import OPEN, RuleText

_PLACEHOLDERS = {"id": "a-rule", "title": "a rule", "clause": "a clause", "say": "what it says"}
"""For what every rule needs and no later layer looks at."""
_FORMS_LIMITS = ("limits", "tables")


def lint_each_rule(tree: PlacedDict) -> list[Problem]:
    """What is wrong with the rules of a file from their limits on; what is wrong with the form of a rule is told by
    who reads the whole file."""
    rules, questions = tree.get("rules"), read_questions()
    found: list[Problem] = []
    for index, rule in enumerate(rules if isinstance(rules, PlacedList) else ()):
        if isinstance(rule, PlacedDict):
            found += _lint(rule, index=index, tree=tree, questions=questions)
    return found


def _lint(rule: PlacedDict, index: int, tree: PlacedDict, questions: Mapping[str, ListedQuestion]) -> Iterator[Problem]:
    text, dropped = _readable(rule)
    if text is None:
        return
    problems: list[Problem] = []

    def placed(loc: tuple[str | int, ...]) -> Place:
        return place_of(tree, loc)

    compiled = compile_rule(text, rule_set="", path=("rules", index), placed=placed, problems=problems)
    yield from problems
    if compiled is not None and "examples" not in dropped:
        yield from lint_rule(compiled, index, tree, questions)


def _readable(rule: PlacedDict) -> tuple[RuleText | None, frozenset[str]]:
    """The rule, mended in its form where that can be done, with the fields that were left out for it."""
    try:
        return RuleText.model_validate(rule), frozenset()
    except ValidationError as error:
        mended: dict[str, Any] = dict(rule)
        places = [one["loc"] for one in error.errors(include_url=False, include_context=False)]
    for loc in places:
        if not _mend(mended, loc):
            return None, frozenset()
    try:
        return RuleText.model_validate(mended), frozenset(rule) - frozenset(mended)
    except ValidationError:
        return None, frozenset()


def _mend(rule: dict[str, Any], loc: tuple[str | int, ...]) -> bool:
    """Leaves out or replaces what is wrong at `loc`; whether that can be done."""
    if not loc:
        return _mend_whole(rule)
    field = str(loc[0])
    if field in _PLACEHOLDERS:
        rule[field] = _PLACEHOLDERS[field]
        return True
    if field == "limits" and len(loc) > 1:
        known = _known_limit(rule["limits"].get(loc[1])) if isinstance(rule["limits"], dict) else None
        if known is not None:
            rule["limits"] = {**rule["limits"], loc[1]: known}
        return known is not None
    if field in (*_FORMS_LIMITS, "check", "when", "test", "covers", "about"):
        return False
    rule.pop(field, None)
    return True


def _mend_whole(rule: dict[str, Any]) -> bool:
    """A person's answer and a point of inspection want a standing and a source of their own."""
    if "attest" not in rule and "inspect" not in rule:
        return False
    rule.update(standing="recalled", source="none")
    return True


def _known_limit(limit: object) -> dict[str, Any] | None:
    """A limit of the same value or kind that is sound in its form; None where it has neither."""
    if not isinstance(limit, Mapping):
        return None
    value, kind = limit.get("value"), limit.get("kind")
    if value is None or isinstance(value, (dict, PlacedDict)):
        return None
    known = {"value": value, "standing": "recalled"} if value != OPEN else {"value": OPEN, "standing": OPEN}
    if kind is None and value == OPEN:
        return None
    return known | ({"kind": kind} if kind is not None else {})
