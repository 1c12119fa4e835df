"""The floor plan."""
