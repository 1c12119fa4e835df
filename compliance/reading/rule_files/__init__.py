"""Rule sets, their cases and the list of questions, from their files."""
