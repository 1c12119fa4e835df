"""Remedies in words: what to change, as an instruction."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from compliance.facts.common.fact import FieldPath
from compliance.remedies.changes import Change, FieldChange, Narrowing, NewButtresses, Number, TaperChange
from compliance.report.mark_runs import in_runs
from compliance.units import Measure, Writer

_STAYS = {"start": "its first edge", "middle": "its middle", "end": "its far edge"}
_ENDS = {"thickness_base": "base", "thickness_top": "top"}


def change_words(changes: Iterable[Change], writer: Writer) -> str:
    """What to do, all at once: "make the thickness of W6 20 in (now 14 in); and ..."."""
    return "; and ".join(WORDS[type(one)](one, writer) for one in changes)


def _field(one: FieldChange, writer: Writer) -> str:
    name = f"{_name(one.path)} (of {', '.join(one.shared_by)})" if one.shared_by else _name(one.path)
    return f"make the {name} {_written(one.after, writer)} (now {_written(one.before, writer)})"


def short_change_words(change: Change, writer: Writer, subject: str) -> str:
    """What to make how large, without what it is now, and without the mark where it is `subject`'s own."""
    match change:
        case FieldChange():
            shared = f" (of {', '.join(in_runs(change.shared_by))})" if change.shared_by else ""
            what, mark = _named(change.path)
            own = what if mark == subject else f"{what} of {mark}"
            return f"{own}{shared} {_written(change.after, writer)}"
        case TaperChange():
            base, top = (writer.write(ends[1], "thickness") for ends in (change.base, change.top))
            return f"thickness {base} at the base, {top} at the top"
    return change_words([change], writer)


def _name(path: FieldPath) -> str:
    """A field in words: "lintel bearing of W3.N5"."""
    return " of ".join(_named(path))


def _named(path: FieldPath) -> tuple[str, str]:
    """What a field is, and of what."""
    match path:
        case ("project", "project", *field):
            return _plain(field), "the project"
        case ("walls", wall, "openings", opening, *field):
            return _plain(field), f"{wall}.{opening}"
        case ("walls", wall, ("thickness_base" | "thickness_top") as field):
            return "thickness", f"{wall} at its {_ENDS[str(field)]}"
        case ("roofs", mark, *field):
            return _plain(field), f"roof {mark}"
        case (_, mark, *field):
            return _plain(field), str(mark)
    raise ValueError(f"{path!r} is no path of a field that is changed")


def _plain(field: Iterable[str | int]) -> str:
    return " ".join(map(str, field)).replace("_", " ")


def _written(value: Number, writer: Writer) -> str:
    return value.text if isinstance(value, Measure) else writer.write(float(value), "ratio")


def _taper(one: TaperChange, writer: Writer) -> str:
    (base_now, base), (top_now, top) = (
        [writer.write(end, "thickness") for end in ends] for ends in (one.base, one.top)
    )
    return f"make {one.wall} {base} thick at the base and {top} at the top (now {base_now} and {top_now})"


def _narrowing(one: Narrowing, writer: Writer) -> str:
    wide = writer.write(one.after, "length")
    return f"make {one.wall}.{one.opening} {wide} wide (now {one.before}) and keep {_STAYS[one.keeps]} in place"


def _buttresses(one: NewButtresses, writer: Writer) -> str:
    if not one.at:
        return "build buttresses"
    at = ", ".join(writer.write(place, "length") for place in one.at)
    count = "a buttress" if len(one.at) == 1 else f"{len(one.at)} buttresses"
    return (
        f"build {count} into {one.wall} and its footing, {one.width} wide, {one.projection} out from the face and "
        f"{one.height} high, with the middle {at} from the start of the wall; or cross walls there"
    )


WORDS: Mapping[type[Change], Callable[[Any, Writer], str]] = {
    FieldChange: _field,
    TaperChange: _taper,
    Narrowing: _narrowing,
    NewButtresses: _buttresses,
}
"""The instruction of each kind of change."""
