"""The load path: roofs, walls, point loads, thrust and uplift, down to the soil."""
