"""A short random session; `python -m tests.desk.random_sessions` runs many long ones."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.desk.random_sessions import FoundError, Session, run_session


def test_a_short_session(tmp_path: Path) -> None:
    assert run_session(tmp_path / "house", seed=3, actions=5) >= 5


def test_a_lost_edit_is_noticed(tmp_path: Path) -> None:
    session = Session(tmp_path / "house", seed=1)
    try:
        session._edit()
        session._editor()
        session._compare()
        project = tmp_path / "house" / "project.yaml"
        project.write_text(project.read_text("utf-8").replace(session.saved[-1][1], "#"), "utf-8")
        walls = tmp_path / "house" / "walls.yaml"
        walls.write_text(walls.read_text("utf-8").replace(session.saved[-1][1], "#"), "utf-8")
        with pytest.raises(FoundError, match="is lost from"):
            session._compare()
    finally:
        session.close()
