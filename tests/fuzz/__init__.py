"""Fuzz targets: any bytes in, documented problems out. `python -m tests.fuzz NAME --seconds 600`."""
