"""The plan as a page: the drawing with what can be chosen on it, and the forms that change it."""
