"""Fasteners: where every one goes in every piece of board, and when it is driven."""
