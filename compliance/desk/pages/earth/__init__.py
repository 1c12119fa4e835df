"""Pages of soils with their tests, trial bricks and mixes."""
