"""The findings as a reader finds them in the pages of a submittal, to be held against those written out as JSON."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator

from compliance.checked import Checked
from compliance.documents.papers.adopted_checklist import adopted_sets
from compliance.facts.catalogue import ABOUT_LABELS
from compliance.judging.records import waits_for_the_work
from compliance.report.by_rule import RuleFindings, by_rule
from compliance.report.cautions import SHORT
from compliance.report.revisions.findings_data import as_json
from tests.documents.reading_back import Read, one_line

Counted = tuple[str, str]
"""Code of the rule, verdict."""

_VERDICTS = {
    "engineer": "engineer", "revise": "revise", "missing": "missing", "confirm": "confirm",
    "waits for the work": "later", "later": "later", "meets, unconfirmed": "meets, limit to be confirmed",
    "meets": "meets",
}  # fmt: skip
_WORD = "|".join(sorted(_VERDICTS, key=len, reverse=True))
_KIND = "|".join(sorted(ABOUT_LABELS.values(), key=len, reverse=True))
_MARK = r"[^\s,;:]+(?: to [^\s,;:]+)?"
_SUBJECTS = rf"(?:(?:project|site)(?![\w.])|(?:{_KIND}) {_MARK}(?:, {_MARK})*)"
_COUNTED = r"\d+ \w+, named in the calculations"
_RESULT = re.compile(rf"(?<![\w,])({_WORD}): ({_COUNTED}|{_SUBJECTS}(?:; {_SUBJECTS})*)")


def in_json(made: Checked) -> Counter[Counted]:
    """Findings of adopted codes, those left out that do not apply and do not wait for the work."""
    groups = [group for one in adopted_sets(by_rule(made)) for group in one.rules]
    codes = {(group.rule_set, group.rule): group.code for group in groups}
    waiting = {(one.rule_set, one.rule, one.subject) for one in made.findings if waits_for_the_work(one)}
    found: Counter[Counted] = Counter()
    for one in json.loads(as_json(made))["findings"]:
        rule = one["rule_set"], one["rule"]
        apart = one["outcome"] == "not-applicable" and (*rule, one["subject"]) not in waiting
        if rule in codes and not apart:
            found[codes[rule], one["verdict"]] += 1
    return found


def in_checklist(read: Read, made: Checked) -> Counter[Counted]:
    shown = adopted_sets(by_rule(made))
    found: Counter[Counted] = Counter()
    if not shown:
        return found
    groups = [
        group for one in shown for group in one.rules if group.judged or any(map(waits_for_the_work, group.findings))
    ]
    for group, text in _rows(section(read, made, "Checklist of the adopted code"), groups):
        for verdict, said in _RESULT.findall(text):
            count = int(said.split()[0]) if said[0].isdigit() else sum(1 for _ in _subjects(said))
            found[group.code, _VERDICTS[verdict]] += count
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
