"""What was issued under earlier revisions, as kept in the folder `issued` of the project."""

from __future__ import annotations

import json
from pathlib import Path

from pydantic import ValidationError

from compliance.files.safe_paths import inside
from compliance.model.issued import ISSUED_FOLDER, IssuedRecord, record_digest
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import read_text
from compliance.refused import RefusedError

_MOST_BYTES = 200_000_000
_ADVICE = "these files are written by the tool; put back the file as it was, or move it out of the folder"


def read_issued(folder: Path) -> tuple[IssuedRecord, ...]:
    """Every record in the order of issue; none where nothing was issued. Raises ProblemsFound, its files named by the
    path of the folder as given."""
    names = sorted(path.name for path in (folder / ISSUED_FOLDER).glob("*.json") if not path.name.startswith("."))
    problems: list[Problem] = []
    records: list[IssuedRecord] = []
    for name in names:
        shown = (folder / ISSUED_FOLDER / name).as_posix()
        try:
            records.append(_read(inside(folder, f"{ISSUED_FOLDER}/{name}"), shown))
        except RefusedError as refused:
            problems.append(refused.at(Place(shown)))
        except ProblemsFound as found:
            problems += found.problems
    problems += _twice(records, folder)
    if problems:
        raise ProblemsFound(problems)
    return tuple(sorted(records, key=lambda record: record.issue))


def _read(path: Path, shown: str) -> IssuedRecord:
    try:
        text = read_text(path, shown, "yaml", _MOST_BYTES)
    except ProblemsFound as found:
        raise _found(shown, found.problems[0].wrong) from None
    try:
        data = json.loads(text, parse_constant=_refuse_constant)
        record = IssuedRecord.model_validate(data)
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(map(str, first["loc"])) or "the whole file"
        raise _found(shown, f"this is no record of what was issued: {where}: {first['msg']}") from None
    except (ValueError, RecursionError) as error:
        raise _found(shown, f"this is no JSON: {error}") from None
    if record.digest != record_digest(data):
        raise _found(shown, "its digest is not that of what stands in it: the record was changed after it was issued")
    return record


def _refuse_constant(name: str) -> float:
    raise ValueError(f"{name} is no number")


def _twice(records: list[IssuedRecord], folder: Path) -> list[Problem]:
    """Two records of one revision or of one number cannot both be what was issued."""
    named = [f"revision {one.project.revision}" for one in records] + [f"number {one.issue}" for one in records]
    place = Place((folder / ISSUED_FOLDER).as_posix())
    return [
        Problem(place, "issued-record", f"two files hold {name}", _ADVICE)
        for name in dict.fromkeys(named)
        if named.count(name) > 1
    ]


def _found(shown: str, wrong: str) -> ProblemsFound:
    return ProblemsFound([Problem(Place(shown), "issued-record", wrong, _ADVICE)])
