"""Attachments bound in: every page there, upright, unhidden and numbered; what is unfit is refused with its place."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import numpy
import pikepdf
import pypdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from reportlab.pdfgen.canvas import Canvas

from compliance.checked import Checked
from compliance.commands.common.attachment_binding import read_attachments
from compliance.documents.attachments.attachment_pages import attachments
from compliance.documents.attachments.bound_files import Bound
from compliance.documents.attachments.pdf_inspection import Letter, read_letter
from compliance.documents.attachments.pictures import Picture, read_picture
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import TEXT, register_faces
from compliance.documents.submittal.bundle import write_submittal
from compliance.model.people import Attachment, Attestation
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.refused import RefusedError
from compliance.report.by_rule import by_rule
from tests.documents.buildings import checked, project
from tests.documents.reading_back import Read, fonts_without_file, overlapping, read_back
from tests.documents.structure_back import tagged
from tests.running import run_tool
from tests.tries import tries

ROOT = Path(__file__).parents[2]
LETTER = PAPERS["letter"]
HEAD = """\
project: {name: Trial, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [cob-practice]}
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in}
attachments:
"""


def letter(
    pages: int = 2, size: tuple[float, float] = (612, 792), before: Callable[[Canvas, int], None] | None = None
) -> bytes:
    """A PDF of another hand: text at all four edges of each page, in an embedded face."""
    register_faces()
    out = BytesIO()
    canvas = Canvas(out, pagesize=size, invariant=1, initialFontName=TEXT)
    for number in range(1, pages + 1):
        canvas.setFont(TEXT, 11)
        canvas.drawString(20, size[1] - 20, f"uppermost {number}")
        canvas.drawString(20, 8, f"lowermost {number}")
        canvas.drawRightString(size[0] - 8, size[1] / 2, f"rightmost {number}")
        canvas.setFillColorRGB(0.2, 0.5, 0.8)
        canvas.rect(size[0] * 0.3, size[1] * 0.6, 60, 30, stroke=0, fill=1)
        if before:
            before(canvas, number)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def changed(data: bytes, change: Callable[[pikepdf.Pdf], None]) -> bytes:
    out = BytesIO()
    with pikepdf.open(BytesIO(data)) as pdf:
        change(pdf)
        pdf.save(out, deterministic_id=True)
    return out.getvalue()


def picture(size: tuple[int, int] = (320, 200), kind: str = "PNG", mode: str = "RGB", **more: Any) -> bytes:
    """The upper left quarter dark, so that a picture turned over shows."""
    made = Image.new("RGB", size, (230, 220, 200))
    ImageDraw.Draw(made).rectangle((0, 0, size[0] // 2, size[1] // 2), fill=(40, 60, 30))
    out = BytesIO()
    made.convert(mode).save(out, kind, **more)
    return out.getvalue()


def bound_in(content: Any, mark: str = "P1", **more: Any) -> Bound:
    named = Attachment.model_validate({"file": "papers/file.pdf", "title": "A paper", "date": "2026-02-03", **more})
    return Bound(mark, attachment=named, digest="ab" * 32, size=1000, content=content)


def book_of(bound: list[Bound], path: Path, made: Checked | None = None) -> Read:
    """The section alone, so that a test takes little time."""
    building = project(1).model_copy(update={"attachments": {one.mark: one.attachment for one in bound}})
    known = made or checked(1, 1, of=building)
    _, *story = attachments(known, by_rule(known), bound, LETTER)  # without the page break before it
    Book(head_of(known, "attachments"), LETTER, covered=False).write(story, path)
    return read_back(path)


def folder_with(folder: Path, files: dict[str, bytes]) -> Path:
    """A sound project that attaches every one of `files`, each on a line of its own from line 6 on."""
    text = HEAD
    for number, (name, data) in enumerate(files.items(), start=1):
        text += f"  A{number}: {{file: {name}, title: Paper {number}}}\n"
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    (folder / "project.yaml").write_text(text, encoding="utf-8")
    return folder


def refused(folder: Path, files: dict[str, bytes]) -> ProblemsFound:
    folder_with(folder, files)
    with pytest.raises(ProblemsFound) as found:
        read_attachments(folder, read_project(folder).project)
    return found.value


def test_every_page_of_a_letter_is_bound_in_and_numbered(tmp_path: Path) -> None:
    read = book_of([bound_in(read_letter(letter(3)))], tmp_path / "out.pdf")
    count = len(read.pages)
    assert count == 4
    for number in (1, 2, 3):
        page = read.pages[number]
        assert f"uppermost {number}" in page and f"lowermost {number}" in page and f"rightmost {number}" in page
        assert f"page {number} of 3" in page and f"Page {number + 1} of {count}" in page
        assert "A paper attachment P1" in page


def test_each_page_and_picture_says_what_it_is(tmp_path: Path) -> None:
    """The first letter has a structure of its own, which does not get into that of the bundle."""
    own, out = tmp_path / "own.pdf", tmp_path / "out.pdf"
    book_of([bound_in("a text")], own)
    papers = [read_letter(own.read_bytes()), read_letter(letter(2)), read_picture(picture())]
    titles = ("A paper", "Soil (report)", "Façade")
    book_of(
        [bound_in(one, f"P{n}", title=title) for n, (one, title) in enumerate(zip(papers, titles, strict=True))], out
    )
    found = tagged(out)
    assert [one.text("Alt") for one in found.of_kind("Figure")] == [
        "Page 1 of 1 of the attachment: A paper", "Page 1 of 2 of the attachment: Soil (report)",
        "Page 2 of 2 of the attachment: Soil (report)", "Attached picture: Façade",
    ]  # fmt: skip
    assert not [page.bare or page.faults for page in found.pages if page.bare or page.faults]
    marks = [mark for one in found.elements for mark in one.marks]
    assert len(set(marks)) == len(marks) == sum(len(page.painted) for page in found.pages)


def test_nothing_of_a_letter_lies_under_our_own_lines(tmp_path: Path) -> None:
    read = book_of(
        [bound_in(read_letter(letter(2, size)), f"P{n}") for n, size in enumerate(SIZES)], tmp_path / "o.pdf"
    )
    for page, (boxes, text) in enumerate(zip(read.boxes, read.pages, strict=True)):
        assert not overlapping(boxes), f"page {page + 1}"
        if page:
            assert "uppermost" in text and "lowermost" in text
        for left, bottom, right, top in boxes:
            assert left >= 53 and right <= LETTER.width - 50 and bottom >= 18 and top <= LETTER.height - 20


SIZES = [(612.0, 792.0), (595.0, 842.0), (792.0, 612.0), (200.0, 1200.0), (1200.0, 200.0), (3000.0, 2000.0)]


def pixels(data: bytes | Path, page: int, scale: float, box: tuple[float, float, float, float] | None = None) -> Any:
    """A page as grey pixels, or the part of it in `box` (left, bottom, right, top in points)."""
    document = pypdfium2.PdfDocument(data)
    shown = document[page].render(scale=scale, grayscale=True).to_pil().convert("L")
    if box:
        _, height = document[page].get_size()
        left, bottom, right, top = box
        shown = shown.crop(
            (round(left * scale), round((height - top) * scale), round(right * scale), round((height - bottom) * scale))
        )
    document.close()
    return shown


def alike(one: Any, other: Any) -> float:
    """The mean difference of two pictures of the same thing, in shades of 255."""
    first = numpy.asarray(one.convert("L"), dtype=float)
    second = numpy.asarray(other.convert("L").resize(one.size), dtype=float)
    return float(numpy.abs(first - second).mean())


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
@pytest.mark.parametrize("cropped", [False, True])
def test_a_page_looks_as_in_another_reader(turned: int, cropped: bool, tmp_path: Path) -> None:
    """Held against pdfium's own picture of the page: turned, cropped, and with a stamp laid over it."""

    def change(pdf: pikepdf.Pdf) -> None:
        page = pdf.pages[0]
        page.Rotate = turned
        if cropped:
            page.CropBox = [10, 5, 500, 700]
        look = pdf.make_stream(b"0.8 0.1 0.1 rg 0 0 40 20 re f", Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Form,
                               BBox=[0, 0, 40, 20], Matrix=[0, 1, -1, 0, 0, 0])  # fmt: skip
        stamp = pikepdf.Dictionary(Type=pikepdf.Name.Annot, Subtype=pikepdf.Name.Stamp, Rect=[100, 100, 180, 220], F=4,
                                   AP=pikepdf.Dictionary(N=look))  # fmt: skip
        page.Annots = pikepdf.Array([pdf.make_indirect(stamp)])

    data = changed(letter(1), change)
    path = tmp_path / "out.pdf"
    book_of([bound_in(read_letter(data))], path)
    original = pixels(data, 0, 1.0)
    width, height = original.size
    turned_on_its_side = width / height > 1.15
    across, up = (height, width) if turned_on_its_side else (width, height)
    frame = frame_of(path, 1)
    assert frame[2] - frame[0] <= LETTER.body_width + 0.1
    assert (frame[2] - frame[0]) / (frame[3] - frame[1]) == pytest.approx(across / up, rel=0.01)
    shown = pixels(path, 1, 3.0, frame)
    if turned_on_its_side:
        shown = shown.rotate(-90, expand=True)
    assert alike(original, shown) < 4.0
    assert alike(original, shown.rotate(180)) > 6.0


def frame_of(path: Path, page: int) -> tuple[float, float, float, float]:
    """The frame drawn round a bound page: the largest rectangle of the page that is stroked."""
    document = pypdfium2.PdfDocument(path)
    boxes = [one.get_bounds() for one in document[page].get_objects(max_depth=1) if one.type == 2]
    document.close()
    left, bottom, right, top = max(boxes, key=lambda box: (box[2] - box[0]) * (box[3] - box[1]))
    return left, bottom, right, top


def test_bookmarks_lead_to_each_attachment(tmp_path: Path) -> None:
    bound = [
        bound_in(read_picture(picture()), "A", title="A picture"),
        bound_in("one line\nanother <b>line</b> & more", "B", title="Notes"),
        bound_in(read_letter(letter(2)), "C", title="The letter"),
        bound_in(None, "D", title="A drawing", file="plan.dwg"),
    ]
    read = book_of(bound, tmp_path / "out.pdf")
    titles = {title: page for level, title, page in read.outline if level == 1}
    assert list(titles) == ["A picture", "Notes", "The letter"]
    for title, page in titles.items():
        assert title in read.pages[page - 1]
    assert "another <b>line</b> & more" in read.text
    assert "handed over as a file, 1,000 bytes" in read.text


def test_text_runs_on_over_pages(tmp_path: Path) -> None:
    text = "\n".join(f"line number {number} of the notes" for number in range(200))
    read = book_of([bound_in(text)], tmp_path / "out.pdf")
    assert len(read.pages) > 3 and "continued" in read.pages[2]
    assert all(f"line number {number} of" in read.text for number in range(200))


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_the_bundle_is_sound_its_fonts_embedded_nothing_active_left(tmp_path: Path) -> None:
    def link(canvas: Canvas, number: int) -> None:
        canvas.linkURL("https://example.org", (10, 10, 60, 60))

    path = tmp_path / "out.pdf"
    book_of([bound_in(read_letter(letter(2, before=link))), bound_in(read_picture(picture()), "P2")], path)
    run = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr, run.stdout + run.stderr
    assert fonts_without_file(path) == []
    assert b"example.org" not in path.read_bytes()


_SCRIPT = """
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from tests.documents.test_attachments import bound_in, book_of, letter, picture
from compliance.documents.attachments.pdf_inspection import read_letter
from compliance.documents.attachments.pictures import read_picture
book_of([bound_in(read_letter(letter(2))), bound_in(read_picture(picture()), "P2")], Path(sys.argv[1]))
"""


def test_the_same_bytes_in_another_process(tmp_path: Path) -> None:
    """This process has a seed of its own."""
    here, there = tmp_path / "here.pdf", tmp_path / "there.pdf"
    book_of([bound_in(read_letter(letter(2))), bound_in(read_picture(picture()), "P2")], here)
    surroundings = os.environ | {"PYTHONHASHSEED": "1", "PYTHONPATH": str(ROOT)}
    subprocess.run([sys.executable, "-c", _SCRIPT, str(there)], check=True, env=surroundings, cwd=ROOT)
    assert here.read_bytes() == there.read_bytes()


def test_the_index_tells_what_each_is_named_for(tmp_path: Path) -> None:
    one = bound_in(read_picture(picture()), "P1")
    answer = Attestation.model_validate(
        {"rule": "rule-1", "answer": "yes", "by": "B", "on": "2026-01-01", "evidence": ["P1"]}
    )
    soil = project(1).soils["S1"].model_copy(update={"photos": ["P1"]})
    building = project(1).model_copy(
        update={"attachments": {"P1": one.attachment}, "attestations": [answer], "soils": {"S1": soil}}
    )
    read = book_of([one], tmp_path / "out.pdf", checked(1, 1, of=building))
    assert "picture A1, soil S1" in read.pages[0]
    assert "papers/file.pdf" in read.pages[0] and "2026-02-03" in read.pages[0] and "abababababab" in read.pages[0]


def test_files_that_were_not_read_are_listed_as_not_bound_in(tmp_path: Path) -> None:
    named = Attachment.model_validate({"file": "a.pdf", "title": "A letter"})
    building = project(1).model_copy(update={"attachments": {"L1": named}})
    write_submittal(checked(1, 1, of=building), tmp_path / "out.pdf")
    assert "A letter a.pdf — named only, not bound in" in read_back(tmp_path / "out.pdf").text


def test_a_project_without_attachments_has_no_such_section(tmp_path: Path) -> None:
    write_submittal(checked(1, 1), tmp_path / "out.pdf", bound=())
    assert "Attachments" not in read_back(tmp_path / "out.pdf").text


# ----------------------------------------------------------------------------------------------------------- pictures


@pytest.mark.parametrize("turned", range(1, 9))
def test_a_photo_held_sideways_is_shown_upright(turned: int, tmp_path: Path) -> None:
    """Orientation 1 to 8 of the EXIF standard: the camera's note of how it was held."""
    upright = Image.open(BytesIO(picture((300, 200))))
    laid = {
        1: lambda p: p, 2: lambda p: p.transpose(Image.Transpose.FLIP_LEFT_RIGHT),
        3: lambda p: p.transpose(Image.Transpose.ROTATE_180), 4: lambda p: p.transpose(Image.Transpose.FLIP_TOP_BOTTOM),
        5: lambda p: p.transpose(Image.Transpose.TRANSPOSE), 6: lambda p: p.transpose(Image.Transpose.ROTATE_90),
        7: lambda p: p.transpose(Image.Transpose.TRANSVERSE), 8: lambda p: p.transpose(Image.Transpose.ROTATE_270),
    }[turned](upright)  # fmt: skip
    noted = Image.Exif()
    noted[0x0112] = turned
    out = BytesIO()
    laid.save(out, "JPEG", exif=noted, quality=95)
    found = read_picture(out.getvalue())
    assert (found.width, found.height) == (300, 200)
    assert alike(upright, Image.open(BytesIO(found.data))) < 3


@pytest.mark.parametrize("mode", ["RGB", "L", "P", "RGBA", "LA", "1", "I;16", "CMYK"])
def test_pictures_of_any_depth_are_shown(mode: str, tmp_path: Path) -> None:
    kind = "JPEG" if mode == "CMYK" else "PNG"
    if mode == "I;16":
        shades = numpy.asarray(Image.open(BytesIO(picture())).convert("L"), dtype=numpy.uint16) * 257
        out = BytesIO()
        Image.fromarray(shades).save(out, "PNG")
        data = out.getvalue()
    else:
        data = picture(kind=kind, mode=mode)
    path = tmp_path / "out.pdf"
    book_of([bound_in(read_picture(data))], path)
    plain = picture(mode="L") if mode == "I;16" else data
    assert alike(Image.open(BytesIO(plain)), Image.open(BytesIO(read_picture(data).data))) < 3
    with pikepdf.open(path) as pdf:
        streams = [one for one in pdf.objects if isinstance(one, pikepdf.Stream)]
        assert sum(str(one.get("/Subtype", "")) == "/Image" for one in streams) == 1


def test_a_large_picture_is_made_smaller_and_says_so(tmp_path: Path) -> None:
    found = read_picture(picture((4000, 3000), "JPEG"))
    assert (found.width, found.height, found.made_from) == (2200, 1650, (4000, 3000))
    assert "Shown with 2200 by 1650 of its 4000 by 3000 pixels." in book_of([bound_in(found)], tmp_path / "o.pdf").text


def test_a_photo_that_fits_keeps_its_own_bytes() -> None:
    data = picture(kind="JPEG")
    assert read_picture(data) == Picture(data, 320, 200)


# ----------------------------------------------------------------------------------------------------------- refusals


def with_script(pdf: pikepdf.Pdf) -> None:
    pdf.Root.OpenAction = pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS=pikepdf.String("app.alert(1)"))


def with_launch(pdf: pikepdf.Pdf) -> None:
    action = pikepdf.Dictionary(S=pikepdf.Name.Launch, F=pikepdf.String("cmd.exe"))
    note = pikepdf.Dictionary(Type=pikepdf.Name.Annot, Subtype=pikepdf.Name.Link, Rect=[0, 0, 9, 9], A=action)
    pdf.pages[0].Annots = [pdf.make_indirect(note)]


def with_file(pdf: pikepdf.Pdf) -> None:
    pdf.attachments["inner.exe"] = pikepdf.AttachedFileSpec(pdf, b"MZ", filename="inner.exe")


def with_named_script(pdf: pikepdf.Pdf) -> None:
    action = pdf.make_indirect(pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS=pikepdf.String("1")))
    names = pikepdf.Dictionary(Names=[pikepdf.String("a"), action])
    pdf.Root.Names = pikepdf.Dictionary(JavaScript=names)


def with_hidden_layer(pdf: pikepdf.Pdf) -> None:
    layer = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=pikepdf.String("hidden")))
    pdf.Root.OCProperties = pikepdf.Dictionary(OCGs=[layer], D=pikepdf.Dictionary(OFF=[layer]))


def with_lost_field(pdf: pikepdf.Pdf) -> None:
    field = pikepdf.Dictionary(
        Type=pikepdf.Name.Annot, Subtype=pikepdf.Name.Widget, FT=pikepdf.Name.Tx, T=pikepdf.String("strength"),
        V=pikepdf.String("85 psi"), Rect=[0, 0, 90, 20],
    )  # fmt: skip
    pdf.pages[0].Annots = [pdf.make_indirect(field)]


@pytest.mark.parametrize(
    "change, code",
    [(with_script, "attachment-script"), (with_launch, "attachment-script"), (with_file, "attachment-script"),
     (with_named_script, "attachment-script"), (with_hidden_layer, "attachment-layers"),
     (with_lost_field, "attachment-form")],
)  # fmt: skip
def test_a_pdf_that_acts_or_would_lose_something_is_refused(change: Callable[[pikepdf.Pdf], None], code: str) -> None:
    with pytest.raises(RefusedError) as found:
        read_letter(changed(letter(1), change))
    assert found.value.code == code


@pytest.mark.parametrize("owner_only", [True, False])
def test_an_encrypted_pdf_is_refused(owner_only: bool) -> None:
    writer = pypdf.PdfWriter(clone_from=pypdf.PdfReader(BytesIO(letter(1))))
    writer.encrypt("" if owner_only else "secret", "owner")
    out = BytesIO()
    writer.write(out)
    with pytest.raises(RefusedError, match="encrypted"):
        read_letter(out.getvalue())


def test_a_pdf_cut_off_anywhere_is_refused() -> None:
    data = letter(2)
    for end in range(8, len(data) - 8, max(1, len(data) // 60)):
        with pytest.raises(RefusedError) as found:
            read_letter(data[:end])
        assert found.value.code in ("attachment-damaged", "attachment-pages")


def test_a_pdf_whose_contents_or_objects_are_broken_is_refused() -> None:
    data = letter(1)
    start = data.index(b"stream") + 30
    lost = re.sub(rb"/Contents \d+ 0 R", b"/Contents 99 0 R", data)
    assert lost != data
    for broken in (data[:start] + bytes(12) + data[start + 12 :], lost):
        with pytest.raises(RefusedError, match="damaged"):
            read_letter(broken)


def test_too_many_pages_are_refused() -> None:
    with pytest.raises(RefusedError) as found:
        read_letter(letter(4), most_pages=3)
    assert found.value.code == "attachment-pages"
    assert isinstance(read_letter(letter(3), most_pages=3), Letter)


def test_too_many_pixels_are_refused_before_they_are_unpacked() -> None:
    with pytest.raises(RefusedError) as found:
        read_picture(picture((100, 100)), most_pixels=9_999)
    assert found.value.code == "attachment-pixels"
    assert read_picture(picture((100, 100)), most_pixels=10_000).width == 100
    bomb = picture((20, 20)).replace((20).to_bytes(4, "big") * 2, (60_000).to_bytes(4, "big") * 2)
    with pytest.raises(RefusedError):
        read_picture(bomb)


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_a_picture_cut_off_is_refused(kind: str) -> None:
    data = picture((400, 300), kind)
    for end in (20, len(data) // 2, len(data) - 40):
        with pytest.raises(RefusedError, match="damaged"):
            read_picture(data[:end])


def test_all_that_is_unfit_is_told_at_once_each_at_its_line(tmp_path: Path) -> None:
    found = refused(
        tmp_path,
        {
            "photos/good.png": picture(),
            "photos/cut.png": picture()[:200],
            "photos/false.jpg": picture(),
            "papers/empty.pdf": b"",
            "papers/letter.pdf": changed(letter(1), with_script),
            "papers/notes.txt": "schlecht: \xe4".encode("latin-1"),
            "papers/odd.txt": b"a\x07b",
            "papers/han.txt": "土".encode(),
            "papers/drawing.svg": b"<svg><script>1</script></svg>",
        },
    )
    assert [(one.place.line, one.code) for one in found.problems] == [
        (7, "attachment-damaged"), (8, "attachment-kind"), (9, "attachment-kind"), (10, "attachment-script"),
        (11, "attachment-encoding"), (12, "attachment-control-character"), (13, "attachment-glyph"),
    ]  # fmt: skip
    assert all(one.place.file == (tmp_path / "project.yaml").as_posix() for one in found.problems)
    names = ("cut.png", "false.jpg", "empty.pdf", "letter.pdf", "notes.txt", "odd.txt", "han.txt")
    assert all(name in one.wrong for name, one in zip(names, found.problems, strict=True))


def test_a_file_too_large_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("compliance.reading.attached_files._MOST_BYTES", 1_000)
    assert [one.code for one in refused(tmp_path, {"a.pdf": letter(1)}).problems] == ["attachment-size"]
    monkeypatch.setattr("compliance.reading.attached_files._MOST_BYTES", 10_000_000)
    monkeypatch.setattr("compliance.documents.attachments.bound_files.MOST_BYTES_IN_ALL", 1_500)
    found = refused(tmp_path, {"a.png": picture(), "b.txt": b"x" * 1_400})
    assert [(one.place.line, one.code) for one in found.problems] == [(7, "attachment-size")]
    monkeypatch.setattr("compliance.reading.attached_files._MOST_TEXT", 10)
    assert "attachment-size" in [one.code for one in refused(tmp_path, {"b.txt": b"x" * 11}).problems]


def test_the_command_writes_nothing_when_an_attachment_is_unfit(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, {"a.pdf": letter(1)[:500]})
    target = tmp_path / "out.pdf"
    command = ["submittal", str(folder), "--draft", "--output", str(target)]
    run = run_tool(*command)
    assert run.returncode == 2
    assert "project.yaml:6:" in run.stderr and "[attachment-damaged]" in run.stderr and "a.pdf" in run.stderr
    assert not target.exists()
    (folder / "a.pdf").write_bytes(letter(2))
    run = run_tool(*command)
    assert run.returncode == 0, run.stderr
    read = read_back(target)
    at = next(number for number, text in enumerate(read.pages, start=1) if "uppermost 2" in text)
    assert "page 2 of 2" in read.pages[at - 1] and f"Page {at} of {len(read.pages)}" in read.pages[at - 1]


@pytest.mark.parametrize("linearised", [True, False])
def test_packed_and_linearised_files_are_read(linearised: bool, tmp_path: Path) -> None:
    out = BytesIO()
    with pikepdf.open(BytesIO(letter(2))) as pdf:
        pdf.save(out, object_stream_mode=pikepdf.ObjectStreamMode.generate, linearize=linearised, deterministic_id=True)
    read = book_of([bound_in(read_letter(out.getvalue()))], tmp_path / "out.pdf")
    assert "uppermost 1" in read.text and "lowermost 2" in read.text


@given(st.data())
@settings(max_examples=tries(120), deadline=None)
def test_a_pdf_with_bytes_spoiled_is_refused_or_drawn(data: st.DataObject) -> None:
    """Never any other end: no trace, no half-written bundle."""
    spoiled = bytearray(SOUND)
    for _ in range(data.draw(st.integers(1, 6))):
        spoiled[data.draw(st.integers(0, len(SOUND) - 1))] = data.draw(st.integers(0, 255))
    try:
        found = read_letter(bytes(spoiled))
    except RefusedError as refused:
        assert refused.code.startswith("attachment-")
        return
    with TemporaryDirectory() as folder:
        assert len(book_of([bound_in(found)], Path(folder) / "out.pdf").pages) >= 2


SOUND = letter(2)


@given(st.data())
@settings(max_examples=tries(120), deadline=None)
def test_a_picture_with_bytes_spoiled_is_refused_or_read(data: st.DataObject) -> None:
    sound = PICTURES[data.draw(st.sampled_from(("PNG", "JPEG")))]
    spoiled = bytearray(sound)
    for _ in range(data.draw(st.integers(1, 6))):
        spoiled[data.draw(st.integers(0, len(sound) - 1))] = data.draw(st.integers(0, 255))
    try:
        found = read_picture(bytes(spoiled))
    except RefusedError as refused:
        assert refused.code.startswith("attachment-")
        return
    assert found.width > 0 and found.height > 0


PICTURES = {kind: picture((60, 40), kind) for kind in ("PNG", "JPEG")}
