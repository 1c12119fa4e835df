"""Drawings from the model alone: plain geometry that ends in a short list of things to ink. No document library."""
