"""Characters that the papers can print: those of the typeface embedded in them (a test compares the two)."""

from __future__ import annotations

import re
import unicodedata

_RANGES = (
    "0,d,20-7e,a0-17f,18f,192,1a0-1a1,1af-1b0,1cd-1dc,1fa-1ff,218-21b,237,259,2bb-2bc,2c6-2c7,2d8-2dd,300"
    "-304,306-30c,312,315,31b,323,326-328,37e,384-38a,38c,38e-3a1,3a3-3ce,400-45f,472-473,490-49d,4a0-4a5"
    ",4aa-4ab,4ae-4b3,4b6-4bb,4c0-4c2,4cf-4d9,4dc-4df,4e2-4e9,4ee-4f5,4f8-4f9,e3f,1e80-1e85,1e9e,1ea0-1ef"
    "9,2013-2014,2018-201a,201c-201e,2020-2022,2026,2030,2032-2033,2039-203a,2044,2070,2074-2079,2080-208"
    "9,20a1,20a4,20a6,20a8-20ae,20b1-20b2,20b4-20b5,20b8-20ba,20bd,20bf,2113,2116,2122,2126,212e,2150-215"
    "1,2153-215e,2190-2199,21a9-21aa,21b0-21b3,21b6-21b7,21ba-21bb,21c4,21c6,2202,2206,220f,2211-2212,221"
    "5,221a,221e,222b,2248,2260,2264-2265,25ca,2713,274c,2b0e-2b11,ece0,efcc,f6d7-f6d8,fb01-fb02,ffff"
)


def _pattern() -> re.Pattern[str]:
    """Matches one character that none of the ranges holds, line ends and tabs apart."""
    parts = [part.split("-") for part in "".join(_RANGES).split(",")]
    allowed = "".join(f"\\U{int(part[0], 16):08x}-\\U{int(part[-1], 16):08x}" for part in parts)
    return re.compile(f"[^{allowed}\\n\\t]")


UNPRINTABLE = _pattern()


def first_unprintable(text: str) -> str:
    """The first character of a text that cannot be printed, accents put together; empty where all can be."""
    if text.isascii():
        return ""
    found = UNPRINTABLE.search(unicodedata.normalize("NFC", text))
    return found[0] if found else ""
