"""Where the files that ship with the tool are: beside the package in a checkout, inside it when installed."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).parents[1]
_INSTALLED = _PACKAGE / "shipped"


def shipped(name: str) -> Path:
    """The folder `name` ("rulesets", "example_project", "example_round") that came with this copy of the tool."""
    inside = _INSTALLED / name
    return inside if inside.is_dir() else _PACKAGE.parent / name
