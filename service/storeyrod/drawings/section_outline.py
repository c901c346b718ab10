"""The outline of a section: seams of materials, surfaces, edges that no heat passes, the axis."""

from collections.abc import Iterator
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Line, Point, Strokes, Style, View
from storeyrod.drawings.line_styles import MEDIUM, THICK, THIN
from storeyrod.drawings.material_regions import Regions
from storeyrod.drawings.section_subject import SectionSubject

SURFACE: Final = Style(THICK)
NO_HEAT: Final = Style(MEDIUM, dashes=(4.0, 0.8, 0.3, 0.8))
AXIS: Final = Style(MEDIUM, dashes=(8.0, 1.0, 1.0, 1.0))
SEAM: Final = Style(THIN)

_AXIS_BEYOND: Final = 7.0
"""An axis runs on beyond the section, mm of paper."""


def outline_groups(subject: SectionSubject, scale: float) -> Iterator[Group]:
    """Seams of materials and the outline by what it meets, in mm of the section."""
    yield Group("material-seams", SEAM, (Strokes(tuple(subject.regions.seams())),))
    shut = tuple(Line(one.start, one.end) for one in subject.stretches if one.environment is None)
    yield Group("no-heat", NO_HEAT, shut)
    for index, letter in enumerate(subject.letters):
        lines = tuple(Line(one.start, one.end) for one in subject.stretches if one.environment == index)
        yield Group("surface", SURFACE, lines, id=f"surface-{letter}")
    for axis in axis_of(subject, scale):
        yield Group("axis-of-turning", AXIS, (Line(*axis),))


def axis_of(subject: SectionSubject, scale: float) -> Iterator[tuple[Point, Point]]:
    """Ends of the axis about which a section turns, in mm of it."""
    if subject.turned:
        _, low, _, high = subject.regions.box
        beyond = _AXIS_BEYOND * scale
        yield (0.0, low - beyond), (0.0, high + beyond)


def is_off_material(box: Box, regions: Regions, view: View) -> bool:
    """Whether a box of the paper lies over no material."""
    left, bottom, right, top = ((value - view.origin[index % 2]) * view.scale for index, value in enumerate(box))
    return regions.is_empty((left, bottom, right, top))
