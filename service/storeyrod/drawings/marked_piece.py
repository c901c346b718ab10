"""One piece of board as it is marked on a sheet: sawn edges, label, which way is up, and sizes beside edges."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.cutting.stock import Edges
from storeyrod.drawings.cut_edges import SawFigures, Segment, saw_figures, sawn_edges, stroke
from storeyrod.drawings.display_list import Box, Point, Polygon, Text
from storeyrod.drawings.lettering import box_around
from storeyrod.drawings.piece_labels import Lettered, Lines, PieceLabels
from storeyrod.drawings.up_arrow import REACH, arrow_place


@dataclass(frozen=True, slots=True)
class Ways:
    """What a label may say: everything, in one way or another, or else a part of it; tried in that order."""

    whole: tuple[Lines, ...]
    parts: tuple[Lines, ...]


@dataclass(frozen=True, slots=True)
class MarkedPiece:
    """A piece in mm with its marks: strokes along sawn edges, label, place of its arrow, and sizes beside its edges. So many of the
    ways to label it say everything: ``complete``.
    """

    polygon: Polygon
    strokes: tuple[Segment, ...]
    label: Lettered | None
    arrow: Point | None
    figures: SawFigures
    complete: int

    @property
    def texts(self) -> tuple[Text, ...]:
        """Its label."""
        return self.label.texts if self.label is not None else ()

    @property
    def is_short(self) -> bool:
        """Whether it has a label, but lacks something that should stand in it or beside its edges."""
        return self.label is not None and (self.label.way >= self.complete or self.figures.left_out > 0)


def marked_piece(
    polygon: Polygon, factory: Edges, said: Ways, labels: PieceLabels, marks: Sequence[Point] = ()
) -> MarkedPiece:
    """The marks of a piece, clear of others at ``marks``; an arrow is left out where the label would suffer beside it."""
    ways = (*said.whole, *said.parts)
    scale = labels.scale
    label, arrow = labels.of(polygon, ways, marks), arrow_place(polygon.rings, polygon.box, scale)
    if arrow is not None:
        beside = labels.of(polygon, ways, (*marks, arrow))
        if beside is None or label is None or not _as_good(beside, label) or _near(arrow, marks, scale):
            arrow = None
        else:
            label = beside
    taken = _taken(label, arrow, marks, scale)
    strokes = tuple(stroke(edge, scale) for edge in sawn_edges(polygon, factory))
    return MarkedPiece(polygon, strokes, label, arrow, saw_figures(polygon, scale, taken), len(said.whole))


def _as_good(label: Lettered, other: Lettered) -> bool:
    return label.way == other.way and label.height == other.height


def _near(place: Point, marks: Sequence[Point], scale: float) -> bool:
    return any(max(abs(place[0] - x), abs(place[1] - y)) < 2 * REACH * scale for x, y in marks)


def _taken(label: Lettered | None, arrow: Point | None, marks: Sequence[Point], scale: float) -> list[Box]:
    """Boxes that figures beside edges have to leave alone."""
    points = [*marks, *([arrow] if arrow is not None else [])]
    boxes = [box_around(point, 2 * REACH * scale, 2 * REACH * scale) for point in points]
    return [*boxes, *([label.box] if label is not None else [])]
