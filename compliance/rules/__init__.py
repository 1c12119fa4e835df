"""Rule sets: their form, limits, tables, amendments."""
