"""A page that takes what drawings ink and gives it back as SVG 1.1 text."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape
from types import SimpleNamespace
from typing import Any

from compliance.documents.page.faces import em_width

_FAMILIES = {"Text": "'IBM Plex Sans', sans-serif", "Narrow": "'IBM Plex Sans Condensed', 'Arial Narrow', sans-serif"}
_WEIGHTS = {"Medium": "500", "Bold": "600"}


class Outline:
    """Lines one after the other, as SVG has them."""

    def __init__(self) -> None:
        self.parts: list[str] = []

    def moveTo(self, x: float, y: float) -> None:  # noqa: N802
        self.parts.append(f"M{x:.2f} {y:.2f}")

    def lineTo(self, x: float, y: float) -> None:  # noqa: N802
        self.parts.append(f"L{x:.2f} {y:.2f}")

    def rect(self, x: float, y: float, width: float, height: float) -> None:
        self.parts.append(f"M{x:.2f} {y:.2f}h{width:.2f}v{height:.2f}h{-width:.2f}Z")

    def close(self) -> None:
        self.parts.append("Z")


class SvgCanvas:
    """Knows the operators of `documents.elements.strokes` and the few calls that a drawing or a plot makes of a page.
    Heights run up the page as on paper; the whole is turned over once, at the root."""

    def __init__(self, width: float, height: float, title: str) -> None:
        self.width, self.height, self.title = width, height, title
        self.alt = ""
        self.places: dict[str, int] = {}
        self.structure = SimpleNamespace(document=None, heading=_nothing)
        self._parts: list[str] = []
        self._clips = 0
        self._open = [0]  # groups opened since each saved state
        self._face, self._size = "Text", 9.0
        self._ink = {"fill": "#000000", "stroke": "#000000", "width": "1", "dash": ""}

    def text(self) -> str:
        """The whole picture."""
        size = f'width="{self.width:g}pt" height="{self.height:g}pt" viewBox="0 0 {self.width:g} {self.height:g}"'
        return "\n".join(
            [
                f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size}>',
                f"<title>{escape(self.title)}</title>",
                f"<desc>{escape(self.alt)}</desc>",
                '<rect width="100%" height="100%" fill="#ffffff"/>',
                f'<g transform="matrix(1 0 0 -1 0 {self.height:g})">',
                *self._parts,
                "</g>",
                "</svg>\n",
            ]
        )

    # What a drawing inks.

    def addLiteral(self, operators: str) -> None:  # noqa: N802
        """Raises ValueError for an operator it does not know."""
        numbers: list[str] = []
        path: list[str] = []
        for word in operators.split():
            if word not in _OPERATORS:
                if word[:1].isalpha():
                    raise ValueError(f"no operator of a drawing: {word}")
                numbers.append(word)
                continue
            _OPERATORS[word](self, numbers, path)
            numbers = []

    def setFont(self, face: str, size: float) -> None:  # noqa: N802
        self._face, self._size = face, size

    def setFillColor(self, colour: Any) -> None:  # noqa: N802
        self._ink["fill"] = _hex(colour.red, colour.green, colour.blue)

    def setStrokeColor(self, colour: Any) -> None:  # noqa: N802
        self._ink["stroke"] = _hex(colour.red, colour.green, colour.blue)

    def setLineWidth(self, width: float) -> None:  # noqa: N802
        self._ink |= {"width": f"{width:g}", "dash": ""}

    def drawString(self, x: float, y: float, text: str) -> None:  # noqa: N802
        family, _, weight = self._face.partition("-")
        wide = em_width(text.rstrip(), self._face) * self._size
        self._parts.append(
            f'<text transform="matrix(1 0 0 -1 {x:.2f} {y:.2f})" font-family="{_FAMILIES[family]}" '
            f'font-size="{self._size:g}" font-weight="{_WEIGHTS.get(weight, "400")}" fill="{self._ink["fill"]}" '
            f'textLength="{wide:.2f}" lengthAdjust="spacingAndGlyphs">{escape(text.rstrip())}</text>'
        )

    def rect(self, x: float, y: float, width: float, height: float, stroke: int = 1, fill: int = 0) -> None:
        painted = "B" if stroke and fill else "f*" if fill else "S"
        self.addLiteral(f"{x:.2f} {y:.2f} {width:.2f} {height:.2f} re {painted}")

    def line(self, x0: float, y0: float, x1: float, y1: float) -> None:
        self.addLiteral(f"{x0:.2f} {y0:.2f} m {x1:.2f} {y1:.2f} l S")

    def lines(self, ends: Sequence[tuple[float, float, float, float]]) -> None:
        """Each from a first point to a second."""
        self.addLiteral("".join(f"{x0:.2f} {y0:.2f} m {x1:.2f} {y1:.2f} l " for x0, y0, x1, y1 in ends) + "S")

    def circle(self, x: float, y: float, radius: float, stroke: int = 1, fill: int = 0) -> None:
        around = f"a{radius:g} {radius:g} 0 1 0"
        path = f"M{x - radius:.2f} {y:.2f}{around} {2 * radius:.2f} 0{around} {-2 * radius:.2f} 0Z"
        self.painted(path, bool(stroke), bool(fill))

    def drawRightString(self, x: float, y: float, text: str) -> None:  # noqa: N802
        self.drawString(x - em_width(text, self._face) * self._size, y, text)

    def drawCentredString(self, x: float, y: float, text: str) -> None:  # noqa: N802
        self.drawString(x - em_width(text, self._face) * self._size / 2, y, text)

    def setDash(self, on: float = 0, off: float = 0) -> None:  # noqa: N802
        self._ink["dash"] = f"{on:g} {off:g}" if on else ""

    def beginPath(self) -> Outline:  # noqa: N802
        return Outline()

    def drawPath(self, path: Outline, stroke: int = 1, fill: int = 0) -> None:  # noqa: N802
        self.painted("".join(path.parts), bool(stroke), bool(fill))

    def clipPath(self, path: Outline, stroke: int = 0, fill: int = 0) -> None:  # noqa: N802
        self.clip("".join(path.parts))

    # Where it inks.

    def saveState(self) -> None:  # noqa: N802
        self._open.append(0)

    def restoreState(self) -> None:  # noqa: N802
        self._parts += ["</g>"] * self._open.pop()

    def translate(self, x: float, y: float) -> None:
        self._group(f'transform="translate({x:.2f} {y:.2f})"')

    def rotate(self, degrees: float) -> None:
        self._group(f'transform="rotate({degrees:g})"')

    def _group(self, attributes: str) -> None:
        self._parts.append(f"<g {attributes}>")
        self._open[-1] += 1

    def clip(self, path: str) -> None:
        """Until the state is restored."""
        self._clips += 1
        self._parts.append(f'<clipPath id="clip{self._clips}"><path d="{path}" clip-rule="evenodd"/></clipPath>')
        self._group(f'clip-path="url(#clip{self._clips})"')

    def painted(self, path: str, stroke: bool, fill: bool) -> None:
        ink = self._ink
        inked = f'fill="{ink["fill"]}" fill-rule="evenodd"' if fill else 'fill="none"'
        if stroke:
            dash = f' stroke-dasharray="{ink["dash"]}"' if ink["dash"] else ""
            inked += f' stroke="{ink["stroke"]}" stroke-width="{ink["width"]}"{dash}'
        self._parts.append(f'<path d="{path}" {inked}/>')

    def set_ink(self, name: str, value: str) -> None:
        self._ink[name] = value

    # What only a tagged page has.

    def figure(self, document: object, alt: str, box: object) -> None:
        self.alt = alt

    def begin(self, element: object) -> None:
        """Nothing to mark."""

    def begin_decoration(self) -> None:
        """Nothing to mark."""

    def end(self) -> None:
        """Nothing was marked."""

    def paragraph(self) -> None:
        """None is kept."""

    def bookmarkHorizontal(self, key: str, x: float, y: float) -> None:  # noqa: N802
        """Nothing leads here."""


def _nothing(*values: object) -> None:
    """No heading is kept."""


def _hex(red: float, green: float, blue: float) -> str:
    return "#" + "".join(f"{round(255 * float(one)):02x}" for one in (red, green, blue))


def _corner(letter: str) -> Callable[[SvgCanvas, list[str], list[str]], None]:
    return lambda canvas, numbers, path: path.append(f"{letter}{' '.join(numbers)}")


def _box(canvas: SvgCanvas, numbers: list[str], path: list[str]) -> None:
    x, y, width, height = numbers
    path.append(f"M{x} {y}h{width}v{height}h-{width}Z")


def _paints(stroke: bool, fill: bool) -> Callable[[SvgCanvas, list[str], list[str]], None]:
    def paint(canvas: SvgCanvas, numbers: list[str], path: list[str]) -> None:
        if path:
            canvas.painted("".join(path), stroke, fill)
        path.clear()

    return paint


def _clips(canvas: SvgCanvas, numbers: list[str], path: list[str]) -> None:
    canvas.clip("".join(path))
    path.clear()


def _colours(name: str) -> Callable[[SvgCanvas, list[str], list[str]], None]:
    def colour(canvas: SvgCanvas, numbers: list[str], path: list[str]) -> None:
        red, green, blue = (float(one) for one in numbers)
        canvas.set_ink(name, _hex(red, green, blue))

    return colour


def _dashes(canvas: SvgCanvas, numbers: list[str], path: list[str]) -> None:
    canvas.set_ink("dash", " ".join(one.strip("[]") for one in numbers[:-1] if one.strip("[]")))


_OPERATORS: dict[str, Callable[[SvgCanvas, list[str], list[str]], None]] = {
    "m": _corner("M"), "l": _corner("L"), "c": _corner("C"), "h": _corner("Z"), "re": _box,
    "S": _paints(stroke=True, fill=False), "f*": _paints(stroke=False, fill=True),
    "B": _paints(stroke=True, fill=True), "W*": _clips, "n": lambda canvas, numbers, path: None,
    "w": lambda canvas, numbers, path: canvas.set_ink("width", numbers[0]),
    "RG": _colours("stroke"), "rg": _colours("fill"), "d": _dashes,
}  # fmt: skip
"""Of a page's contents (ISO 32000-1, annex A), those that drawings use."""
