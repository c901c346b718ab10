"""Storeys: whether they are whole courses high, and whether the layout of one fits the next."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from storeyrod.findings import Finding, finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.bond import BONDS
from storeyrod.setting_out.bond_models import Storey
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.wall import Wall

WHOLE_MM: Final = 0.1
"""House limit: what rounding two levels from inches to tenths of a millimetre may leave of a whole number of courses."""


@formula(
    symbol="n_storey",
    expression="(y_upper - y_lower)/p",
    unit="count",
    inputs={"y_upper": "mm", "y_lower": "mm", "p": "mm"},
    clause=GEOMETRY,
)
def storey_courses(*, y_upper: float, y_lower: float, p: float) -> float:
    """Height between two levels in courses of pitch p."""
    return (y_upper - y_lower) / p


@formula(
    symbol="n_storey",
    expression="(y_upper - y_lower - s)/p",
    unit="count",
    inputs={"y_upper": "mm", "y_lower": "mm", "s": "mm", "p": "mm"},
    clause=GEOMETRY,
)
def courses_over_joint(*, y_upper: float, y_lower: float, s: float, p: float) -> float:
    """Height between two levels in courses of pitch p, where level joints from the lower one up are wider than a bed by s."""
    return (y_upper - y_lower - s) / p


def storey_rows(face: Face, wall: Wall, trace: Trace = SILENT) -> tuple[list[Storey], list[Finding]]:
    """Storeys of a face from the lowest, and the lowest one whose whole courses shift the bond of the next."""
    levels = sorted({ticks(level) for level in face.elevation.storey_levels_mm})
    repeat = len(BONDS[wall.system.bond].courses)
    rows = [_storey(face, between, wall, repeat, trace) for between in pairwise(levels)]
    return rows, _shifting(face, rows, repeat)


def _storey(face: Face, levels: tuple[float, float], wall: Wall, repeat: int, trace: Trace) -> Storey:
    pointer = f"{face.members_pointer}/storey_levels_mm"
    lower, upper = (trace.given(millimetres(level), pointer) for level in levels)
    pitch = course_pitch_of(wall.system, trace)
    shift = _shift_below(levels[1], wall.gauge) - _shift_below(levels[0], wall.gauge)
    if shift:
        shift_mm = trace.lookup("s", millimetres(shift), "mm", GEOMETRY)
        courses = trace.call(courses_over_joint, y_upper=upper, y_lower=lower, s=shift_mm, p=pitch)
    else:
        courses = trace.call(storey_courses, y_upper=upper, y_lower=lower, p=pitch)
    whole = abs(courses - round(courses)) * pitch <= WHOLE_MM
    return {
        "from_mm": float(lower),
        "to_mm": float(upper),
        "courses": courses,
        "whole_courses": whole,
        "repeats": whole and round(courses) % repeat == 0,
    }


def _shift_below(level: float, gauge: Gauge) -> float:
    """Shift of the course under a level, below a joint that lies there."""
    return gauge.shift(gauge.nearest(level) - 1)


def _shifting(face: Face, rows: Sequence[Storey], repeat: int) -> list[Finding]:
    shifting = [row for row in rows if row["whole_courses"] and not row["repeats"]]
    if not shifting:
        return []
    first = shifting[0]
    return [
        finding(
            "storey-shifts-bond",
            {
                "pointer": f"{face.members_pointer}/storey_levels_mm",
                "elevation": face.id,
                "y_mm": first["from_mm"],
            },
            value=float(round(first["courses"])),
            limit=float(repeat),
            unit="count",
        )
    ]
