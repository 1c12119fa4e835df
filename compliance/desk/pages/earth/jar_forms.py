"""The jar of a soil: its marks typed, drawn beside the texture triangle while they are typed."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.described_forms import control, words_of
from compliance.desk.pages.field_forms import edit_form
from compliance.documents.lone_drawings.lone_earth import jar_as_svg, triangle_as_svg
from compliance.documents.plots.texture_triangle import Plotted, plotted
from compliance.facts.soil.soil_record import SoilRecord
from compliance.model.soil_tests import JarRecord, LayerReading
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.remedies.edited_project import is_plain, written_plainly
from compliance.report.value_words import counted
from compliance.units import Writer

LAYERS = tuple(name for name, field in JarRecord.model_fields.items() if "LayerReading" in str(field.annotation))
"""Fields of a jar that are a mark with its time, in order from the bottom."""
LEAVES = tuple(name for name in JarRecord.model_fields if is_plain(("soils", "S", "jar", name)))
_WHAT = {"clay": "clay, of everything that settled", "settled": "everything that settled"}
HOW = (
    "Measure each mark from the floor of the jar. What is typed is drawn at once; nothing is written before the button."
)


def layers_asked(jar: JarRecord | None) -> list[str]:
    """Marks to type: the top of everything once, under the name that the project has for it."""
    left_out = "clay" if jar is not None and jar.settled is not None else "settled"
    return [name for name in LAYERS if name != left_out]


def jar_form(mark: str, jar: JarRecord | None, snapshot: Snapshot, back: str) -> Markup:
    """The marks with their times, then what else is recorded of a jar."""
    rows = [_layer(name, getattr(jar, name, None)) for name in layers_asked(jar)]
    rows += [_leaf(mark, name, getattr(jar, name, None), snapshot) for name in LEAVES]
    return edit_form(
        tag("input", type="hidden", name="soil", value=mark),
        tag("p", HOW, class_="small"),
        *rows,
        tag("button", "Save the jar", type="submit"),
        snapshot=snapshot,
        back=back,
        class_="fields live",
        action="/earth/jar",
    )


def _layer(name: str, reading: LayerReading | None) -> Markup:
    height = reading.height.text if reading else ""
    time = reading.time.text if reading and reading.time else ""
    return tag(
        "div",
        tag("label", f"top of {_WHAT.get(name, name)}", for_=f"jar-{name}"),
        _line(f"height.{name}", f"jar-{name}", height, "as 3 5/8 in, or 92 mm"),
        _line(f"time.{name}", f"jar-{name}-time", time, "marked after, as 40 s", spoken=f"when {name} was marked"),
        class_="field",
    )


def _line(name: str, key: str, value: str, hint: str, spoken: str = "") -> Markup:
    more = {"aria_label": spoken} if spoken else {}
    return tag(
        "input", type="text", name=name, id=key, value=value, placeholder=hint, autocomplete="off", maxlength="40",
        **more,
    )  # fmt: skip


def _leaf(mark: str, name: str, value: object, snapshot: Snapshot) -> Markup:
    key = f"jar-{name}"
    held = "" if value is None else written_plainly(value)
    field = control(("soils", mark, "jar", name), key, snapshot, value=held, name=f"leaf.{name}")
    return tag("div", tag("label", words_of(name), for_=key), field, class_="field")


def jar_now(mark: str, checked: Checked, jar: JarRecord | None, record: SoilRecord | None) -> Markup:
    """The jar beside the triangle, as they are or would be, with what follows."""
    drawn = Markup(jar_as_svg(jar, Writer(checked.project.project.units))) if jar else None
    records = dict(checked.evidence.soils) | ({mark: record} if record else {})
    return tag(
        "div", tag("div", drawn, _triangle(checked, plotted(records, {})), class_="pictured"), joined(_says(record))
    )


def _says(record: SoilRecord | None) -> Iterator[Child]:
    if record is None:
        return
    if record.texture.name:
        yield tag("p", f"Texture class: {record.texture.name}.", class_="what")
    elif record.texture.reason:
        yield tag("p", f"No texture class: {record.texture.reason}.")
    remarks = [one.says for one in (record.jar.remarks if record.jar else ())]
    if remarks:
        yield tag(
            "details",
            tag("summary", f"Notes: {counted(len(remarks), 'remark')}"),
            *(tag("p", one) for one in remarks),
        )


def _triangle(checked: Checked, points: list[Plotted]) -> Markup | None:
    return triangle(checked, points) if points else None


def triangle(checked: Checked, points: list[Plotted]) -> Markup:
    """The texture triangle with soils and mixes in it."""
    return Markup(triangle_as_svg(checked.needed_references.practice.texture, points))
