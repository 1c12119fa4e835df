"""The findings as a reader finds them in the pages of a submittal, to be held against those written out as JSON."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator

from compliance.checked import Checked
from compliance.facts.catalogue import ABOUT_LABELS
from compliance.report.by_rule import RuleFindings, by_rule
from compliance.report.cautions import SHORT
from compliance.report.revisions.findings_data import as_json
from tests.documents.reading_back import Read, one_line

WallFinding = tuple[str, str, str, str]
"""Code of the rule, kind of subject, mark of the subject (empty for project and site), verdict."""

_VERDICTS = {
    "engineer": "engineer", "revise": "revise", "missing": "missing", "confirm": "confirm",
    "not applicable": "not applicable", "later": "later", "waits": "later",
    "meets, unconfirmed": "meets, limit to be confirmed", "meets": "meets",
}  # fmt: skip
_WORD = "|".join(sorted(_VERDICTS, key=len, reverse=True))
_KIND = "|".join(sorted(ABOUT_LABELS.values(), key=len, reverse=True))
_MARK = r"[^\s,;:]+(?: to [^\s,;:]+)?"
_SUBJECTS = rf"(?:(?:project|site)(?![\w.])|(?:{_KIND}) {_MARK}(?:, {_MARK})*)"
_RESULT = re.compile(rf"(?<![\w,])({_WORD}): ({_SUBJECTS}(?:; {_SUBJECTS})*)")


def in_json(made: Checked) -> Counter[WallFinding]:
    codes = {(group.rule_set, group.rule): group.code for one in by_rule(made) for group in one.rules}
    found: Counter[WallFinding] = Counter()
    for one in json.loads(as_json(made))["findings"]:
        mark = "" if one["subject"] == one["about"] else one["subject"]
        found[codes[one["rule_set"], one["rule"]], ABOUT_LABELS[one["about"]], mark, one["verdict"]] += 1
    return found


def in_checklist(read: Read, made: Checked) -> Counter[WallFinding]:
    groups = [group for one in by_rule(made) for group in one.rules]
    found: Counter[WallFinding] = Counter()
    for group, text in _rows(section(read, made, "Checklist by clause"), groups):
        for verdict, said in _RESULT.findall(text):
            found.update((group.code, *subject, _VERDICTS[verdict]) for subject in _subjects(said))
    return found


def section(read: Read, made: Checked, title: str) -> str:
    """The text of a section without the running lines of its pages."""
    starts = [(page, name) for level, name, page in read.outline if level == 0]
    at = next(index for index, (_, name) in enumerate(starts) if name == title)
    pages = read.pages[starts[at][0] - 1 : starts[at + 1][0]]
    running = re.compile(rf"{re.escape(one_line(made.project.project.name))} [^·]*? {re.escape(one_line(SHORT))}.*")
    text = " ".join(running.sub("", page) for page in pages)
    start = text.index(f"{title} ")
    end = text.find(f" {starts[at + 1][1]} ", start)
    return text[start:end] if end > start else text[start:]


def _rows(text: str, groups: list[RuleFindings]) -> Iterator[tuple[RuleFindings, str]]:
    """Each rule with what stands between its code and the next; their order is that of the rule sets."""
    starts: list[int] = []
    for group in groups:
        match = re.compile(rf" {group.code} {re.escape(one_line(group.first.clause))} ").search(
            text, starts[-1] if starts else 0
        )
        assert match, f"{group.code} is not in its place"
        starts.append(match.start() + 1)
    for group, start, end in zip(groups, starts, [*starts[1:], len(text)], strict=True):
        yield group, text[start:end]


def _subjects(said: str) -> Iterator[tuple[str, str]]:
    for part in said.split("; "):
        kind = next(one for one in sorted(ABOUT_LABELS.values(), key=len, reverse=True) if part.startswith(one))
        marks = part[len(kind) :].strip()
        for mark in marks.split(", ") if marks else [""]:
            yield from ((kind, one) for one in expanded(mark))


def expanded(mark: str) -> list[str]:
    """ "W2 to W4" is W2, W3 and W4."""
    match = re.fullmatch(r"(.*?)(\d+) to (.*?)(\d+)", mark)
    if not match:
        return [mark]
    assert match[1] == match[3], mark
    return [f"{match[1]}{number}" for number in range(int(match[2]), int(match[4]) + 1)]


def with_runs_told(text: str) -> str:
    """The text with every "W2 to W4" written out."""
    run = r"(?<![\w.])((?:[\w.]*?)\d+ to [\w.]*?\d+)(?![\w.])"
    return re.sub(run, lambda found: ", ".join(expanded(found[1])) if _is_run(found[1]) else found[1], text)


def _is_run(said: str) -> bool:
    first, _, last = said.partition(" to ")
    return first.rstrip("0123456789") == last.rstrip("0123456789") and first[:1].isalpha()
