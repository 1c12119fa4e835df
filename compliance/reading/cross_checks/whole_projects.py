"""Whether a project describes enough to be one: walls, or something of the earth they may be built of."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.problems import Problem
from compliance.reading.yaml.placed import PlacedDict, place_of

EARTH = ("soils", "trials", "mixes", "test_sets")
"""Any one of these is a project by itself: soils are dug and bricks dropped before there is a plan."""

_OF_A_BUILDING = ("wall_types", "roofs", "beams", "stems", "footings")


def drop_blank_sections(tree: PlacedDict) -> None:
    """A heading with nothing under it is a blank of the form: as if it were not there."""
    for section in [name for name, value in tree.items() if value is None]:
        del tree[section]


def whole_project_problems(tree: PlacedDict) -> Iterator[Problem]:
    """Told before anything else is looked at: what stands where a project has neither walls nor earth, or walls and no
    rules to hold them to; a warning where parts of a building are described and no wall."""
    if tree.get("walls"):
        if "jurisdiction" not in tree:
            wrong = "the file has no 'jurisdiction': walls are checked against rule sets"
            yield Problem(place_of(tree, ()), "field-missing", wrong, "add jurisdiction: with name: and rule_sets:")
        return
    if not any(tree.get(section) for section in EARTH):
        wrong = "the project has no walls, and nothing of the earth"
        instead = f"to check a building add walls:, to begin with the earth one of {', '.join(EARTH)}"
        yield Problem(place_of(tree, ()), "project-empty", wrong, instead)
        return
    for section in (name for name in _OF_A_BUILDING if tree.get(name)):
        wrong = f"{section}: are described, but no wall is: only the earth is checked, and nothing of a building"
        instead = "add walls:, or the file that holds them under include:"
        yield Problem(place_of(tree, (section,), at_key=True), "walls-missing", wrong, instead, warning=True)
