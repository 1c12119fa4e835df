"""Sentences of findings and remedies, made here alone: reasons, lacks, questions, changes."""
