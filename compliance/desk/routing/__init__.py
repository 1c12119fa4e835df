"""The routes of the desk, a module for each area of its pages; each has a function that gives its routes."""
