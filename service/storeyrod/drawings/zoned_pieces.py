"""Pieces of board with their fasteners by stage and wind zone: outlines, hatching, marks with ids, and counts."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Group, Item, Marker, Polygon, Style, Text, box_polygon
from storeyrod.drawings.fastener_marks import SYMBOLS
from storeyrod.drawings.line_styles import BLANK, FULL_PIECE, HEAVY, LETTERING, MEDIUM, finer
from storeyrod.drawings.piece_labels import Lines, PieceLabels
from storeyrod.drawings.piece_marks import polygon_of, short_id
from storeyrod.drawings.zone_hatching import HATCHES, zone_hatching
from storeyrod.fasteners.face_fasteners import FaceFasteners, PieceFasteners
from storeyrod.fasteners.stages import STAGES, Stage
from storeyrod.geometry.ticks import millimetres

NO_ZONE: Final = ""
"""Key of pieces for which wind was not assessed."""

MARK: Final = Style(MEDIUM)
SHORT: Final = Style(HEAVY, fill=1.0)
"""A piece whose fasteners hold less than wind asks."""

_ON_THE_WALL: Final = 80.0
_LARGEST: Final = 2.0
_SMALLEST: Final = 1.0
_REACH: Final = 0.5
"""Kept clear about the middle of a mark, over its width."""


def mark_size(scale: float) -> float:
    """Width of a mark on paper in mm, wider than on an elevation, since marks of stages are to be told apart."""
    return min(_LARGEST, max(_SMALLEST, _ON_THE_WALL / scale))


def zone_of(one: PieceFasteners) -> str:
    """Zone of a piece as a whole: the strongest that it touches."""
    return one.need.patch.zone if one.need is not None else NO_ZONE


def zones_of(face: FaceFasteners) -> list[str]:
    """Zones that pieces of a face lie in, in order, those not assessed last."""
    return sorted({zone_of(one) for one in face.pieces}, key=lambda zone: (zone == NO_ZONE, zone))


@dataclass(frozen=True, slots=True)
class ZoneCounts:
    """Pieces and fasteners of one zone, fasteners by stage, and its strongest suction in Pa."""

    zone: str
    pieces: int
    stages: Mapping[Stage, int]
    suction: float | None

    @property
    def total(self) -> int:
        """Its fasteners."""
        return sum(self.stages.values())


def zone_counts(face: FaceFasteners) -> list[ZoneCounts]:
    """Counts of every zone; together they are all pieces and fasteners of the face."""
    return [_counts(zone, [one for one in face.pieces if zone_of(one) == zone]) for zone in zones_of(face)]


def _counts(zone: str, pieces: Sequence[PieceFasteners]) -> ZoneCounts:
    stages = Counter(stage for one in pieces for stage in one.stages)
    suction = max((one.need.patch.suction for one in pieces if one.need is not None), default=None)
    return ZoneCounts(zone, len(pieces), {stage: stages[stage] for stage in STAGES}, suction)


@dataclass(frozen=True, slots=True)
class ZonedPieces:
    """Groups under openings and joints, groups over them, how many pieces have no label, and how many lack a figure in it."""

    under: tuple[Group, ...]
    over: tuple[Group, ...]
    unnamed: int
    shortened: int


def zoned_pieces(face: FaceFasteners, scale: float, edges: Sequence[Group] = ()) -> ZonedPieces:
    """Pieces hatched by zone, with edges of zones under their labels, and their fasteners; each fastener has its id."""
    polygons = [polygon_of(one.piece) for one in face.pieces]
    labels = PieceLabels(scale, _REACH * mark_size(scale) * scale)
    found = [labels.of(shape, _ways(one), _marks(one)) for one, shape in zip(face.pieces, polygons, strict=True)]
    lettered = [label for label in found if label is not None]
    texts: tuple[Text, ...] = tuple(text for label in lettered for text in label.texts)
    under = (
        *_outlines(face, polygons, scale),
        *_hatching(face, polygons, scale),
        *edges,
        Group("piece-blank", BLANK, tuple(box_polygon(label.box) for label in lettered)),
        Group("piece-ids", LETTERING, texts),
    )
    shortened = sum(label.way == _ID_ALONE for label in lettered)
    return ZonedPieces(under, tuple(_marked(face, scale)), len(found) - len(lettered), shortened)


_ID_ALONE: Final = 2


def _ways(one: PieceFasteners) -> tuple[Lines, ...]:
    """Id with the number of fasteners and the zone, on a line or on two; or the id alone."""
    zone, name = zone_of(one), short_id(one.piece)
    many = f"{one.total} in {zone}" if zone else str(one.total)
    return (f"{name}: {many}",), (name, many), (name,)


def _marks(one: PieceFasteners) -> list[tuple[float, float]]:
    return [(millimetres(x), millimetres(y)) for x, y in one.places]


def _outlines(face: FaceFasteners, polygons: Sequence[Polygon], scale: float) -> Iterator[Group]:
    met = [shape for one, shape in zip(face.pieces, polygons, strict=True) if is_met(one)]
    short = [shape for one, shape in zip(face.pieces, polygons, strict=True) if not is_met(one)]
    yield Group("board", finer(FULL_PIECE, scale), tuple(met))
    if short:
        yield Group("board-short", finer(SHORT, scale), tuple(short))


def is_met(one: PieceFasteners) -> bool:
    """Whether no resistance that was assessed is under the action."""
    return one.need is None or one.need.met


def _hatching(face: FaceFasteners, polygons: Sequence[Polygon], scale: float) -> Iterator[Group]:
    for zone in HATCHES:
        shapes = [shape.rings for one, shape in zip(face.pieces, polygons, strict=True) if zone_of(one) == zone]
        yield from zone_hatching(zone, shapes, scale)


def _marked(face: FaceFasteners, scale: float) -> Iterator[Group]:
    """Fasteners zone by zone and stage by stage; a group has the id of its face, zone and stage."""
    size = mark_size(scale)
    marks: dict[tuple[str, Stage], list[Item]] = {(zone, stage): [] for zone in zones_of(face) for stage in STAGES}
    for one in face.pieces:
        zone = zone_of(one)
        for (x, y), stage, name in zip(one.places, one.stages, one.ids, strict=True):
            marks[zone, stage].append(Marker((millimetres(x), millimetres(y)), SYMBOLS[stage][0], size, name))
    for (zone, stage), items in marks.items():
        role = f"fastener-{stage.replace('_', '-')}"
        yield Group(role, finer(MARK, scale), tuple(items), f"{face.face.id}:fasteners:{zone or 'no-zone'}:{stage}")
