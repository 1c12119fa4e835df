"""All that loads are worked out with, as one value: seismic, wind and snow tables and the figures of the screening."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.facts.common.coefficients import Screening
from compliance.facts.common.reference_values import Part
from compliance.facts.site.seismic_category import AsceCategories, ResidentialCategories
from compliance.facts.site.seismic_site import SiteTables
from compliance.facts.site.snow import SnowTables
from compliance.facts.site.wind import WindEdition
from compliance.facts.site.wind_on_building import BuildingCoefficients
from compliance.facts.site.wind_on_walls import WallCoefficients
from compliance.record import record

Values = Mapping[str, object]

ACTION_REFERENCES = ("asce7-10-seismic", "asce7-16-seismic", "irc-seismic", "asce7-wind", "snow", "screening")
"""The reference files it is made from."""

_SEISMIC = {"7-05": "asce7-10-seismic", "7-10": "asce7-10-seismic", "7-16": "asce7-16-seismic"}
_WIND = ("7-05", "7-10", "7-16", "7-22")


@record
class Seismic:
    """One edition: site coefficients, categories, and the difference that rounding for print explains."""

    site: SiteTables
    categories: AsceCategories
    rounding: float


@record
class ActionTables:
    """`seismic` and `wind` by edition of ASCE 7 (`seismic` has none for 7-22), `residential` by edition of the code."""

    seismic: Mapping[str, Seismic]
    residential: Mapping[str, ResidentialCategories]
    wind: Mapping[str, WindEdition]
    walls: WallCoefficients
    building: BuildingCoefficients
    snow: SnowTables
    screening: Screening

    @classmethod
    def from_values(cls, files: Mapping[str, Values], system: str) -> ActionTables:
        """From the `values` of each reference file; `system` is "us" or "si". Raises ReferenceValueError."""
        wind, residential = files["asce7-wind"], files["irc-seismic"]
        return cls(
            {edition: _seismic(files[name]) for edition, name in _SEISMIC.items()},
            residential={edition: ResidentialCategories.from_values(residential, edition) for edition in residential},
            wind={edition: WindEdition.from_values(wind, f"asce{edition}", system) for edition in _WIND},
            walls=WallCoefficients.from_values(wind),
            building=BuildingCoefficients.from_values(wind),
            snow=SnowTables.from_values(files["snow"]),
            screening=Screening.from_values(files["screening"]),
        )


def _seismic(values: Values) -> Seismic:
    rounding = Part(values).part("given_values").number("rounding")
    return Seismic(SiteTables.from_values(values), AsceCategories.from_values(values), rounding)
