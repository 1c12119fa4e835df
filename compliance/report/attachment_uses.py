"""What each attachment is named for: the checks it is evidence of, and the soils, trials, batches and sets it shows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.checked import Checked
from compliance.model.project import Project
from compliance.report.by_rule import SetFindings


def attachment_key(mark: str) -> str:
    """The place in the document where an attachment is bound in."""
    return f"attachment-{mark}"


def used_for(checked: Checked, sets: tuple[SetFindings, ...]) -> Mapping[str, tuple[str, ...]]:
    """By the mark of the attachment: codes of rules, then records, each once."""
    found: dict[str, dict[str, None]] = {}
    for mark, use in (*_rules(checked.project, sets), *_records(checked.project)):
        if mark is not None:
            found.setdefault(mark, {})[use] = None
    return {mark: tuple(uses) for mark, uses in found.items()}


def _rules(project: Project, sets: tuple[SetFindings, ...]) -> Iterator[tuple[str | None, str]]:
    named: dict[str, list[str]] = {}
    answers = [(one.rule, one.evidence) for one in project.attestations]
    answers += [(one.rule, one.evidence) for one in project.inspections]
    for rule, evidence in answers:
        named.setdefault(rule, []).extend(evidence)
    for one in sets:
        for group in one.rules:
            for name in (group.rule, f"{group.rule_set}/{group.rule}"):
                yield from ((mark, group.code) for mark in named.get(name, ()))


def _records(project: Project) -> Iterator[tuple[str | None, str]]:
    for mark, soil in project.soils.items():
        yield from ((photo, f"soil {mark}") for photo in soil.photos)
        yield from ((test.photo, f"soil {mark}") for test in soil.field_tests)
        yield soil.jar.photo if soil.jar else None, f"jar of soil {mark}"
        yield soil.grading.report if soil.grading else None, f"grading of soil {mark}"
    yield from ((trial.photo, f"trial {mark}") for mark, trial in project.trials.items())
    yield from ((batch.photo, f"batch {mark}") for mark, batch in project.batches.items())
    yield from ((test.report, f"set {mark}") for mark, test in project.test_sets.items())
