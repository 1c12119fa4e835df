"""What commands share: checking a folder, progress, shell completion, watching."""
