"""Statics of walls under lateral load: piers, rocking, bending, torsion of the plan."""
