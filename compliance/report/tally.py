"""How the findings stand, counted by mark, and what each standing of a limit means."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.findings import Standing
from compliance.report.marks import Mark, mark_of

STANDINGS = {
    Standing.CONFIRMED: "A named person read it in the adopted copy, on a date.",
    Standing.READ: "Its text was read in a public document that reproduces it.",
    Standing.REPORTED: "Its figure was found in a second-hand public source.",
    Standing.RECALLED: "Recalled from memory or from common practice, without a source at hand.",
    Standing.OPEN: "Not known here: to be read in the adopted copy and entered.",
}
SHORT_WORDS = {
    Mark.ENGINEER: "for an engineer",
    Mark.REVISE: "to revise",
    Mark.MISSING: "missing",
    Mark.CONFIRM: "to confirm,\nlimit open",
    Mark.LATER: "later,\nnot due yet",
    Mark.RESERVED: "meet, limit to\nbe confirmed",
    Mark.MEETS: "meet",
    Mark.NOT_APPLICABLE: "do not apply",
}


def tally_word(mark: Mark) -> str:
    """What a number of findings of this mark do, in a line."""
    return SHORT_WORDS[mark].replace("\n", " ")


def counts(checked: Checked) -> dict[Mark, int]:
    """How many findings have each mark, worst first, none left out."""
    found = dict.fromkeys(Mark, 0)
    for finding in checked.findings:
        found[mark_of(finding)] += 1
    return found


def checks_made(checked: Checked) -> int:
    """How many findings judge something now: those that do not apply and those that are not due yet are left out."""
    found = counts(checked)
    return len(checked.findings) - found[Mark.NOT_APPLICABLE] - found[Mark.LATER]
