"""What every sheet of a wall has: the place of the wall on the paper, frame, heading, legend and title block."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Point, Sheet, Text, View, box_polygon
from storeyrod.drawings.ground import ground_line
from storeyrod.drawings.legend import Entry, legend
from storeyrod.drawings.lettering import shortened
from storeyrod.drawings.line_styles import FRAME, LETTERING, LETTERS_LARGE, LETTERS_SMALL
from storeyrod.drawings.paper import Paper
from storeyrod.drawings.title_block import FOR_INFORMATION, Particulars, title_block
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face

_GROUND_SHARE: Final = 0.25
"""Ground is drawn down to this share of the wall's height below its foot."""

_HEADING_DOWN: Final = 8.0
_LINES_DOWN: Final = 12.0
LINE: Final = 3.2
"""Distance of lines under the heading, mm."""

_INSET: Final = 5.0


@dataclass(frozen=True, slots=True)
class Extent:
    """Box of the wall in mm, what stands beside it and ground included, and the ground line within it."""

    box: Box
    ground: tuple[Point, ...]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height."""
        left, bottom, right, top = self.box
        return right - left, top - bottom


def extent_of(face: Face, boxes: Iterable[Box] = ()) -> Extent:
    """Extent of a face, and of what reaches beyond it: boards at a raked corner stand out and above. ``boxes`` in ticks."""
    lefts, feet, rights, tops = zip((face.left, face.foot, face.right, face.top), *boxes, strict=True)
    left, foot, right, top = (millimetres(end) for end in (min(lefts), min(feet), max(rights), max(tops)))
    base = face.elevation.base
    if base is None:
        return Extent((left, foot, right, top), ())
    low = foot - (top - foot) * _GROUND_SHARE
    points = [(point.x_mm, point.y_mm) for point in base.ground]
    line = ground_line(points, left, right, low, top)
    return Extent((left, min(foot, *(y for _, y in line)), right, top), line)


def origin_on(place: Box, box: Box, scale: float) -> Point:
    """Where the wall's own origin lies on the paper, so that the wall stands in the middle of its place."""
    left, bottom, right, top = box
    x = (place[0] + place[2] - (left + right) / scale) / 2.0
    y = (place[1] + place[3] - (bottom + top) / scale) / 2.0
    return x, y


@dataclass(frozen=True, slots=True)
class Explained:
    """What a sheet says beside its views: what it shows, lines under its heading, legend and notes."""

    shows: str
    entries: Sequence[Entry]
    notes: Sequence[str] = ()
    lines: Sequence[str] = ()
    of: str = "wall"
    """What the scale bar measures."""
    together: bool = False
    """Whether notes begin a column of their own, as a table must."""


def sheet_of_wall(paper: Paper, wall: View, said: Particulars, told: Explained, id_prefix: str) -> Sheet:
    """The sheet: view of the wall, and all around it."""
    return sheet_of_views(paper, (wall,), said, told, id_prefix)


def sheet_of_views(paper: Paper, views: Sequence[View], said: Particulars, told: Explained, id_prefix: str) -> Sheet:
    """The sheet: its views, and all around them."""
    frame = View((0.0, 0.0), 1.0, _paper_groups(paper, said, told))
    title = f"{said.project}: {said.subject}" if said.project else said.subject
    return Sheet(paper.width, paper.height, title, _description(said, told.shows), (*views, frame), id_prefix)


def _description(said: Particulars, shows: str) -> str:
    return (
        f"{said.subject} at {said.scale_words}, with {shows}. {said.planes} {FOR_INFORMATION} "
        f"Fingerprint of the {said.fingerprint_of}: {said.fingerprint}. "
        f"Engine {said.engine_version}, data edition {said.data_edition}."
    )


def _paper_groups(paper: Paper, said: Particulars, told: Explained) -> tuple[Group, ...]:
    left, _, right, top = paper.frame
    x, room = left + _INSET, right - left - 2 * _INSET
    heading = Text((x, top - _HEADING_DOWN), shortened(said.subject, LETTERS_LARGE, room), LETTERS_LARGE, bold=True)
    below = tuple(
        Text((x, top - _LINES_DOWN - index * LINE), shortened(line, LETTERS_SMALL, room), LETTERS_SMALL)
        for index, line in enumerate(told.lines)
    )
    return (
        Group("frame", FRAME, (box_polygon(paper.frame), box_polygon(paper.strip))),
        Group("heading", LETTERING, (heading, *below)),
        *legend(paper, said.scale, told.entries, told.notes, told.of, together=told.together),
        *title_block(paper, said),
    )
