"""Walls that meet in the plan: joints, walls that run on as one, and what holds them sideways."""
