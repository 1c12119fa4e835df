"""Reading the pages, and one page as text."""

from __future__ import annotations

import textwrap
from pathlib import Path

from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.record import record

_HERE = Path(__file__).parent


@record
class Page:
    """One problem. `of` says what its examples are texts of ("project", "csv compression", "measure thickness" ...);
    empty where they are described in words. `about` is the file of pages it stands in."""

    code: str
    title: str
    means: str
    wrong: str
    right: str
    of: str
    about: str


def all_pages() -> dict[str, Page]:
    """Every page by its code, in the order of the files. Raises ProblemsFound for a page that cannot be read."""
    pages: dict[str, Page] = {}
    for path in sorted(_HERE.glob("*.yaml")):
        for code, text in read_yaml(path, path.name).items():
            if code in pages:
                raise ValueError(f"{path.name}: the page {code} stands in {pages[code].about}.yaml too")
            pages[code] = Page(
                code,
                title=text["title"],
                means=text["means"],
                wrong=text["wrong"],
                right=text["right"],
                of=text.get("of", ""),
                about=path.stem,
            )
    return pages


def page_text(page: Page, width: int) -> str:
    """The page for the terminal."""
    lines = [f"{page.title} [{page.code}]", "", *textwrap.wrap(page.means, width), ""]
    lines += ["Wrong:", *_example(page.wrong, width), "", "Right:", *_example(page.right, width)]
    return "\n".join(lines) + "\n"


def _example(text: str, width: int) -> list[str]:
    """A text of several lines as it stands; one of a single line wrapped."""
    lines = text.rstrip("\n").split("\n")
    if len(lines) > 1:
        return [f"    {line}" for line in lines]
    return textwrap.wrap(lines[0], width, initial_indent="    ", subsequent_indent="    ") or ["    (nothing)"]


def list_text(pages: dict[str, Page], width: int) -> str:
    """Every code with its title, by what they are about."""
    lines: list[str] = []
    about = ""
    for page in pages.values():
        if page.about != about:
            about = page.about
            lines += ([""] if lines else []) + [about.replace("_", " ").capitalize()]
        text = f"  {page.code:<26} {page.title}"
        lines.append(text if len(text) <= width else text[: width - 3] + "...")
    return "\n".join(lines) + "\n"
