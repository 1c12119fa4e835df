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
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step

_SOURCE = Source("share of settled depth; common practice, no source")


@record
class LayerMark:
    """Top of a layer above the floor of the jar in m, and when it was marked, in s after the shaking stopped."""

    height: float
    time: float | None = None


@record
class Jar:
    """One jar as read. `depth` is the filled depth in m, `temperature` that of the water in K; None if not taken.

    `sand` and `silt` are marked on the way, `settled` is everything once the water cleared. `coarse_sand` is the top
    of the coarse sand in m where it could be seen apart. `floating` is the thickness of a floating layer in m.
    `clear`: was the water clear at the last mark; `dispersed`: was a dispersing salt used. None: not recorded.
    """

    depth: float | None
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
    coarse, sand, silt, total = jar.coarse_sand, jar.sand.height, jar.silt.height, jar.settled.height
    lines = {"sand": bottom_layer.titled("Sand")(sand, total), "silt": middle_layer(sand, silt, total),
             "clay": top_layer(silt, total)}  # fmt: skip
    if coarse is not None:
        bottom = bottom_layer.titled("Coarse sand").naming(height="h0")
        top = Given("h0", coarse, "layer_height", "top of the coarse sand")
        lines |= {"coarse_sand": bottom(top, total), "fine_sand": fine_sand_layer(coarse, sand, total)}
    values = {name: float(one) for name, one in lines.items()}
    shares = SoilShares(
        clay=values["clay"], silt=values["silt"], sand=values["sand"], sizes=sizes.system, basis="settled depth",
        coarse_sand=values.get("coarse_sand"), fine_sand=values.get("fine_sand"),
    )  # fmt: skip
    water = None if jar.temperature is None else water_at(settling.formulas, jar.temperature)
    timing = _timing_steps(jar, settling, sizes, water)
    remarks = (
        *_timing_remarks(jar, settling=settling, sizes=sizes, practice=practice, water=water),
        *_condition_remarks(jar),
    )
    notes = tuple(Remark("jar-method", note) for note in practice.notes)
    return JarResult(shares, tuple(one.step() for one in lines.values()) + timing, remarks + notes)


def _refuse_unless_stacked(jar: Jar) -> None:
    heights = [0.0 if jar.coarse_sand is None else jar.coarse_sand, jar.sand.height, jar.silt.height]
    heights += [jar.settled.height, *([] if jar.depth is None else [jar.depth])]
    if not all(math.isfinite(height) for height in heights) or heights[0] < 0 or jar.settled.height <= 0:
        raise SoilError("a layer mark of the jar is below the floor of the jar")
    if heights != sorted(heights):
        raise SoilError("the marks of the jar must rise: coarse sand, sand, silt, all that settled, depth of water")
    times = [mark.time for mark in (jar.sand, jar.silt, jar.settled) if mark.time is not None]
    if any(not time > 0 for time in times) or times != sorted(times):
        raise SoilError("the marks of the jar must be made one after the other: sand, silt, all that settled")
    if jar.floating is not None and not jar.floating >= 0:
        raise SoilError("the floating layer of the jar has a thickness below zero")


_SAND = Symbol("h1", "layer_height", "top of the sand")
_SILT = Symbol("h2", "layer_height", "top of the silt")
_ALL = Symbol("h3", "layer_height", "top of all that settled")

bottom_layer = equation("Sand", "height / total", Symbol("", "share"), _SOURCE, height=_SAND, total=_ALL)

middle_layer = equation(
    "Silt", "(silt - sand) / total", Symbol("", "share"), _SOURCE, sand=_SAND, silt=_SILT, total=_ALL
)  # fmt: skip

top_layer = equation("Clay", "(total - silt) / total", Symbol("", "share"), _SOURCE, silt=_SILT, total=_ALL)

fine_sand_layer = equation(
    "Fine sand", "(sand - coarse) / total", Symbol("", "share"), _SOURCE,
    coarse=Symbol("h0", "layer_height", "top of the coarse sand"), sand=_SAND, total=_ALL,
)  # fmt: skip

EQUATIONS = (bottom_layer, middle_layer, top_layer, fine_sand_layer)


def _timing_steps(jar: Jar, settling: Settling, sizes: GrainSizes, water: Water | None) -> tuple[Step, ...]:
    if water is None or jar.depth is None:
        return ()
    depth = jar.depth
    return tuple(step for size in (sizes.silt, sizes.clay) for step in settling_steps(settling, size, depth, water))


def _timing_remarks(
    jar: Jar, settling: Settling, sizes: GrainSizes, practice: JarPractice, water: Water | None
) -> tuple[Remark, ...]:
    if water is None:
        return (Remark("jar-no-temperature", "No water temperature is recorded, so no reading time can be checked."),)
    if jar.depth is None:
        return (Remark("jar-no-depth", "No depth of water is recorded, so no reading time can be checked."),)
    found = []
    for mark, layer, finer, size in ((jar.sand, "sand", "silt", sizes.silt), (jar.silt, "silt", "clay", sizes.clay)):
        if mark.time is None:
            found.append(
                Remark(
                    "jar-no-time", f"No time is recorded for the {layer} mark, so it cannot be checked against Stokes."
                )
            )
            continue
        needed = settling_time(
            size, depth=jar.depth, water=water, grain_density=settling.grain_density, gravity=settling.gravity
        )
        down_to = settled_size(
            mark.time, depth=jar.depth, water=water, grain_density=settling.grain_density, gravity=settling.gravity
        )
        if mark.time < needed and not math.isclose(mark.time, needed, rel_tol=1e-9):
            found.append(_early(layer, finer=finer, time=mark.time, needed=needed, size=size, down_to=down_to))
        elif mark.time > practice.late_after * needed:
            found.append(_late(layer, finer=finer, time=mark.time, needed=needed, size=size, down_to=down_to))
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
