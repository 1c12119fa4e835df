"""Layers of a finish typed as "clay 1 in, lime 1/2 in", as the files hold them."""

from __future__ import annotations

from compliance.facts.common.fact import FieldPath

BARE = "none"
_NAMES = ("outside", "inside")


def holds_layers(path: FieldPath) -> bool:
    """Whether the field at a path of the project holds the layers of a face of a wall."""
    return len(path) == 3 and path[0] in ("walls", "wall_types") and path[2] in _NAMES


def layers_typed(text: str) -> list[dict[str, str]] | None:
    """An entry for each layer, from the earth outward; none of them for a bare face. None for a text that is written
    as the files have it."""
    text = text.strip()
    if text[:1] in ("[", "{"):
        return None
    if text.casefold() == BARE:
        return []
    return [_layer(part.strip()) for part in text.replace(";", ",").split(",") if part.strip()]


def _layer(text: str) -> dict[str, str]:
    material, _, thickness = text.partition(" ")
    return {"material": material, **({"thickness": thickness.strip()} if thickness.strip() else {})}
