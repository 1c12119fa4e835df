"""Changes of the plan as edits of values: walls drawn, corners moved, parts taken away."""
