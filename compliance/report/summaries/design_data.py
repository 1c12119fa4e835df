"""The design data that construction documents show, item by item: what the project gives, or that it is not given.

Items and their clauses: IBC 2021, 1603.1 (read in copies of the adopted code), and IRC 2021, Table R301.2, as
jurisdictions fill it in (read). V_asd = V × √0.6 is IBC 2021, 1609.3.1 (recalled).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from compliance.checked import Checked
from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Fact
from compliance.record import record
from compliance.report.value_words import counted
from compliance.steps import Given, Step
from compliance.units import KINDS, Writer

NOT_GIVEN = "not given: ask the office"
NOT_FOUND = "not computed: a value it needs is not given"
_PRESSURE = "pressure"


@record
class DesignItem:
    """One line of the sheet. `known` is False where the project does not give it."""

    label: str
    value: str
    known: bool = True


@record
class DesignGroup:
    """Items under one clause."""

    title: str
    clause: str
    items: tuple[DesignItem, ...]


def design_data(checked: Checked) -> tuple[DesignGroup, ...]:
    """Every item of the sheet, none left out because it is not known. Walls that stand alone, without a roof or a load
    on any, carry neither gravity loads of a building nor snow."""
    sheet = _Sheet(checked)
    of_building = (
        DesignGroup("Gravity loads", "IBC 1603.1.1, 1603.1.2", tuple(sheet.gravity())),
        DesignGroup("Snow", "IBC 1603.1.3; IRC Table R301.2", tuple(sheet.snow())),
    )
    return (
        *(() if stands_alone(checked) else of_building),
        DesignGroup("Wind", "IBC 1603.1.4; IRC Table R301.2", tuple(sheet.wind())),
        DesignGroup("Earthquake", "IBC 1603.1.5; IRC Table R301.2", tuple(sheet.earthquake())),
        DesignGroup("Soil, flood, rain", "IBC 1603.1.6, 1603.1.7, 1603.1.9", tuple(sheet.ground())),
        DesignGroup("Climate", "IRC Table R301.2", tuple(sheet.climate())),
    )


def stands_alone(checked: Checked) -> bool:
    """Whether the walls carry nothing: no roof is described, and every wall is said to bear no load."""
    walls = checked.facts.of("wall").values()
    return not checked.project.roofs and all(one.fact("wall.bears_load").value is False for one in walls)


class _Sheet:
    """What the items are taken from."""

    def __init__(self, checked: Checked) -> None:
        self._checked, self._site = checked, checked.project.site
        self._writer = Writer(checked.project.project.units)
        self._shear: Fact | None = None

    def gravity(self) -> Iterator[DesignItem]:
        yield _absent("Floor live load")
        yield self._of_roofs("Roof live load", "roof.live", _PRESSURE)
        yield self._of_roofs("Roof dead load", "roof.dead", _PRESSURE)

    def snow(self) -> Iterator[DesignItem]:
        yield self._fact("Ground snow load p_g", "site.ground_snow")
        yield self._of_roofs("Roof snow load, as stated", "roof.snow", _PRESSURE)
        yield self._of_roofs("Roof snow load from p_g", "roof.derived_snow", _PRESSURE)
        for label, name in (
            ("Drift surcharge p_d", "roof.drift_snow"),
            ("Sliding snow surcharge", "roof.sliding_snow"),
        ):
            known = self._number("site.ground_snow") is not None  # none without snow would read as worked out
            yield self._of_roofs(label, name, _PRESSURE) if known else _absent(label)
        yield self._of_roofs("Thermal condition, for C_t", lambda roof: roof.warmth)
        yield _word("Exposure of the roof, for C_e", self._site.snow_sheltering)

    def wind(self) -> Iterator[DesignItem]:
        speed = self._number("site.wind_speed")
        yield self._fact("Ultimate design wind speed V", "site.wind_speed")
        asd = self._writer.write(speed * math.sqrt(0.6), "speed") if speed is not None else None
        yield _word("Nominal design wind speed V_asd", asd)
        yield _word("Risk category", self._site.risk_category)
        yield self._fact("Exposure", "site.wind_exposure")
        yield self._fact("Enclosure, for internal pressure", "site.enclosure")
        yield self._worst_of_walls("Component pressure on walls (ASD)", "wall.wind_pressure")
        yield self._of_roofs("Roof uplift between walls (ASD)", "roof.suction", _PRESSURE)
        factor = self._site.topographic_factor
        yield _word("Topographic factor K_zt", f"{factor:g}" if factor is not None else None)
        yield _absent("Special wind region, debris zone")

    def earthquake(self) -> Iterator[DesignItem]:
        yield _word("Risk category", self._site.risk_category)
        yield self._fact("Importance factor I_e", "site.importance")
        yield _word("S_S", f"{self._site.ss:g}" if self._site.ss is not None else None)
        yield self._fact("S_1", "site.s1")
        yield _word("Site class", self._site.site_class)
        yield self._fact("S_DS", "site.sds")
        yield self._fact("S_D1", "site.sd1")
        yield self._fact("Seismic design category", "site.seismic_category")
        system = "not named; earthen walls as described"
        yield DesignItem("Force-resisting system", system)
        yield self._of_shear("R, taken by the screening", "R", "ratio")
        yield self._of_shear("Seismic coefficient C_s", "C_s", "ratio")
        yield self._of_shear("Base shear V, strength level", "V", "force")
        yield DesignItem("Analysis procedure", "equivalent lateral force, screening")

    def ground(self) -> Iterator[DesignItem]:
        yield self._fact("Allowable soil bearing", "site.soil_bearing")
        yield _word("Source of the bearing value", self._site.soil_bearing_source)
        yield self._fact("Soil group", "site.soil_group")
        yield self._fact("Expansive soil", "site.expansive_soil")
        yield self._fact("Slope of the ground", "site.ground_slope")
        yield self._fact("Flood hazard area", "site.flood_zone")
        yield _absent("Flood elevation, lowest floor, datum")
        yield _word("Rain intensity", self._site.rain_intensity)
        plan = self._checked.project.site_plan
        lines = f"{counted(len(plan.lines), 'property line')}, {plan.source}" if plan else None
        label = "Site plan (IBC 107.2.6, IRC R106.2)"
        yield DesignItem(label, lines or "not given: to be drawn", known=lines is not None)

    def climate(self) -> Iterator[DesignItem]:
        yield self._fact("Frost depth", "site.frost_depth")
        yield self._fact("Weathering", "site.weathering")
        yield self._fact("Exposure to wind-driven rain", "site.rain_exposure")
        for label in ("Termite", "Ice barrier underlayment", "Air-freezing index", "Mean annual temperature"):
            yield _absent(label)

    def _number(self, name: str) -> float | None:
        value = self._value(name).value
        return value if isinstance(value, float) else None

    def _value(self, name: str) -> Fact:
        about = FACTS[name].about
        return self._checked.facts.of(about)[about].fact(name)

    def _fact(self, label: str, name: str) -> DesignItem:
        return _word(label, _written(self._value(name), FACTS[name].kind, self._writer))

    def _of_roofs(self, label: str, what: str | Callable[..., str | None], kind: str = "") -> DesignItem:
        """Of each roof, named where there are several."""
        roofs = self._checked.facts.of("roof")
        found: dict[str, str | None] = {}
        for mark, subject in roofs.items():
            if callable(what):
                found[mark] = what(self._checked.project.roofs[mark])
            else:
                found[mark] = _written(subject.fact(what), kind, self._writer)
        if not found:
            return DesignItem(label, "no roof described", known=False)
        if set(found.values()) == {None}:
            return _absent(label)
        if len(set(found.values())) == 1:
            return _word(label, next(iter(found.values())))
        return DesignItem(label, "; ".join(f"{mark}: {text or NOT_GIVEN}" for mark, text in found.items()))

    def _worst_of_walls(self, label: str, name: str) -> DesignItem:
        walls = self._checked.facts.of("wall")
        values = {mark: value for mark, one in walls.items() if isinstance(value := one.fact(name).value, float)}
        if not values:
            return DesignItem(label, NOT_FOUND, known=False)
        mark = max(values, key=lambda one: values[one])
        if not math.isfinite(values[mark]):
            return DesignItem(label, f"beyond the tables used, wall {mark}: for an engineer", known=False)
        return DesignItem(label, f"{self._writer.write(values[mark], 'pressure')}, wall {mark}")

    def _of_shear(self, label: str, symbol: str, kind: str) -> DesignItem:
        """A number from the working of the base shear."""
        if self._shear is None:
            self._shear = self._value("project.base_shear")
        if self._shear.value is None:
            return DesignItem(label, NOT_FOUND, known=False)
        for step in reversed(self._shear.steps):
            for given in _numbers(step):
                if given.symbol == symbol and isinstance(given.value, float):
                    return _word(label, _rounded(given.value, kind, self._writer))
        return DesignItem(label, NOT_FOUND, known=False)


def _numbers(step: Step) -> Iterator[Given]:
    yield step.result
    yield from step.given


def _written(fact: Fact, kind: str, writer: Writer) -> str | None:
    value = fact.value
    if value is None:
        return None
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return _rounded(value, kind, writer) if kind in KINDS else f"{value:g}"
    return ", ".join(sorted(value)) if isinstance(value, frozenset) else str(value)


def _rounded(value: float, kind: str, writer: Writer) -> str:
    if not math.isfinite(value):
        return "beyond the tables used: for an engineer"
    return f"{value:.3g}" if kind == "ratio" else writer.write(value, kind)


def _word(label: str, text: str | None) -> DesignItem:
    return DesignItem(label, text) if text else _absent(label)


def _absent(label: str) -> DesignItem:
    return DesignItem(label, NOT_GIVEN, known=False)
