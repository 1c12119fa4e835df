"""The earth before there is a building, in words: soils, trials, what to cast, what comes next."""
