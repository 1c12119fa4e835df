"""Which subjects of a changed building have other facts than before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compliance.facts.fact import FieldPath
from compliance.facts.subjects import Facts, Subject


class Stirred:
    """Compares two buildings by the facts given with each subject, not by those that are worked out when asked for."""

    def __init__(self, before: Facts, after: Facts) -> None:
        self._before, self._after = before, after
        self._found: dict[tuple[str, str], set[str]] = {}

    def of(self, about: str, seen: Iterable[str]) -> Iterator[str]:
        """Marks of the subjects, in their order, of which a fact is another: their own, or one of a subject they look
        to, of the kinds `seen`. Those that were not there before, too."""
        marks = set().union(*(self._stirred(about, one) for one in seen))
        return (mark for mark in self._after.of(about) if mark in marks or mark not in self._before.of(about))

    def _stirred(self, about: str, seen: str) -> set[str]:
        if (about, seen) not in self._found:
            old, new = self._before.of(about), self._after.of(about)
            self._found[about, seen] = {
                mark for mark, one in new.items()
                if mark in old and not _same_facts(_seen(old[mark], seen), _seen(one, seen))
            }  # fmt: skip
        return self._found[about, seen]


def is_given(name: str, subject: Subject) -> bool:
    """Whether a fact, of the subject or of one it looks to, stands there and is not worked out when asked for."""
    holder = _seen(subject, name.partition(".")[0])
    return not isinstance(holder, Subject) or name in holder.facts


def _seen(subject: Subject, about: str) -> Subject | FieldPath | None:
    """The subject itself, the one it looks to, or the field that would name it."""
    return subject if about == subject.about else subject.parents.get(about)


def _same_facts(old: Subject | FieldPath | None, new: Subject | FieldPath | None) -> bool:
    if isinstance(old, Subject) and isinstance(new, Subject):
        return old.facts is new.facts
    return old == new and not isinstance(old, Subject)
