"""How sets of specimens differ from what they were in a revision that was issued: moved, gone, labeled otherwise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum

from compliance.model.issued import SpecimenText, TestSetText, is_same_value
from compliance.record import record

_LABELS = ("shape", "dried", "cast", "tested")
_MOST_NAMED = 6


class SetChangeKind(StrEnum):
    """What happened to a set or to rows of it."""

    GONE = "gone"
    MIX = "mix"
    MOVED = "moved"
    DROPPED = "dropped"
    RESULT = "result"
    LABEL = "label"
    ASIDE = "aside"


@record
class SetDifference:
    """One difference of the set `set`, which was of the mix `mix`. `specimens` are those it is about, each with its
    result then; `column` is the label, `before` and `after` what it was and is: mix, set, result, label or reason."""

    kind: SetChangeKind
    set: str
    mix: str
    specimens: tuple[str, ...] = ()
    column: str = ""
    before: str = ""
    after: str = ""

    @property
    def words(self) -> str:
        """What happened, in a sentence without a stop that needs the name of its set before it."""
        named = ", ".join(self.specimens[:_MOST_NAMED]) + (" ..." if len(self.specimens) > _MOST_NAMED else "")
        match self.kind:
            case SetChangeKind.GONE:
                return "is no longer in the project" + (f": {named}" if named else "")
            case SetChangeKind.MIX:
                return f"was of mix {self.before} and is of mix {self.after}"
            case SetChangeKind.MOVED:
                return f"{named} moved to set {self.after}"
            case SetChangeKind.DROPPED:
                return f"{named} no longer in the project"
            case SetChangeKind.RESULT:
                return f"the result of {named} is {self.after}"
            case SetChangeKind.LABEL:
                return f"{named}: {self.column} was {self.before or 'blank'} and is {self.after or 'blank'}"
            case SetChangeKind.ASIDE:
                return f"{named} now set aside: {self.after}"


Places = Mapping[tuple[str, str], TestSetText]
"""The set that each specimen stands in now."""


def set_differences(before: Sequence[TestSetText], after: Sequence[TestSetText]) -> tuple[SetDifference, ...]:
    """In the order of the sets as they were. Sets and rows that are new, results of blank rows and labels that were
    blank are no difference."""
    now = {one.set: one for one in after}
    places: Places = {(one.kind, row.specimen): one for one in reversed(after) for row in one.specimens}
    return tuple(difference for one in before for difference in (_of_set(one, now.get(one.set), places)))


def _of_set(then: TestSetText, now: TestSetText | None, places: Places) -> Iterator[SetDifference]:
    rows = {row.specimen: row for row in now.specimens} if now else {}
    if now is not None and now.mix != then.mix:
        yield SetDifference(SetChangeKind.MIX, set=then.set, mix=then.mix, before=then.mix, after=now.mix)
    lost = [row for row in then.specimens if row.specimen not in rows]
    moved: dict[str, list[str]] = {}
    gone: list[str] = []
    for row in lost:
        elsewhere = places.get((then.kind, row.specimen))
        if elsewhere is None:
            gone.append(_named(row))
        else:
            moved.setdefault(f"{elsewhere.set} of mix {elsewhere.mix}", []).append(_named(row))
    for place, marks in moved.items():
        yield SetDifference(SetChangeKind.MOVED, set=then.set, mix=then.mix, specimens=tuple(marks), after=place)
    if now is None and not moved:
        yield SetDifference(SetChangeKind.GONE, set=then.set, mix=then.mix, specimens=tuple(gone))
    elif gone:
        yield SetDifference(SetChangeKind.DROPPED, set=then.set, mix=then.mix, specimens=tuple(gone))
    for row in then.specimens:
        if row.specimen in rows:
            yield from _of_row(then, row, rows[row.specimen])


def _of_row(of: TestSetText, then: SpecimenText, now: SpecimenText) -> Iterator[SetDifference]:
    if then.result is not None and not is_same_value(then.result, now.result):
        yield SetDifference(
            SetChangeKind.RESULT, set=of.set, mix=of.mix, specimens=(_named(then),), before=then.result.text,
            after=now.result.text if now.result else "gone",
        )  # fmt: skip
    for name in _LABELS:
        before, after = getattr(then, name), getattr(now, name)
        if before and before != after:
            yield SetDifference(
                SetChangeKind.LABEL, set=of.set, mix=of.mix, specimens=(_named(then),), column=name, before=before,
                after=after,
            )  # fmt: skip
    if now.aside and not then.aside:
        why = "; ".join(now.aside)
        yield SetDifference(SetChangeKind.ASIDE, set=of.set, mix=of.mix, specimens=(_named(then),), after=why)


def _named(row: SpecimenText) -> str:
    return f"{row.specimen} ({row.result.text})" if row.result else f"{row.specimen} (no result)"
