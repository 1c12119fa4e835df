"""The case file beside a rule set."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from compliance.problems import ProblemsFound
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import PlacedDict
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.rules.case_schema import CasesText


def cases_beside(path: Path) -> Path:
    """Where the cases of the rule-set file at `path` are, if it has any."""
    return path.parent / "cases" / path.name


def read_cases(path: Path, shown: str) -> tuple[CasesText, PlacedDict]:
    """The cases and their places. Raises ProblemsFound."""
    tree = read_yaml(path, shown)
    try:
        return CasesText.model_validate(tree), tree
    except ValidationError as error:
        raise ProblemsFound(problems_of(error, tree, CasesText)) from None
