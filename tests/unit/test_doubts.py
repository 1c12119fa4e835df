"""What is doubtful about the results of a set, and what is not."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.checking import check_folder
from compliance.findings import Outcome
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.units import measure
from tests.conftest import RULES, WALLS, Write
from tests.sentences import sentence

PLAUSIBLE = read_material_practice().plausible
HEAD = (
    "set,specimen,mix,cast,tested,dried,shape,nominal_size,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi],batch,note\n"
)
STRONG = """\
  - id: strong
    title: Strength
    clause: T1
    about: mix
    test: {of: compression, statistic: governs}
    limits:
      least: {value: 60 psi, standing: read, source: trial}
      governs: {value: lowest, standing: read, source: trial}
    check: result >= least
    say: Strong enough.
"""
SETS = "test_sets: {C1: {kind: compression, mix: M1}, C2: {kind: compression, mix: M1}}\n"


def row(mark: str, load: float = 1600, **cells: Any) -> str:
    """A prism of 4 x 4 x 8 in."""
    given = {
        "set": "C1", "specimen": mark, "mix": "M1", "cast": "2026-03-01", "tested": "2026-05-01", "dried": "air",
        "shape": "prism", "nominal_size": "", "width": 4, "depth": 4, "height": 8, "mass": 8, "peak_load": load,
        "strength": "", "batch": "", "note": "",
    } | cells  # fmt: skip
    return ",".join(str(value) for value in given.values()) + "\n"


def warned(project: Write, rows: str, text: str = "", mix: str = "{name: mix, parts: {S1: 1}, form: cob}") -> Any:
    """Codes of the warnings about lab tables, and the findings of the rule."""
    head = (
        "project: {name: Trial, date: 2026-12-30}\njurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}\n"
        f"soils: {{S1: {{name: clay}}}}\nmixes: {{M1: {mix}}}\n"
    )
    files = {"lab/compression.csv": HEAD + rows}
    checked = check_folder(project(text=WALLS + SETS + text, head=head, rules=RULES + STRONG, files=files))
    found = [one for one in checked.findings if one.rule == "strong" and one.subject == "C1"]
    warnings = [one for one in checked.warnings if one.code.startswith("lab-") and one.code != "lab-outlier"]
    return warnings, found[0]


SOUND = row("a-1", 1610) + row("a-2", 1650) + row("a-3", 1580)


def test_a_sound_set_is_not_in_doubt(project: Write) -> None:
    warnings, found = warned(project, SOUND)
    assert warnings == [] and found.outcome is Outcome.MEETS
    assert sentence(found) == "98.7 psi ≥ 60 psi minimum; 3 results count"


@pytest.mark.parametrize(
    ("cells", "code", "column"),
    [
        ({"peak_load": 160_000}, "lab-implausible", "peak_load"), ({"width": 0.33}, "lab-implausible", "width"),
        ({"mass": 80}, "lab-implausible", "mass"), ({"height": 1, "mass": 1}, "lab-implausible", "height"),
        ({"shape": "cube"}, "lab-shape", "shape"), ({"shape": "cylinder"}, "lab-shape", "depth"),
        ({"nominal_size": "4 x 4 x 4 in"}, "lab-shape", "nominal_size"),
        ({"tested": "2027-01-01"}, "lab-day", "tested"), ({"tested": "2026-03-01"}, "lab-day", "tested"),
        ({"cast": "1926-03-01"}, "lab-day", "cast"), ({"strength": 75}, "lab-strength", "strength"),
    ],
)  # fmt: skip
def test_nothing_meets_on_a_specimen_in_doubt(project: Write, cells: dict[str, Any], code: str, column: str) -> None:
    warnings, found = warned(project, SOUND + row("a-4", **({"load": 1600} | cells)))
    assert {one.code for one in warnings} == {code}
    place = HEAD.split(",").index(next(name for name in HEAD.split(",") if name.startswith(column)))
    line = (SOUND + row("a-4", **({"load": 1600} | cells))).splitlines()[-1]
    assert (warnings[0].place.line, warnings[0].place.column) == (5, len(",".join(line.split(",")[:place])) + 2)
    assert found.outcome is Outcome.MISSING and warnings[0].instead in sentence(found)
    assert any(column in str(part) for one in found.missing for part in one.parts)


def test_an_implausible_value_is_written_in_the_units_of_the_project(project: Write) -> None:
    warnings, found = warned(project, row("a", 160_000))
    assert "10000 psi" in warnings[0].wrong and "check the unit" in sentence(found) and "psi" in sentence(found)


@pytest.mark.parametrize("form", [*PLAUSIBLE.earths])
def test_each_kind_of_earth_has_its_own_range(project: Write, form: str) -> None:
    """At its upper end a strength is plausible, a hundredth above it is not."""
    most = PLAUSIBLE.earths[form]["compression"][1] / measure("1 psi", "stress").si
    said = {"stabilised": "stabilised: yes, ", "unstated": ""}.get(form, f"form: {form}, ")
    mix = f"{{name: mix, {said}parts: {{S1: 1}}}}"
    for share, expected in ((1.0, []), (1.01, ["lab-implausible"])):
        rows = row("a", 16 * most * share, mass="")
        assert [one.code for one in warned(project, rows, mix=mix)[0]] == expected, (form, share)


def test_the_tallest_prism_that_a_table_of_shape_allows_for_is_plausible() -> None:
    """Krefeld's factors, and those of HB 195, run up to prisms five times as high as wide (recalled)."""
    for form in ("adobe", "pressed-block", "rammed-earth"):
        assert PLAUSIBLE.earths[form]["slenderness"][1] >= 5.0


def test_the_ranges_hold_every_published_strength_that_is_a_limit_of_a_rule_set() -> None:
    """A range that a code's own least strength lies outside of would refuse what the code asks for."""
    for form, least in (("cob", 60), ("cob", 85), ("adobe", 300), ("pressed-block", 300), ("rammed-earth", 300)):
        low, high = PLAUSIBLE.earths[form]["compression"]
        assert low < measure(f"{least} psi", "stress").si < high / 2 or (form == "cob" and least < 300)


def test_alike_rows(project: Write) -> None:
    same = "".join(row(f"a-{number}") for number in (1, 2, 3))
    warnings, found = warned(project, same)
    assert [one.code for one in warnings] == ["lab-alike"] and found.outcome is Outcome.MISSING
    two = row("a-1") + row("a-2") + row("a-3", 1700)
    assert warned(project, two)[0] == []


def test_rows_of_another_set_once_more(project: Write) -> None:
    again = "".join(line.replace("C1,a", "C2,b", 1) + "\n" for line in SOUND.splitlines())
    warnings, found = warned(project, SOUND + again)
    assert [one.code for one in warnings] == ["lab-alike"] * 2 and "rows of set C2" in sentence(found)


def test_a_number_that_is_skipped_is_only_named(project: Write) -> None:
    warnings, found = warned(project, SOUND.replace("a-3", "a-4"))
    assert [one.code for one in warnings] == ["lab-gap"] and found.outcome is Outcome.MEETS
    assert "the marks of C1 skip a-3" in sentence(found)


@pytest.mark.parametrize(("straw", "doubtful"), [("0.6", False), ("0.7", False), ("6", True)])
def test_a_batch_unlike_its_mix(project: Write, straw: str, doubtful: bool) -> None:
    batches = f"batches: {{B1: {{mix: M1, straw: wheat, straw_parts: {straw}}}}}\n"
    mix = "{name: mix, form: cob, parts: {S1: 1}, straw: wheat, straw_parts: 0.6}"
    warnings, found = warned(project, row("a", batch="B1"), batches, mix)
    assert [one.code for one in warnings] == (["lab-batch-straw"] if doubtful else [])
    assert (found.outcome is Outcome.MISSING) is doubtful


def test_a_set_that_fails_fails_in_doubt_too(project: Write) -> None:
    """A doubt takes a pass away; it never takes a failure away."""
    _, found = warned(project, row("a", 480) + row("b", 1600, shape="cube"))
    assert found.outcome is Outcome.REVISE and "is called a cube" in sentence(found)


def test_a_day_after_the_project_is_warned_of(project: Write) -> None:
    text = WALLS + "batches: {B1: {mix: M1, mixed: 2027-01-01}, B2: {mix: M1, mixed: 2026-12-30}}\n"
    warnings = check_folder(project(text=text)).warnings
    assert [one.code for one in warnings] == ["day-after-project"]
    assert "batch B1 was mixed on 2027-01-01" in warnings[0].wrong and "2026-12-30" in warnings[0].wrong
