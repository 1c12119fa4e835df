"""The host of this process, which all its tests share."""

from __future__ import annotations

import pytest

from tests.hostile.running import Host
from tests.running import shared_host


@pytest.fixture(scope="session")
def host() -> Host:
    return shared_host()
