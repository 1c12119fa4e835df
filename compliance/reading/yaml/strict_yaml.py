"""YAML read strictly: one mapping to a file, each part with its line and column.

Refused, with place and advice: duplicate keys, anchors and aliases, tags, merge keys, directives, keys that
are not text, several documents, numbers that cannot be kept, and files too large or nested too deeply. What
an unquoted value means stands in `scalars`.
"""

from __future__ import annotations

import re
from itertools import islice
from pathlib import Path
from typing import Any

import yaml

from compliance.files.characters import checked, line_and_column
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import read_text
from compliance.reading.yaml.placed import PlacedDict, PlacedList
from compliance.reading.yaml.syntax import SlowParser, syntax_problem
from compliance.reading.yaml.tree import StopReadingError, YamlTree
from compliance.refused import MOST_PROBLEMS, at_most

MOST_BYTES = 2_000_000

_DIRECTIVE = re.compile(r"%(?<![^\r\n]%)")

# libyaml where PyYAML was built with it, the slower parser in Python elsewhere.
_PARSER: Any = getattr(yaml, "CSafeLoader", SlowParser)


def read_yaml(path: Path, shown: str) -> PlacedDict:
    """The mapping in the YAML file at `path`; `shown` is the file's name in problems.

    Raises ProblemsFound with every problem found. Codes: those of `plain_file.read_text` and `parse_yaml`.
    """
    return parse_yaml(read_text(path, shown, "yaml", MOST_BYTES), shown)


def parse_yaml(text: str, shown: str) -> PlacedDict:
    """The mapping in `text`.

    Raises ProblemsFound with every problem up to the first at which reading cannot go on. Codes, each
    beginning with `yaml-`: alias, anchor, control-character, depth, directive, duplicate-key, empty, key,
    merge-key, multiple-documents, nodes, not-mapping, nul, number, size, syntax, tag, too-many-problems.
    """
    if len(text) > MOST_BYTES:
        wrong = f"the text is longer than {MOST_BYTES:,} characters"
        raise ProblemsFound([Problem(Place(shown), "yaml-size", wrong, "divide it into several files")])
    text = checked(text, shown, "yaml")
    _refuse_directives(text, shown)
    tree = YamlTree(shown)
    try:
        tree.read(_PARSER(text))
    except yaml.YAMLError as error:
        tree.problems.append(syntax_problem(error, text, shown))
    except StopReadingError:
        pass
    if tree.problems:
        raise ProblemsFound(at_most(tree.problems, "yaml-too-many-problems"))
    return _the_mapping(tree.document, shown)


def _refuse_directives(text: str, shown: str) -> None:
    """Before parsing: what stands inside a mapping is indented, so only directives begin a line with %, and libyaml
    takes time with the square of their number."""
    offsets = (match.start() for match in _DIRECTIVE.finditer(text))
    problems = [
        Problem(
            Place(shown, *line_and_column(text, offset)),
            "yaml-directive",
            "a line that begins with % is not read",
            "leave it out, or indent it where it belongs to a text",
        )
        for offset in islice(offsets, MOST_PROBLEMS)
    ]
    if problems:
        raise ProblemsFound(problems)


def _the_mapping(document: PlacedList, shown: str) -> PlacedDict:
    top = document[0] if document else None
    if isinstance(top, PlacedDict):
        return top
    instead = "write keys with values, one to a line, as in name: value"
    if top is None:
        raise ProblemsFound([Problem(Place(shown), "yaml-empty", "the file holds nothing", instead)])
    wrong = f"the file holds {'a list' if isinstance(top, PlacedList) else 'a single value'}, not keys with values"
    raise ProblemsFound([Problem(Place(shown, *document.item_places[0]), "yaml-not-mapping", wrong, instead)])
