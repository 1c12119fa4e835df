"""An address as a QR code, for a page and for a terminal."""

from __future__ import annotations

from collections.abc import Sequence

import segno

from compliance.output.checklist.html_tags import Markup, tag

_QUIET = 4
"""Light modules around a code (ISO/IEC 18004)."""
_INK, _RESET = "\x1b[38;5;16;48;5;231m", "\x1b[0m"
"""Black on white, whatever the terminal has."""


def code_modules(address: str) -> list[list[bool]]:
    """Rows of modules, true where dark, with the light ones around them. A code with 15 % of its words lost still
    reads."""
    rows = segno.make_qr(address, error="m").matrix_iter(scale=1, border=_QUIET)
    return [[bool(one) for one in row] for row in rows]


def code_svg(address: str, label: str) -> Markup:
    """Black on white by night too, for a camera."""
    modules = code_modules(address)
    size = f"{len(modules)}"
    path = "".join(_runs(y, row) for y, row in enumerate(modules))
    return tag(
        "svg",
        tag("rect", width=size, height=size, fill="#fff"),
        tag("path", d=path, fill="#000"),
        viewBox=f"0 0 {size} {size}", role="img", aria_label=label, class_="code", shape_rendering="crispEdges",
    )  # fmt: skip


def _runs(y: int, row: Sequence[bool]) -> str:
    """Dark modules side by side as one rectangle each."""
    out, x = "", 0
    while x < len(row):
        width = next((n for n in range(len(row) - x) if not row[x + n]), len(row) - x)
        out += f"M{x} {y}h{width}v1h-{width}z" if width else ""
        x += width or 1
    return out


def code_lines(address: str) -> list[str]:
    """For a terminal: two rows of modules to a line."""
    modules = code_modules(address)
    modules += [[False] * len(modules[0])] if len(modules) % 2 else []
    pairs = zip(modules[::2], modules[1::2], strict=True)
    return [_INK + "".join(_BLOCKS[one] for one in zip(*pair, strict=True)) + _RESET for pair in pairs]


_BLOCKS = {(False, False): " ", (True, False): "\u2580", (False, True): "\u2584", (True, True): "\u2588"}
