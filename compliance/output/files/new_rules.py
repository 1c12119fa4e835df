"""Begins a rule set or an amendment file from the template that ships."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from compliance.files.atomic_files import write_whole
from compliance.files.shipped import shipped

SCHEMAS = {"county.yaml": "rule-set.schema.json", "amendments.yaml": "amendment.schema.json"}


def write_template(target: Path, template: str) -> None:
    """Writes the template (a key of SCHEMAS) to `target`. Raises OSError, also where there is a file already.

    The first line, by which editors find the schema, is kept where the folder has the schema as the example project
    has, and left out elsewhere.
    """
    first, _, rest = (shipped("rulesets") / "templates" / template).read_text(encoding="utf-8").partition("\n")
    schema = Path("schemas") / SCHEMAS[template]
    if (target.parent / schema).is_file():
        rest = f"{first.partition('=')[0]}={schema.as_posix()}\n{rest}"
    rest = rest.replace(template, target.name)
    if target.exists() or target.is_symlink():
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target))
    write_whole(target, rest.encode("utf-8"))
