"""Plots and diagrams: chain of evidence, jars, sets of specimens, texture triangle."""
