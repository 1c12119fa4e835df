"""What fuzzing starts from: sound texts out of the shipped files, so that they never fall behind the language, and
the hostile cases."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.fuzz.packing import unpacked
from tests.fuzz.whole_project import EXAMPLE, FILES, bundled
from tests.hostile.laying_out import CASES, SOUND

ROOT = Path(__file__).parents[2]

_MEASURE = re.compile(
    r"""["']?(-?[0-9][^,\]}{\n"']{0,18}?(?: ?(?:ft|in|psi|psf|mm|m|%|days|mph|deg|pcf|lbf|kN|MPa)))\b"""
)
_FORMULA = re.compile(r"^ *(?:when|check): *(.+?) *$", re.MULTILINE)
_RULE = re.compile(r"^  - (?=id:|\{id:)", re.MULTILINE)


def _rule_sets() -> list[Path]:
    return sorted((ROOT / "rulesets").glob("*.yaml"))


def _measures() -> Iterator[bytes]:
    texts = [path.read_text("utf-8") for path in (*sorted(EXAMPLE.glob("*.yaml")), *_rule_sets())]
    yield from (measure.encode() for measure in sorted({found for text in texts for found in _MEASURE.findall(text)}))
    yield from (b"8'-6\"", b"3-1/2 in", b"1 1/2 in", b"-12 ft", b"70 degF", b"1200 lbf*ft", b"0.613 Pa/(m/s)2")


def _yaml() -> Iterator[bytes]:
    yield from (path.read_bytes() for path in sorted(EXAMPLE.glob("*.yaml")))


def _formulas() -> Iterator[bytes]:
    texts = "\n".join(path.read_text("utf-8") for path in _rule_sets())
    yield from (formula.strip("'\"").encode() for formula in sorted(set(_FORMULA.findall(texts))))


def _tables() -> Iterator[bytes]:
    yield from (path.read_bytes() for path in sorted((EXAMPLE / "lab").glob("*.csv")))


def _workbooks() -> Iterator[bytes]:
    """One sound, one with a formula never worked out, a hidden row and merged cells; whole and as parts."""
    plain: list[list[object]] = [["set", "specimen", "width [in]"], ["C1", "a", 4], ["C1", "b", 4.25]]
    for marked in (False, True):
        book = _workbook(plain, marked)
        yield book
        yield unpacked(book)


def _workbook(rows: list[list[object]], marked: bool) -> bytes:
    import openpyxl  # type: ignore[import-untyped]

    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    if marked:
        book.active.append(["C1", "c", "=4*1"])
        book.active.merge_cells("A6:B7")
        book.active.row_dimensions[3].hidden = True
        book.active.column_dimensions["C"].hidden = True
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _attachments() -> Iterator[bytes]:
    """Small pictures and letters of several makes: with a form, with packed objects, with a link."""
    import pikepdf
    from PIL import Image

    for kind, mode in (("PNG", "RGB"), ("PNG", "RGBA"), ("PNG", "P"), ("PNG", "I;16"), ("JPEG", "RGB"), ("JPEG", "L")):
        out = io.BytesIO()
        Image.new(mode, (24, 18), 77).save(out, kind)
        yield out.getvalue()
    for packed_objects in (False, True):
        pdf = pikepdf.new()
        for _ in range(2):
            pdf.add_blank_page(page_size=(300, 200))
            pdf.pages[-1].Contents = pdf.make_stream(b"0.5 g 20 20 100 50 re f BT /F1 12 Tf (letter) Tj ET")
        note = pikepdf.Dictionary(Type=pikepdf.Name.Annot, Subtype=pikepdf.Name.Link, Rect=[0, 0, 10, 10])
        pdf.pages[0].Annots = pdf.make_indirect(pikepdf.Array([pdf.make_indirect(note)]))
        out = io.BytesIO()
        mode = pikepdf.ObjectStreamMode.generate if packed_objects else pikepdf.ObjectStreamMode.disable
        pdf.save(out, object_stream_mode=mode, compress_streams=packed_objects)
        yield out.getvalue()


def _rules() -> Iterator[bytes]:
    """Each shipped rule alone under the head of its file: short inputs are changed to more purpose."""
    for path in _rule_sets():
        text = path.read_text("utf-8")
        head, *rules = _RULE.split(text)
        yield from (f"{head}  - {rule}".encode() for rule in rules[:40])


def _amendments() -> Iterator[bytes]:
    yield b"""changes:
  - rule_set: cob-practice
    rule: footing-depth
    limit: minimum
    value: 14 in
    standing: confirmed
    by: "A. Reader"
    on: 2026-05-14
    where: "Section 4"
    reason: "asked for"
drops:
  - {rule_set: cob-practice, rule: flood-zone, reason: none here, by: A, on: 2026-05-14, authority: B}
"""


def _projects() -> Iterator[bytes]:
    yield bundled({name: (EXAMPLE / name).read_text("utf-8") for name in FILES})
    yield bundled({"project.yaml": SOUND})


SEEDS: dict[str, Callable[[], Iterator[bytes]]] = {
    "measures": _measures,
    "yaml": _yaml,
    "formulas": _formulas,
    "tables": _tables,
    "workbooks": _workbooks,
    "attachments": _attachments,
    "rules": _rules,
    "amendments": _amendments,
    "project": _projects,
}

_CASES = {
    "yaml": "yaml/*.yaml",
    "tables": "tables/*.csv",
    "amendments": "amendments/*.yaml",
    "project": "projects/*.yaml",
    "rules": "rules/*.yaml",
}


def cases(name: str) -> list[bytes]:
    """The hostile cases that a target can take: refused themselves, and worth crossing with what is sound."""
    found = [path.read_bytes() for path in sorted(CASES.glob(_CASES[name]))] if name in _CASES else []
    return [b"=== project.yaml\n" + data for data in found] if name == "project" else found
