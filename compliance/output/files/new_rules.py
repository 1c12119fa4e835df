"""Begins a rule set or an amendment file from the template that ships."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from compliance.files.atomic_files import write_whole
from compliance.files.shipped import shipped
from compliance.schemas import schema_text

SCHEMAS = {"county.yaml": "rule-set.schema.json", "amendments.yaml": "amendment.schema.json"}


def write_template(target: Path, template: str) -> None:
    """Writes the template (a key of SCHEMAS) to `target`, and beside it the schema that its first line names, where the
    folder does not hold it yet. Raises OSError, also where there is a file already."""
    first, _, rest = (shipped("rulesets") / "templates" / template).read_text(encoding="utf-8").partition("\n")
    schema = Path("schemas") / SCHEMAS[template]
    rest = f"{first.partition('=')[0]}={schema.as_posix()}\n{rest.replace(template, target.name)}"
    if target.exists() or target.is_symlink():
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target))
    write_whole(target, rest.encode("utf-8"))
    beside = target.parent / schema
    if not beside.exists():
        beside.parent.mkdir(exist_ok=True)
        write_whole(beside, schema_text(SCHEMAS[template]).encode("utf-8"))
