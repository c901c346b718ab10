"""Findings on cut pieces: slivers and rips, gathered by size so that a long list stays readable."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final, Literal

from storeyrod.findings import FINDINGS, Finding, Where, finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.courses import Cut
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.wall.system import System

MOST_SIZES: Final = 10
"""Sizes reported one by one for each elevation and kind of finding; the rest are one finding together."""

_SAME_SIZE_MM: Final = 1

Code = Literal["sliver", "rip-course"]


@dataclass(slots=True)
class _Group:
    """Pieces of about one size: the smallest of them, how many, and their courses."""

    smallest: float
    cut: Cut
    count: int = 0
    courses: set[int] = field(default_factory=set)


def piece_findings(face: FaceSlips, system: System) -> list[Finding]:
    """Slivers and ripped pieces of one face."""
    shortest, lowest = ticks(system.minimum_cut_mm), ticks(system.minimum_rip_mm)
    pieces = [(course.number, cut) for course in face.courses for cut in course.cuts]
    narrow = [(cut.width, number, cut) for number, cut in pieces if cut.width < shortest - HAIRLINE]
    low = [(cut.height, number, cut) for number, cut in pieces if cut.height < lowest - HAIRLINE]
    return [
        *_findings("sliver", face, narrow, system.minimum_cut_mm),
        *_findings("rip-course", face, low, system.minimum_rip_mm),
    ]


def _findings(
    code: Code, face: FaceSlips, pieces: Iterable[tuple[float, int, Cut]], limit_mm: float
) -> Iterator[Finding]:
    groups: dict[float, _Group] = {}
    for size, number, cut in pieces:
        group = groups.setdefault(round(millimetres(size), _SAME_SIZE_MM), _Group(size, cut))
        group.count += 1
        group.courses.add(number)
        if size < group.smallest:
            group.smallest, group.cut = size, cut
    ordered = [groups[size] for size in sorted(groups)]
    for group in ordered[:MOST_SIZES]:
        yield _finding(code, face, group, limit_mm, "")
    rest = ordered[MOST_SIZES:]
    if rest:
        together = _Group(
            rest[0].smallest,
            rest[0].cut,
            sum(group.count for group in rest),
            set().union(*(one.courses for one in rest)),
        )
        yield _finding(code, face, together, limit_mm, f" of {len(rest)} other sizes")


def _finding(code: Code, face: FaceSlips, group: _Group, limit_mm: float, others: str) -> Finding:
    where: Where = {
        "pointer": face.face.pointer,
        "elevation": face.face.id,
        "x_mm": millimetres(group.cut.part.left),
        "y_mm": millimetres(group.cut.part.bottom),
    }
    pieces = "1 piece" if group.count == 1 else f"{group.count} pieces"
    span = f"course {min(group.courses)}"
    if len(group.courses) > 1:
        span = f"{len(group.courses)} courses from {min(group.courses)} to {max(group.courses)}"
    advice = f"{pieces}{others} in {span}. {FINDINGS[code].advice}"
    return finding(code, where, value=millimetres(group.smallest), limit=limit_mm, unit="mm", advice=advice)
