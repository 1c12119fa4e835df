"""A project without walls: which soils can be used, which brick is best, what comes next; nothing of a building."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.facts.earth.batch_counts import batch_count
from compliance.facts.earth.soil_use import SoilUse
from compliance.facts.earth.trial_advice import TrialAdvice, trial_advice
from compliance.facts.mixes.trial_ranking import ranked_trials
from compliance.findings import Outcome
from compliance.model.materials import Soil
from compliance.model.trials import Trial
from compliance.output.terminal.earth_screen import by_rules, earth_screen
from compliance.problems import ProblemsFound
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.report.earth.earth_answer import NO_BUILDING, earth_answer
from compliance.report.earth.soil_words import soil_uses
from compliance.report.revisions.findings_data import as_json
from compliance.units import parse_measure
from compliance.units.kinds import KINDS

PRACTICE = read_material_practice()
HEAD = "project: {name: Field Day, date: 2026-05-14}\n"
RULES = "jurisdiction: {name: Quillmoor County, rule_sets: [cob-irc-2021-au, cob-practice, structural-screening]}\n"
CLAY = "S1: {name: Pit clay, depth: 3 ft, organic: no, clay: 40 %, silt: 20 %, sand: 40 %}"
SAND = "S2: {name: River sand, material: sand, organic: no}"


def folder(path: Path, text: str) -> Path:
    (path / "project.yaml").write_text(HEAD + text, encoding="utf-8")
    return path


@pytest.mark.parametrize("text", [
    f"soils: {{{CLAY}}}\n", "walls: {}\nsoils: {S1: {name: clay}}\n", "walls:\nsoils: {S1: {name: clay}}\n",
    "soils: {S1: {name: clay}}\ntrials: {P1: {parts: {S1: 1}}}\n",
    "soils: {S1: {name: clay}}\nmixes: {M1: {name: mix, parts: {S1: 1}}}\n"
    "test_sets: {T1: {kind: shrinkage, mix: M1}}\n",
])  # fmt: skip
def test_any_one_section_of_the_earth_is_a_project(tmp_path: Path, text: str) -> None:
    checked = check_folder(folder(tmp_path, text))
    assert checked.project.is_earth_only and not checked.all_meet and checked.findings == ()
    assert NO_BUILDING.split(":")[0] in " ".join(earth_screen(checked, 200).split())


@pytest.mark.parametrize(("text", "code"), [
    ("", "project-empty"), (RULES, "project-empty"), ("soils: {}\n", "project-empty"), ("soils:\n", "project-empty"),
    ("walls: {W1: {run: {from: [0 ft, 0 ft], to: [9 ft, 0 ft]}, height: 8 ft, thickness: 16 in}}\n", "field-missing"),
])  # fmt: skip
def test_nothing_at_all_and_walls_without_rules_are_refused(tmp_path: Path, text: str, code: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        check_folder(folder(tmp_path, text))
    assert [one.code for one in found.value.problems] == [code]


def test_a_good_site_and_good_parts_without_a_wall_meet_nothing(tmp_path: Path) -> None:
    """Whoever forgets the file with the walls must not read that anything of the building meets."""
    more = (
        "site: {seismic_category: A, wind_speed: 90 mph, flood_zone: no}\nbeams: {B1: {material: wood, width: 14 in}}\n"
        "stems: {ST1: {material: concrete, thickness: 16 in, above_grade: 12 in}}\nfootings: {F1: {kind: concrete}}\n"
        "roofs: {R1: {kind: framed, span: 12 ft}}\nwall_types: {outer: {height: 8 ft, thickness: 16 in}}\n"
        f"soils: {{{CLAY}}}\nmixes: {{M1: {{name: mix, form: cob, parts: {{S1: 1}}, stabilised: no}}}}\n"
    )
    checked = check_folder(folder(tmp_path, RULES + more))
    assert {one.about for one in checked.findings} <= {"soil", "mix", "set"}
    assert not checked.all_meet
    assert [one.code for one in checked.warnings].count("walls-missing") == 5
    found = [one for one in checked.findings if one.rule == "compressive-strength"]
    assert [one.outcome for one in found] == [Outcome.MISSING]  # whether the mix goes into a wall nobody said
    text = by_rules(checked, 100, False)
    assert "walls in project.yaml" not in text and "judged once walls of them are described" in text


def uses(path: Path, soil: str) -> SoilUse:
    return soil_uses(check_folder(folder(path, f"soils: {{S1: {{name: clay, {soil}}}}}\n")))[0]


@pytest.mark.parametrize(("soil", "verdict", "faults"), [
    ("depth: 3 ft, organic: no, clay: 40 %, silt: 20 %, sand: 40 %", "usable", ()),
    ("depth: 3 ft, organic: no, clay: 25 %, silt: 5 %, sand: 70 %", "usable", ()),
    ("depth: 3 ft, organic: yes, clay: 40 %, silt: 20 %, sand: 40 %", "unusable", ("organic",)),
    ("depth: 3 in, organic: no, clay: 40 %, silt: 20 %, sand: 40 %", "unusable", ("topsoil",)),
    ("depth: 3 ft, organic: no, clay: 20 %, silt: 60 %, sand: 20 %", "doubtful", ("silt",)),
    ("depth: 3 ft, organic: no, clay: 5 %, silt: 4 %, sand: 91 %", "doubtful", ("clay",)),
    ("depth: 3 ft, organic: no", "not known", ()),
    ("depth: 3 ft, clay: 40 %, silt: 20 %, sand: 40 %", "not known", ()),
    ("organic: no, clay: 40 %, silt: 20 %, sand: 40 %", "not known", ()),
    ("material: sand", "aggregate", ()), ("material: sand, organic: yes", "unusable", ("organic",)),
])  # fmt: skip
def test_what_a_soil_is_good_for(tmp_path: Path, soil: str, verdict: str, faults: tuple[str, ...]) -> None:
    """Common practice, no source. Nothing is usable of which something is not known."""
    found = uses(tmp_path, soil)
    assert (found.verdict, found.faults) == (verdict, faults)


def test_sand_to_add_by_hand(tmp_path: Path) -> None:
    """A soil of 50 % clay and 50 % sand with s parts of clean sand has 50/(1+s) % clay; 25 % at s = 1."""
    found = uses(tmp_path, "depth: 3 ft, organic: no, clay: 50 %, silt: 0 %, sand: 50 %")
    assert found.sand_to_add == pytest.approx(1.0, rel=1e-6)
    lean = uses(tmp_path, "depth: 3 ft, organic: no, clay: 5 %, silt: 4 %, sand: 91 %")
    assert lean.sand_to_add is None


def test_an_old_cob_wall_is_soil_that_can_be_used_as_it_is(tmp_path: Path) -> None:
    """The fine earth of an old wall in Devon, 28.30 % clay and 71.70 % sand (C. Williams-Ellis, Cottage Building in
    Cob, Pisé, Chalk and Clay, 2nd edition 1920; see test_cob_analysis_1920): it wants hardly any sand."""
    found = uses(tmp_path, "depth: 3 ft, organic: no, clay: 28.3 %, silt: 0 %, sand: 71.7 %")
    assert found.verdict == "usable" and (found.sand_to_add or 0.0) < 0.25


def trial(soil: float, sand: float, kept: str = "", **more: object) -> Trial:
    values: dict[str, object] = {"parts": {"S1": soil, "S2": sand}} | more
    return Trial.model_validate(values | ({"largest_piece": kept} if kept else {}))


SOILS = {"S1": Soil.model_validate({"name": "clay"}), "S2": Soil.model_validate({"name": "sand", "material": "sand"})}


def advice(**trials: Trial) -> TrialAdvice:
    return trial_advice(trials, ranked_trials(trials, PRACTICE.trials), SOILS, PRACTICE.earth)


def ratios(found: TrialAdvice) -> list[float]:
    return [parts["S2"] / parts["S1"] for parts in found.next_parts]


def test_next_bricks_lie_around_the_best() -> None:
    row = {"A": trial(1, 1, "50 %"), "B": trial(1, 2, "90 %"), "C": trial(1, 3, "40 %")}
    found = advice(**row)
    assert found.best == ("B",) and ratios(found) == pytest.approx([1.5, 2.5]) and not found.weak
    assert advice(**row, D=trial(2, 3, "80 %"), E=trial(2, 5, "70 %")).next_parts == ()


def test_at_the_edge_of_the_row_the_next_brick_lies_beyond() -> None:
    assert ratios(advice(A=trial(1, 1, "50 %"), B=trial(1, 3, "90 %"))) == pytest.approx([2, 3.5])
    assert ratios(advice(A=trial(2, 1, "90 %"), B=trial(1, 2, "50 %"))) == pytest.approx([0.25, 1.25])


def test_bricks_not_broken_are_neither_best_nor_made_again() -> None:
    found = advice(A=trial(1, 1, "50 %"), B=trial(1, 2, "90 %"), C=trial(2, 3), D=trial(2, 5, drop_height="6 ft"))
    assert found.best == ("B",) and found.waiting == ("C", "D") and found.next_parts == ()
    assert advice(A=trial(1, 1, drop_height="6 ft")).best == ()


def test_straw_comes_after_the_proportions_and_ends() -> None:
    row = {"A": trial(2, 3, "50 %"), "B": trial(1, 2, "90 %", straw="none"), "C": trial(2, 5, "40 %")}
    found = advice(**row)
    assert found.next_parts == () and found.next_straw == (0.1, 0.2, 0.3) and not found.is_found
    tried = {
        f"S{n}": trial(1, 2, "60 %", straw="wheat", straw_parts=3 * dose) for n, dose in enumerate((0.1, 0.2, 0.3))
    }
    assert advice(**row, **tried).is_found


def test_the_best_of_bad_bricks_is_said_to_be_bad(tmp_path: Path) -> None:
    assert advice(A=trial(1, 1, "30 %"), B=trial(1, 2, "20 %")).weak is True
    text = f"soils: {{{CLAY}, {SAND}}}\ntrials: {{P1: {{parts: {{S1: 1, S2: 1}}, largest_piece: 30 %}}}}\n"
    answer = earth_answer(check_folder(folder(tmp_path, text)))
    assert "broke to bits" in answer.sentence and not any("Name the mix" in one.says for one in answer.steps)


@given(st.lists(st.floats(0.1, 9), min_size=1, max_size=5), st.floats(0, 0.5), st.integers(1, 12))
def test_a_batch_keeps_the_proportions_and_the_size(parts: list[float], dose: float, most: int) -> None:
    named = {f"S{number}": part for number, part in enumerate(parts)}
    found = batch_count(named, dose, most)
    size = sum(found.buckets.values())
    assert size <= most + 1e-6 and found.straw == pytest.approx(dose * size, abs=1e-6)
    for mark, part in named.items():
        assert found.buckets[mark] / size == pytest.approx(part / sum(parts), abs=1e-5)


def test_batches_by_hand() -> None:
    assert batch_count({"S1": 1, "S2": 2}, 0.2, 8).buckets == {"S1": 2.5, "S2": 5.0}
    assert batch_count({"S1": 1, "S2": 2}, 0.2, 8).straw == pytest.approx(1.5)
    assert batch_count({"S1": 1, "S2": 3}, 0.0, 8).buckets == {"S1": 2.0, "S2": 6.0}
    assert not batch_count({"S1": 1, "S2": 1.7}, 0.0, 8).exact


@pytest.mark.parametrize(("jar", "code", "told"), [
    ("{sand: 3 in, silt: 5/8 in, clay: 1/2 in}", "soil-test", "if yours are thicknesses: sand: 3 in, silt: 3.625 in"),
    ("{sand: 70 %, silt: 20 %, clay: 10 %}", "jar-share", "sand: 3 in, silt: 3 5/8 in, clay: 4 1/8 in"),
    ("[3 in, 3 5/8 in, 4 1/8 in]", "jar-shape", "sand: 3 in"), ("3 in", "jar-shape", "sand: 3 in"),
    ("{sand: 3 in, silt: 4 in}", "jar-clay", "all three tops"),
    ("{sand: 3 in, silt: 4 in, clay: 5 in, settled: 5 in}", "jar-clay", "keep one"),
    ("{sand: 3, silt: 4 in, clay: 5 in}", "measure-no-unit", "3/8 in"),
    ("{sand: 3 in, silt: 4 in, clay: 5 in, depth: 4 in}", "soil-test", "depth of water"),
])  # fmt: skip
def test_wrong_jars_are_told_the_right_shape(tmp_path: Path, jar: str, code: str, told: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        check_folder(folder(tmp_path, f"soils: {{S1: {{name: clay, jar: {jar}}}}}\n"))
    assert {one.code for one in found.value.problems} == {code}
    assert told in found.value.problems[0].instead


def test_a_jar_as_in_the_hand_reads_as_the_long_one(tmp_path: Path) -> None:
    """Shares by hand: 3 of 4.125 in is 72.7 % sand, 0.625 is 15.2 % silt, 0.5 is 12.1 % clay."""
    short = uses(tmp_path, "jar: {sand: 3 in, silt: 3 5/8 in, clay: 4 1/8 in}").shares
    long = uses(tmp_path, "jar: {depth: 8 in, sand: {height: 3 in, time: 40 s}, silt: {height: 3 5/8 in}, settled: "
                "{height: 4 1/8 in}}").shares  # fmt: skip
    assert short == long and short is not None
    assert [round(100 * one, 1) for one in (short.sand, short.silt, short.clay)] == [72.7, 15.2, 12.1]


def test_json_of_an_earth_project_has_its_findings(tmp_path: Path) -> None:
    checked = check_folder(folder(tmp_path, f"{RULES}soils: {{{CLAY}}}\n"))
    assert len(json.loads(as_json(checked))["findings"]) == len(checked.findings) > 0


def test_the_jar_of_practice_has_a_depth() -> None:
    assert PRACTICE.earth.depth == pytest.approx(parse_measure("8 in", KINDS["layer_height"]).si)
