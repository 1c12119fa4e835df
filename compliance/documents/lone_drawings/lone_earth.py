"""A jar and the texture triangle by themselves, as the papers draw them, as SVG."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.documents.lone_drawings.svg_canvas import SvgCanvas
from compliance.documents.page.faces import register_faces
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line
from compliance.documents.plots.jar_drawing import JarFigure
from compliance.documents.plots.texture_triangle import Plotted
from compliance.documents.plots.triangle_drawing import TriangleFigure
from compliance.facts.soil.texture import TextureRules
from compliance.model.soil_tests import JarRecord
from compliance.units import Writer

_JAR_WIDTH, _TRIANGLE_WIDTH, _AROUND = 190.0, 440.0, 6.0


def jar_as_svg(jar: JarRecord, writer: Writer) -> str:
    """The layers of a jar to scale, with their heights and shares."""
    return _picture("Jar", JarFigure(jar, writer).lines(_JAR_WIDTH), _JAR_WIDTH)


def triangle_as_svg(rules: TextureRules, points: Sequence[Plotted]) -> str:
    """The classes with the soils and mixes in them."""
    return _picture("Texture triangle", TriangleFigure(rules, tuple(points)).lines(_TRIANGLE_WIDTH), _TRIANGLE_WIDTH)


def _picture(title: str, lines: Sequence[Line], width: float) -> str:
    register_faces()
    line = lines[0]
    assert isinstance(line.ink, Figure)
    canvas = SvgCanvas(width + 2 * _AROUND, line.height + 2 * _AROUND, title)
    canvas.alt = line.ink.alt
    line.ink.draw(canvas, _AROUND, line.height + _AROUND, width)
    return canvas.text()
