"""Findings as files and as text: terminal, checklist, JSON, CSV, XLSX, HTML."""
