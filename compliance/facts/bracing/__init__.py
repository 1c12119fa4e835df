"""Lateral force along the walls, and what each solid length takes of it."""
