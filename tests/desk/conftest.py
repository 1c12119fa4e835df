"""One desk of the example for all tests that only read, and a browser for the few that need one."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from compliance.desk.serving import Desk
from tests.conftest import EXAMPLE
from tests.desk.served import Visitor, served

_CHROMIUM = next((path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None)


@pytest.fixture(scope="session")
def example_desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    folder = tmp_path_factory.mktemp("desk") / "house"
    shutil.copytree(EXAMPLE, folder)
    with served(folder) as desk:
        yield desk


@pytest.fixture(scope="session")
def reader(example_desk: Desk) -> Visitor:
    """Was let in to the desk of the example; changes nothing."""
    return Visitor(example_desk).let_in()


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A copy of the example to change."""
    shutil.copytree(EXAMPLE, tmp_path / "house")
    return tmp_path / "house"


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    playwright = pytest.importorskip("playwright.sync_api")
    if _CHROMIUM is None:
        pytest.skip("no Chromium is installed")
    with playwright.sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=_CHROMIUM)
        yield opened
        opened.close()
