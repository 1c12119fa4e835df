"""Blank records to print for a day in the field, one topic a page."""
