"""One value of a YAML text changed, added or taken away in its place; comments, order and form of all else stay.

A text is cut and put together at offsets, read again, and compared with the tree that was wanted. What does not read
as wanted is refused, and the text stays as it was.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

from compliance.editing.file_entries import line_end_of
from compliance.editing.yaml_nodes import Node, nodes_of
from compliance.editing.yaml_values import alike, applied, block_lines, entry_lines, flow_text, nested, plain_copy
from compliance.problems import ProblemsFound
from compliance.reading.yaml.strict_yaml import parse_yaml

Path = Sequence[str | int]
Change = Callable[[str, Path, Any], str]
_MARK = "\ufeff"
_BLANKS = r"(?:\r?\n##?(?: .*)?)+"
"""Lines that are blanks or notes of a form."""


class SpliceError(ValueError):
    """Why a text cannot be changed in its place; the message says what to do instead."""


def spliced(text: str, path: Path, value: Any) -> str:
    """`text` with `value` at `path`: texts, numbers, yes or no, or mappings and lists of them. A number one beyond the
    last of a list adds an entry. Raises SpliceError, and ProblemsFound where the text itself does not read."""
    return _checked(text, path, value, _put)


def removed(text: str, path: Path) -> str:
    """`text` without the entry at `path`. Raises as `spliced` does."""
    return _checked(text, path, None, lambda bare, path, value: _without(bare, path))


def _checked(text: str, path: Path, value: Any, change: Change) -> str:
    bare = text.removeprefix(_MARK)
    mark = text[: len(text) - len(bare)]
    before = _tree(bare)
    named = ".".join(map(str, path))
    if not path:
        raise SpliceError("nothing is named to change")
    try:
        wanted = applied(before, path, value)
        after = change(bare, path, value)
        if alike(_tree(after), wanted):
            return mark + after
    except (ProblemsFound, LookupError, TypeError):
        pass
    raise SpliceError(f"{named} cannot be changed in its place; change it in the file")


def _tree(text: str) -> Any:
    """What the text holds, as plain mappings and lists. Raises ProblemsFound."""
    try:
        return plain_copy(parse_yaml(text, "text"))
    except ProblemsFound as found:
        if [one.code for one in found.problems] == ["yaml-empty"]:
            return {}
        raise


def _put(text: str, path: Path, value: Any) -> str:
    root = nodes_of(text)
    if root is None:
        return _with_section(text, str(path[0]), nested(path[1:], value))
    node = root
    for depth, part in enumerate(path):
        at = node.index_of(part)
        if at is None:
            if node.is_blank:
                return _filled(text, node, nested(path[depth:], value), depth)
            if node is root:
                return _with_section(text, str(part), nested(path[1:], value), root)
            return _with_entry(text, node, part, nested(path[depth + 1 :], value), is_spread=depth == 1)
        node = node.values[at]
    if node.is_blank:
        return _filled(text, node, value, len(path))
    if node.kind != "scalar" and not node.is_flow and "#" in text[node.start : node.end]:
        raise LookupError("comments stand in what would be replaced")
    return text[: node.start] + flow_text(value) + text[node.end :]


def _filled(text: str, node: Node, value: Any, depth: int) -> str:
    """A value where nothing stands after the colon or the dash."""
    if depth == 1 and isinstance(value, dict | list) and value:
        end = line_end_of(text)
        at = _line_end(text, node.start)
        return _after_line(text, at, block_lines(value, 2, is_spread=True), end)
    before = "" if text[node.start - 1 : node.start].isspace() else " "
    return text[: node.start] + before + flow_text(value) + text[node.start :]


def _with_entry(text: str, holder: Node, part: str | int, value: Any, is_spread: bool = False) -> str:
    if holder.kind == "scalar":
        raise LookupError("a value stands where a mapping is wanted")
    is_item = holder.kind == "list"
    if is_item and part != len(holder.values):
        raise LookupError("no such entry")
    entry = flow_text(value) if is_item else f"{flow_text(str(part))}: {flow_text(value)}"
    if holder.is_flow:
        at = holder.values[-1].end if holder.values else holder.start + 1
        return text[:at] + (", " if holder.values else "") + entry + text[at:]
    if not is_item:
        blank = _blank_line(text, holder, str(part))
        if blank is not None:
            return _in_blank(text, blank, " " * holder.column + entry)
    at = _region_end(text, holder.end, holder.column)
    lines = [" " * holder.column + "- " + entry]
    if not is_item:
        lines = entry_lines(str(part), value, holder.column, is_spread)
    return _after_line(text, at, lines, line_end_of(text))


def _with_section(text: str, name: str, value: Any, root: Node | None = None) -> str:
    """A section that is not there yet: in place of the blank that asks for it, or at the end."""
    end = line_end_of(text)
    if root is not None and root.is_flow:
        return _with_entry(text, root, name, value)
    found = re.search(rf"^# {re.escape(name)}:[ \t]*(?=\r?$|#)", text, re.MULTILINE)
    if found is not None and isinstance(value, dict) and len(value) == 1:
        after = _line_end(text, found.end())
        head = text[: found.start()] + text[found.start() + 2 : after]
        (key, inner), rest = next(iter(value.items())), text[after:]
        entry = f"  {flow_text(key)}: {flow_text(inner)}"
        blanks = re.match(_BLANKS, rest)
        asked = re.search(rf"^##?   {re.escape(key)}:.*$", blanks[0], re.MULTILINE) if blanks else None
        if asked is None:
            return head + end + entry + rest
        if not isinstance(inner, dict) or not inner or asked[0].rstrip() not in (f"#   {key}:", f"##   {key}:"):
            return head + _in_blank(rest, asked.span(), entry)
        body = rest[: asked.start()] + f"  {flow_text(key)}:" + rest[asked.start() + len(asked[0].rstrip("\r")) :]
        for field, one in inner.items():
            body = _in_sample(
                body, asked.start(), name=field, entry=f"    {flow_text(field)}: {flow_text(one)}", end=end
            )
        return head + body
    line = re.search(rf"^# {re.escape(name)}:.*$", text, re.MULTILINE)
    if line is not None and not isinstance(value, dict | list):
        return _in_blank(text, line.span(), f"{flow_text(name)}: {flow_text(value)}")
    lines = (
        [f"{flow_text(name)}:", *block_lines(value, 2, is_spread=True)]
        if isinstance(value, dict | list) and value
        else []
    )
    return _after_line(text, len(text), lines or [f"{flow_text(name)}: {flow_text(value)}"], end)


def _blank_line(text: str, holder: Node, name: str) -> tuple[int, int] | None:
    """The span of the comment among a block's lines that asks for a field: `# name: value  # hint`."""
    end = _region_end(text, holder.end, holder.column - 1)
    found = re.compile(rf"^ {{{holder.column}}}# {re.escape(name)}:.*$", re.MULTILINE).search(text, holder.start, end)
    return found.span() if found else _sample_line(text, holder.start, holder.column, name)


def _sample_line(text: str, at: int, column: int, name: str) -> tuple[int, int] | None:
    """The same in a sample of a whole record below `at`, whose lines begin with their #: `#     name: value`."""
    below = re.compile(rf"(?:\r?\n(?:##?(?: .*)?| {{{column},}}\S.*))+")  # blanks, notes, and fields filled in already
    blanks = below.match(text, _line_end(text, at))
    if blanks is None:
        return None
    asked = re.compile(rf"^##? {{{column + 1}}}{re.escape(name)}:.*$", re.MULTILINE)
    found = asked.search(text, blanks.start(), blanks.end())
    return found.span() if found else None


def _in_sample(text: str, at: int, name: str, entry: str, end: str) -> str:
    """The entry in place of its blank among those below the line at `at`, or right below that line."""
    blank = _sample_line(text, at, 4, name)
    return _in_blank(text, blank, entry) if blank else _after_line(text, _line_end(text, at), [entry], end)


def _in_blank(text: str, span: tuple[int, int], entry: str) -> str:
    """The entry in place of a blank; the hint behind it stays."""
    line = text[span[0] : span[1]]
    hint = re.search(r"[ \t]+# [^#]*$", line.rstrip("\r").partition(":")[2])
    kept = hint[0].rstrip() if hint else ""
    return text[: span[0]] + entry + kept + ("\r" if line.endswith("\r") else "") + text[span[1] :]


def _without(text: str, path: Path) -> str:
    holder = nodes_of(text)
    assert holder is not None
    for part in path[:-1]:
        holder = holder.values[_index(holder, part)]
    at = _index(holder, path[-1])
    if len(holder.values) == 1 and not holder.is_flow:
        raise LookupError("the last entry of a block")
    firsts = holder.keys or holder.values
    if holder.is_flow:
        start = holder.values[at - 1].end if at else firsts[0].start
        end = holder.values[at].end if at or len(firsts) == 1 else firsts[1].start
        return text[:start] + text[end:]
    first = firsts[at].start if holder.keys else text.rindex("-", 0, firsts[at].start + 1)
    line = text.rfind("\n", 0, first) + 1
    if text[line:first].strip():  # the first key of an entry of a list stands behind its dash
        end = firsts[at + 1].start
        if "#" in text[holder.values[at].end : end]:
            raise LookupError("comments stand in what would be cut")
        return text[:first] + text[end:]
    end = _region_end(text, holder.values[at].end, holder.column)
    return text[:line] + text[end:].removeprefix("\r").removeprefix("\n")


def _index(holder: Node, part: str | int) -> int:
    at = holder.index_of(part)
    if at is None:
        raise LookupError("no such entry")
    return at


def _line_end(text: str, at: int) -> int:
    """The offset of the line end after `at`, or the length of the text."""
    found = re.compile(r"\r?\n|\r").search(text, at)
    return found.start() if found else len(text)


def _region_end(text: str, at: int, column: int) -> int:
    """The end of the last line that belongs to what ends at `at`: comments below that stand further in than `column`
    belong to it."""
    end = _line_end(text, at)
    for found in re.compile(r"(?:\r\n|\n|\r)([ \t]*)(#[^\r\n]*)?(?=[\r\n]|$)").finditer(text, end):
        if found.start() > end and text[end : found.start()].strip():
            break
        if found[2] and len(found[1]) <= column:
            break
        if found[2]:
            end = found.end()
    return end


def _after_line(text: str, at: int, lines: Sequence[str], end: str) -> str:
    """Lines put in after the line that ends at `at`."""
    if at == len(text):
        joint = "" if not text or text.endswith(("\n", "\r")) else end
        return text + joint + "".join(f"{line}{end}" for line in lines)
    return text[:at] + "".join(f"{end}{line}" for line in lines) + text[at:]
