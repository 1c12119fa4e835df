"""One command alone answers as it does among the others: what is worked out for a call depends on its first word."""

from __future__ import annotations

import pytest
from typer.testing import CliRunner

from compliance.cli import app, app_for

NAMES = sorted({one.name or one.callback.__name__ for one in app.registered_commands if one.callback})


@pytest.mark.parametrize("arguments", [[], ["--help"], ["chekc"], ["--nope"], ["rules", "list"]])
def test_what_is_no_single_command_sees_all(arguments: list[str]) -> None:
    assert app_for(arguments) is app


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("more", [["--help"], ["--nope"], []])
def test_the_same_words(name: str, more: list[str]) -> None:
    if not more and name in ("limits", "problem"):
        more = ["--help"]
    alone = CliRunner().invoke(app_for([name]), [name, *more], prog_name="earthwall")
    among = CliRunner().invoke(app, [name, *more], prog_name="earthwall")
    assert len(app_for([name]).registered_commands) == 1
    assert (alone.exit_code, alone.output) == (among.exit_code, among.output)
