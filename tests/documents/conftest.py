"""What many tests of papers read: the example as it is checked, its submittal, and every paper a command writes of it.

Each is made once in a session, or once in each process of it, and never changed.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.page.book import Book
from compliance.documents.submittal.bundle import write_submittal
from tests.conftest import EXAMPLE, ROUND_EXAMPLE
from tests.documents.papers import COMMANDS, Papers, write_paper
from tests.documents.reading_back import Read, read_back


class PrintedExample(NamedTuple):
    """The example, its submittal as a file, and what stands in it."""

    made: Checked
    path: Path
    read: Read


@pytest.fixture(scope="session")
def checked_example() -> Checked:
    return check_folder(EXAMPLE)


def _written_by_commands(names: Sequence[str], folder: Path) -> Papers:
    kept: list[Any] = []
    made = Book.made

    def keep(self: Book, story: Sequence[Any]) -> bytes:
        kept[:] = story
        return made(self, story)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Book, "made", keep)
        return {name: (write_paper(name, folder / f"{name}.pdf"), list(kept)) for name in names}


@pytest.fixture(scope="session")
def submittal(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    """The submittal of the example in one file, the longest of its papers."""
    return _written_by_commands(["submittal"], tmp_path_factory.mktemp("submittal"))


@pytest.fixture(scope="session")
def printed_example(checked_example: Checked, submittal: Papers) -> PrintedExample:
    path = submittal["submittal"][0]
    return PrintedExample(checked_example, path, read_back(path))


@pytest.fixture(scope="session")
def printed_round(tmp_path_factory: pytest.TempPathFactory) -> PrintedExample:
    """The round example, its submittal in one file, and what stands in it."""
    made, path = check_folder(ROUND_EXAMPLE), tmp_path_factory.mktemp("round") / "submittal.pdf"
    write_submittal(made, path)
    return PrintedExample(made, path, read_back(path))


@pytest.fixture(scope="session")
def papers(submittal: Papers, tmp_path_factory: pytest.TempPathFactory) -> Papers:
    """Each paper of the example by its command: the file, and the parts it was made of."""
    others = [name for name in COMMANDS if name not in submittal]
    return submittal | _written_by_commands(others, tmp_path_factory.mktemp("papers"))
