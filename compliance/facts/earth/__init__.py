"""The earth before there is a building: which soils can be used, what the trials say, what goes into a batch."""
