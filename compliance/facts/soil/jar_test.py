"""The jar test: heights of settled layers into shares of sand, silt and clay, and which way the readings err.

The shares are of settled depth. They are a first guess: a laboratory grading outranks them (see `grading`).
"""

from __future__ import annotations

import math

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import (
    GrainSizes,
    Remark,
    SoilError,
    SoilShares,
    Values,
    duration,
    millimetres,
    percent,
)
from compliance.facts.soil.settling import Settling, settled_size, settling_steps, settling_time
from compliance.facts.soil.water_properties import Water, water_at
from compliance.record import record
from compliance.steps import Given, Step

_SOURCE = "share of settled depth; common practice, no source"


@record
class LayerMark:
    """Top of a layer above the floor of the jar in m, and when it was marked, in s after the shaking stopped."""

    height: float
    time: float | None = None


@record
class Jar:
    """One jar as read. `depth` is the filled depth in m, `temperature` that of the water in K, None if not taken.

    `sand` and `silt` are marked on the way, `settled` is everything once the water cleared. `coarse_sand` is the top
    of the coarse sand in m where it could be seen apart. `floating` is the thickness of a floating layer in m.
    `clear`: was the water clear at the last mark; `dispersed`: was a dispersing salt used. None: not recorded.
    """

    depth: float
    sand: LayerMark
    silt: LayerMark
    settled: LayerMark
    temperature: float | None = None
    coarse_sand: float | None = None
    floating: float | None = None
    clear: bool | None = None
    dispersed: bool | None = None


@record
class JarPractice:
    """How jars are judged: a mark later than `late_after` times its Stokes time is remarked on; `notes` go with all."""

    late_after: float
    notes: tuple[str, ...]

    @classmethod
    def from_values(cls, values: Values) -> JarPractice:
        """From the `jar` table of the settling reference. Raises ReferenceValueError."""
        table = Part(values).part("jar")
        return cls(table.number("late_after"), table.texts("reading_notes"))


@record
class JarResult:
    """Shares by settled depth with everything that must be said of them."""

    shares: SoilShares
    steps: tuple[Step, ...]
    remarks: tuple[Remark, ...]


def read_jar(jar: Jar, settling: Settling, sizes: GrainSizes, practice: JarPractice) -> JarResult:
    """Shares of the settled depth, worked lines and remarks. Raises SoilError where the heights make no sense."""
    _refuse_unless_stacked(jar)
    coarse = jar.coarse_sand
    total = jar.settled.height
    shares = SoilShares(
        clay=(total - jar.silt.height) / total,
        silt=(jar.silt.height - jar.sand.height) / total,
        sand=jar.sand.height / total,
        sizes=sizes.system,
        basis="settled depth",
        coarse_sand=None if coarse is None else coarse / total,
        fine_sand=None if coarse is None else (jar.sand.height - coarse) / total,
    )
    water = None if jar.temperature is None else water_at(settling.formulas, jar.temperature)
    timing = _timing_steps(jar, settling, sizes, water)
    remarks = (*_timing_remarks(jar, settling, sizes, practice, water), *_condition_remarks(jar))
    notes = tuple(Remark("jar-method", note) for note in practice.notes)
    return JarResult(shares, _share_steps(jar, shares) + timing, remarks + notes)


def _refuse_unless_stacked(jar: Jar) -> None:
    heights = [0.0 if jar.coarse_sand is None else jar.coarse_sand, jar.sand.height, jar.silt.height]
    heights += [jar.settled.height, jar.depth]
    if not all(math.isfinite(height) for height in heights) or heights[0] < 0 or jar.settled.height <= 0:
        raise SoilError("a layer mark of the jar is below the floor of the jar")
    if heights != sorted(heights):
        raise SoilError("the marks of the jar must rise: coarse sand, sand, silt, all that settled, depth of water")
    times = [mark.time for mark in (jar.sand, jar.silt, jar.settled) if mark.time is not None]
    if any(not time > 0 for time in times) or times != sorted(times):
        raise SoilError("the marks of the jar must be made one after the other: sand, silt, all that settled")
    if jar.floating is not None and not jar.floating >= 0:
        raise SoilError("the floating layer of the jar has a thickness below zero")


def _share_steps(jar: Jar, shares: SoilShares) -> tuple[Step, ...]:
    sand = Given("h1", jar.sand.height, "layer_height", "top of the sand")
    silt = Given("h2", jar.silt.height, "layer_height", "top of the silt")
    total = Given("h3", jar.settled.height, "layer_height", "top of all that settled")
    steps = [
        Step("Sand", "h1 / h3", (sand, total), Given("", shares.sand, "share"), _SOURCE),
        Step("Silt", "(h2 − h1) / h3", (silt, sand, total), Given("", shares.silt, "share"), _SOURCE),
        Step("Clay", "(h3 − h2) / h3", (total, silt), Given("", shares.clay, "share"), _SOURCE),
    ]
    if jar.coarse_sand is not None and shares.coarse_sand is not None and shares.fine_sand is not None:
        coarse = Given("h0", jar.coarse_sand, "layer_height", "top of the coarse sand")
        steps += [
            Step("Coarse sand", "h0 / h3", (coarse, total), Given("", shares.coarse_sand, "share"), _SOURCE),
            Step("Fine sand", "(h1 − h0) / h3", (sand, coarse, total), Given("", shares.fine_sand, "share"), _SOURCE),
        ]
    return tuple(steps)


def _timing_steps(jar: Jar, settling: Settling, sizes: GrainSizes, water: Water | None) -> tuple[Step, ...]:
    if water is None:
        return ()
    return tuple(step for size in (sizes.silt, sizes.clay) for step in settling_steps(settling, size, jar.depth, water))


def _timing_remarks(
    jar: Jar, settling: Settling, sizes: GrainSizes, practice: JarPractice, water: Water | None
) -> tuple[Remark, ...]:
    if water is None:
        return (Remark("jar-no-temperature", "No water temperature is recorded, so no reading time can be checked."),)
    found = []
    for mark, layer, finer, size in ((jar.sand, "sand", "silt", sizes.silt), (jar.silt, "silt", "clay", sizes.clay)):
        if mark.time is None:
            found.append(
                Remark(
                    "jar-no-time", f"No time is recorded for the {layer} mark, so it cannot be checked against Stokes."
                )
            )
            continue
        needed = settling_time(size, jar.depth, water, settling.grain_density, settling.gravity)
        down_to = settled_size(mark.time, jar.depth, water, settling.grain_density, settling.gravity)
        if mark.time < needed and not math.isclose(mark.time, needed, rel_tol=1e-9):
            found.append(_early(layer, finer, mark.time, needed, size, down_to))
        elif mark.time > practice.late_after * needed:
            found.append(_late(layer, finer, mark.time, needed, size, down_to))
    return tuple(found)


def _early(layer: str, finer: str, time: float, needed: float, size: float, down_to: float) -> Remark:
    return Remark(
        "jar-read-early",
        f"The {layer} mark was made after {duration(time)}; grains of {millimetres(size)} need {duration(needed)} from "
        f"the surface. Only grains down to {millimetres(down_to)} were surely down: {layer} still sinking was counted "
        f"as {finer}. The {finer} share reads too high and the {layer} share too low.",
    )


def _late(layer: str, finer: str, time: float, needed: float, size: float, down_to: float) -> Remark:
    return Remark(
        "jar-read-late",
        f"The {layer} mark was made after {duration(time)}; grains of {millimetres(size)} are down after "
        f"{duration(needed)}. By then grains down to {millimetres(down_to)} lay in the layer too: {finer} was counted "
        f"as {layer}. The {layer} share reads too high and the {finer} share too low.",
    )


def _condition_remarks(jar: Jar) -> tuple[Remark, ...]:
    found = []
    if jar.clear is None:
        found.append(Remark("jar-clear-unknown", "It is not recorded whether the water was clear at the last mark."))
    elif not jar.clear:
        unsettled = "The water was still cloudy at the last mark: clay still in it is counted nowhere."
        found.append(Remark("jar-not-clear", f"{unsettled} The clay share reads too low, sand and silt too high."))
    if jar.dispersed is not True:
        start = (
            "No dispersing salt was used"
            if jar.dispersed is False
            else "It is not recorded if a salt dispersed the clay"
        )
        found.append(
            Remark("jar-not-dispersed", f"{start}: clay in flocs settles with the silt and is counted as silt.")
        )
    if jar.floating:
        found.append(
            Remark(
                "jar-floating",
                f"A floating layer as thick as {percent(jar.floating / jar.settled.height)} of the settled depth is "
                "organic matter and is left out of the shares. Soil with organic matter is topsoil: dig deeper.",
            )
        )
    return tuple(found)
