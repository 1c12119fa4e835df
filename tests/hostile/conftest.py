"""One host for all runs of a session."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.hostile.running import Host


@pytest.fixture(scope="session")
def host() -> Iterator[Host]:
    found = Host()
    yield found
    found.close()
