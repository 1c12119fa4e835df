"""The form of a case file: facts in, outcome out, for the rules of one rule set."""

from __future__ import annotations

from pydantic import Field

from compliance.model.base import Described, Text
from compliance.rules.schema import ExampleText, RuleId


class CaseText(ExampleText):
    """One case of a rule. `name` says in words what is tried, once for each rule."""

    rule: RuleId
    name: Text


class CasesText(Described):
    """A whole case file, which lies in `cases/` beside its rule set and bears the same name."""

    cases_of: RuleId
    cases: list[CaseText] = Field(min_length=1, max_length=10_000)
