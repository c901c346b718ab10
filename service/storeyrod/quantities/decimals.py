"""Exact arithmetic with numbers as they are written: 0.1 is a tenth, not the float next to it."""

from fractions import Fraction


def written(value: float) -> Fraction:
    """The shortest decimal that reads back as this number."""
    return Fraction(repr(float(value)))
