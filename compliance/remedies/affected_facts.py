"""Which facts of which subjects of a changed building are others than before."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.facts.common.fact import FieldPath
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.rules.rule_set import Rule

_OF_TESTS = frozenset(
    f"wall.{name}"
    for name in ("compression_sets", "compression_evidence", "rupture_evidence", "shrinkage_evidence", "tests_shown")
)
_LOCAL = ("wall", "opening", "pier", "stem", "footing", "beam", "roof", "project", "site")
_NOTHING: frozenset[str] = frozenset()


class AffectedFacts:
    """Compares two buildings by the facts given with each subject, not by those that are worked out when asked for."""

    def __init__(self, before: Facts, after: Facts) -> None:
        self._before, self._after = before, after
        self._own: dict[tuple[str, str], frozenset[str]] = {}
        self._seen: dict[str, dict[str, frozenset[str] | None]] = {}

    def of(self, about: str, names: frozenset[str]) -> Iterator[tuple[str, set[str] | None]]:
        """Marks of the subjects of a kind, in their order, of which any fact of `names` is another, with those facts:
        their own, or of subjects they look to. None in their place for a subject that was not there before."""
        for mark, affected in self._of(about).items():
            if affected is None:
                yield mark, None
            elif not affected.isdisjoint(names):
                yield mark, set(affected & names)

    def _of(self, about: str) -> dict[str, frozenset[str] | None]:
        """What is another of every subject of a kind, those of which nothing is left out."""
        if about not in self._seen:
            old = self._before.of(about)
            found = {
                mark: self._names(old[mark], one) if mark in old else None
                for mark, one in self._after.of(about).items()
            }
            self._seen[about] = {mark: names for mark, names in found.items() if names is None or names}
        return self._seen[about]

    def _names(self, old: Subject, new: Subject) -> frozenset[str]:
        found = self._own_names(old, new)
        for about in old.parents.keys() | new.parents.keys():
            found |= self._of_parent(old.parents.get(about), new.parents.get(about))
        return found

    def _of_parent(self, old: Subject | FieldPath | None, new: Subject | FieldPath | None) -> frozenset[str]:
        if isinstance(old, Subject) and isinstance(new, Subject):
            return self._own_names(old, new)
        held = [one.facts.keys() for one in (old, new) if isinstance(one, Subject)]
        return frozenset().union(*held)  # one is named where none was

    def _own_names(self, old: Subject, new: Subject) -> frozenset[str]:
        if old.facts is new.facts:
            return _NOTHING
        key = (old.mark, f"{new.about} {new.mark}")
        if key not in self._own:
            names = old.facts.keys() | new.facts.keys()
            self._own[key] = frozenset(name for name in names if old.facts.get(name) != new.facts.get(name))
        return self._own[key]


def is_given(name: str, subject: Subject) -> bool:
    """Whether a fact, of the subject or of one it looks to, stands there and is not worked out when asked for."""
    about = name.partition(".")[0]
    holder = subject if about == subject.about else subject.parents.get(about)
    return not isinstance(holder, Subject) or name in holder.facts


def is_local(name: str, subject: Subject) -> bool:
    """Whether a fact follows from the wall and what meets it alone: no mix, which other walls are built of, too, no
    test, and nothing that is worked out from the whole building."""
    return name.partition(".")[0] in _LOCAL and name not in _OF_TESTS and is_given(name, subject)


def compared_facts(rule: Rule) -> set[str]:
    """The facts that a rule compares, and not only asks whether it applies."""
    tables = {name for table in rule.looked_up.values() for name in table.fact_names}
    return tables | (set(rule.check.names) if rule.check else set())
