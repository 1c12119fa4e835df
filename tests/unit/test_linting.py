"""Linting names the line of whatever is broken in a rule set."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from compliance.linting.lint_rule_set import lint_file
from compliance.rules.vocabulary import facts_for, known_instead
from tests.conftest import ROOT, RULES

EXAMPLES = """\
    examples:
      - {given: {wall.least_thickness: 10 in}, gives: meets}
      - {given: {wall.least_thickness: 9 in}, gives: revise}
"""


def codes(tmp_path: Path, text: str) -> list[tuple[int, str]]:
    path = tmp_path / "rules.yaml"
    path.write_text(text, encoding="utf-8")
    return [(problem.place.line, problem.code) for problem in lint_file(path)]


def test_a_sound_file(tmp_path: Path) -> None:
    assert codes(tmp_path, RULES + EXAMPLES) == []


def test_a_rule_without_examples(tmp_path: Path) -> None:
    assert codes(tmp_path, RULES) == [(12, "example-fails"), (12, "example-meets")]


@pytest.mark.parametrize(
    ("change", "line", "code"),
    [
        (("9 in}, gives: revise", "9 in}, gives: meets"), 21, "example-outcome"),
        (("wall.least_thickness: 10 in", "wall.leest: 10 in"), 20, "example"),
        (("wall.least_thickness: 10 in", "wall.least_thickness: 10 psi"), 20, "example"),
        (("value: 10 in", "value: 11 in"), 20, "example-outcome"),
        (("say:", "when: wall.height_to_thickness < 9\n    say:"), 18, "formula-constant"),
    ],
)
def test_what_is_broken_is_named_with_its_line(tmp_path: Path, change: tuple[str, str], line: int, code: str) -> None:
    assert (line, code) in codes(tmp_path, (RULES + EXAMPLES).replace(*change))


SLIPS = """\
  - {id: Bad Id, title: T, clause: C, about: wall, say: s, check: wall.leest_thickness >= 1}
  - id: two
    title: T
    clause: C
    about: wall
    limits: {least: {value: 8 ft, standing: read}}
    check: wall.least_thickness >= least
    say: s
    stage: soon
    examples:
      - {given: {wall.least_thickness: 9 ft}, gives: revise}
      - {given: {wall.least_thickness: 7 ft}, gives: revise}
  - {id: three, title: T, clause: C, about: wall, say: s, attest: {ask: Is it?},
     examples: [{given: {answer: yes}, gives: revise}]}
"""


def test_what_is_wrong_in_one_layer_hides_nothing_of_the_next(tmp_path: Path) -> None:
    """A name, a source and a word that are wrong in form; a fact that is unknown; examples that come out otherwise."""
    found = codes(tmp_path, RULES + EXAMPLES.replace("9 in}, gives: revise", "9 in}, gives: meets") + SLIPS)
    assert found == [
        (21, "example-outcome"), (22, "mark"), (22, "formula-name"), (27, "limit-source"), (30, "word-unknown"),
        (32, "example-outcome"), (34, "example-fails"), (34, "rule-standing"), (35, "example-outcome"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "proposed", "never"),
    [
        ("wall.thickness", ("wall.least_thickness (minimum thickness)", "wall.base_thickness (thickness at the base)"),
         ("wall.mean_thickness", "wall.upper_thickness")),
        ("wall.width", ("wall.least_thickness", "wall.base_thickness"),
         ("wall.mean_thickness", "wall.upper_thickness")),
        ("wall.wall_thickness", (), ("wall.mean_thickness", "wall.upper_thickness")),
        ("wall.thicknes", (), ("wall.mean_thickness", "wall.upper_thickness")),
        ("wall.mean_thicknes", ("wall.mean_thickness (mean thickness)",), ()),
        ("wall.least_thicknes", ("did you mean wall.least_thickness (minimum thickness)?",), ()),
        ("quux", ("use a fact of the subject",), ()),
    ],
)  # fmt: skip
def test_a_name_that_is_not_known_gets_no_unsafe_one(
    tmp_path: Path, name: str, proposed: tuple[str, ...], never: tuple[str, ...]
) -> None:
    path = tmp_path / "rules.yaml"
    path.write_text((RULES + EXAMPLES).replace("check: wall.least_thickness", f"check: {name}"), encoding="utf-8")
    [instead] = [problem.instead for problem in lint_file(path) if problem.code == "formula-name"]
    assert all(one in instead for one in proposed) and not any(one in instead for one in never), instead


@pytest.mark.parametrize(
    ("about", "name", "proposed"),
    [
        ("wall", "footing.depth", "footing.bottom footing.thickness"), ("wall", "stem.width", "stem.thickness"),
        ("wall", "stem.depth", ""), ("wall", "beam.height", "beam.depth"),
        ("wall", "beam.thickness", "beam.depth"),
        ("wall", "beam.bolt_diameter", "beam.anchor_diameter"), ("wall", "wall.free_length", "wall.unsupported_length"),
        ("wall", "wall.strength", "mix.lowest_compression"),
        ("wall", "wall.weight", "wall.own_weight wall.unit_weight"),
        ("wall", "wall.footing_width", "footing.width"), ("wall", "wall.unsupported_height", "wall.height"),
        ("wall", "wall.load", "wall.line_load wall.base_load"), ("wall", "wall.taper", ""),
        ("wall", "wall.max_height", ""),
        ("wall", "footing.frost_depth", "site.frost_depth"), ("wall", "mix.density", "mix.dry_density"),
        ("pier", "pier.thickness", "wall.least_thickness"), ("pier", "pier.length", "pier.width"),
        ("opening", "opening.distance", "opening.corner_distance opening.brace_distance"),
        ("opening", "opening.sill_height", ""), ("opening", "opening.length", "opening.width"),
        ("footing", "footing.size", ""), ("footing", "footing.projection", ""),
        ("site", "site.snow", "site.ground_snow"), ("site", "site.category", "site.seismic_category"),
        ("roof", "roof.height", ""), ("project", "project.area", ""), ("wall", "wall.hight", "wall.height"),
    ],
)  # fmt: skip
def test_only_facts_that_mean_the_same_are_proposed(about: str, name: str, proposed: str) -> None:
    hint = known_instead(name, facts_for(about))
    assert re.findall(r"\b[a-z]+\.[a-z_]+", hint) == proposed.split()


def test_a_word_of_two_lists_is_refused_once(tmp_path: Path) -> None:
    assert codes(tmp_path, (RULES + EXAMPLES).replace("forms: [any]", "forms: [cobb]")) == [(6, "word-unknown")]


@pytest.mark.parametrize(
    ("value", "fact", "written"),
    [("900 lb", "roof.tie_capacity", "900 lbs"), ("12 inches", "wall.least_thickness", "1 foot"),
     ("8' 6", "wall.height", "8 ft 6 in"),
     ("1,500 psf", "site.soil_bearing", "1500 psf"), ("4:12", "roof.slope", "4 in 12")],
)  # fmt: skip
def test_units_in_rule_files_are_read_as_in_projects(tmp_path: Path, value: str, fact: str, written: str) -> None:
    about = fact.partition(".")[0]
    text = RULES.replace("about: wall", f"about: {about}").replace("wall.least_thickness", fact)
    text = text.replace("value: 10 in", f'value: "{value}"')
    text += f'    examples:\n      - {{given: {{{fact}: "{written}"}}, gives: meets}}\n'
    assert [code for _, code in codes(tmp_path, text)] == ["example-fails"], (tmp_path / "rules.yaml").read_text()


@pytest.mark.parametrize("path", sorted((ROOT / "rulesets").glob("*.yaml")), ids=lambda path: path.stem)
def test_the_library_is_sound(path: Path) -> None:
    assert lint_file(path) == []


CASES = """\
cases_of: trial
cases:
  - {rule: thick-enough, name: exactly 10 in, given: {wall.least_thickness: 10 in}, gives: meets}
  - {rule: thick-enough, name: just under 10 in, given: {wall.least_thickness: 9.9 in}, gives: revise}
"""


@pytest.mark.parametrize(
    ("change", "found"),
    [
        (("", ""), []),
        (("exactly 10 in, given: {wall.least_thickness: 10 in}", "x, given: {wall.least_thickness: 9 in}"),
         [(3, "example-outcome")]),
        (("wall.least_thickness: 9.9 in", "wall.leest: 9.9 in"), [(4, "example")]),
        (("{rule: thick-enough, name: exactly", "{rule: thick-enogh, name: exactly"), [(3, "case-rule")]),
        (("cases_of: trial", "cases_of: trail"), [(1, "case-rule")]),
        (("gives: revise", "gives: revize"), [(4, "word-unknown")]),
    ],
)  # fmt: skip
def test_the_case_file_beside_a_rule_set_is_run(
    tmp_path: Path, change: tuple[str, str], found: list[tuple[int, str]]
) -> None:
    (tmp_path / "cases").mkdir()
    (tmp_path / "cases" / "rules.yaml").write_text(CASES.replace(*change, 1), encoding="utf-8")
    assert codes(tmp_path, RULES + EXAMPLES) == found


def test_a_text_cut_in_two_by_a_comma_is_told_from_a_field(tmp_path: Path) -> None:
    path = tmp_path / "rules.yaml"
    path.write_text((RULES + EXAMPLES).replace("source: trial}", "source: handout 12, page 3}"), encoding="utf-8")
    (problem,) = lint_file(path)
    assert (problem.code, problem.wrong) == ("field-unknown", "'page 3' is no field here")
    assert "double quotes" in problem.instead


def test_the_former_word_for_not_applicable_is_refused_with_the_present_one(tmp_path: Path) -> None:
    path = tmp_path / "rules.yaml"
    path.write_text((RULES + EXAMPLES).replace("9 in}, gives: revise", "9 in}, gives: apart"), encoding="utf-8")
    (problem,) = lint_file(path)
    assert (problem.code, problem.instead) == ("word-unknown", "write not-applicable")
    assert problem.wrong == "'apart' is now called 'not-applicable'"
