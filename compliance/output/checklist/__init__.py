"""The checklist as a workbook, CSV, JSON or a page for the phone."""
