"""What each document of a project says of itself."""

from __future__ import annotations

from compliance import __version__
from compliance.checked import Checked
from compliance.documents.page.book import Head
from compliance.report.cautions import SHORT

VERSION = __version__
_SUBJECT = "Load-bearing earthen walls: checks against rule sets, tests, and what is still open. A screening."


def head_of(
    checked: Checked,
    what: str,
    subject: str = _SUBJECT,
    draft: bool = False,
    caution: str = SHORT,
    part: str = "",
) -> Head:
    """The head of the document called `what`. A draft says so wherever its revision is printed."""
    project, people = checked.project.project, checked.project.people
    author = next((person.name for person in (people.designer, people.builder, people.owner) if person), "")
    revision = f"{project.revision}, draft, not issued" if draft else project.revision
    return Head(
        title=f"{project.name}: {what}, revision {revision}",
        project=project.name,
        number=project.number or "",
        revision=revision,
        dated=project.date,
        author=author,
        subject=subject,
        fingerprint=checked.fingerprint,
        caution=caution,
        part=part,
        address=project.address or "",
    )
