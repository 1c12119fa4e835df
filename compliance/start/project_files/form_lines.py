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
from compliance.start.project_files.blank_values import BlankValues
from compliance.start.project_files.field_help import is_yes_or_no, words_of
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
    """Writes records field by field in the order of the model. `values` suggests what a blank could hold, `hints` say
    more of a field than its words.

    A line that begins with `#` and a space is a blank and reads as it stands when these two are taken away; one that
    begins with `##` is a note: what it shows names something that is not described yet.
    """

    def __init__(self, values: BlankValues, hints: Mapping[str, str]) -> None:
        self._values, self._hints = values, hints

    def record(
        self, model: type[Described], given: Tree, indent: int, section: str, only: Sequence[str] = ()
    ) -> list[str]:
        """The fields of a record, those not given as blanks; of these only some where `only` names them."""
        lines = []
        for name, field in model.model_fields.items():
            wording = field.alias or name
            if wording in given:
                lines.append(f"{' ' * indent}{wording}: {flow(given[wording])}")
            elif (not only or wording in only) and not _stands_otherwise(wording, given):
                sign, text = self._blank(model, name, indent, section)
                lines.append(f"{' ' * indent}{sign} {text}")
        return lines

    def _blank(self, model: type[Described], name: str, indent: int, section: str) -> tuple[str, str]:
        """`#` and a field with the value suggested for it, or `##` where that does not read yet; behind another # what
        the field takes."""
        value = self._values.of(section, model, name)
        words = words_of(model, name)
        own = section if f"{section}.{name}" in self._hints else _LIKE.get(section, section)
        parts = [self._hints.get(f"{own}.{name}", "")]
        parts.append(f"one of: {', '.join(words)}" if words else "yes or no" if is_yes_or_no(model, name) else "")
        parts.append("needed" if model.model_fields[name].is_required() else "")
        says = "; ".join(part for part in parts if part)
        line = f"{model.model_fields[name].alias or name}: {_as_written(value.text)}"
        return "#" if value.ready else "##", f"{line:<{_HINT_COLUMN - indent}} # {says}" if says else line

    def named(self, section: str, model: type[Described], given: Tree, sample: str) -> list[str]:
        """A section of named records; where there is none, a sample of one behind #."""
        if given:
            lines = [f"{section}:"]
            for mark, record in given.items():
                of = "aggregates" if record.get("material") in ("sand", "gravel") else section
                lines += [f"  {mark}:", *self.record(model, record, 4, of)]
            return lines
        return self._sample(section, model, [f"{section}:", f"  {sample}:"], "    ")

    def listed(self, section: str, model: type[Described]) -> list[str]:
        """A sample of a list of records, behind #."""
        first, *rest = self._sample(section, model, [f"{section}:"], "    ")
        return [first, rest[0].replace("     ", "   - ", 1), *rest[1:]]

    def _sample(self, section: str, model: type[Described], heads: list[str], indent: str) -> list[str]:
        """A record that nobody has begun: a blank as a whole, or a note as a whole where a field that it needs does not
        read yet."""
        fields = model.model_fields
        blanks = [
            (name, *self._blank(model, name, len(indent), section))
            for name in fields
            if not _stands_otherwise(name, fields if "thickness" in fields else {}, name)
        ]
        lacks = any(sign == "##" for name, sign, _ in blanks if fields[name].is_required())
        lines = [f"{'##' if lacks else '#'} {head}" for head in heads]
        return [*lines, *(f"{'##' if lacks else sign} {indent}{text}" for _, sign, text in blanks)]

    def head(self, section: str, model: type[Described], given: Tree) -> list[str]:
        """A section that is one record; behind # as a whole while nothing in it is known."""
        if given:
            return [f"{section}:", *self.record(model, given, 2, section)]
        lines = []
        for name in model.model_fields:
            sign, text = self._blank(model, name, 2, section)
            lines.append(f"{sign}   {text}")
        return [f"# {section}:", *lines]


_LIKE = {"aggregates": "soils"}
_OTHERWISE: tuple[tuple[frozenset[str], frozenset[str]], ...] = (
    (frozenset({"thickness"}), frozenset({"thickness_base", "thickness_top"})),
    (frozenset({"thickness_base", "thickness_top"}), frozenset({"thickness", "thickness_base", "thickness_top"})),
    (frozenset({"run", "arc"}), frozenset({"run", "arc"})),
    (frozenset({"type"}), frozenset({"type"})),
)
"""Where one of the first is names, the second are not suggested: they say the same in another way."""


def _stands_otherwise(name: str, given: Mapping[str, Any], itself: str = "") -> bool:
    return any(
        name in others and any(one in given for one in names if one != itself) for names, others in _OTHERWISE
    )  # fmt: skip


def _as_written(text: str) -> str:
    """A suggested value as YAML: what is in brackets or braces as it stands, all else as a scalar."""
    return text if text[:1] in ("{", "[") else scalar(text)
