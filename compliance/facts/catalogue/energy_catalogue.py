"""Facts of energy codes: climate, and what walls store, hold back and let through."""

from __future__ import annotations

from compliance.facts.common.fact_spec import WORD, FactSpec

ENERGY_FACTS = (
    FactSpec("site.climate_zone", WORD, "climate zone", "of the energy code, with its letter for moisture; C is marine", choices=("0A", "0B", "1A", "1B", "2A", "2B", "3A", "3B", "3C", "4A", "4B", "4C", "5A", "5B", "5C", "6A", "6B", "7", "8"), stated=True),
    FactSpec("site.energy_zone", WORD, "climate zone by which mass walls are insulated", "zones that the tables set in one row go together, marine 4 with 5", choices=("0-1", "2", "3", "4", "5", "6", "7-8"), compute="energy.mass_walls.energy_zone"),
    FactSpec("wall.heat_capacity", "heat_capacity", "heat capacity of the wall", "for each unit of area, at its least thickness", "0.5 Btu/(ft2*F)", "100 Btu/(ft2*F)", compute="energy.mass_walls.heat_capacity"),
    FactSpec("wall.insulation_resistance", "thermal_resistance", "thermal resistance of the insulation", "insulation alone, all layers; zero where there is none", "0 ft2*h*F/Btu", "60 ft2*h*F/Btu", compute="energy.mass_walls.insulation_resistance"),
    FactSpec("wall.insulation_side", WORD, "side of the insulation", "inside where more than half of its resistance is inside of the earth", choices=("outside", "inside"), compute="energy.mass_walls.insulation_side"),
    FactSpec("wall.u_factor", "thermal_transmittance", "U-factor of the wall", "insulation and earth; finishes and films of air left out", "0.01 Btu/(h*ft2*F)", "1 Btu/(h*ft2*F)", compute="energy.mass_walls.u_factor"),
)  # fmt: skip
