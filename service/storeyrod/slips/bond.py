"""Bonds as data: the units of each course and how far the course is shifted.

A stretcher with its perp is one module long; two headers with theirs are too, so every position is a fraction of a module.
Laps of third and quarter alternate from course to course (common practice, no source).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Final, Literal

Kind = Literal["stretcher", "header"]

_MODULES: Final[Mapping[Kind, Fraction]] = MappingProxyType({"stretcher": Fraction(1), "header": Fraction(1, 2)})


@dataclass(frozen=True, slots=True)
class CoursePattern:
    """Units that repeat along a course, and the shift of the course to the left, in modules."""

    shift: Fraction
    units: tuple[Kind, ...]

    @property
    def modules(self) -> Fraction:
        """Length of one repeat in modules."""
        return sum((_MODULES[kind] for kind in self.units), Fraction(0))


@dataclass(frozen=True, slots=True)
class Bond:
    """Courses that repeat upwards; course 0 of the wall takes the first."""

    courses: tuple[CoursePattern, ...]

    def index(self, course: int) -> int:
        """Which pattern a course of the wall takes."""
        return course % len(self.courses)

    def per_module(self, kind: Kind) -> Fraction:
        """Units of a kind for each module of one course, on average over the bond."""
        shares = [course.units.count(kind) / course.modules for course in self.courses]
        return sum(shares, Fraction(0)) / len(shares)


def _bond(*courses: tuple[str, str]) -> Bond:
    kinds: Mapping[str, Kind] = {"S": "stretcher", "H": "header"}
    return Bond(tuple(CoursePattern(Fraction(shift), tuple(kinds[unit] for unit in units)) for shift, units in courses))


BONDS: Final[Mapping[str, Bond]] = MappingProxyType(
    {
        "stretcher": _bond(("0", "S"), ("1/2", "S")),
        "third_lap": _bond(("0", "S"), ("1/3", "S")),
        "quarter_lap": _bond(("0", "S"), ("1/4", "S")),
        "stack": _bond(("0", "S")),
        "header": _bond(("0", "H"), ("1/4", "H")),
        "english": _bond(("0", "S"), ("1/4", "H")),
        "flemish": _bond(("0", "SH"), ("3/4", "SH")),
    }
)
"""By the names of the request."""
