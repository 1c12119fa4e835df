"""Why an outcome is what it is, as data: a record for each kind of reason (those of tests are in `set_reasons`).

`report.words` makes the sentences. Values are those that the sentence needs: names of facts, limits and tables as the
rules have them, values in SI, marks, days. What a fact or a formula itself says, and what a table tells of the entry
used, is carried as text.
"""

from __future__ import annotations

from datetime import date

from compliance.findings import Reason
from compliance.record import record
from compliance.rules.formulas.formula import Formula
from compliance.steps import Given


@record
class Entry:
    """A limit or a table by name; `how` tells which entry of the table, `read_in` where to look it up."""

    name: str
    how: str = ""
    read_in: str = ""


@record
class Compared(Reason):
    """A number against its limit. `name` is that of the value where it is one fact, limit or table; else empty."""

    code = "compared"
    holds: bool
    value: Given
    relation: str
    limit: Given
    name: str = ""


@record
class Among(Reason):
    """A word, or a yes or no, against those that are allowed or ruled out."""

    code = "among"
    holds: bool
    value: Given
    relation: str
    limit: Given


@record
class YesOrNo(Reason):
    """A fact that is a yes or a no, and which of the two is required."""

    code = "yes-or-no"
    holds: bool
    name: str
    wanted: bool


@record
class Evaluated(Reason):
    """A check that is more than one comparison."""

    code = "evaluated"
    holds: bool
    formula: Formula


@record
class RuleSays(Reason):
    """What the rule itself says, where that is why an engineer is called for."""

    code = "rule-says"
    text: str


@record
class NotWhere(Reason):
    """The condition under which the rule applies does not hold."""

    code = "not-where"
    condition: Formula


@record
class NoMeaning(Reason):
    """Facts that have no meaning for this subject, and why."""

    code = "no-meaning"
    because: tuple[str, ...]


@record
class NoCondition(Reason):
    """The condition of the rule has no value here, so nobody can say whether the rule applies."""

    code = "no-condition"
    because: str


@record
class NoValue(Reason):
    """The check has no value here."""

    code = "no-value"
    because: str


@record
class WithoutEnd(Reason):
    """Facts that grow without limit here, and why."""

    code = "without-end"
    because: str


@record
class Beyond(Reason):
    """Facts beyond what a published table or method covers."""

    code = "beyond-table"
    because: tuple[str, ...]


@record
class OutsideTables(Reason):
    code = "outside-table"
    tables: tuple[Entry, ...]


@record
class OpenLimits(Reason):
    code = "open-limit"
    limits: tuple[Entry, ...]


@record
class OpenEntries(Reason):
    code = "open-entry"
    tables: tuple[Entry, ...]


@record
class OpenRule(Reason):
    """What holds rests on something nobody knows to be asked for: the rule itself, or a coefficient behind it."""

    code = "open-rule"
    held: Reason
    rule_itself: bool
    read_in: str


@record
class Lacks(Reason):
    """Things are lacking that `Finding.missing` names; `because` is what facts say of it."""

    code = "lacks"
    because: tuple[str, ...] = ()


@record
class NoAnswer(Reason):
    code = "no-answer"
    ask: str


@record
class NoEvidence(Reason):
    """Somebody says yes; `evidence` are the kinds of evidence the rule asks for, one of which will do."""

    code = "no-evidence"
    by: str
    evidence: tuple[str, ...]


@record
class Answered(Reason):
    """`evidence` are the titles of what the answer names."""

    code = "answered"
    by: str
    answer: bool
    on: date
    evidence: tuple[str, ...] = ()


@record
class Contradicted(Reason):
    """What a person says or recorded, and the day or the evidence that speaks against it."""

    code = "contradicted"
    held: Reason
    against: str


@record
class Overdue(Reason):
    """A hold point without a record though the work went on."""

    code = "overdue"
    against: str


@record
class BeforeTheWork(Reason):
    """An inspection that is to come."""

    code = "before-the-work"
    point: str
    stage: str


@record
class NotRecorded(Reason):
    """An inspection that is due, and has no record."""

    code = "not-recorded"
    point: str
    stage: str


@record
class NotDue(Reason):
    """What lacks at a stage where nobody asks for it yet: `held` is why it lacks, `outcome` what that will be, `due`
    the stage at which it is."""

    code = "not-due"
    held: Reason
    outcome: str
    due: str


@record
class Inspected(Reason):
    """`evidence` are the titles of what the record names."""

    code = "inspected"
    by: str
    passed: bool
    on: date
    evidence: tuple[str, ...] = ()


@record
class NotCovered(Reason):
    """The rule set is made for other types of earth construction; `held` is why it would meet, where that was so."""

    code = "not-covered"
    rule_set: str
    covers: str
    forms: tuple[str, ...]
    held: Reason | None = None


@record
class GivesWay(Reason):
    """An answer that does not decide, because another rule does, `how`: of an adopted code or standard it `answers` or
    `asks` the same, or takes its `place`; it asks `first`; of a guide or practice it has the `stricter` answer. `held`
    is why the outcome would be what it would be; None where there is no answer. `called` is the other rule by its title
    and clause, for readers who know no ids."""

    code = "gives-way"
    rule_set: str
    rule: str
    how: str = "answers"
    held: Reason | None = None
    called: str = ""


@record
class WorkingAnswer(Reason):
    """The answer of a guide or of practice that decides while that of the rule named, of an adopted code, is open."""

    code = "working-answer"
    rule_set: str
    rule: str
    called: str = ""


@record
class Deviates(Reason):
    """Outside the limit, for the reason `held`, and accepted by an official: `accepted` tells by whom and how."""

    code = "accepted"
    held: Reason
    accepted: str
