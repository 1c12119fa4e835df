"""How the findings stand, counted by mark, and what each standing of a limit means."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.checked import Checked
from compliance.findings import Standing
from compliance.record import record
from compliance.report.limits.limit_list import limits_relied_on
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


@record
class LimitCounts:
    """The limits that findings rest on, by standing, least known first."""

    by_standing: Mapping[Standing, int]

    @property
    def total(self) -> int:
        return sum(self.by_standing.values())

    @property
    def read(self) -> int:
        """Read by somebody, in a public copy or in the adopted one."""
        return self.by_standing[Standing.READ] + self.by_standing[Standing.CONFIRMED]

    @property
    def confirmed(self) -> int:
        return self.by_standing[Standing.CONFIRMED]

    @property
    def open(self) -> int:
        return self.by_standing[Standing.OPEN]


def limit_counts(checked: Checked) -> LimitCounts:
    """How many limits the findings rest on, each counted once."""
    found = dict.fromkeys(Standing, 0)
    for one in limits_relied_on(checked.findings):
        found[one.limit.standing] += 1
    return LimitCounts(found)


def limits_in_words(checked: Checked) -> str:
    """ "41 of 246 limits were read, 3 of them in the adopted copy; 24 are open." """
    found = limit_counts(checked)
    if not found.total:
        return "No finding rests on a limit."
    confirmed = (
        f"{found.confirmed} confirmed in the adopted copy" if found.confirmed else "none confirmed by this office"
    )
    return f"{found.read} of {found.total} limits read in a copy of their source, {confirmed}; {found.open} open."
