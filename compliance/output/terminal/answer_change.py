"""What the answer of a check became since the last one, in a few lines."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.findings import Outcome
from compliance.output.terminal.hanging_indent import hung
from compliance.report.answer.answer import answer
from compliance.report.earth.earth_answer import earth_answer
from compliance.report.words.answer_words import answer_sentence, cause_words
from compliance.units import Writer

_MOST = 6


def answer_change(before: Checked | None, after: Checked, width: int) -> list[str]:
    """The answer now; then which causes that stop the project are new and which are gone, and how the counts moved.
    Without a check before, the answer and its counts; no line where nothing changed."""
    lines = [f"The answer now: {_sentence(after)}"]
    if before is None or before.project.is_earth_only or after.project.is_earth_only:
        same = before is not None and _sentence(before) == _sentence(after)
        return [] if same else _hung(lines, width)
    old, new = _stops(before), _stops(after)
    lines += _listed("New", [words for key, words in new.items() if key not in old])
    lines += _listed("No longer", [words for key, words in old.items() if key not in new])
    counts = _counts(before, after)
    changed = len(lines) > 1 or bool(counts) or _sentence(before) != _sentence(after)
    return _hung([*lines, *([f"Counts: {counts}"] if counts else [])], width) if changed else []


def _sentence(checked: Checked) -> str:
    if checked.project.is_earth_only:
        return earth_answer(checked).sentence
    return answer_sentence(answer(checked), len(checked.findings))


def _stops(checked: Checked) -> dict[str, str]:
    """What stops the project, by the key of its cause."""
    writer = Writer(checked.project.project.units)
    return {cause.key: cause_words(cause, writer) for cause in answer(checked).stops}


def _listed(head: str, words: list[str]) -> list[str]:
    more = [f"{head}: {len(words) - _MOST} more"] if len(words) > _MOST else []
    return [*(f"{head}: {one}" for one in words[:_MOST]), *more]


def _counts(before: Checked, after: Checked) -> str:
    old, new = before.tally(), after.tally()
    kept = (outcome for outcome in new if outcome is not Outcome.NOT_APPLICABLE and old[outcome] != new[outcome])
    return ", ".join(f"{outcome.words} {old[outcome]} -> {new[outcome]}" for outcome in kept)


def _hung(lines: list[str], width: int) -> list[str]:
    return [part for number, line in enumerate(lines) for part in hung(line, width, 3 if not number else 5, 7)]
