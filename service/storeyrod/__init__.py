"""Storeyrod: one wall carried from survey to order, each figure with its working."""

__version__ = "0.1.0"

DATA_EDITION = "2026-11.4"
"""Edition of the reference data: month, and its number in it; whatever changes a number raises it (see openapi/CHANGELOG.md)."""
