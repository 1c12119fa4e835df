"""Building HTML so that no text of a user is ever markup: text and attributes are escaped where they are put in."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

_VOID = frozenset({"meta", "br", "input", "link", "img"})


class Markup(str):
    """Text that is HTML already."""

    __slots__ = ()


Child = str | Markup | None


def tag(name: str, /, *children: Child, **attributes: str) -> Markup:
    """An element. Names of attributes may end with _, and an underscore inside stands for a hyphen."""
    shown = "".join(f' {key.rstrip("_").replace("_", "-")}="{escape(value)}"' for key, value in attributes.items())
    if name in _VOID:
        return Markup(f"<{name}{shown}>")
    return Markup(f"<{name}{shown}>{joined(children)}</{name}>")


def joined(children: Iterable[Child]) -> Markup:
    """Children one after the other; None leaves no trace."""
    return Markup(
        "".join(child if isinstance(child, Markup) else escape(child) for child in children if child is not None)
    )
