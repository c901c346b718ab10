"""Storeyrod: one wall carried from survey to order, each figure with its working."""

__version__ = "0.1.0"

DATA_EDITION = "2026-11"
"""Edition of the reference data; a fix that changes a number raises it (see openapi/CHANGELOG.md)."""
