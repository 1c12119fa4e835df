"""Attached photos, texts and PDFs, looked over and bound in."""
