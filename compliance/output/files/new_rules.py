"""Begins a rule set or an amendment file from the template that ships."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from compliance.files.atomic_files import write_whole
from compliance.files.shipped import shipped
from compliance.schemas import shipped_schema

AMENDMENT_SCHEMA = "amendment.schema.json"
SCHEMAS = {"county.yaml": "rule-set.schema.json", "amendments.yaml": AMENDMENT_SCHEMA}


def shipped_amendments() -> tuple[str, ...]:
    """The names of the amendments that ship, one for what a state changes in a model code."""
    return tuple(sorted(path.stem for path in (shipped("rulesets") / "amendments").glob("*.yaml")))


def write_template(target: Path, template: str) -> None:
    """Writes the template (a key of SCHEMAS) to `target`, and beside it the schema that its first line names, where the
    folder does not hold it yet. Raises OSError, also where there is a file already."""
    text = (shipped("rulesets") / "templates" / template).read_text(encoding="utf-8").replace(template, target.name)
    _write(target, text, SCHEMAS[template])


def write_shipped_amendment(target: Path, name: str) -> None:
    """The same for one of `shipped_amendments`."""
    text = (shipped("rulesets") / "amendments" / f"{name}.yaml").read_text(encoding="utf-8")
    _write(target, text, AMENDMENT_SCHEMA)


def _write(target: Path, text: str, schema_name: str) -> None:
    first, _, rest = text.partition("\n")
    schema = Path("schemas") / schema_name
    rest = f"{first.partition('=')[0]}={schema.as_posix()}\n{rest}"
    if target.exists() or target.is_symlink():
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target))
    write_whole(target, rest.encode("utf-8"))
    beside = target.parent / schema
    if not beside.exists():
        beside.parent.mkdir(exist_ok=True)
        write_whole(beside, shipped_schema(schema_name).encode("utf-8"))
