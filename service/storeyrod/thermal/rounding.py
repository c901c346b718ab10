"""Figures as they are stated: rounded half up on the decimal that is printed, not on the binary behind it."""

from decimal import ROUND_HALF_UP, Decimal


def rounded(value: float, places: int) -> float:
    """A value to decimal places: 2.675 to two is 2.68, though its binary lies under that."""
    return float(Decimal(repr(float(value))).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP))


def significant(value: float, figures: int) -> float:
    """A value that is not 0 to significant figures: 0.305 to two is 0.31."""
    decimal = Decimal(repr(float(value)))
    return float(decimal.quantize(Decimal(1).scaleb(decimal.adjusted() - figures + 1), ROUND_HALF_UP))
