"""The engineer's brief: exactly the walls on the list, with what an engineer needs to begin."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import tempfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.cli import app
from compliance.documents.brief.brief_facts import assumed, coefficients, doubted, unknown
from compliance.documents.brief.engineer_brief import CAUTION, reasons_of, write_brief
from compliance.facts.catalogue import FACTS
from compliance.facts.common.coefficients import is_taken
from compliance.findings import Outcome
from compliance.judging.engineers_list import engineers_list
from compliance.report.result_words import format_result
from compliance.report.words.missing_words import reason_text
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked, finding, project
from tests.documents.reading_back import Read, fonts_without_file, one_line, read_back
from tests.tries import tries
from tests.unit.buildings_at_random import write_building


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Read, Checked]:
    path, made = tmp_path_factory.mktemp("brief") / "brief.pdf", check_folder(EXAMPLE)
    write_brief(made, path)
    return path, read_back(path), made


COMMON = "Building, roof, site and coefficients"


def pages_of(read: Read, wall: str) -> str:
    """From the first page of a wall to that of the next, without the foot of the pages."""
    starts = [(title, page) for _, title, page in read.outline] + [("", len(read.pages) + 1)]
    index = next(index for index, (title, _) in enumerate(starts) if title.startswith(wall))
    pages = read.pages[starts[index][1] - 1 : starts[index + 1][1] - 1]
    return " ".join(page.partition(one_line(CAUTION))[0] for page in pages)


def walls_of(read: Read) -> list[str]:
    *walls, common = [title for _, title, _ in read.outline]
    assert common == COMMON
    return [title.split()[1] for title in walls]


def test_exactly_the_walls_that_a_check_leaves_to_an_engineer(example: tuple[Path, Read, Checked]) -> None:
    _, read, made = example
    listed = [item.wall for item in engineers_list(made.findings)]
    assert walls_of(read) == listed
    assert set(listed) == {one.wall for one in made.findings if one.outcome is Outcome.ENGINEER}


def test_type_floors_and_nothing_cut(example: tuple[Path, Read, Checked]) -> None:
    """No letter under 8 points, no ellipsis, no "and 6 more", no command: by the operators of the pages."""
    path, read, _ = example
    with pikepdf.open(path) as pdf:
        sizes = {float(of[1]) for page in pdf.pages for of, op in pikepdf.parse_content_stream(page) if str(op) == "Tf"}
    assert min(sizes) >= 8.0
    assert not re.findall(
        r"…|\band \d+ more\b|lines more|no room here|earthwall|\.yaml|attestations|test_sets", read.text
    )


def test_the_same_reasons_as_the_check_gives(example: tuple[Path, Read, Checked]) -> None:
    _, read, made = example
    for item in engineers_list(made.findings):
        text = pages_of(read, f"Wall {item.wall}")
        for one in item.findings:
            assert one_line(one.title) in text and one_line(one.clause) in text
            if one.subject != item.wall:
                assert one.subject in text


def test_the_question_lists_what_check_prints_as_engineer_and_nothing_else(example: tuple[Path, Read, Checked]) -> None:
    """Both ways: every finding that `check --format json` marks engineer stands in the question of its wall with value
    and limit, and no title of any other finding stands there."""
    _, read, made = example
    done = CliRunner().invoke(app, ["check", str(EXAMPLE), "--format", "json"])
    told = json.loads(done.stdout)["findings"]
    by_wall: dict[str, list[dict[str, Any]]] = {}
    for one in told:
        if one["outcome"] == "engineer":
            by_wall.setdefault(one["wall"] or "", []).append(one)
    assert walls_of(read) == list(by_wall)
    titles = {one["title"] for one in told}
    for wall, found in by_wall.items():
        asked = (
            pages_of(read, f"Wall {wall}")
            .partition("rule in our words Found")[2]
            .partition("Answer of the engineer")[0]
        )
        for one in found:
            assert one_line(one["title"]) in asked and one_line(one["say"]).partition(". ")[0] in asked
            for side in (one["value"], one["limit"]):
                assert side is None or side["text"] in asked, (wall, one["title"])
        own = {one["title"] for one in found}
        named = {title for title in titles if any(title in str(one["reason"]) for one in found)}  # whose answer is open
        assert {title for title in titles if one_line(title) in asked} - named | own == own
        assert len(made.findings) == len(told)


@settings(max_examples=tries(4), deadline=None, phases=(Phase.explicit, Phase.generate))
@given(st.integers(0, 10_000))
def test_the_same_walls_for_the_same_reasons_at_any_building(seed: int) -> None:
    """What the brief is made of, against what the check found; buildings of which many walls are outside some limit."""
    with tempfile.TemporaryDirectory() as name:
        folder = write_building(Path(name) / "trial", seed)
        text = (folder / "project.yaml").read_text(encoding="utf-8")
        adopted = "rule_sets: [cob-practice, cob-irc-2021-au"
        assert adopted in text
        text = text.replace(adopted, f"{adopted}, structural-screening, engineers-list")
        (folder / "project.yaml").write_text(text, encoding="utf-8")
        made = check_folder(folder)
    called = [one for one in made.findings if one.outcome is Outcome.ENGINEER]
    items, writer = engineers_list(made.findings), Writer("us")
    assert {item.wall for item in items} == {one.wall for one in called}
    for item in items:
        listed = reasons_of(item, writer)
        wanted = [one for one in called if one.wall == item.wall]
        for one in wanted:
            of = [told for told in listed if (told.check, told.clause, told.says) == (one.title, one.clause, one.say)]
            own = [told for told in of if one.subject in told.parts or not told.parts]
            said = {format_result(one, writer), reason_text(one, writer), "—"}
            assert any(told.figures in said for told in own), one.subject
        assert all(any(told.check == one.title for one in wanted) for told in listed)
        assert sum(len(told.parts) or 1 for told in listed) == len(
            {(one.subject, one.clause, one.title, one.say, reason_text(one, writer)) for one in wanted}
        )


def test_every_page_says_that_a_screening_never_replaces_design(example: tuple[Path, Read, Checked]) -> None:
    for page in example[1].pages:
        assert one_line(CAUTION) in page and "never replaces a design" in page
        assert "Revision B" in page and example[2].fingerprint[:12] in page


def test_geometry_loads_material_site_and_what_is_taken_and_lacking(example: tuple[Path, Read, Checked]) -> None:
    """Figures by hand. Dead: 22 psf × 11 ft 1 in and a beam of 12 by 6 in at 35 pcf. Snow on the leeward slope alone,
    30 psf × 11.083 ft with its middle 8 ft + 5.542 ft from the far wall, over the span of 16 ft (ASCE 7-10, 7.6.1).
    Base, under pier P3 of 1 ft with 3 ft 6 in to carry: 3.5 × (261.3 + 281.4) lbf on top; earth of 108 pcf and 16 psf
    of finish over 3.5 × 2 ft of 14.5 in, 1 × 3 ft of 15.75 in and 1 × 3 ft of 17.25 in, 1025 + 473 + 514 lbf.
    Wind: 0.6 × 0.00256 × 0.584 × 0.85 × 110² × (1.284 + 0.18), of zone 5 at 8²/3 = 21.3 ft² (ASCE 7-16, recalled).
    Mean of T1 over its five prisms dried in air, 645.7 / 5; T1-6 was dried in the oven."""
    text = pages_of(example[1], "Wall W3")
    for words in (
        "Wall W3, 24 ft long, 8 ft high over its stem wall, 14 in thick at least, is outside the rules named here in 5",
        "Can it be built as described?", "Key plan: W3 filled", "Elevation of W3", "Section of W1, W3",
        "Length 24 ft", "Height over the stem wall 8 ft", "Thickness, base 18 in",
        "Top bond beam, 8 ft over the base; anchors at 48 in on center", "Base stem, at the top of the stem wall",
        "W2 0 in 8 ft yes W5 9 ft 6 in 8 ft yes W4 24 ft 8 ft yes",
        "N5 window 14 ft 2 ft 6 in 3 ft 3 ft 2 ft 6 ft 9 in wood, grade not given; 12 in wide, 5.5 in deep",
        "D roofs and bond beam, on top 261 plf", "S snow, on top 281 plf", "all at the base, most loaded pier 3913 plf",
        "W on the face, out of plane 13.4 psf ASCE 7-16 Tables", "0.6D + W net uplift on top 0 plf",
        "P3 16 ft 6 in to 17 ft 6 in 1 ft 1 ft 3 ft 3913 lbf", "Moisture as placed not given",
        "Modulus of elasticity not tested", "5 129.1 psi, 114.6 psi, 141.2 psi", "not counted: T1-6",
        "made by Ilse Varga", "Not known", "Not answered", "Limits or rules not known here",
        "Calculations in full of what is outside its limit", "Also calculated of this wall, within its limit",
        "Answer of the engineer",
    ):  # fmt: skip
        assert words in text, words


def test_clear_and_gross_widths_of_piers_bear_their_names(example: tuple[Path, Read, Checked]) -> None:
    """One name each, in every formula and table that prints them, and the numbers of the facts."""
    _, read, made = example
    assert FACTS["pier.width"].label == "clear width of the pier"
    assert FACTS["pier.solid_width"].label == "gross width of the pier"
    of_piers = [one.label for name, one in FACTS.items() if "pier" in name and "width" in one.label]
    assert len(of_piers) >= 4 and all("clear width" in one or "gross width" in one for one in of_piers)
    writer, text = Writer("us"), pages_of(read, "Wall W3")
    piers = [one for one in made.facts.of("pier").values() if one.wall == "W3"]
    assert "Clear width" in text and "Gross width" in text and len(piers) == 4
    for pier in piers:
        widths = (pier.fact(f"pier.{name}").value for name in ("width", "solid_width"))
        both = " ".join(writer.write(float(one), "length") for one in widths if isinstance(one, float))
        assert both in text, pier.own_mark


def test_what_all_walls_share_stands_once(example: tuple[Path, Read, Checked]) -> None:
    """Stiffness, ties and uplift of the roof, the site with its edition, every coefficient with standing and source."""
    text = pages_of(example[1], COMMON)
    for words in (
        "Stiffness of the roof as a diaphragm not given", "Thrust held by ceiling tie; capacities by: Invented",
        "Capacity of a tie 1200 lbf", "capacity of one 900 lbf; spacing 4 ft", "Loads by ASCE 7-16",
        "IRC 2021, Appendix AU (code change RB299-19)", "S_S 0.17", "Seismic design category B",
        "modulus of elasticity over compressive strength 300 recalled", "response factor R 1.5 recalled",
    ):  # fmt: skip
        assert words in text, words
    assert example[1].text.count("modulus of elasticity over compressive strength") == 1


def test_a_failed_check_never_stands_beside_a_bare_sentence_of_its_rule(example: tuple[Path, Read, Checked]) -> None:
    """What a rule asks reads like a statement about the wall: it is named as the rule each time."""
    _, read, made = example
    for item in engineers_list(made.findings):
        text = pages_of(read, f"Wall {item.wall}")
        for one in item.findings:
            assert text.count(one_line(one.say)) == text.count(f"The rule: {one_line(one.say)}") > 0


def test_an_untested_mix_is_said_to_be_untested(tmp_path: Path) -> None:
    """W6, which its height leaves to an engineer, built of the mix of W5, whose only set waits."""
    folder = Path(shutil.copytree(EXAMPLE, tmp_path / "house"))
    walls = folder / "walls.yaml"
    before, mark, after = walls.read_text(encoding="utf-8").partition("\n  W6:\n")
    assert mark and "mix: M1" in after.partition("\n  W7:\n")[0]
    walls.write_text(before + mark + after.replace("mix: M1", "mix: M2", 1), encoding="utf-8")
    write_brief(check_folder(folder), tmp_path / "brief.pdf", ("W6",))
    text = pages_of(read_back(tmp_path / "brief.pdf"), "Wall W6")
    assert "T5 compression 5 specimens" in text and "0 no result" in text
    assert "Density of mix M2, not stated: taken for cob 110 pcf" in text
    assert "Not given results of test set T5" in text


def test_the_calculation_ends_with_the_result_it_is_about(example: tuple[Path, Read, Checked]) -> None:
    text = pages_of(example[1], "Wall W3")
    assert "Resistance: N_Rd = Φ × t × f_d = 0.781 × (14 in) × (25.46 psi) = 3340 plf" in text


def test_every_line_of_what_calls_for_the_engineer_is_printed(example: tuple[Path, Read, Checked]) -> None:
    """The formula of each step but coefficients, which have their table, and what the heading compares."""
    _, read, made = example
    writer = Writer("us")
    for item in engineers_list(made.findings):
        text = "".join(pages_of(read, f"Wall {item.wall}").split())
        worked = [one for one in item.findings if any(step.formula and step.says != "check" for step in one.steps)]
        steps = [step for one in worked for step in one.steps if step.says != "check" and not is_taken(step)]
        alike = {(one.rule, format_result(one, writer)): one for one in reversed(worked)}
        assert len(steps) > 10 or item.wall != "W3"
        for step in (step for one in alike.values() for step in one.steps if step in steps):
            assert "".join(f"{step.says}:".split()) in text or "".join(step.says.split()) in text, step.says


def test_what_is_assumed_and_unknown_comes_from_the_findings(example: tuple[Path, Read, Checked]) -> None:
    made, us = example[2], Writer("us")
    found = [one for one in made.findings if one.wall == "W5"]
    assert any("mix M2" in text for _, text in unknown(found))
    taken = coefficients(found, us)
    assert ("response factor R", "1.5", "recalled") in [(one.name, one.value, one.standing) for one in taken]
    assert len({one.name for one in taken}) == len(taken) and all(one.source for one in taken)
    assert "Density of mix M2, not stated: taken for cob 110 pcf" in assumed(found, us)
    assert any("recalled" in text for text in doubted(found))
    assert unknown([]) == [] and assumed([], us) == [] and doubted([]) == [] and coefficients([], us) == []


def test_one_wall_alone(example: tuple[Path, Read, Checked], tmp_path: Path) -> None:
    write_brief(example[2], tmp_path / "w3.pdf", ("W3",))
    read = read_back(tmp_path / "w3.pdf")
    assert walls_of(read) == ["W3"] and "Also on the list: W6" in read.pages[0]


def test_a_wall_that_is_not_on_the_list_is_refused(example: tuple[Path, Read, Checked], tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="wall W1 has no finding marked engineer"):
        write_brief(example[2], tmp_path / "w1.pdf", ("W1",))
    target = tmp_path / "out.pdf"
    for wall, said in (("W1", "has no finding marked engineer"), ("W99", "nothing is called 'W99'")):
        done = CliRunner().invoke(app, ["brief", str(EXAMPLE), "--wall", wall, "--output", str(target)])
        assert done.exit_code == 2 and said in done.output and not target.exists()
    done = CliRunner().invoke(app, ["brief", str(EXAMPLE), "--wall", "W3", "--output", str(target)])
    assert done.exit_code == 0 and target.exists()


def test_nothing_for_an_engineer_promises_nothing(tmp_path: Path) -> None:
    write_brief(checked(findings=[finding("rule-1", Outcome.MEETS)]), tmp_path / "b.pdf")
    assert "does not say that no engineer is needed" in read_back(tmp_path / "b.pdf").text


def test_the_building_has_its_own_pages(tmp_path: Path) -> None:
    found = [finding("rule-1", Outcome.ENGINEER, "site", "site"), finding("rule-2", Outcome.ENGINEER, "W2")]
    write_brief(checked(findings=found), tmp_path / "b.pdf")
    read = read_back(tmp_path / "b.pdf")
    assert [title for _, title, _ in read.outline] == ["The building", "Wall W2", COMMON]
    assert "Title of rule-1" in read.pages[0] and "The building" in read.pages[0]


def test_many_reasons_openings_and_long_texts_are_all_printed(tmp_path: Path) -> None:
    long = "A very long reason that goes on and on without coming to an end " * 6
    building = project(1, name=long[:390])
    openings = {
        f"N{n}": {"kind": "window", "start": f"{2 * n} ft", "width": "1 ft", "height": "3 ft", "sill": "3 ft"}
        for n in range(1, 24)
    }
    wall = type(building.walls["W1"]).model_validate({
        "name": long[:390], "run": {"from": ["0 ft", "0 ft"], "to": ["60 ft", "0 ft"]}, "height": "8 ft",
        "thickness": "16 in", "mix": "M1", "bears_load": "yes", "stem": "ST1", "openings": openings,
    })  # fmt: skip
    building = building.model_copy(update={"walls": {"W1": wall}})
    found = [finding(f"rule-{n}", Outcome.ENGINEER, "W1", title=f"{n} {long[:380]}", reason=long) for n in range(1, 9)]
    found += [finding("rule-8", Outcome.ENGINEER, f"W1.N{n}", "opening", title=f"Opening {n}") for n in range(1, 24)]
    found += [finding("rule-7", Outcome.MISSING, f"W1.N{n}", "opening") for n in range(1, 24)]
    for paper in ("letter", "a4"):
        head = building.project.model_copy(update={"paper": paper})
        made = checked(of=building.model_copy(update={"project": head}), findings=found)
        write_brief(made, tmp_path / f"{paper}.pdf")
        read = read_back(tmp_path / f"{paper}.pdf")
        assert all(f"N{n} window" in read.text for n in range(1, 24)), "openings"
        assert all(f"Opening {n} " in read.text for n in range(1, 24)), "no reason is left out"
        assert all(f"{n} A very long reason" in read.text for n in range(1, 9))


def test_sound_embedded_and_the_same_twice(example: tuple[Path, Read, Checked], tmp_path: Path) -> None:
    path = example[0]
    write_brief(check_folder(EXAMPLE), tmp_path / "again.pdf")
    assert (tmp_path / "again.pdf").read_bytes() == path.read_bytes()
    assert fonts_without_file(path) == []
    if shutil.which("qpdf") is None:
        pytest.skip("qpdf is not installed")
    run = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr


def test_si_units(example: tuple[Path, Read, Checked], tmp_path: Path) -> None:
    made = example[2]
    head = made.project.project.model_copy(update={"units": "si", "paper": "a4"})
    write_brief(replace(made, project=made.project.model_copy(update={"project": head})), tmp_path / "si.pdf", ("W3",))
    text = read_back(tmp_path / "si.pdf").text
    assert "Length 7.315 m" in text and "Thickness, base 457 mm" in text and "0.89 MPa, 0.79 MPa" in text
