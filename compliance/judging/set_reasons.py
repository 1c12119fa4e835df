"""Why an outcome about tests is what it is, as data: the reasons of sets of specimens and of the mixes they are of."""

from __future__ import annotations

from compliance.findings import Reason
from compliance.judging.reasons import Entry
from compliance.record import record


@record
class NoTest(Reason):
    """No set of the mix is of the kind of test that the rule is about."""

    code = "no-test"

    mix: str
    test: str


@record
class NoRows(Reason):
    code = "no-rows"

    set: str
    file: str


@record
class NoResult(Reason):
    """No specimen of the set has a result, or, where some are set aside, none counts."""

    code = "no-result"

    set: str
    aside: bool


@record
class NoGoverningValue(Reason):
    code = "no-governing-value"

    set: str
    because: str


@record
class OpenFactors(Reason):
    """The factor for height to width of each of these specimens is an open entry of its table."""

    code = "open-factor"

    specimens: tuple[Entry, ...]


@record
class SetsFail(Reason):
    """Sets of the mix that fail; those that pass do not outweigh them."""

    code = "set-fails"

    mix: str
    failing: tuple[str, ...]
    passing: tuple[str, ...] = ()


@record
class SomeFail(Reason):
    """So many sets fail, where only their number is known."""

    code = "some-fail"

    failing: int


@record
class SetsWait(Reason):
    """Whether these sets, or this mix, pass waits for a limit or rule that is open."""

    code = "set-waits"

    marks: tuple[str, ...]


@record
class NoSetPasses(Reason):
    code = "no-set-passes"

    mix: str


@record
class NoTestRequired(Reason):
    """No adopted rule asks for a test of the mix, so that none can pass."""

    code = "no-test-required"

    mix: str
