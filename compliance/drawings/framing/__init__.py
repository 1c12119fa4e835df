"""Plans below and above the walls, and the building from its sides."""
