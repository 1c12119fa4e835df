"""The strength of a specimen corrected for its height to width, by a table of the rule."""

from __future__ import annotations

from compliance.facts.specimens.specimen_results import corrected_strength, height_to_width, slenderness
from compliance.judging.reasons import Entry
from compliance.model.specimens import Specimen
from compliance.record import record
from compliance.rules.tables import Table
from compliance.steps import Given, Step


@record
class Corrected:
    """`value` in Pa; None with `aside`, why the specimen cannot count, or with `opened`, which factor is not known."""

    value: float | None = None
    steps: tuple[Step, ...] = ()
    aside: str = ""
    opened: Entry | None = None


def corrected(table: Table, specimen: Specimen, strength: float) -> Corrected:
    """`strength` in Pa times the factor that `table` gives for height over the lesser side of the loaded face."""
    ratio = slenderness(specimen)
    if ratio is None:
        return Corrected(aside="height to width unknown, where the rule corrects for it")
    looked = table.look_up(ratio)
    if looked.open:
        where = table.read_in or table.clause or table.name
        return Corrected(opened=Entry(specimen.mark, looked.how, where))
    if looked.value is None:
        return Corrected(aside=f"height to width {ratio:.2f} is outside the table of factors")
    height, width = specimen.height, min(side for side in (specimen.width, specimen.depth) if side is not None)
    assert height is not None
    factor, aspect = Given("k", looked.value, "ratio", "factor"), Given("h/b", ratio, "ratio")
    says = f"{specimen.mark}: factor for its height to width ({looked.how})"
    result = corrected_strength.titled(f"{specimen.mark}: corrected strength")(strength, looked.value)
    return Corrected(
        float(result),
        (
            height_to_width.titled(f"{specimen.mark}: height to width").step(height, width),
            Step(says, formula="", given=(aspect,), result=factor, source=table.known_from),
            result.step(),
        ),
    )
