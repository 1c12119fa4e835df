"""Photos and papers that go with an answer: where each is filed in the folder, and its entry under `attachments:`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from compliance.editing.file_entries import quoted
from compliance.files.file_kinds import PICTURES, refuse_wrong_kind
from compliance.files.safe_paths import inside
from compliance.model.people import Attachment
from compliance.output.files.write_targets import file_name
from compliance.problems import Place, ProblemsFound
from compliance.reading.plain_file import read_bytes
from compliance.record import record
from compliance.refused import RefusedError

MOST_BYTES = 40_000_000
_EXIF, _TAKEN = 0x8769, 0x9003
"""Tags of Exif 2.3: the directory of the camera, and when the picture was taken."""


@record
class Evidence:
    """`file` is the mark of an attachment of the project, or the path of a file, or with `data` the name of a picture
    or paper that is in memory alone. Without a `title` it bears the name of its file; `dated` is its day, None where it
    is not known."""

    file: str
    title: str = ""
    dated: date | None = None
    data: bytes | None = None


@record
class FiledEvidence:
    """`marks` name each piece of evidence, in order; `copies` are files to write by their path in the folder, `entries`
    what is new under `attachments:`."""

    marks: tuple[str, ...]
    copies: Mapping[str, bytes]
    entries: Mapping[str, Sequence[str]]


def file_evidence(folder: Path, attached: Mapping[str, Attachment], evidence: Sequence[Evidence]) -> FiledEvidence:
    """Where each is filed; nothing is written. Raises RefusedError or ProblemsFound."""
    marks: list[str] = []
    copies: dict[str, bytes] = {}
    entries: dict[str, Sequence[str]] = {}
    by_file = {one.file: mark for mark, one in attached.items()}
    for one in evidence:
        if one.data is not None:
            name, data = _placed(folder, Path(one.file), one.data, copies)
        elif one.file in attached:
            marks.append(one.file)
            continue
        else:
            name, data = _filed(folder, Path(one.file).expanduser(), copies)
        if name not in by_file:
            if data is not None:
                copies[name] = data
            mark = next(f"A{n}" for n in range(1, 100_000) if f"A{n}" not in attached and f"A{n}" not in entries)
            by_file[name] = mark
            title = one.title or Path(one.file).stem.replace("_", " ")
            fields = {"file": quoted(name), "title": quoted(title)}
            fields |= {"date": one.dated.isoformat()} if one.dated else {}
            entries[mark] = [f"{key}: {text}" for key, text in fields.items()]
        marks.append(by_file[name])
    return FiledEvidence(tuple(marks), copies, entries)


def _filed(folder: Path, path: Path, copies: Mapping[str, bytes]) -> tuple[str, bytes | None]:
    """The path in the folder, and what to write there; nothing where the file lies in the folder already."""
    data = read_bytes(path, path.as_posix(), "attachment", MOST_BYTES)
    try:
        refuse_wrong_kind(path.name, data)
    except RefusedError as refused:
        raise ProblemsFound([refused.at(Place(path.as_posix()))]) from None
    found = path.resolve()
    if found.is_relative_to(folder.resolve()):
        name = found.relative_to(folder.resolve()).as_posix()
        inside(folder, name)
        return name, None
    return _placed(folder, path, data, copies)


def _placed(folder: Path, path: Path, data: bytes, copies: Mapping[str, bytes]) -> tuple[str, bytes | None]:
    """The same of bytes that lie nowhere in the folder by that path; nothing to write where the same bytes do by the
    name they would get."""
    suffix = path.suffix.lower()
    stem = f"{'photos' if suffix in PICTURES else 'papers'}/{file_name(path.stem)}"
    for number in range(1, 10_000):
        name = f"{stem}{suffix}" if number == 1 else f"{stem}-{number}{suffix}"
        target = inside(folder, name)
        if name in copies:
            if copies[name] == data:
                return name, None
        elif not target.exists():
            return name, data
        elif target.is_file() and target.stat().st_size == len(data) and target.read_bytes() == data:
            return name, None
    raise RefusedError("path-unreadable", f"{stem}{suffix} has thousands of namesakes", "rename the file")


def day_taken(path: Path) -> date | None:
    """The day a picture says it was taken; None for one that says nothing, and for any other file."""
    if path.suffix.lower() not in PICTURES or not path.is_file() or path.stat().st_size > MOST_BYTES:
        return None
    try:
        return day_in_picture(path.read_bytes())
    except OSError:
        return None


def day_in_picture(data: bytes) -> date | None:
    """The day a picture says it was taken; None for one that says nothing."""
    from io import BytesIO

    from PIL import Image

    try:
        with Image.open(BytesIO(data)) as picture:
            text = str(picture.getexif().get_ifd(_EXIF).get(_TAKEN, ""))
        return date.fromisoformat(text[:10].replace(":", "-"))
    except Exception:  # a damaged picture makes its reader fail in any way it likes; it is refused when it is filed
        return None
