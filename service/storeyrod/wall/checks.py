"""Checks of a wall against its own course grid, the ground and the system."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.intervals import difference, total, union
from storeyrod.geometry.ticks import ROUNDING_GUARD, millimetres
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.ground import END_MM, Stretch, ground_of, stretches_within
from storeyrod.wall.system import System

OFF_COURSE_MM = 0.5
"""House limit: a head, sill or top this far from a course line is reported."""

_PITCH_TOLERANCE_MM = 0.05
"""House limit: what rounding an inch size to tenths of a millimetre may leave between a pitch and its course."""


def refuse_mismatched_system(system: System) -> None:
    """Refuse a system whose board, ribs and courses cannot belong together."""
    pitch, board = course_pitch_of(system), system.board
    if system.joint.perp_min_mm > system.joint.perp_max_mm:
        limits = f"perp_min_mm {system.joint.perp_min_mm:g} is over perp_max_mm {system.joint.perp_max_mm:g}"
        detail = f"{limits}; give limits around the nominal perp."
        raise refuse("perp-limits-contradictory", "/system/joint/perp_min_mm", detail)
    if system.joint.bed_min_mm > system.joint.bed_max_mm:
        limits = f"bed_min_mm {system.joint.bed_min_mm:g} is over bed_max_mm {system.joint.bed_max_mm:g}"
        raise refuse("bed-limits-contradictory", "/system/joint/bed_min_mm", f"{limits}; give limits around the bed.")
    if board.cover_height_mm < pitch - _PITCH_TOLERANCE_MM:
        detail = f"cover_height_mm {board.cover_height_mm:g} is under one course of {pitch:g} mm; check both."
        raise refuse("board-smaller-than-course", "/system/board/cover_height_mm", detail)
    if board.rib_pitch_mm is None:
        return
    if abs(board.rib_pitch_mm - pitch) > _PITCH_TOLERANCE_MM:
        differs = f"rib_pitch_mm {board.rib_pitch_mm:g} differs from the course of {pitch:g} mm (slip and bed)"
        detail = f"{differs}; choose the bed that makes them equal, or leave out rib_pitch_mm for a plain board."
        raise refuse("pitch-mismatch", "/system/board/rib_pitch_mm", detail)
    if _off_grid(board.cover_height_mm, board.rib_pitch_mm) > _PITCH_TOLERANCE_MM:
        sizes = f"cover_height_mm {board.cover_height_mm:g} is no multiple of rib_pitch_mm {board.rib_pitch_mm:g}"
        detail = f"{sizes}; give the cover height, not the overall height with the tongue."
        raise refuse("board-not-whole-courses", "/system/board/cover_height_mm", detail)


def _off_grid(value: float, step: float) -> float:
    """Distance from the nearest multiple of a step."""
    return abs(value - round(value / step) * step)


def course_findings(face: Face, gauge: Gauge) -> list[Finding]:
    """Heads, sills and level tops that miss the course lines."""
    found = [item for opening in face.openings for item in _opening_findings(face, opening, gauge)]
    return found + list(_top_findings(face, gauge))


def _opening_findings(face: Face, opening: FaceOpening, gauge: Gauge) -> Iterator[Finding]:
    where: Where = {"pointer": opening.pointer, "elevation": face.id, "opening": opening.id}
    for level in sorted({head.height for head in opening.heads}):
        yield from _off_course("head-off-course", where, level, gauge)
    for level in sorted({sill.height for sill in opening.sills}):
        if level > face.foot:
            yield from _off_course("sill-off-course", where, level, gauge)


def _top_findings(face: Face, gauge: Gauge) -> Iterator[Finding]:
    for a, b in pairwise((*face.outline, face.outline[0])):
        if a[1] == b[1] and b[0] < a[0]:
            where: Where = {"pointer": face.pointer, "elevation": face.id, "x_mm": millimetres(b[0])}
            yield from _off_course("top-off-course", where, a[1], gauge)


def _off_course(code: str, where: Where, level: float, gauge: Gauge) -> Iterator[Finding]:
    offset = millimetres(abs(gauge.off_course(level)))
    if offset > OFF_COURSE_MM:
        yield finding(code, {**where, "y_mm": millimetres(level)}, value=offset, limit=OFF_COURSE_MM, unit="mm")


def ground_findings(face: Face) -> list[Finding]:
    """Where the foot of the wall stands below the ground, or too close to it, once for the worst place; and ground that is missing."""
    base = face.elevation.base
    if base is None:
        return []
    ground = ground_of(face)
    where: Where = {"pointer": f"{face.members_pointer}/base", "elevation": face.id}
    return [*_clearance_findings(face, ground, base.clearance_mm, where), *_missing_ground(face, ground, where)]


def _clearance_findings(face: Face, ground: Sequence[Stretch], asked: float, where: Where) -> Iterator[Finding]:
    closest = least_clearance(face, ground)
    if closest is None:
        return
    value = millimetres(closest[0])
    where = {**where, "x_mm": millimetres(closest[1])}
    if value < -ROUNDING_GUARD:
        yield finding("base-below-ground", where, value=value, limit=0.0, unit="mm")
    elif value < asked - ROUNDING_GUARD:
        yield finding("clearance-short", where, value=value, limit=asked, unit="mm")


def least_clearance(face: Face, ground: Sequence[Stretch]) -> tuple[float, float] | None:
    """Least height of the foot above ground with its place, in ticks; none where no ground is known.

    Between corners both lines are straight, so the least stands at a corner of either.
    """
    clearances = [
        (height - level, x)
        for left, right, height in face.base_runs()
        for stretch in stretches_within(ground, left, right)
        for x, level in stretch
    ]
    return min(clearances, default=None)


def _missing_ground(face: Face, ground: Sequence[Stretch], where: Where) -> Iterator[Finding]:
    known = union((start[0], end[0]) for start, end in ground)
    missing = difference(union((left, right) for left, right, _ in face.base_runs()), known)
    if missing:
        value, place = millimetres(total(missing)), millimetres(missing[0][0])
        yield finding("ground-incomplete", {**where, "x_mm": place}, value=value, limit=END_MM, unit="mm")
