"""Attached files that are damaged, locked, endless, active or immense: told at the line that names them."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from tests.hostile.laying_out import SOUND, write
from tests.hostile.running import Host, listing

MOST_MEMORY = 500_000_000
"""Of a run that unpacks pictures; the limit of one picture's pixels keeps it below."""


def _pdf(change: Callable[[pikepdf.Pdf], None] = lambda pdf: None, **saving: Any) -> bytes:
    pdf = pikepdf.new()
    pdf.add_blank_page()
    change(pdf)
    out = io.BytesIO()
    pdf.save(out, **saving)
    return out.getvalue()


def _with_root(entry: str, value: object) -> Callable[[pikepdf.Pdf], None]:
    def change(pdf: pikepdf.Pdf) -> None:
        pdf.Root[entry] = value

    return change


def _script(pdf: pikepdf.Pdf) -> None:
    pdf.Root.OpenAction = pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS="app.alert(1)")


def _launch(pdf: pikepdf.Pdf) -> None:
    pdf.Root.OpenAction = pikepdf.Dictionary(S=pikepdf.Name.Launch, F="/bin/sh")


def _file_inside(pdf: pikepdf.Pdf) -> None:
    pdf.attachments["a.exe"] = b"MZ"


def _shown(pdf: pikepdf.Pdf, form: pikepdf.Stream) -> None:
    form.Type, form.Subtype, form.BBox = pikepdf.Name.XObject, pikepdf.Name.Form, [0, 0, 9, 9]
    pdf.pages[0].Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(F1=pdf.make_indirect(form)))


def _outside_stream(pdf: pikepdf.Pdf) -> None:
    form = pdf.make_stream(b"q Q")
    form.F = pikepdf.String("other.bin")
    _shown(pdf, form)


def _reference(pdf: pikepdf.Pdf) -> None:
    form = pdf.make_stream(b"q Q")
    form.Ref = pikepdf.Dictionary(F=pikepdf.String("other.pdf"), Page=0)
    _shown(pdf, form)


def _proxy(pdf: pikepdf.Pdf) -> None:
    form = pdf.make_stream(b"q Q")
    form.OPI = pikepdf.Dictionary({"/1.3": pikepdf.Dictionary(F=pikepdf.String("other.tif"))})
    _shown(pdf, form)


def _jbig2(pdf: pikepdf.Pdf) -> None:
    """Packed by a method that asks for a program of its own (ISO 32000-1, 7.4.7)."""
    page = pdf.make_stream(b"\0" * 40)
    page.Filter = pikepdf.Name.JBIG2Decode
    pdf.pages[0].Contents = page


def _pages_in_a_circle(pdf: pikepdf.Pdf) -> None:
    pdf.Root.Pages.Kids.append(pdf.Root.Pages)


def _bomb_of_contents(pdf: pikepdf.Pdf) -> None:
    """Half a gigabyte of blanks, packed a megabyte once and repeated: after a full flush the bytes of each are the same
    (RFC 1951; zlib's own header and check sum about them, RFC 1950)."""
    block, count, packer = b" " * 1_000_000, 500, zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    packed = packer.compress(block) + packer.flush(zlib.Z_FULL_FLUSH)
    sum_of_all = 1
    for _ in range(count):
        sum_of_all = zlib.adler32(block, sum_of_all)
    data = b"\x78\xda" + packed * count + packer.flush() + struct.pack(">I", sum_of_all)
    page = pikepdf.Stream(pdf, data)
    page.Filter = pikepdf.Name.FlateDecode
    pdf.pages[0].Contents = pdf.make_indirect(page)


def _picture(width: int, height: int, data: bytes = b"", depth: int = 8, colour: int = 0) -> bytes:
    """A PNG whose header states a size (PNG specification, third edition, sections 5.3 and 11.2)."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def _filled(width: int, height: int, colour: int, channels: int) -> bytes:
    rows = (b"\0" + b"\x80" * (width * channels)) * height
    return _picture(width, height, zlib.compress(rows, 1), colour=colour)


CASES: dict[str, tuple[str, Callable[[], bytes], str]] = {
    "an empty PDF": ("a.pdf", lambda: b"", "attachment-kind"),
    "a PDF that is a picture": ("a.pdf", lambda: _picture(1, 1), "attachment-kind"),
    "a picture that is a PDF": ("a.png", _pdf, "attachment-kind"),
    "half a PDF": ("a.pdf", lambda: _pdf()[:300], "attachment-damaged"),
    "the head of a PDF": ("a.pdf", lambda: b"%PDF-1.7\n", "attachment-damaged"),
    "a PDF of noise": ("a.pdf", lambda: b"%PDF-1.7\n" + bytes(range(256)) * 400, "attachment-damaged"),
    "an encrypted PDF": (
        "a.pdf", lambda: _pdf(encryption=pikepdf.Encryption(owner="o", user="u")), "attachment-encrypted"
    ),
    "a PDF locked for its owner": (
        "a.pdf", lambda: _pdf(encryption=pikepdf.Encryption(owner="o", user="")), "attachment-encrypted"
    ),
    "a PDF with a script": ("a.pdf", lambda: _pdf(_script), "attachment-script"),
    "a PDF that starts a program": ("a.pdf", lambda: _pdf(_launch), "attachment-script"),
    "a PDF with a file inside": ("a.pdf", lambda: _pdf(_file_inside), "attachment-script"),
    "pages in a circle": ("a.pdf", lambda: _pdf(_pages_in_a_circle), "attachment-damaged"),
    "a page of half a gigabyte": ("a.pdf", lambda: _pdf(_bomb_of_contents), "attachment-size"),
    "cross-references in a circle": (
        "a.pdf",
        lambda: b"%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\nxref\n0 1\n0000000000 65535 f \n"
        b"trailer<</Root 1 0 R/Size 2/Prev 52>>\nstartxref\n52\n%%EOF\n",
        "attachment-damaged",
    ),
    "a picture that states a continent": ("a.png", lambda: _picture(60_000, 60_000), "attachment-pixels"),
    "a picture that states more than any": ("a.png", lambda: _picture(2**31 - 1, 2**31 - 1), "attachment-pixels"),
    "a picture of no size": ("a.png", lambda: _picture(0, 0), "attachment-damaged"),
    "a picture without its data": ("a.png", lambda: _picture(100, 100), "attachment-damaged"),
    "a picture of ninety million pixels": ("a.png", lambda: _filled(9_500, 9_500, 0, 1), "attachment-pixels"),
    "a picture of thirty million pixels in four colours": (
        "a.png", lambda: _filled(5_500, 5_500, 6, 4), "attachment-pixels"
    ),
    "a photo cut off": ("a.jpg", lambda: b"\xff\xd8\xff\xe0" + b"\0" * 100, "attachment-damaged"),
    "a text of another encoding": ("a.txt", lambda: "caf\xe9".encode("latin-1"), "attachment-encoding"),
    "a text with a terminal's colours": ("a.txt", lambda: b"\x1b[31mred", "attachment-control-character"),
    "a picture one pixel wide": ("a.png", lambda: _filled(1, 30_000_000, 0, 1), "attachment-pixels"),
    "a text of forty thousand lines": ("a.txt", lambda: b"a\n" * 40_000, "attachment-size"),
    "contents in another file": ("a.pdf", lambda: _pdf(_outside_stream), "attachment-outside"),
    "a page of another file": ("a.pdf", lambda: _pdf(_reference), "attachment-outside"),
    "a scan packed by JBIG2": ("a.pdf", lambda: _pdf(_jbig2), "attachment-packed"),
    "a proxy for a picture elsewhere": ("a.pdf", lambda: _pdf(_proxy), "attachment-outside"),
    "a text of a megabyte": ("a.txt", lambda: b"x" * 1_000_000, "attachment-size"),
    "fifty megabytes": ("a.pdf", lambda: b"%PDF-1.7\n" + b"x" * 50_000_000, "attachment-size"),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_attachment(name: str, host: Host, tmp_path: Path) -> None:
    file, make, code = CASES[name]
    text = SOUND + f"attachments: {{A1: {{file: {file}, title: Letter}}}}\n"
    write(tmp_path / "p", {"project.yaml": text.encode(), file: make()})
    before = listing(tmp_path)
    ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    assert not ran.traced, ran.err[:2000]
    assert ran.problems == [f"p/project.yaml:8:26 {code}"], ran.err[:1000]
    assert ran.code == 2
    assert ran.peak < MOST_MEMORY
    assert listing(tmp_path) == before


@pytest.mark.parametrize(("colour", "channels"), [(0, 1), (2, 3), (6, 4)], ids=["grey", "colour", "with clearness"])
def test_the_largest_picture_that_is_taken(colour: int, channels: int, host: Host, tmp_path: Path) -> None:
    """As large as one that is still bound in, it needs no more memory than a computer of today spares."""
    from compliance.documents.attachments.pictures import MOST_PIXELS, MOST_SAMPLES

    side = int(min(MOST_PIXELS, MOST_SAMPLES / channels) ** 0.5)
    text = SOUND + "attachments: {A1: {file: a.png, title: Photo}}\n"
    write(tmp_path / "p", {"project.yaml": text.encode(), "a.png": _filled(side, side, colour, channels)})
    ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    assert (ran.code, ran.problems) == (0, []), ran.err[:1000]
    assert ran.peak < MOST_MEMORY
