"""The datum: candidate levels for the foot of course 0, and what brings the levels that it misses onto a course.

A level off its course has three cures: another datum, a ripped course, or other beds. Ribs fix the pitch, and then no bed
helps.
"""

from collections.abc import Iterator, Sequence
from typing import Final, Literal

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import ROUNDING_GUARD, millimetres, ticks
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.datum_candidates import Candidate, Why, candidates_of
from storeyrod.setting_out.gauge_table import gauge_courses
from storeyrod.setting_out.level_models import DatumCandidate, DatumResult, LevelOffset
from storeyrod.setting_out.models import Datum, DatumFixed, DatumMatchBed
from storeyrod.setting_out.wall_levels import ON_COURSE, WallLevel, levels_of
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall

MOST_CANDIDATES: Final = 10
"""So many candidates are listed, beside those in use, as given, asked for, and least worst."""

_ALWAYS: Final = ("as_given", "fixed", "match_bed", "least_worst")
_FEWEST: Final = 3
_MOST_ROWS: Final = 20_000
"""Levels in all candidates together: walls of many openings list fewer candidates."""

Kind = Literal["as_given", "fixed", "match_bed", "best"]


@formula(
    symbol="b",
    expression="(y - y_0 - s)/n - h",
    unit="mm",
    inputs={"y": "mm", "y_0": "mm", "s": "mm", "n": "count", "h": "mm"},
    clause=GEOMETRY,
)
def bed_past_joints(*, y: float, y_0: float, s: float, n: float, h: float) -> float:
    """That bed where level joints wider than a bed have moved the course by s."""
    return (y - y_0 - s) / n - h


@formula(
    symbol="b",
    expression="(y - y_0)/n - h",
    unit="mm",
    inputs={"y": "mm", "y_0": "mm", "n": "count", "h": "mm"},
    clause=GEOMETRY,
)
def bed_for_level(*, y: float, y_0: float, n: float, h: float) -> float:
    """Equal bed with which course n, counted from a datum at y_0, stands at a level y."""
    return (y - y_0) / n - h


def chosen_level(wall: Wall, datum: Datum | None) -> float:
    """Level of the foot of course 0 that a request asks for, in mm; the wall stands on the datum of its system."""
    match datum:
        case None:
            return wall.system.course_datum_mm
        case DatumFixed():
            return datum.level_mm
        case DatumMatchBed():
            return millimetres(wall.gauge.datum + _matching_shift(wall.gauge, datum))
    if datum.kind == "as_given":
        return wall.system.course_datum_mm
    return millimetres(_candidates(wall, levels_of(wall.faces), wall.gauge, datum)[0].level)


def datum_result(
    wall: Wall, datum: Datum | None, trace: Trace = SILENT, *, given_mm: float | None = None
) -> tuple[DatumResult, list[Finding]]:
    """The datum in use with its rivals and the gauge table, and what beds cannot bring onto a course.

    The wall stands on the datum in use; ``given_mm`` is the system's own where another one was chosen.
    """
    given = wall.gauge if given_mm is None else wall.gauge_on(ticks(given_mm))
    levels = levels_of(wall.faces)
    candidates = _candidates(wall, levels, given, datum)
    in_use = next(one for one in candidates if _same(one, wall.gauge))
    rows = [
        _row(rank, one, levels, wall, trace if one is in_use else SILENT, datum)
        for rank, one in _listed(candidates, in_use, len(levels))
    ]
    result: DatumResult = {
        "level_mm": wall.system.course_datum_mm,
        "kind": "as_given" if datum is None else datum.kind,
        "course_pitch_mm": course_pitch_of(wall.system, trace),
        "pitch_fixed_by_ribs": wall.system.board.rib_pitch_mm is not None,
        "candidates": rows,
        "gauge": gauge_courses(wall, levels),
    }
    used = next(row for row in rows if row["rank"] == 1 + candidates.index(in_use))
    return result, list(_bed_findings(levels, used["levels"], wall.system))


def _candidates(wall: Wall, levels: Sequence[WallLevel], given: Gauge, datum: Datum | None) -> list[Candidate]:
    return candidates_of(levels, given, _asked_shift(given, datum), wall.system.minimum_rip_mm)


def _asked_shift(given: Gauge, datum: Datum | None) -> tuple[float, Why] | None:
    """How far the datum asked for lies above the given one."""
    match datum:
        case DatumFixed():
            return ticks(datum.level_mm) - given.datum, "fixed"
        case DatumMatchBed():
            return _matching_shift(given, datum), "match_bed"
    return None


def _matching_shift(given: Gauge, datum: DatumMatchBed) -> float:
    """The least shift that brings a course line onto the level to be matched."""
    return given.off_course(ticks(datum.match_bed_at_mm))


def _same(candidate: Candidate, gauge: Gauge) -> bool:
    return abs(gauge.even.off_course(candidate.level)) <= 1.0


def _listed(candidates: Sequence[Candidate], in_use: Candidate, levels: int) -> Iterator[tuple[int, Candidate]]:
    """Candidates with their ranks: the best ones, and those that every answer names."""
    most = max(_FEWEST, min(MOST_CANDIDATES, _MOST_ROWS // max(1, levels)))
    for rank, one in enumerate(candidates, start=1):
        if rank <= most or one is in_use or one.why in _ALWAYS:
            yield rank, one


def _row(
    rank: int, candidate: Candidate, levels: Sequence[WallLevel], wall: Wall, trace: Trace, datum: Datum | None
) -> DatumCandidate:
    gauge = wall.gauge_on(candidate.level)
    rows = [_level_row(level, gauge, wall.system, trace, datum) for level in levels]
    offsets = [abs(row["offset_mm"]) for row in rows]
    rips = [row["rip_mm"] for row in rows if "rip_mm" in row]
    made: DatumCandidate = {
        "rank": rank,
        "level_mm": millimetres(candidate.level),
        "why": candidate.why,
        "worst_offset_mm": max(offsets, default=0.0),
        "mean_offset_mm": sum(offsets) / len(offsets) if offsets else 0.0,
        "off_course_count": sum(abs(gauge.off_course(level.y)) > ON_COURSE for level in levels),
        "ripped_count": len(rips),
        "levels": rows,
    }
    if rips:
        made["least_rip_mm"] = min(rips)
    return made


def _level_row(level: WallLevel, gauge: Gauge, system: System, trace: Trace, datum: Datum | None) -> LevelOffset:
    offset, course = gauge.off_course(level.y), gauge.nearest(level.y)
    row: LevelOffset = {
        "elevation": level.elevation,
        "what": level.what,
        "y_mm": millimetres(level.y),
        "course": course,
        "offset_mm": millimetres(offset),
    }
    if level.opening is not None:
        row["opening"] = level.opening
    rip = level.ripped(gauge)
    if rip is not None:
        row["rip_mm"] = millimetres(rip)
    if abs(offset) > ON_COURSE and course != 0 and system.board.rib_pitch_mm is None:
        bed = _bed(row, level, gauge, system, trace, datum)
        if bed > 0.0:
            row["bed_mm"] = bed
            row["bed_within"] = (
                system.joint.bed_min_mm - ROUNDING_GUARD <= bed <= system.joint.bed_max_mm + ROUNDING_GUARD
            )
    return row


def _bed(row: LevelOffset, level: WallLevel, gauge: Gauge, system: System, trace: Trace, datum: Datum | None) -> float:
    y, origin = trace.given(row["y_mm"], level.pointer), _origin(gauge, system, trace, datum)
    count = trace.lookup("n", float(row["course"]), "count", GEOMETRY)
    height = trace.given(system.slip.height_mm, "/system/slip/height_mm")
    shift = gauge.shift(row["course"])
    if not shift:
        return trace.call(bed_for_level, y=y, y_0=origin, n=count, h=height)
    shift_mm = trace.lookup("s", millimetres(shift), "mm", GEOMETRY)
    return trace.call(bed_past_joints, y=y, y_0=origin, s=shift_mm, n=count, h=height)


def _origin(gauge: Gauge, system: System, trace: Trace, datum: Datum | None) -> float:
    """The datum of a candidate in mm; in the working it comes from the request, or from the choice made here."""
    level = millimetres(gauge.datum)
    if isinstance(datum, DatumFixed):
        return trace.given(level, "/datum/level_mm")
    if datum is None or datum.kind == "as_given":
        return trace.given(level, "/system/course_datum_mm")
    return trace.lookup("y_0", level, "mm", GEOMETRY)


def _bed_findings(levels: Sequence[WallLevel], rows: Sequence[LevelOffset], system: System) -> Iterator[Finding]:
    """Levels off course that no bed inside its limits brings onto a course line."""
    for level, row in zip(levels, rows, strict=True):
        if row.get("bed_within", True):
            continue
        where: Where = {"pointer": level.pointer, "elevation": level.elevation, "y_mm": row["y_mm"]}
        if level.opening is not None:
            where["opening"] = level.opening
        low, high = system.joint.bed_min_mm, system.joint.bed_max_mm
        limit = low if row["bed_mm"] < low else high
        yield finding("bed-out-of-range", where, value=row["bed_mm"], limit=limit, unit="mm")
