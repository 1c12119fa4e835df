"""Checks of many projects as JSON, a line for each: its findings, its problems, or that the check failed."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from compliance.checked import Checked
from compliance.exit_codes import ExitCode, exit_code_of_check
from compliance.problems import Problem
from compliance.report.revisions.findings_data import as_data

_MOST_NAMED = 10


def checked_line(name: str, checked: Checked) -> str:
    """`result` is what a check of this project alone gives as JSON."""
    return _line(name, exit_code_of_check(checked.all_meet), "result", as_data(checked))


def problems_line(name: str, problems: Iterable[Problem]) -> str:
    """Every problem with its place; nothing is judged."""
    problem_lines = [
        {
            "file": one.place.file, "line": one.place.line, "column": one.place.column, "code": one.code,
            "wrong": one.wrong, "instead": one.instead,
        }
        for one in problems
    ]  # fmt: skip
    return _line(name, ExitCode.ERROR, "problems", problem_lines)


def failed_line(name: str, why: str) -> str:
    """The check itself did not come to an end: a fault of the tool, or of the machine."""
    return _line(name, ExitCode.ERROR, "failed", why)


def _line(name: str, code: int, key: str, what: Any) -> str:
    return json.dumps({"folder": name, "code": int(code), key: what}, ensure_ascii=False) + "\n"


def tally_of(codes: Sequence[int], none: Sequence[str]) -> str:
    """How many projects meet everything, do not, and could not be judged; the folders that hold no project."""
    met, unmet, failed = (codes.count(code) for code in (ExitCode.OK, ExitCode.NOT_MET, ExitCode.ERROR))
    counted = (
        f"{len(codes)} {'project' if len(codes) == 1 else 'projects'}: {met} where everything meets, "
        f"{unmet} where something does not, {failed} not judged"
    )
    if not none:
        return counted
    more = f" and {len(none) - _MOST_NAMED} more" if len(none) > _MOST_NAMED else ""
    return f"{counted}\nwithout a project.yaml, left out: {', '.join(none[:_MOST_NAMED])}{more}"
