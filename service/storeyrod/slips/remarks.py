"""Findings on cut pieces: slivers and rips, gathered by size so that a long list stays readable."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final, Literal

from storeyrod.findings import FINDINGS, Finding, Where, finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.setting_out.bond import BONDS
from storeyrod.setting_out.course_grid import HAIRLINE, module_lengths, shortest_piece
from storeyrod.slips.courses import Cut
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.wall.system import System

MOST_SIZES: Final = 10
"""Sizes reported one by one for each elevation and kind of finding; the rest are one finding together."""

_SAME_SIZE_MM: Final = 1

Code = Literal["sliver", "rip-course"]


@dataclass(slots=True)
class _Group:
    """Pieces of about one size: the smallest of them with the lowest course it lies in, how many, and their courses by place."""

    smallest: float
    cut: Cut
    course: int
    count: int = 0
    courses: dict[int, range] = field(default_factory=dict)

    @property
    def courses_count(self) -> int:
        """Courses that hold any of the pieces."""
        return sum(len(numbers) for numbers in self.courses.values())

    @property
    def span(self) -> tuple[int, int]:
        """Lowest and highest of these courses."""
        return min(numbers[0] for numbers in self.courses.values()), max(
            numbers[-1] for numbers in self.courses.values()
        )


def piece_findings(face: FaceSlips, system: System) -> list[Finding]:
    """Slivers and ripped pieces of one face; a queen closer is no sliver."""
    module, widest = module_lengths(system), ticks(system.joint.perp_max_mm)
    shortest = shortest_piece(BONDS[system.bond], module, ticks(system.minimum_cut_mm), widest)
    lowest = ticks(system.minimum_rip_mm)
    narrow, low = [], []
    for place, equal in enumerate(face.equal_courses):
        for cut in equal.laid.cuts:
            left, bottom, right, top, _, _ = cut.part
            if right - left < shortest - HAIRLINE:
                narrow.append((right - left, place, cut))
            if top - bottom < lowest - HAIRLINE:
                low.append((top - bottom, place, cut))
    return [
        *_findings("sliver", face, narrow, millimetres(shortest)),
        *_findings("rip-course", face, low, system.minimum_rip_mm),
    ]


def _findings(
    code: Code, face: FaceSlips, pieces: Iterable[tuple[float, int, Cut]], limit_mm: float
) -> Iterator[Finding]:
    groups: dict[float, _Group] = {}
    for size, place, cut in pieces:
        numbers = face.equal_courses[place].numbers
        key = round(millimetres(size), _SAME_SIZE_MM)
        group = groups.get(key)
        if group is None:
            group = groups[key] = _Group(size, cut, numbers[0])
        group.count += len(numbers)
        group.courses[place] = numbers
        if _order(size, numbers[0], cut) < _order(group.smallest, group.course, group.cut):
            group.smallest, group.cut, group.course = size, cut, numbers[0]
    ordered = [groups[size] for size in sorted(groups)]
    for group in ordered[:MOST_SIZES]:
        yield _finding(code, face, group, limit_mm, "")
    rest = ordered[MOST_SIZES:]
    if rest:
        together = _Group(
            rest[0].smallest,
            rest[0].cut,
            rest[0].course,
            sum(group.count for group in rest),
            {place: numbers for group in rest for place, numbers in group.courses.items()},
        )
        yield _finding(code, face, together, limit_mm, f" of {len(rest)} other sizes")


def _order(size: float, course: int, cut: Cut) -> tuple[float, int, float]:
    """The smallest, lowest, leftmost piece comes first; less than a tick tells no sizes apart."""
    return round(size), course, cut.part.left


def _finding(code: Code, face: FaceSlips, group: _Group, limit_mm: float, others: str) -> Finding:
    where: Where = {
        "pointer": face.face.pointer,
        "elevation": face.face.id,
        "x_mm": millimetres(group.cut.part.left),
        "y_mm": millimetres(face.gauge.bottom(group.course) + group.cut.part.bottom),
    }
    pieces = "1 piece" if group.count == 1 else f"{group.count} pieces"
    low, high = group.span
    span = f"course {low}" if low == high else f"{group.courses_count} courses from {low} to {high}"
    advice = f"{pieces}{others} in {span}. {FINDINGS[code].advice}"
    return finding(code, where, value=millimetres(group.smallest), limit=limit_mm, unit="mm", advice=advice)
