"""What a browser complains of while a page is open."""

from __future__ import annotations

from typing import Any


def complaints_of(page: Any) -> list[str]:
    """A list that grows with each error or warning of the console, each error of a script and each refused address."""
    found: list[str] = []
    page.on("console", lambda said: found.append(said.text) if said.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: found.append(str(error)))
    page.on("response", lambda reply: found.append(reply.url) if reply.status >= 400 else None)
    return found
