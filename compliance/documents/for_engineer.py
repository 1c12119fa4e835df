"""What is marked engineer, gathered by wall; what belongs to no wall is the building's."""

from __future__ import annotations

from collections.abc import Iterable

from compliance.findings import Finding, Outcome
from compliance.record import record


@record
class ForEngineer:
    """`wall` is empty for the building: its site, materials, roofs and what carries several walls."""

    wall: str
    findings: tuple[Finding, ...]

    @property
    def name(self) -> str:
        return f"wall {self.wall}" if self.wall else "the building"

    @property
    def titles(self) -> tuple[str, ...]:
        """What the findings are about, each once."""
        return tuple(dict.fromkeys(one.title for one in self.findings))


def for_engineer(findings: Iterable[Finding]) -> tuple[ForEngineer, ...]:
    """In the order of the first finding of each wall, the building last."""
    found: dict[str, list[Finding]] = {}
    for one in findings:
        if one.outcome is Outcome.ENGINEER:
            found.setdefault(one.wall, []).append(one)
    return tuple(ForEngineer(wall, tuple(found[wall])) for wall in sorted(found, key=lambda wall: not wall))
