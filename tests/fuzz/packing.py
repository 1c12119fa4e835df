"""Workbooks taken apart and packed again, so that changes reach what stands in their parts."""

from __future__ import annotations

import io
import re
import warnings
import zipfile

_PARTED = re.compile(rb"^=== (.*)\n", re.MULTILINE)


def unpacked(workbook: bytes) -> bytes:
    """Every part of a workbook after a line that names it."""
    with zipfile.ZipFile(io.BytesIO(workbook)) as archive:
        return b"".join(b"=== %s\n%s\n" % (name.encode(), archive.read(name)) for name in archive.namelist())


def packed(parts: bytes) -> bytes:
    """The workbook of such parts."""
    _, *found = _PARTED.split(parts)
    out = io.BytesIO()
    with warnings.catch_warnings(action="ignore"), zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for at in range(0, len(found), 2):
            name = found[at].decode("utf-8", "replace").partition("\0")[0]
            archive.writestr(zipfile.ZipInfo(name[:200] or "x"), found[at + 1].removesuffix(b"\n"))
    return out.getvalue()
