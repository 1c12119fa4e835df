"""What a photo or paper can prove: each field of the project that names an attachment, open or with room for more."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.facts.common.fact import FieldPath
from compliance.model.project import Project


def ties(project: Project, on_site_alone: bool = False) -> dict[FieldPath, str]:
    """The path that the mark of an attachment is written to, with words for it. A field that names one already is left
    out, a list has room for one more. `on_site_alone`: records of inspections and nothing else, as a phone may."""
    return {
        path: words for path, words, held in _all(project)
        if held is None and (path[0] == "inspections" or not on_site_alone)
    }  # fmt: skip


def _all(project: Project) -> Iterator[tuple[FieldPath, str, str | None]]:
    for mark, soil in project.soils.items():
        yield ("soils", mark, "photos", len(soil.photos)), f"soil {mark} {soil.name}", None
        for index, hand in enumerate(soil.field_tests):
            yield ("soils", mark, "field_tests", index, "photo"), f"soil {mark}: {hand.kind} test", hand.photo
        if soil.jar:
            yield ("soils", mark, "jar", "photo"), f"soil {mark}: jar", soil.jar.photo
        if soil.grading:
            yield ("soils", mark, "grading", "report"), f"soil {mark}: report of the grading", soil.grading.report
    for mark, trial in project.trials.items():
        yield ("trials", mark, "photo"), f"trial brick {mark}", trial.photo
    for mark, batch in project.batches.items():
        yield ("batches", mark, "photo"), f"batch {mark} of mix {batch.mix}", batch.photo
    for mark, test in project.test_sets.items():
        yield ("test_sets", mark, "report"), f"set {mark}: report of the laboratory", test.report
    for index, answer in enumerate(project.attestations):
        where = f" about {answer.about}" if answer.about else ""
        yield ("attestations", index, "evidence", len(answer.evidence)), f"answer to {answer.rule}{where}", None
    for index, record in enumerate(project.inspections):
        where = f" of {record.about}" if record.about else ""
        yield ("inspections", index, "evidence", len(record.evidence)), f"inspection {record.rule}{where}", None
