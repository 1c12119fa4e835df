"""Facts that are worked out when a rule first asks for them: loads and structure."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.facts.building import Building
from compliance.facts.fact import Fact
from compliance.facts.subjects import Subject

DERIVABLE = ("site.sds", "site.sd1", "site.seismic_category", "roof.dead", "roof.snow", "wall.line_load")
"""Facts the project can state, and which are worked out where it does not."""


def attach(building: Building, subjects: Mapping[str, Mapping[str, Subject]]) -> None:
    """Gives every subject the facts that are worked out when asked for. Where a derivable fact is not stated, its place
    is left free for the derived one."""

    def work(name: str, subject: Subject) -> Fact:
        from compliance.facts.structural import WORKERS  # with all of the mechanics, so only when it is needed

        return WORKERS[name](building, subject)

    for ones in subjects.values():
        for subject in ones.values():
            subject.later = work
            for name in DERIVABLE:
                if (fact := subject.facts.get(name)) is not None and fact.value is None:
                    del subject.facts[name]
