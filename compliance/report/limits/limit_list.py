"""The limits that findings rest on, each once, least known first."""

from __future__ import annotations

from collections.abc import Iterable

from compliance.checked import Checked
from compliance.findings import BINDING, Finding, LimitUsed, Outcome, Standing
from compliance.record import record
from compliance.report.limits.limit_history import history_lines, value_text
from compliance.units import Writer


@record
class ListedLimit:
    """A limit with the subjects whose findings rest on it."""

    limit: LimitUsed
    title: str
    subjects: tuple[str, ...]


def limits_relied_on(findings: Iterable[Finding]) -> list[ListedLimit]:
    """Every limit of a finding that applies, least known first, then in the order of the rules."""
    found: dict[tuple[str, str, str], tuple[LimitUsed, str, list[str]]] = {}
    for finding in findings:
        if finding.outcome is Outcome.NOT_APPLICABLE:
            continue
        for limit in finding.limits:
            key = (limit.rule_set, limit.rule, limit.name)
            known, title, subjects = found.get(key, (limit, finding.title, []))
            worse = limit if limit.standing.rank > known.standing.rank else known
            found[key] = (worse, title, [*subjects, finding.subject])
    listed = [ListedLimit(limit, title, tuple(dict.fromkeys(subjects))) for limit, title, subjects in found.values()]
    return sorted(listed, key=lambda one: -one.limit.standing.rank)


def limits_of_codes(checked: Checked) -> list[ListedLimit]:
    """Those of codes and standards: the limits of a guide, of practice or of statics stand in no adopted copy."""
    binding = {one.id for one in checked.rule_sets if one.status in BINDING}
    return [one for one in limits_relied_on(checked.findings) if one.limit.rule_set in binding]


def limit_text(limit: LimitUsed, writer: Writer) -> str:
    """The value in both systems; `open` while it is not known."""
    return value_text(limit.value, writer)


def limit_list(checked: Checked, all_limits: bool) -> str:
    """For the terminal: standing, rule and limit as `confirm` takes them, value, clause, what rests on it. Without
    `all_limits`, confirmed ones are left out but for those that an amendment changed; dropped rules follow."""
    writer = Writer(checked.project.project.units)
    listed = limits_relied_on(checked.findings)
    shown = [
        one for one in listed if all_limits or one.limit.standing is not Standing.CONFIRMED or one.limit.is_changed
    ]
    lines: list[str] = []
    standing = None
    for one in shown:
        if one.limit.standing is not standing:
            standing = one.limit.standing
            lines += ([""] if lines else []) + [f"{standing.value} ({_MEANING[standing]})"]
        lines.append(f"  {one.limit.rule_set}/{one.limit.rule} {one.limit.name}: {limit_text(one.limit, writer)}")
        where = dict.fromkeys((one.limit.clause, one.limit.read_in or one.limit.source or one.limit.clause))
        count = len(one.subjects)
        subjects = f"{count} {'subject' if count == 1 else 'subjects'}"
        lines.append(f"      {'; '.join(where)}; {subjects}")
        lines += [f"      {line}" for line in history_lines(one.limit, writer)]
    lines += _dropped(checked)
    left = sum(one.limit.standing is not Standing.CONFIRMED for one in limits_of_codes(checked))
    lines.append(
        f"\n{len(listed)} limits, {left} of codes and standards not confirmed in the adopted copy"
        if listed
        else "no limit is relied on"
    )
    return "\n".join(lines) + "\n"


def _dropped(checked: Checked) -> list[str]:
    """Each rule that an amendment dropped, by whom, on whose authority and why."""
    drops = [one for one in checked.amendments if one.what == "drop"]
    lines = [*([""] if drops else []), *(["dropped (nothing is checked by these)"] if drops else [])]
    for one in drops:
        by = one.amended
        lines.append(f"  {one.rule_set}/{one.rule}: {one.title}")
        lines.append(f"      dropped by {by.by} on {by.on}; authority: {by.authority}; reason: {by.reason}")
    return lines


_MEANING = {
    Standing.OPEN: "the value is not known to the rule set: read it and confirm it",
    Standing.RECALLED: "recalled from memory by the authors of the rule set",
    Standing.REPORTED: "read in a second-hand source",
    Standing.READ: "read in a public copy of the text, not in the adopted copy",
    Standing.CONFIRMED: "read by a named person in the adopted copy",
}
