"""What a file is, by its ending and its first bytes."""

from __future__ import annotations

from pathlib import PurePath

from compliance.refused import RefusedError

PICTURES = {".png": b"\x89PNG\r\n\x1a\n", ".jpg": b"\xff\xd8\xff", ".jpeg": b"\xff\xd8\xff"}
"""Pictures that can be printed, by their ending, with the bytes they begin with."""
PDF, PDF_BEGINS = ".pdf", b"%PDF-"
_HEIC = (".heic", ".heif")
_HEIC_BRANDS = (b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1")
"""Brands of ISO/IEC 23008-12 and of phones, after `ftyp` (ISO/IEC 14496-12)."""


def refuse_wrong_kind(name: str, data: bytes) -> None:
    """Raises RefusedError (`attachment-kind`) for a HEIC photo, and for a picture or PDF that does not begin as one."""
    suffix = PurePath(name).suffix.lower()
    if suffix in _HEIC or (data[4:8] == b"ftyp" and data[8:12] in _HEIC_BRANDS):
        instead = "save it as JPEG and attach that file"
        raise RefusedError("attachment-kind", "HEIC photos cannot be printed", instead)
    begins = PDF_BEGINS if suffix == PDF else PICTURES.get(suffix)
    if begins and not data.startswith(begins):
        wrong = f"the file does not begin as a {suffix} file does" if data else "the file is empty"
        raise RefusedError("attachment-kind", wrong, "attach the true file, with the ending of its kind")
