"""The results of a set that count, for every paper that prints its statistics, and what is named beside them."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.checked import Checked
from compliance.facts.specimens.sample import Summary, summary
from compliance.facts.specimens.specimen_results import measured
from compliance.record import record


@record
class CountingResults:
    """`values` by mark of the specimen, in SI. Specimens with a result that do not count under some adopted rule are
    `aside`, each with the reasons; `remarks` name what is doubtful or stands apart."""

    values: Mapping[str, float]
    aside: Mapping[str, tuple[str, ...]]
    remarks: tuple[str, ...]

    @property
    def summary(self) -> Summary | None:
        """None where no result counts."""
        return summary(list(self.values.values()))

    @property
    def beside(self) -> str:
        """Which results are left out of the statistics, and what is doubtful; empty where there is nothing to say."""
        named = [f"not counted: {', '.join(self.aside)}"] if self.aside else []
        return "; ".join([*named, *self.remarks])


def counting_results(checked: Checked, mark: str) -> CountingResults:
    """The results of a set that every adopted test rule counts; all of them where none sets any aside."""
    aside: dict[str, dict[str, None]] = {}
    for finding in checked.findings:
        if finding.kind == "test" and finding.about == "set" and finding.subject == mark:
            for one in (*finding.aside, *finding.waiting):
                aside.setdefault(one.mark, {})[f"under {finding.clause}: {one.why}"] = None
    results = {one.mark: measured(one).value for one in checked.specimens.get(mark, ())}
    known = {name: value for name, value in results.items() if value is not None}
    remarks = tuple(
        f"in doubt: {name}" if name else "the set is in doubt"
        for name in dict.fromkeys(doubt.specimen for doubt in checked.evidence.doubts.get(mark, ()) if doubt.grave)
    )
    record = checked.evidence.sets.get(mark)
    apart = {name: test for name, test in record.suspects if test.beyond} if record else {}
    return CountingResults(
        {name: value for name, value in known.items() if name not in aside},
        {name: tuple(reasons) for name, reasons in aside.items() if name in known},
        (*remarks, *(f"{name} stands apart" for name in apart)),
    )
