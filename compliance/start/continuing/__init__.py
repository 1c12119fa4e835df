"""Going on in a folder that describes a building: one section after the other, every change made in its place."""
