"""Wind in words: pressures as they are written on a drawing, and sides of the building."""

from collections.abc import Sequence
from typing import Final

from storeyrod.wind.site_models import SideName

_PASCALS: Final = 1000.0


def kilopascals(pressure: float) -> str:
    """A pressure in Pa as kN/m2, to the hundredth."""
    return f"{pressure / _PASCALS:.2f}"


def on_sides(sides: Sequence[SideName]) -> str:
    """The sides on which the wind blows."""
    words = " or ".join(sides)
    return f"wind on {words}" if sides[-1] in ("front", "rear") else f"wind on {words} side"
