"""Commands that are stopped half-way by what they are given: nothing is written, nothing traced."""

from __future__ import annotations

import json
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.conftest import EXAMPLE
from tests.hostile.laying_out import SOUND, write
from tests.hostile.running import Host, Ran, command, environment, listing, run

RULES = """\
rule_set: county
title: County rules
edition: "2021"
jurisdiction: county
material: cob
forms: [any]
status: code
scope: walls
source: ordinance 12
verify: ask
rules:
  - id: strength
    title: Strength
    clause: S1
    about: mix
    limits:
      least: {value: 60 psi, standing: read, source: ordinance 12}
      governs: {value: kth-lowest, standing: read, source: ordinance 12}
      rank: {value: 2, standing: read, source: ordinance 12}
      count: {value: 5, standing: read, source: ordinance 12}
    test: {of: compression, statistic: governs, parameters: {k: rank, of: count}}
    check: result >= least and specimens >= count
    say: Strong enough.
  - id: slender
    title: Slenderness
    clause: S2
    about: wall
    limits: {most: {value: open, kind: ratio, standing: open, read_in: "Table 2"}}
    check: wall.height / wall.least_thickness <= most
    say: Not slender.
  - id: low
    title: Height
    clause: S3
    about: wall
    limits: {most: {value: open, kind: length, standing: open, read_in: "Table 3"}}
    check: wall.height <= most
    say: Low.
"""
PROJECT = SOUND.replace("cob-practice", "county.yaml")
WHO = ["--by", "R. Pell", "--where", "page 3"]
GRANTED = ["--reason", "council decision", "--authority", "County Council"]


def lay_out(folder: Path, project: str = PROJECT, rules: str = RULES) -> None:
    write(folder, {"project.yaml": project.encode(), "county.yaml": rules.encode()})


def refused(ran: Ran, before: dict[str, bytes | str], cwd: Path, says: str) -> None:
    assert not ran.traced, ran.err
    assert ran.code == 2, (ran.code, ran.out, ran.err)
    assert says in ran.err, ran.err
    assert listing(cwd) == before


@pytest.mark.parametrize(
    ("rule", "limit", "value", "says"),
    [
        ("strength", "rank", "99", "rule-statistic"),
        ("strength", "rank", "0", "rule-statistic"),
        ("strength", "rank", "1.5", "rule-statistic"),
        ("strength", "rank", "-1", "measure-no-unit"),
        ("strength", "count", "0", "rule-statistic"),
        ("strength", "count", "1.5", "amendment-absurd"),
        ("strength", "governs", "biggest", "rule-statistic"),
        ("slender", "most", "1000000", "amendment-absurd"),
        ("low", "most", "8000 ft", "amendment-absurd"),
    ],
)
def test_a_value_that_no_rule_can_have(
    rule: str, limit: str, value: str, says: str, host: Host, tmp_path: Path
) -> None:
    lay_out(tmp_path / "p")
    before = listing(tmp_path)
    ran = host.run(["confirm", "p", rule, limit, "--value", value, *WHO, *GRANTED], tmp_path)
    refused(ran, before, tmp_path, says)


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--value", "80 ft", *WHO], "amendment-unusual"),
        (["--value", "9 ft", "--by", "R. Pell", "--where", "IRC 2009, page 3"], "amendment-edition"),
        (["--value", "9 ft", *WHO, "--edition", "2009"], "amendment-edition"),
        (["--value", "9 ft", "--by", ".", "--where", "page 3"], "text-empty"),
        (["--value", "80 ft", *WHO, "--reason", ".", "--authority", "Council"], "text-empty"),
        (["--value", "9 ft"], "confirm needs RULE"),
    ],
)
def test_what_confirm_asks_again(options: list[str], says: str, host: Host, tmp_path: Path) -> None:
    lay_out(tmp_path / "p")
    before = listing(tmp_path)
    refused(host.run(["confirm", "p", "low", "most", *options], tmp_path), before, tmp_path, says)


def test_an_unusual_value_stands_with_reason_and_authority(host: Host, tmp_path: Path) -> None:
    lay_out(tmp_path / "p")
    ran = host.run(["confirm", "p", "low", "most", "--value", "80 ft", *WHO, *GRANTED], tmp_path)
    assert ran.code == 0, ran.err


def test_a_rule_set_that_extends_is_checked_as_an_amendment_is(host: Host, tmp_path: Path) -> None:
    own = RULES[: RULES.index("rules:")].replace("rule_set: county", "rule_set: town") + (
        "extends: county.yaml\nchanges:\n  - {rule_set: county, rule: strength, limit: rank, value: 99, standing: read,"
        " by: R. Pell, on: 2026-01-02, where: page 3, reason: council, authority: County}\n"
    )
    write(tmp_path / "p", {"project.yaml": PROJECT.replace("county", "town").encode(), "county.yaml": RULES.encode(),
                           "town.yaml": own.encode()})  # fmt: skip
    before = listing(tmp_path)
    refused(host.run(["check", "p"], tmp_path), before, tmp_path, "rule-statistic")


@pytest.mark.parametrize("name", ["amendments.yaml", "issued"])
def test_a_link_out_of_the_folder_is_not_written_through(name: str, host: Host, tmp_path: Path) -> None:
    lay_out(tmp_path / "p")
    (tmp_path / "outside").mkdir()
    target = tmp_path / "outside" if name == "issued" else tmp_path / "outside" / "file"
    (tmp_path / "p" / name).symlink_to(target)
    before = listing(tmp_path)
    if name == "issued":
        ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    else:
        ran = host.run(["confirm", "p", "low", "most", "--value", "9 ft", *WHO], tmp_path)
    refused(ran, before, tmp_path, "by a link")


def test_a_file_with_cr_line_ends_keeps_them(host: Host, tmp_path: Path) -> None:
    lay_out(tmp_path / "p", PROJECT + "amendments: [local.yaml]\n")
    old = (
        "# ours\rchanges:\r  - {rule_set: county, rule: slender, limit: most, value: 8, standing: read, by: R. Pell, "
        "on: 2026-01-02, where: page 2}\r# end\r"
    )
    (tmp_path / "p" / "local.yaml").write_bytes(old.encode())
    ran = host.run(["confirm", "p", "low", "most", "--value", "9 ft", *WHO], tmp_path)
    assert ran.code == 0, ran.err
    text = (tmp_path / "p" / "local.yaml").read_bytes().decode()
    assert "\n" not in text and text.startswith(old.removesuffix("# end\r")) and text.endswith("# end\r")


def test_nothing_of_two_files_stays_where_the_second_cannot_be_written(host: Host, tmp_path: Path) -> None:
    """The project file is protected against writing: the amendment file made for it goes again."""
    lay_out(tmp_path / "p")
    project = tmp_path / "p" / "project.yaml"
    for step in range(1, 12):
        ran = host.run(["confirm", "p", "low", "most", "--value", "9 ft", *WHO], tmp_path, break_before=step)
        if ran.code == 0:
            break
        assert host.run(["check", "p", "--quiet"], tmp_path).code in (0, 1)
        assert project.read_text() in (PROJECT, PROJECT + "\namendments:\n  - amendments.yaml\n")
        shutil.rmtree(tmp_path / "p")
        lay_out(tmp_path / "p")
    assert ran.code == 0


@pytest.mark.parametrize("text", ["1/x clay", "../x", "/", "1/0 clay", "1//2 clay", "1/2/3 clay", "-/- clay"])
def test_start_refuses_parts_that_are_no_numbers(text: str, host: Host, tmp_path: Path) -> None:
    answers = (
        "name: T\nplace: N\nrule_sets: cob-practice\nlength: 24 ft\nwidth: 16 ft\nheight: 8 ft\nthickness: 16 in\n"
    )
    answers += f"mix: {json.dumps(text)}\n"
    (tmp_path / "answers.yaml").write_text(answers, encoding="utf-8")
    before = listing(tmp_path)
    ran = host.run(["start", "p", "--answers", "answers.yaml"], tmp_path)
    refused(ran, before, tmp_path, "start-parts")


@pytest.mark.parametrize("field", ["project.name", "project.date", "W1.mix", "mixes.M1.name", "jurisdiction.name"])
def test_a_field_that_is_taken_away_is_a_problem(field: str, host: Host, tmp_path: Path) -> None:
    write(tmp_path / "p", {"project.yaml": SOUND.encode()})
    before = listing(tmp_path)
    ran = host.run(["try", "p", f"{field}="], tmp_path)
    assert not ran.traced and ran.code in (0, 1, 2), ran.err
    assert listing(tmp_path) == before


@pytest.mark.parametrize("step", ["0 in", "0", "0/3 in", "0.00 m"])
def test_a_step_that_leads_nowhere(step: str, host: Host, tmp_path: Path) -> None:
    remedy = f"    remedy: {{say: Lower it., change: wall.height, step: {step}}}\n"
    lay_out(tmp_path / "p", rules=RULES.replace("value: open, kind: length, standing: open, read_in",
                                                "value: 4 ft, standing: read, source") + remedy)  # fmt: skip
    before = listing(tmp_path)
    refused(host.run(["mend", "p"], tmp_path), before, tmp_path, "remedy-step")


def shell(script: str, cwd: Path, **env: str) -> subprocess.CompletedProcess[bytes]:
    tool = shlex.join(command())
    return subprocess.run(
        ["sh", "-c", script.replace("EARTHWALL", tool)], cwd=cwd, env=environment(**env), capture_output=True,
        timeout=120, check=False,
    )  # fmt: skip


def test_a_closed_standard_output(tmp_path: Path) -> None:
    write(tmp_path / "p", {"project.yaml": SOUND.encode()})
    before = listing(tmp_path)
    for what in (
        "check p",
        "submittal p --output o.pdf",
        "confirm p footing-depth least --value '1 ft' --by R.P. --where p3",
    ):
        ran = shell(f"EARTHWALL {what} >&-", tmp_path)
        assert ran.returncode == 2 and b"Traceback" not in ran.stderr and b"standard output is closed" in ran.stderr
    assert listing(tmp_path) == before


@pytest.mark.parametrize("closed", ["<&-", "2>&-", "<&- 2>&-"])
def test_a_closed_input_or_error(closed: str, tmp_path: Path) -> None:
    write(tmp_path / "p", {"project.yaml": SOUND.encode()})
    open_code = shell("EARTHWALL check p -q", tmp_path).returncode
    ran = shell(f"EARTHWALL check p -q {closed}", tmp_path)
    assert ran.returncode == open_code and b"Traceback" not in ran.stderr
    assert b"meets" in ran.stdout


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("what", ["check p >/dev/full", "check gone 2>/dev/full", "check p >/dev/full 2>/dev/full"])
def test_a_full_device(what: str, tmp_path: Path) -> None:
    write(tmp_path / "p", {"project.yaml": SOUND.encode()})
    ran = shell(f"EARTHWALL {what}", tmp_path)
    assert ran.returncode == 2 and b"Traceback" not in ran.stderr


@pytest.mark.parametrize("stamp", ["abc", "-1", "99999999999999999999", "1.5"])
def test_a_stamp_from_outside_changes_nothing(stamp: str, host: Host, tmp_path: Path) -> None:
    write(tmp_path / "p", {"project.yaml": SOUND.encode()})
    assert host.run(["submittal", "p", "--draft", "--output", "one.pdf"], tmp_path).code == 0
    env = environment(SOURCE_DATE_EPOCH=stamp)
    assert run(["submittal", "p", "--draft", "--output", "two.pdf"], tmp_path, env).code == 0
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


@pytest.mark.parametrize("name", ["project.yaml", "county.yaml", "letter.pdf", "issued/A.json", "again.yaml"])
def test_no_input_is_written_over(name: str, host: Host, tmp_path: Path) -> None:
    lay_out(tmp_path / "p", PROJECT + "attachments: {A1: {file: letter.pdf, title: Letter}}\n")
    write(tmp_path / "q", {"project.yaml": SOUND.encode()})
    assert host.run(["worksheet", "q", "--output", "p/letter.pdf"], tmp_path).code == 0
    assert host.run(["submittal", "p", "--output", "o.pdf"], tmp_path).code == 0
    (tmp_path / "p" / "again.yaml").symlink_to("project.yaml")
    before = listing(tmp_path)
    ran = host.run(["submittal", "p", "--force", "--output", f"p/{name}"], tmp_path)
    refused(ran, before, tmp_path, "read from" if name.endswith(".pdf") else "is no folder")


def test_a_template_is_written_whole_or_not_at_all(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    from compliance.output.files.new_rules import write_template

    def full(handle: int, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.write", full)
    with pytest.raises(OSError, match="No space left"):
        write_template(tmp_path / "county.yaml", "county.yaml")
    assert listing(tmp_path) == {}


def test_a_record_changed_by_hand_is_not_believed(host: Host, tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "p")
    path = tmp_path / "p" / "issued" / "A.json"
    sound = path.read_text(encoding="utf-8")
    data = json.loads(sound)
    fingerprint = data["project"]["fingerprint"]
    for now in (
        sound.replace(fingerprint, "0" * 64),
        sound.replace('"outcome": "revise"', '"outcome": "meets"', 1),
        sound.replace(f'"digest": "{data["digest"]}"', f'"digest": "{"0" * 64}"'),
        sound.replace(f',\n"digest": "{data["digest"]}"', ""),
    ):
        assert now != sound
        path.write_text(now, encoding="utf-8")
        before = listing(tmp_path)
        refused(host.run(["submittal", "p", "--output", "o.pdf"], tmp_path), before, tmp_path, "issued-record")


def test_a_file_of_the_project_does_not_pass_for_a_shipped_rule_set(host: Host, tmp_path: Path) -> None:
    for rules in (RULES.replace("rule_set: county", "rule_set: cob-irc-2021-au"),
                  RULES.replace("title: County rules", "title: cob construction; IRC 2021, appendix AU")):  # fmt: skip
        if "rule_set: county" in rules:
            from compliance.reading.rule_files.rule_library import shipped_titles

            rules = RULES.replace("County rules", json.dumps(shipped_titles()["cob-irc-2021-au"].upper()))
        lay_out(tmp_path / "p", rules=rules)
        before = listing(tmp_path)
        refused(host.run(["check", "p"], tmp_path), before, tmp_path, "rule-set-shipped")


def test_a_project_without_a_rule_left_does_not_meet(host: Host, tmp_path: Path) -> None:
    drops = "".join(
        f"  - {{rule_set: county, rule: {rule}, reason: not adopted here, by: R. Pell, on: 2026-01-02,\n"
        "     authority: County}\n"
        for rule in ("strength", "slender", "low")
    )
    lay_out(tmp_path / "p", PROJECT + "amendments: [local.yaml]\n")
    (tmp_path / "p" / "local.yaml").write_text(f"drops:\n{drops}", encoding="utf-8")
    ran = host.run(["check", "p"], tmp_path)
    assert ran.code == 1 and "every rule of county is dropped" in ran.err
    assert "amendment-nothing-left" in ran.err


def test_texts_that_no_paper_can_set_are_named_when_they_are_read(host: Host, tmp_path: Path) -> None:
    text = SOUND.replace("name: Trial", "name: 'Trial \u2300 \U0001f3e0'")
    write(tmp_path / "p", {"project.yaml": text.encode()})
    ran = host.run(["check", "p"], tmp_path)
    assert "p/project.yaml:1:17: warning: '\u2300' (U+2300, diameter sign) has no glyph" in ran.err
    assert "text-glyph" in ran.err
    assert ran.code in (0, 1)


def test_problems_name_no_address_in_memory(host: Host, tmp_path: Path) -> None:
    text = SOUND + "attachments: {A1: {file: a.png, title: Photo}}\n"
    write(tmp_path / "p", {"project.yaml": text.encode(), "a.png": b"\x89PNG\r\n\x1a\n" + b"x" * 40})
    ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    assert ran.code == 2 and "0x" not in ran.err


def test_a_rule_file_full_of_slips_is_told_in_short(host: Host, tmp_path: Path) -> None:
    slips = "".join(
        f"  - {{id: r{number}, title: T, clause: C, about: wall, say: S.,\n"
        f"     check: wall.{'nothing' * 20}{number} > wall.height}}\n"
        for number in range(1500)
    )
    lay_out(tmp_path / "p", rules=RULES[: RULES.index("rules:")] + "rules:\n" + slips)
    ran = host.run(["check", "p"], tmp_path)
    assert ran.code == 2 and len(ran.err) < 60_000


def test_more_findings_than_memory_holds(host: Host, tmp_path: Path) -> None:
    """A thousand rules for a thousand walls would take more than a gigabyte."""
    rule = RULES[RULES.index("  - id: low") :]
    rule = rule.replace("value: open", "value: 9 ft").replace("standing: open, read_in", "standing: read, source")
    rules = RULES[: RULES.index("  - id")] + "".join(rule.replace("id: low", f"id: low{n}") for n in range(1000))
    wall = PROJECT[PROJECT.index("  W1:") :]
    walls = "".join(wall.replace("W1", f"W{n}").replace("0 ft]", f"{10 * n} ft]") for n in range(1000))
    lay_out(tmp_path / "p", PROJECT[: PROJECT.index("  W1:")] + walls, rules)
    ran = host.run(["check", "p"], tmp_path)
    assert ran.code == 2 and "project-size" in ran.err, ran.err[:500]
    assert ran.peak < 300_000_000
