"""Which specimens of a set count under a test rule, which are set aside, and which wait for a blank cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from compliance.facts.specimens.specimen_results import age_in_days, blank_cells, measured, slenderness
from compliance.findings import Finding, SetAside
from compliance.judging.aspect import Corrected, corrected
from compliance.judging.context import Context
from compliance.judging.reasons import Entry
from compliance.judging.set_reasons import Counts
from compliance.model.specimens import Specimen
from compliance.record import record, replace
from compliance.rules.rule_set import Rule
from compliance.steps import Given, Step

_DAY = 86400.0
_SAME = 1e-9


@record
class Waiting:
    """A specimen that may count or not, because the rule asks for `columns` that are blank; `result` is what it would
    bring, None where that is not known either."""

    mark: str
    columns: tuple[str, ...]
    result: float | None = None

    @property
    def why(self) -> str:
        return f"{_joined(self.columns)} {'is' if len(self.columns) == 1 else 'are'} blank"


@record
class Counted:
    """Results of the specimens that count, a line or more for each specimen, and the open factors that stood in the
    way. By mark with the reason: specimens `aside` under the rule, and those `without` a result whose note says why."""

    results: list[float] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    opened: list[Entry] = field(default_factory=list)
    corrected: list[str] = field(default_factory=list)
    aside: list[tuple[str, str]] = field(default_factory=list)
    waiting: list[Waiting] = field(default_factory=list)
    without: list[tuple[str, str]] = field(default_factory=list)

    def noted(self, found: Finding) -> Finding:
        """The finding with how many results count, and the specimens that do not."""
        waiting = tuple((one.mark, one.why) for one in self.waiting)
        counts = Counts(len(self.results), tuple(self.aside), waiting, tuple(self.without))
        return replace(
            found, aside=tuple(SetAside(*one) for one in self.aside), corrected=bool(self.corrected),
            waiting=tuple(SetAside(*one) for one in waiting), beside=(counts,),
        )  # fmt: skip

    def wait(self, mark: str, columns: tuple[str, ...], result: float | None = None) -> None:
        one = Waiting(mark, columns, result)
        self.waiting.append(one)
        self.steps.append(
            Step(f"{mark} waits", formula="", given=(), result=Given("", one.why), source="the laboratory file")
        )

    def lacks_result(self, specimen: Specimen, why: str) -> None:
        self.steps.append(
            Step(
                f"{specimen.mark} has no result",
                formula="",
                given=(),
                result=Given("", why),
                source="the laboratory file",
            )
        )
        if specimen.note:
            self.without.append((specimen.mark, specimen.note))
        else:
            self.waiting.append(Waiting(specimen.mark, blank_cells(specimen)))

    def set_aside(self, mark: str, why: str) -> None:
        self.aside.append((mark, why))
        self.steps.append(
            Step(f"{mark} is set aside", formula="", given=(), result=Given("", why), source="asked by the rule")
        )

    def add(self, mark: str, found: Corrected) -> None:
        self.steps.extend(found.steps)
        if found.value is not None:
            self.results.append(found.value)
            self.corrected.append(mark)
        elif found.opened:
            self.opened.append(found.opened)
        else:
            self.set_aside(mark, found.aside)


def _joined(columns: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(columns[:-1]), columns[-1])))


def counted_specimens(context: Context, rule: Rule, specimens: Sequence[Specimen]) -> Counted:
    """Each specimen: its result, corrected where the rule asks for it, or why it lacks one, waits or is set aside."""
    assert rule.test is not None
    taken = Counted()
    weighs = rule.test.own_weight is not None and rule.limits[rule.test.own_weight].value is True
    for specimen in specimens:
        found = measured(specimen, context.gravity if weighs else None)
        if found.value is None:
            taken.lacks_result(specimen, found.reason)
            continue
        why_not, blank = _fitness(rule, specimen)
        if why_not:
            taken.set_aside(specimen.mark, why_not)
            continue
        if blank:
            unknown = rule.test.aspect and slenderness(specimen) is None
            taken.wait(specimen.mark, blank, None if unknown else found.value)
            continue
        if found.step:
            says = f"{specimen.mark}: {found.step.says[:1].lower()}{found.step.says[1:]}"
            taken.steps.append(replace(found.step, says=says))
        if rule.test.aspect:
            taken.add(specimen.mark, corrected(rule.tables[rule.test.aspect], specimen, found.value))
        else:
            taken.results.append(found.value)
    return taken


def _fitness(rule: Rule, specimen: Specimen) -> tuple[str, tuple[str, ...]]:
    """Why a specimen does not count under the rule, empty where nothing known speaks against it; and the columns that
    the rule asks for and that are blank."""
    test = rule.test
    assert test is not None
    blank: list[str] = []
    if test.shapes:
        if specimen.shape is None:
            blank.append("shape")
        elif specimen.shape not in _words(rule, test.shapes):
            return f"shape {specimen.shape}; {_listed(rule, test.shapes)} required", ()
    if test.dried:
        if specimen.dried is None:
            blank.append("dried")
        elif specimen.dried not in _words(rule, test.dried):
            return f"dried {specimen.dried}; {_listed(rule, test.dried)} required", ()
    if test.least_age:
        age, least = age_in_days(specimen), number_of_limit(rule, test.least_age) / _DAY
        if age is None:
            blank += [name for name in ("cast", "tested") if specimen.value(name) is None]
        elif age < least * (1 - _SAME):
            return f"tested at an age of {age} days; {least:g} days minimum", ()
    ratio = slenderness(specimen)
    if test.least_height_to_width:
        least = number_of_limit(rule, test.least_height_to_width)
        if ratio is not None and ratio < least * (1 - _SAME):
            return f"height to width {ratio:.2f}; {least:g} minimum", ()
    if (test.least_height_to_width or test.aspect) and ratio is None:
        blank.append("height" if specimen.height is None else "width")
    return "", tuple(blank)


def number_of_limit(rule: Rule, name: str) -> float:
    """The value of a limit that is a number."""
    value = rule.limits[name].value
    assert isinstance(value, float)
    return value


def _words(rule: Rule, name: str) -> frozenset[str]:
    value = rule.limits[name].value
    assert isinstance(value, frozenset)
    return value


def _listed(rule: Rule, name: str) -> str:
    return " or ".join(sorted(_words(rule, name)))
