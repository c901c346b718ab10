"""Drawings: sheets as display lists in millimetres, and the writers that turn them into files."""
