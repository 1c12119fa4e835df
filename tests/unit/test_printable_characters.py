"""The characters that reading takes for printable are those of the typeface in the papers."""

from __future__ import annotations

import sys

import pytest

from compliance.documents.page.faces import TEXT, TEXT_BOLD, TEXT_ITALIC, TEXT_MEDIUM, face
from compliance.files.printable_characters import UNPRINTABLE, first_unprintable


@pytest.mark.parametrize("name", [TEXT, TEXT_MEDIUM, TEXT_BOLD, TEXT_ITALIC])
def test_they_are_those_of_the_face(name: str) -> None:
    every = [chr(code) for code in range(sys.maxunicode + 1) if not 0xD800 <= code <= 0xDFFF]
    printable = {one for one in every if not UNPRINTABLE.match(one)} - {"\n", "\t"}
    assert printable == set(face(name).characters)


@pytest.mark.parametrize(
    ("text", "found"), [("plain", ""), ("e\u0301tude", ""), ("\u2300 12", "\u2300"), ("a\U0001f3e0", "\U0001f3e0")]
)
def test_the_first_that_is_not(text: str, found: str) -> None:
    assert first_unprintable(text) == found
