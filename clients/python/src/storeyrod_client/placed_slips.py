"""Slip layouts written out: the service codes equal courses and runs of whole slips in one row, this gives each slip its place."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from storeyrod_client.models import ElevationSlips, SlipCut, SlipLayoutResult, SlipRun

Corner = tuple[float, float]
"""x and y in mm: to the right as seen from outside, and up."""


@dataclass(frozen=True, slots=True)
class PlacedSlip:
    """One slip on the face of an elevation, by its bounding box in mm.

    ``course`` is absent for a soldier, ``opening`` for all others. ``rings`` are outline and holes; a whole slip or a plain cut
    has one ring of four corners.
    """

    elevation: str
    kind: str
    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    whole: bool
    rings: tuple[tuple[Corner, ...], ...]
    course: int | None = None
    opening: str | None = None


def placed_slips(result: SlipLayoutResult) -> Iterator[PlacedSlip]:
    """Every slip in the courses and soldier courses of a layout, elevation by elevation, from its lowest course.

    Voussoirs and returns have rows of their own. Raises ``ValueError`` for a layout that was asked for with detail summary.
    """
    for elevation in result.elevations:
        yield from placed_on(elevation, result.course_pitch_mm)


def placed_on(elevation: ElevationSlips, course_pitch_mm: float) -> Iterator[PlacedSlip]:
    """Every slip in the courses and soldier courses of one elevation."""
    if elevation.courses is None:
        raise ValueError("The layout has no pieces; ask for it with options.detail set to pieces.")
    name = elevation.elevation
    for row in elevation.courses:
        for step in range(row.count):
            number = row.course + step * row.every
            foot = row.y_mm + step * row.every * course_pitch_mm
            yield from _row(name, foot, row.height_mm, row.runs, row.cuts, course=number)
    for over in elevation.soldier_courses or ():
        yield from _row(name, over.y_mm, over.height_mm, over.runs, over.cuts, opening=over.opening)


def _row(
    elevation: str,
    foot: float,
    height: float,
    runs: Sequence[SlipRun],
    cuts: Sequence[SlipCut],
    course: int | None = None,
    opening: str | None = None,
) -> Iterator[PlacedSlip]:
    for run in runs:
        for index in range(run.count):
            x = run.x_mm + index * run.pitch_mm
            box = _box(x, foot, run.width_mm, height)
            yield PlacedSlip(elevation, run.kind, x, foot, run.width_mm, height, True, box, course, opening)
    for cut in cuts:
        y = foot + cut.above_foot_mm
        rings = tuple(tuple((point.x_mm, foot + point.above_foot_mm) for point in ring) for ring in cut.rings or ())
        outline = rings or _box(cut.x_mm, y, cut.width_mm, cut.height_mm)
        yield PlacedSlip(elevation, cut.kind, cut.x_mm, y, cut.width_mm, cut.height_mm, False, outline, course, opening)


def _box(x: float, y: float, width: float, height: float) -> tuple[tuple[Corner, ...], ...]:
    return (((x, y), (x + width, y), (x + width, y + height), (x, y + height)),)
