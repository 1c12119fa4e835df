"""Walls in plan and elevation: lines, supports, openings, piers, sections, finishes."""
