"""Remedies, what-ifs and free ranges as text for the terminal."""

from __future__ import annotations

import shlex
import textwrap
from collections.abc import Iterable, Sequence

from compliance.facts.common.fact import FieldPath
from compliance.findings import Finding
from compliance.model.project import Project
from compliance.output.terminal.check_table import numbers
from compliance.remedies import ChangeTester, Difference, FreeRange, Remedy
from compliance.remedies.choosing import options_for
from compliance.remedies.edited_project import edits
from compliance.report.words.remedy_words import change_words
from compliance.units import Writer

_CAUTION = (
    "Each change is the smallest, in steps, that meets that one finding, by the rules and the description alone. It is "
    "not a design: those responsible for the walls decide what it does to loads, joints, drawings and finished work, "
    "and what needs a licensed engineer."
)
RANGE_CAUTION = (
    "Every step within a range was judged, nothing between two steps. A range is that of one dimension with all else "
    "as it is, by the rules and the description alone; it is not a permit to build anything in it."
)
_MOST_NAMED = 4
Changed = Sequence[tuple[FieldPath, str]]


def caution(width: int) -> str:
    return "\n".join(textwrap.wrap(_CAUTION, width)) + "\n"


def remedy_lines(tester: ChangeTester, finding: Finding, found: Sequence[Remedy], folder: str, width: int) -> list[str]:
    """One finding with the remedies that make nothing else worse; what else would meet it is named with its cost."""
    folder = f'"{folder}"' if " " in folder else folder
    shown = numbers(finding, tester.writer)
    head = f"{finding.verdict.upper()} {finding.subject}: {finding.title}" + (f"  [{shown}]" if shown else "")
    lines = textwrap.wrap(f"{head} ({finding.rule})", width, subsequent_indent="    ", break_on_hyphens=False)
    if finding.remedy:
        lines += _wrapped(f"the rule says: {finding.remedy}", width, 4)
    harmless = [one for one in found if not one.makes_worse]
    if not harmless:
        lines += _wrapped(_no_change(tester, finding, found), width, 4)
    for number, one in enumerate(harmless, 1):
        lines += _wrapped(change_words(one.changes, tester.writer), width, 7, f"{number}. ")
        lines += _wrapped(_effects(one, tester.writer), width, 7)
        changes = edits(tester.checked.project, one.project)
        lines += [f"       try it: earthwall try {folder} {_arguments(changes)}"]
        if kind := type_with_all(tester.checked.project, changes):
            shared = [(("wall_types", kind, *path[2:]), text) for path, text in changes]
            lines += [
                f"       for all walls of type {kind}:",
                f"       earthwall try {folder} {_arguments(shared)}",
            ]
    for one in (one for one in found if one.makes_worse):
        says = f"left out: {change_words(one.changes, tester.writer)}; it makes worse: {_named(one.makes_worse)}"
        lines += _wrapped(says, width, 4)
    return lines


def _no_change(tester: ChangeTester, finding: Finding, found: Sequence[Remedy]) -> str:
    if found:
        return "no change was found that makes no other finding worse"
    if not options_for(tester, finding):
        return "no dimension that can be changed in steps affects this"
    return "no one change of the plan, and no two together, was found within the steps tried"


def _effects(one: Remedy, writer: Writer) -> str:
    parts = ["makes no other finding worse"]
    if one.makes_better:
        parts.append(f"better: {_named(one.makes_better)}")
    if one.unjudged:
        parts.append(f"affects what cannot be judged yet: {_named(one.unjudged)}")
    if abs(one.volume_change) > 1e-6:
        sign = "+" if one.volume_change > 0 else ""
        parts.append(f"earth {sign}{writer.write(one.volume_change, 'volume')}")
    return "; ".join(parts)


def _arguments(changes: Changed) -> str:
    """As a shell takes them: a text that itself has quotation marks is quoted the other way."""
    parts = [(".".join(map(str, path)), text) for path, text in changes]
    return " ".join(f'{path}="{text}"' if '"' not in text else shlex.quote(f"{path}={text}") for path, text in parts)


def type_with_all(project: Project, changes: Changed) -> str:
    """The wall type that says what would change, where several walls of it have the same; empty where none does."""
    kinds = set()
    for path, _ in changes:
        wall = project.walls.get(str(path[1])) if path[0] == "walls" and len(path) == 3 else None
        kind = project.wall_types.get(wall.type) if wall and wall.type else None
        value = getattr(kind, str(path[-1]), None)
        if wall is None or value is None or value != getattr(wall, str(path[-1]), None):
            return ""
        alike = [
            one for one in project.walls.values() if one.type == wall.type and getattr(one, str(path[-1])) == value
        ]
        kinds.add(str(wall.type) if len(alike) > 1 else "")
    return kinds.pop() if len(kinds) == 1 else ""


def _named(differences: Iterable[Difference]) -> str:
    found = [one.after or one.before for one in differences]
    names = list(dict.fromkeys(f"{one.subject} {one.rule}" for one in found if one))
    more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    return ", ".join(names[:_MOST_NAMED]) + more


def _wrapped(text: str, width: int, indent: int, first: str = "") -> list[str]:
    """Lines indented alike, the first of them begun by `first`; ids of rules are not broken at their hyphens."""
    blank = " " * indent
    head = first.rjust(indent) if first else blank
    return textwrap.wrap(text, width, initial_indent=head, subsequent_indent=blank, break_on_hyphens=False)


def difference_table(
    differences: Sequence[Difference], changes: Sequence[str], writer: Writer, width: int, all_lines: bool
) -> str:
    """Findings now and then, those that get worse first; with `all_lines` also those that only change in number."""
    lines = [f"what if {change}" for change in changes]
    altered = [one for one in differences if one.altered or one.worse]
    for heading, some in (
        ("Gets worse", [one for one in altered if one.worse]),
        ("Gets better", [one for one in altered if one.better]),
        ("Changes otherwise", [one for one in altered if not one.worse and not one.better]),
    ):
        lines += ["", f"{heading} ({len(some)})", *_rows(some, writer, width)] if some else []
    same = [one for one in differences if one not in altered]
    if same and all_lines:
        lines += ["", f"Same outcome, other numbers ({len(same)})", *_rows(same, writer, width)]
    elif same:
        lines += ["", f"{len(same)} more keep their outcome with other numbers; --all shows them"]
    if not differences:
        lines += ["", "no finding changes"]
    return "\n".join(lines) + "\n"


def _rows(differences: Sequence[Difference], writer: Writer, width: int) -> list[str]:
    lines = []
    for one in differences:
        finding = one.after or one.before
        assert finding is not None
        states = " -> ".join(_state(side, writer) for side in (one.before, one.after))
        lines += textwrap.wrap(
            f"{finding.subject}: {finding.title} ({finding.rule}): {states}", width, initial_indent="  ",
            subsequent_indent="      ", break_on_hyphens=False,
        )  # fmt: skip
    return lines


def _state(finding: Finding | None, writer: Writer) -> str:
    if finding is None:
        return "none"
    shown = numbers(finding, writer)
    return finding.outcome.words + (f" [{shown}]" if shown else "")


def range_table(wall: str, ranges: Sequence[FreeRange], writer: Writer, width: int) -> str:
    """The free range of each dimension of a wall, and what bounds it."""
    lines = [f"{wall}: how far each dimension alone may go before a finding of {wall} gets worse", ""]
    for one in ranges:
        low, now, high = (writer.write(value, one.kind) for value in (one.least, one.now, one.most))
        lines.append(f"  {one.what:<10} {low} to {high}   (now {now})")
        for side, stops in (("below", one.stops_below), ("above", one.stops_above)):
            says = f"{_named(stops)} gets worse" if stops else "the search ended there, or the shape does not go"
            lines += _wrapped(f"{side}: {says}", width, 13)
        if one.elsewhere:
            says = "; ".join(
                f"from {writer.write(value, one.kind)} {_named([worse])}" for value, worse in one.elsewhere
            )
            lines += _wrapped(f"elsewhere within it gets worse: {says}", width, 13)
        if one.unjudged:
            lines += _wrapped(f"says nothing, a limit or a value is lacking: {_named(one.unjudged)}", width, 13)
    if any(one.what == "length" for one in ranges):
        says = "length: all that stands at or beyond the end of the wall moves along with it."
        lines += ["", *_wrapped(says, width, 2)]
    return "\n".join([*lines, "", *textwrap.wrap(RANGE_CAUTION, width)]) + "\n"
