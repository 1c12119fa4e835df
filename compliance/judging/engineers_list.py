"""The engineer's list: each wall, and the building, with every reason why a licensed engineer must see it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from compliance.findings import Finding, Outcome
from compliance.record import record


@record
class EngineerItem:
    """A wall by its mark, or the building (`wall` is empty), with the findings that put it on the list: rocking out of
    plane first, for where much calls for an engineer its factor tells walls apart; then in the order of judging."""

    wall: str
    findings: tuple[Finding, ...]

    @property
    def called(self) -> str:
        return self.wall or "the building"


def engineers_list(findings: Sequence[Finding]) -> tuple[EngineerItem, ...]:
    """Exactly the walls with a finding that calls for an engineer, in the order of their first one; what concerns an
    opening or a pier concerns its wall. The building comes first, with what concerns the site, the project, or a part
    that several walls share. No finding that meets takes anything off the list."""
    found: dict[str, list[Finding]] = {}
    for one in _calling(findings):
        found.setdefault(one.wall, []).append(one)
    building = found.pop("", None)
    items = [EngineerItem("", tuple(building))] if building else []
    return (*items, *(EngineerItem(wall, _rocking_first(ones)) for wall, ones in found.items()))


_ROCKING = frozenset({"rocking", "gable-rocking"})


def _rocking_first(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda one: one.rule not in _ROCKING))


def _calling(findings: Iterable[Finding]) -> Iterable[Finding]:
    return (one for one in findings if one.outcome is Outcome.ENGINEER)
