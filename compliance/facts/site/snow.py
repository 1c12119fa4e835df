"""Snow on a roof: p_f = 0.7 Ce Ct Is pg, less for a steep roof, with the least load of a low slope and rain on snow.

Loads are pressures [Pa] on the horizontal projection. A roof load given by the jurisdiction stands above the derived
one. Drifts, sliding and unbalanced snow stand elsewhere. Coefficients: reference file snow, ASCE 7 chapter 7.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.common.reference_values import Part, at_most, need_not_negative
from compliance.findings import Standing, lowest
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Numeral, Symbol, not_negative
from compliance.steps import Given, Source, Step

NOT_COVERED = (
    "Balanced snow alone: what drifts behind a parapet comes on top and is not worked out; drifts at higher walls, "
    "snow that slides from a higher roof and unbalanced snow are checks of their own"
)
RUN_NOT_GIVEN = "Rain on snow is added, for the run from eave to ridge is not given"


@record
class SlopeCurve:
    """Cs of roofs up to a thermal factor: 1 up to the first angle [rad], 0 from the second on."""

    thermal_at_most: float
    other: tuple[float, float]
    slippery: tuple[float, float]


@record
class SnowTables:
    """Coefficients of chapter 7; pressures in Pa, lengths in m, angles in rad."""

    flat_times: float
    exposure: Mapping[str, Mapping[str, float]]
    thermal: Mapping[str, float]
    importance: Mapping[str, float]
    curves: tuple[SlopeCurve, ...]
    least_ground: float
    least_below: float
    surcharge: float
    surcharge_ground: float
    surcharge_run: float
    sources: Mapping[str, Source]
    standing: Standing

    @classmethod
    def from_values(cls, values: Mapping[str, object]) -> SnowTables:
        """From the `values` of the reference file snow. Raises ReferenceValueError."""
        part = Part(values)
        least, rain = part.part("low_slope_least"), part.part("rain_on_snow")
        about = {
            "flat": part.part("flat"),
            "exposure": part.part("exposure_factor"),
            "thermal": part.part("thermal_factor"),
            "importance": part.part("importance_factor"),
            "slope": part.part("slope_factor_about"),
            "least": least,
            "rain": rain,
        }
        return cls(
            flat_times=about["flat"].number("times"),
            exposure={name: _factors(about["exposure"].part(name)) for name in ("B", "C", "D")},
            thermal=_factors(about["thermal"]),
            importance=_factors(about["importance"]),
            curves=tuple(_curve(item) for item in part.parts("slope_factor")),
            least_ground=least.measure("ground_at_most", "pressure"),
            least_below=least.measure("below", "angle"),
            surcharge=rain.measure("add", "pressure"),
            surcharge_ground=rain.measure("ground_at_most", "pressure"),
            surcharge_run=rain.measure("run_per_degree", "length"),
            sources={name: item.source() for name, item in about.items()},
            standing=lowest([item.standing() for item in about.values()]) or Standing.OPEN,
        )


def _factors(part: Part) -> dict[str, float]:
    return {name: part.number(name) for name in part if name not in ("source", "standing")}


def _curve(part: Part) -> SlopeCurve:
    return SlopeCurve(part.number("thermal_at_most"), _ends(part.part("other")), _ends(part.part("slippery")))


def _ends(part: Part) -> tuple[float, float]:
    full, none = part.measure("full", "angle"), part.measure("none", "angle")
    if not 0.0 <= full < none:
        part.refuse("none", "must be steeper than full")
    return full, none


@record
class SnowRoof:
    """What the snow on a roof depends on. `run` is the horizontal run from eave to ridge [m], None where unknown;
    `slope` in rad; the words are those of the reference file."""

    slope: float
    run: float | None
    terrain: str
    sheltering: str
    warmth: str
    risk_category: str
    slippery: bool = False


@record
class RoofSnow:
    """The balanced snow load [Pa] on the horizontal projection; None with what is missing. No standing where the load
    was given and rests on no coefficient. `flat` is what it is before the slope takes off."""

    pressure: float | None
    standing: Standing | None
    steps: tuple[Step, ...] = ()
    remarks: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    flat: Solved | None = None


flat_roof_snow = equation(
    "Flat-roof snow load", "times * exposure * thermal * importance * ground", Symbol("pf", "pressure"), "",
    times=Numeral(sign="not below zero"), exposure=not_negative("Ce"), thermal=not_negative("Ct"),
    importance=not_negative("Is"), ground=not_negative("pg", "pressure", "ground snow load"),
)  # fmt: skip
"""ASCE 7-10 equation 7.3-1."""

slope_share = equation(
    "Slope factor", "max(0, min(1, (none - slope) / (none - full)))", Symbol("Cs"), "",
    slope=not_negative("slope", "angle", "slope of the roof"),
    full=Symbol("full", "angle", "slope up to which all the snow stays"),
    none=Symbol("none", "angle", "slope from which none stays"),
)  # fmt: skip

roof_load = equation(
    "Roof snow load", "max(share * flat + rain, least)", Symbol("p", "pressure"), "",
    share=Symbol("Cs", "ratio", "slope factor"), flat=Symbol("pf", "pressure", "flat-roof snow load"),
    rain=Symbol("rain", "pressure", "rain on snow"), least=Symbol("pm", "pressure", "least load of a low slope"),
)  # fmt: skip

EQUATIONS = (flat_roof_snow, slope_share, roof_load)


def slope_factor(slope: float, thermal: float, slippery: bool, tables: SnowTables) -> Solved:
    """Cs of a roof (ASCE 7-10 Figure 7-2). Raises ValueError for a thermal factor beyond the curves."""
    curve = _curve_for(thermal, tables)
    full, none = curve.slippery if slippery else curve.other
    return slope_share.sourced(tables.sources["slope"])(slope, full, none)


def _curve_for(thermal: float, tables: SnowTables) -> SlopeCurve:
    for curve in tables.curves:
        if at_most(thermal, curve.thermal_at_most):
            return curve
    raise ValueError(f"no slope factors for a thermal factor of {thermal!r}")


def rain_on_snow(ground: float, slope: float, run: float | None, tables: SnowTables) -> float:
    """Surcharge [Pa] for rain on snow (ASCE 7-10 section 7.10). Without a run it is added at any slope."""
    need_not_negative(ground=ground, slope=slope, run=run or 0.0)
    if ground == 0.0 or not at_most(ground, tables.surcharge_ground):
        return 0.0
    flat_enough = run is None or math.degrees(slope) < run / tables.surcharge_run
    return tables.surcharge if flat_enough else 0.0


def least_low_slope_snow(ground: float, slope: float, importance: float, tables: SnowTables) -> float:
    """Least load [Pa] of a low slope (ASCE 7-10 section 7.3.4); zero from its steepest slope on."""
    need_not_negative(ground=ground, slope=slope, importance=importance)
    return importance * min(ground, tables.least_ground) if slope < tables.least_below else 0.0


def roof_snow(given: float | None, ground: float | None, roof: SnowRoof | None, tables: SnowTables) -> RoofSnow:
    """The balanced snow load: as given for the roof, or from the ground snow load [Pa].

    Raises ValueError for a word the reference file does not hold, or a value below zero.
    """
    if given is not None:
        need_not_negative(given=given)
        load = Given("p", given, "pressure")
        step = Step("Roof snow load", formula="", given=(), result=load, source="as given by the jurisdiction")
        return RoofSnow(given, None, (step,))
    missing = tuple(name for name, value in (("ground snow load", ground), ("roof", roof)) if value is None)
    if ground is None or roof is None:
        return RoofSnow(None, tables.standing, missing=missing)
    return _from_ground(ground, roof, tables)


def _from_ground(ground: float, roof: SnowRoof, tables: SnowTables) -> RoofSnow:
    thermal = _word("warmth", roof.warmth, tables.thermal)
    exposure = _word("sheltering", roof.sheltering, _row("terrain", roof.terrain, tables.exposure))
    importance = _word("risk category", roof.risk_category, tables.importance)
    flat = flat_roof_snow.sourced(tables.sources["flat"])(
        tables.flat_times,
        Given("Ce", exposure, "ratio", f"terrain {roof.terrain}, {roof.sheltering}"),
        Given("Ct", thermal, "ratio", roof.warmth),
        Given("Is", importance, "ratio", f"risk category {roof.risk_category}"),
        ground,
    )
    share = slope_factor(roof.slope, thermal, roof.slippery, tables)
    rain = rain_on_snow(ground, roof.slope, roof.run, tables)
    least = least_low_slope_snow(ground, roof.slope, importance, tables)
    load = roof_load.sourced(Source.joined(tables.sources["least"], tables.sources["rain"]))(share, flat, rain, least)
    remarks = (NOT_COVERED, RUN_NOT_GIVEN) if rain and roof.run is None else (NOT_COVERED,)
    return RoofSnow(float(load), tables.standing, (flat.step(), share.step(), load.step()), remarks, flat=flat)


def _row(what: str, name: str, rows: Mapping[str, Mapping[str, float]]) -> Mapping[str, float]:
    if name not in rows:
        raise ValueError(f"{what} must be one of {', '.join(rows)}, not {name!r}")
    return rows[name]


def _word(what: str, name: str, factors: Mapping[str, float]) -> float:
    if name not in factors:
        raise ValueError(f"{what} must be one of {', '.join(factors)}, not {name!r}")
    return factors[name]
