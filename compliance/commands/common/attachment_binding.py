"""The attachments of a project folder, ready to be bound into a paper."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from compliance.documents.attachments.bound_files import Bound, bind_attachments
from compliance.model.project import Project
from compliance.reading.attached_files import place_of_attachment, read_attached_files


def read_attachments(folder: Path, project: Project) -> tuple[Bound, ...]:
    """Raises ProblemsFound with what is wrong with any of them, each at the place where the project names its file."""
    return bind_attachments(read_attached_files(folder, project), partial(place_of_attachment, folder))
