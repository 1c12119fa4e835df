"""Every case of the corpus: its problems and their places, and nothing else that happens.

A case is a small file under `cases/`, its problems stand in `expected.csv` beside it. Paths of problems are those
inside the project folder. What each kind of case is laid out as stands in `laying_out`.
"""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.hostile.laying_out import CASES, KINDS, PROJECT, lay_out, write
from tests.hostile.running import MOST_MEMORY, Host, Ran, listing

_RULE = (CASES / "rules" / "limit-immense.yaml").read_text("utf-8").replace("999999999999 ft", "10 ft")
_FORMULA = "wall.least_thickness >= least"
_AT = "rules.yaml:16:{column}"
_COLUMN = 12


def _expected(kind: str) -> list[dict[str, str]]:
    with (CASES / kind / "expected.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _all() -> Iterator[object]:
    for kind in KINDS:
        files = {path.stem: path for path in sorted((CASES / kind).iterdir()) if path.name != "expected.csv"}
        rows = {row["case"]: row["problems"] for row in _expected(kind)}
        assert list(files) == list(rows), f"{kind}: files and expected.csv do not hold the same cases"
        for name, path in files.items():
            yield pytest.param(kind, path, rows[name].split("; "), id=f"{kind}/{name}")


def refused(ran: Ran, expected: list[str], cwd: Path, before: dict[str, bytes | str]) -> None:
    """What holds for every case: the problems told, code 2, no trace of Python, little memory, nothing written."""
    assert not ran.traced, ran.err
    assert ran.problems == [f"p/{problem}" for problem in expected]
    assert ran.code == 2
    assert ran.out == ""
    assert ran.peak < MOST_MEMORY
    assert listing(cwd) == before


@pytest.mark.parametrize(("kind", "case", "expected"), list(_all()))
def test_case(kind: str, case: Path, expected: list[str], host: Host, tmp_path: Path) -> None:
    lay_out(kind, case, tmp_path / "p")
    before = listing(tmp_path)
    refused(host.run(["submittal", "p", "--output", "out.pdf"], tmp_path), expected, tmp_path, before)


@pytest.mark.parametrize("row", _expected("formulas"), ids=lambda row: repr(row["formula"][:50]))
def test_formula(row: dict[str, str], host: Host, tmp_path: Path) -> None:
    """A formula of a rule reaches nothing but its own names; `offset` counts characters of it from 0."""
    rules = _RULE.replace(_FORMULA, json.dumps(row["formula"], ensure_ascii=False))
    write(
        tmp_path / "p", {"project.yaml": PROJECT.replace("RULES", "rules.yaml").encode(), "rules.yaml": rules.encode()}
    )
    before = listing(tmp_path)
    ran = host.run(["submittal", "p", "--output", "out.pdf"], tmp_path)
    at = "rules.yaml:15:21" if row["code"] == "limit-unused" else _AT.format(column=_COLUMN + int(row["offset"]))
    refused(ran, [f"{at} {row['code']}"], tmp_path, before)


def test_the_ground_is_sound(host: Host, tmp_path: Path) -> None:
    """Without the slip each case is built around, a submittal is written: the cases fail for their own reason."""
    write(
        tmp_path / "p", {"project.yaml": PROJECT.replace("RULES", "rules.yaml").encode(), "rules.yaml": _RULE.encode()}
    )
    ran = host.run(["submittal", "p", "--output", "out.pdf"], tmp_path)
    assert (ran.code, ran.problems) == (0, []), ran.err
    assert (tmp_path / "out.pdf").read_bytes().startswith(b"%PDF-")


def test_there_are_enough_cases() -> None:
    assert sum(len(_expected(kind)) for kind in (*KINDS, "formulas")) >= 400
