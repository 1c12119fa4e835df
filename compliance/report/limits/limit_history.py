"""What became of a limit since it shipped: the value it shipped with, and each confirmation and change in order."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.findings import Amended, LimitUsed
from compliance.steps import Given
from compliance.units import KINDS, Writer


def history_lines(limit: LimitUsed, writer: Writer) -> Iterator[str]:
    """A line for the shipped value of each cell or limit that was amended, and one for each amendment; nothing for a
    limit that was not."""
    shipped: set[str] = set()
    for one in limit.history:
        if one.cell not in shipped:
            shipped.add(one.cell)
            yield f"{_of_cell(one)}shipped {_as_value(one.before, writer)}"
        yield amended_line(one, writer)


def amended_line(one: Amended, writer: Writer) -> str:
    """What one amendment did, who made it when, where it was read, on whose authority and why."""
    if one.is_confirmation:
        done = f"{one.standing or 'confirmed'} unchanged"
    elif one.before is None:
        done = f"filled in {_as_value(one.after, writer)}"
    else:
        done = f"changed from {value_text(one.before, writer)} to {value_text(one.after, writer)}"
    parts = [f"{_of_cell(one)}{done} by {one.by} on {one.on}", *(f"{name}{text}" for name, text in _more(one) if text)]
    return "; ".join(parts)


def _more(one: Amended) -> Iterator[tuple[str, str]]:
    yield "", one.where
    yield "authority: ", one.authority
    yield "reason: ", one.reason


def _of_cell(one: Amended) -> str:
    return f"{one.cell}: " if one.cell else ""


def _as_value(given: Given | None, writer: Writer) -> str:
    return "open" if given is None else f"as {value_text(given, writer)}"


def value_text(given: Given | None, writer: Writer) -> str:
    """A value in both systems; `open` where there is none."""
    if given is None:
        return "open"
    if isinstance(given.value, (str, bool)) or given.kind not in KINDS:
        return given.written(writer)
    return writer.both(given.value, given.kind)
