"""The submittal for the building official, section by section."""
