"""What the user describes: a building, its site, its materials, its tests."""
