"""A finding with its remedies, as text."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from compliance.commands.common.shared import terminal_width

if TYPE_CHECKING:
    from compliance.findings import Finding
    from compliance.remedies import ChangeTester


def mended(tester: ChangeTester, finding: Finding, folder: Path) -> str:
    """One finding with its remedies, as text."""
    from compliance.output.terminal.remedy_text import remedy_lines
    from compliance.remedies import remedies

    lines = remedy_lines(
        tester, finding=finding, found=remedies(tester, finding), folder=folder.as_posix(), width=terminal_width()
    )
    return "\n".join(lines) + "\n"
