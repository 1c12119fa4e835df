"""Sheets for trial bricks, batches, shrinkage bars and specimens."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from compliance.checked import Checked
from compliance.documents.page.rows import Row
from compliance.documents.page.sheet import Sheet
from compliance.documents.sheets.blank_table import BlankColumn, blank_table, notes, sheet_title
from compliance.facts.earth.batch_counts import BatchCount, batch_count
from compliance.facts.earth.trial_advice import TrialAdvice, is_broken, straw_dose
from compliance.model.lab_columns import COLUMNS, LabColumn
from compliance.model.materials import SpecimenKind
from compliance.model.trials import Trial
from compliance.report.earth.answer_parts import amount
from compliance.report.earth.trial_words import advice_of, in_parts
from compliance.units import Writer

_TRIALS = (
    "Bricks of one size, one for each proportion, dried through in the shade: a week or two. Drop all of them from the "
    "same height onto the same hard floor. Write how much the largest piece kept of the whole, and how many pieces."
)
_BATCHES = (
    "A line for each batch. A bucket is filled loose and struck off level; straw is pressed in. Whoever changes a "
    "proportion makes another mix, with its own tests."
)
_BARS = (
    "Fill a lined form with moist mix as it goes into the wall, and measure when the bar is dry through: push the "
    "pieces together until the cracks close, then measure the gap at the end."
)
_CAST = (
    "Made of the mix as it goes into the wall, marked at once, dried in air in the shade. Every specimen is written "
    "down, also one that broke."
)
_KNOWN_MIXES = 8
_ROWS = 14


def trial_sheet(checked: Checked) -> Sheet:
    """Bricks not broken yet, then those to make next, then empty rows."""
    trials, advice = checked.project.trials, advice_of(checked)
    writer = Writer(checked.project.project.units)
    rows = [_made(mark, trial, writer) for mark, trial in trials.items() if not is_broken(trial)]
    rows += [["", in_parts(parts)] for parts in advice.next_parts]
    rows += _with_straw(advice, trials)
    columns = [
        BlankColumn("Brick", 0.8), BlankColumn("Parts by loose volume", 2.4), BlankColumn("Straw, parts", 1.0),
        BlankColumn("Made on", 1.2), BlankColumn("Dropped on", 1.2), BlankColumn("Drop height", 1.1),
        BlankColumn("Largest piece %", 1.0), BlankColumn("Pieces", 0.8), BlankColumn("What was seen", 2.2),
    ]  # fmt: skip
    lead = sheet_title("trials", "Trial bricks", _TRIALS)
    return blank_table(columns, rows, blanks=max(3, 12 - len(rows)), lead=lead)


def _made(mark: str, trial: Trial, writer: Writer) -> list[str]:
    straw = "none" if trial.straw == "none" else amount(trial.straw_parts) if trial.straw_parts else ""
    height = writer.write(trial.drop_height.si, "length") if trial.drop_height else ""
    return [mark, in_parts(trial.parts), straw, trial.made.isoformat() if trial.made else "", "", height]


def _with_straw(advice: TrialAdvice, trials: Mapping[str, Trial]) -> Iterator[list[str]]:
    if advice.best:
        parts = trials[advice.best[0]].parts
        total = math.fsum(parts.values())
        for dose in advice.next_straw:
            yield ["", in_parts(parts), amount(dose * total)]


def batch_sheets(checked: Checked) -> list[Sheet]:
    """The recipe of each mix, or of the best brick where none is named yet, then lines to fill in."""
    recipes = notes(*_recipes(checked))
    columns = [
        BlankColumn("Batch", 0.8), BlankColumn("Mix", 0.7), BlankColumn("Mixed on", 1.2),
        *(BlankColumn(f"Buckets of {mark}", 1.1) for mark in _materials(checked)),
        BlankColumn("Buckets of straw", 1.1), BlankColumn("Water", 0.9), BlankColumn("By", 1.1),
        BlankColumn("Went into", 1.5),
    ]  # fmt: skip
    lead = [*sheet_title("batches", "Batches of the day", _BATCHES), *recipes]
    return [blank_table(columns, (), blanks=14, lead=lead)]


def _materials(checked: Checked) -> list[str]:
    """Marks of the soils that go into what is mixed; three columns without a name where nothing is known."""
    used = [mark for parts, _ in _to_mix(checked).values() for mark in parts]
    return list(dict.fromkeys(used))[:5] or ["________", "________", "________"]


def _to_mix(checked: Checked) -> dict[str, tuple[Mapping[str, float], float | None]]:
    """Parts and dose of straw of each mix by what it is called; of the best brick where no mix is named."""
    project = checked.project
    if project.mixes:
        some = list(project.mixes.items())[:_KNOWN_MIXES]
        return {f"{mark} {mix.name}": (mix.parts, straw_dose(mix)) for mark, mix in some}
    best = advice_of(checked).best[:1]
    return {f"brick {mark}": (project.trials[mark].parts, straw_dose(project.trials[mark])) for mark in best}


def _recipes(checked: Checked) -> Iterator[str]:
    practice = checked.needed_references.practice
    for name, (parts, dose) in _to_mix(checked).items():
        count = batch_count(parts, dose if dose is not None else practice.ordering.straw_dose, practice.most_buckets)
        usual = "" if dose is not None else " (usual dose: none is recorded)"
        yield f"One batch of {name}: {_counted(count)}{usual}."


def _counted(count: BatchCount) -> str:
    parts = ", ".join(f"{amount(buckets)} of {mark}" for mark, buckets in count.buckets.items())
    return f"in buckets, {parts}, straw {amount(count.straw)}"


def bar_sheet(checked: Checked) -> Sheet:
    """Bars are measured where they were cast, so all columns are the builder's."""
    lead = sheet_title("bars", "Shrinkage bars", _BARS)
    columns = [one for one in COLUMNS["shrinkage"].values() if one.name != "shrinkage"]
    return _specimens(checked, "shrinkage", columns, lead)


def cast_sheets(checked: Checked) -> Iterator[Sheet]:
    """Compression specimens, and beams where a set of them is described."""
    kinds: list[tuple[SpecimenKind, str]] = [("compression", "Compression specimens cast")]
    if any(test.kind == "rupture" for test in checked.project.test_sets.values()):
        kinds.append(("rupture", "Beams cast"))
    for kind, name in kinds:
        columns = [one for one in COLUMNS[kind].values() if one.supplier == "builder"]
        yield _specimens(checked, kind, columns, sheet_title(f"cast-{kind}", name, _CAST))


def _specimens(checked: Checked, kind: SpecimenKind, columns: list[LabColumn], lead: list[Row]) -> Sheet:
    """A row for each specimen without a result that is known, three for a set of which none is, then empty ones."""
    writer = Writer(checked.project.project.units)
    rows = []
    for mark, test in checked.project.test_sets.items():
        found = checked.specimens.get(mark, ())
        if test.kind != kind or (found and all(one.tested for one in found)):
            continue
        for name in [one.mark for one in found if not one.tested] or ["", "", ""]:
            known = {"set": mark, "mix": test.mix, "specimen": name}
            rows.append([known.get(one.name, "") for one in columns])
    titles = [BlankColumn(_heading(one, writer)) for one in columns]
    return blank_table(titles, rows, blanks=max(3, _ROWS - len(rows)), lead=lead)


def _heading(column: LabColumn, writer: Writer) -> str:
    unit = writer.unit_symbol(column.what) if column.kind is not None else ""
    return f"{column.title}, {unit}" if unit else column.title
