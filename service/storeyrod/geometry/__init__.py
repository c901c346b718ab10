"""Lengths on a line and areas in a plane, without knowledge of walls."""
