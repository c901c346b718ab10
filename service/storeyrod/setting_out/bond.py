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
    def lengths(self) -> tuple[Fraction, ...]:
        """Length of each unit of the repeat with its perp, in modules."""
        return tuple(_MODULES[kind] for kind in self.units)

    @property
    def modules(self) -> Fraction:
        """Length of one repeat in modules."""
        return sum(self.lengths, Fraction(0))


@dataclass(frozen=True, slots=True)
class Bond:
    """Courses that repeat upwards; course 0 of the wall takes the first.

    Round a corner the bond goes on with the other unit: ``turn`` says whether that is the next course of the bond, or the
    same course half a module on.
    """

    courses: tuple[CoursePattern, ...]
    turn: Literal["course", "half_module"] = "course"

    def started(self, *, half: bool) -> tuple[CoursePattern, ...]:
        """The courses of a face, course 0 first, begun as drawn or with the other unit."""
        if not half:
            return self.courses
        if self.turn == "course":
            return (*self.courses[1:], self.courses[0])
        return tuple(CoursePattern(course.shift + Fraction(1, 2), course.units) for course in self.courses)

    def per_module(self, kind: Kind) -> Fraction:
        """Units of a kind for each module of one course, on average over the bond."""
        shares = [course.units.count(kind) / course.modules for course in self.courses]
        return sum(shares, Fraction(0)) / len(shares)


def _bond(*courses: tuple[str, str], turn: Literal["course", "half_module"] = "course") -> Bond:
    kinds: Mapping[str, Kind] = {"S": "stretcher", "H": "header"}
    made = tuple(CoursePattern(Fraction(shift), tuple(kinds[unit] for unit in units)) for shift, units in courses)
    return Bond(made, turn)


BONDS: Final[Mapping[str, Bond]] = MappingProxyType(
    {
        "stretcher": _bond(("0", "S"), ("1/2", "S")),
        "third_lap": _bond(("0", "S"), ("1/3", "S")),
        "quarter_lap": _bond(("0", "S"), ("1/4", "S")),
        "stack": _bond(("0", "S"), turn="half_module"),
        "header": _bond(("0", "H"), ("1/4", "H")),
        "english": _bond(("0", "S"), ("1/4", "H")),
        "flemish": _bond(("0", "SH"), ("3/4", "SH")),
        "english_garden_wall": _bond(("0", "S"), ("1/2", "S"), ("0", "S"), ("1/4", "H"), turn="half_module"),
        "flemish_garden_wall": _bond(("0", "SSSH"), ("7/4", "SSSH")),
    }
)
"""By the names of the request. Garden-wall bonds have three stretcher courses to one of headers, and three stretchers to a
header in each course; headers stand over the middle of a stretcher (common practice, no source).
"""
