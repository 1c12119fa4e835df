"""A project as three files that read like a form: what is known filled in, all else a blank line that says what it
takes."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from compliance.model.base import Described
from compliance.reading.yaml.scalars import plain_scalar
from compliance.refused import RefusedError
from compliance.start.project_files.field_help import takes
from compliance.start.project_files.project_sections import Tree

_HINT_COLUMN = 34
_PLAIN = re.compile(r"[A-Za-z0-9(][\w .,/'°%()²³+·-]*")
_PARTING = re.compile(r"[,\[\]{}]")


def scalar(text: str) -> str:
    """A text as YAML takes it: plain where it reads back the same or is a number, in double quotes elsewhere."""
    if re.fullmatch(r"(0|[1-9][0-9]{0,8})(\.[0-9]{1,9})?", text):
        return text
    try:
        safe = _PLAIN.fullmatch(text) and not text.endswith(" ") and plain_scalar(text) == text
    except RefusedError:
        safe = False
    return text if safe else json.dumps(text, ensure_ascii=False)


def flow(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{name}: {_within(one)}" for name, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_within, value)) + "]"
    return scalar(str(value))


def _within(value: Any) -> str:
    """A value between brackets or braces, where a comma parts."""
    if isinstance(value, (Mapping, list)):
        return flow(value)
    text = scalar(str(value))
    return json.dumps(str(value), ensure_ascii=False) if _PARTING.search(text) and text[0] != '"' else text


class Form:
    """Writes records field by field in the order of the model. `hints` say more of a field than what it takes."""

    def __init__(self, units: str, hints: Mapping[str, str]) -> None:
        self._units, self._hints = units, hints

    def record(
        self, model: type[Described], given: Tree, indent: int, section: str, only: Sequence[str] = ()
    ) -> list[str]:
        """The fields of a record, those not given as blanks; of these only some where `only` names them."""
        lines = []
        for name, field in model.model_fields.items():
            wording = field.alias or name
            if wording in given:
                lines.append(f"{' ' * indent}{wording}: {flow(given[wording])}")
            elif not only or wording in only:
                lines.append(" " * indent + "# " + self.blank(model, name, indent, section))
        return lines

    def blank(self, model: type[Described], name: str, indent: int, section: str) -> str:
        """A field left open, and what it takes behind a #."""
        more = self._hints.get(f"{section}.{name}", "")
        what = takes(model, name, self._units)
        head = f"{model.model_fields[name].alias or name}:"
        enough = what in ("some words", "a list", "a mark") or what.startswith("in braces") or "for example" in more
        says = what if not more else more if enough else f"{more}; {what}"
        return f"{head:<{_HINT_COLUMN - indent}} # {says}"

    def named(self, section: str, model: type[Described], given: Tree, sample: str) -> list[str]:
        """A section of named records; where there is none, a sample of one behind #."""
        if given:
            lines = [f"{section}:"]
            for mark, record in given.items():
                lines += [f"  {mark}:", *self.record(model, record, 4, section)]
            return lines
        blanks = [f"#     {self.blank(model, name, 4, section)}" for name in model.model_fields]
        return [f"# {section}:", f"#   {sample}:", *blanks]

    def listed(self, section: str, model: type[Described]) -> list[str]:
        """A sample of a list of records, behind #."""
        first, *rest = (self.blank(model, name, 4, section) for name in model.model_fields)
        return [f"# {section}:", f"#   - {first}", *(f"#     {line}" for line in rest)]
