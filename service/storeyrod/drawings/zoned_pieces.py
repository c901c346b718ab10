"""Pieces of board with their fasteners by stage and wind zone: outlines, hatching, marks with ids, and counts."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Group, Item, Marker, Point, Polygon, Style, Text, box_polygon
from storeyrod.drawings.fastener_marks import SYMBOLS
from storeyrod.drawings.line_styles import BLANK, FULL_PIECE, HEAVY, LETTERING, MEDIUM, finer
from storeyrod.drawings.piece_labels import Lines, PieceLabels
from storeyrod.drawings.piece_marks import polygon_of, short_id
from storeyrod.drawings.wall_part import WallPart, whole_of
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
_SMALLEST: Final = 0.9
_REACH: Final = 0.5
"""How far a mark reaches from its middle, over its width."""

_CLEAR: Final = 0.1
"""Between marks and lettering on paper, mm: a line of it that touches a cross is hard to read."""


def mark_size(scale: float) -> float:
    """Width of a mark on paper in mm, wider than on an elevation, since marks of stages are to be told apart."""
    return min(_LARGEST, max(_SMALLEST, _ON_THE_WALL / scale))


def zone_of(one: PieceFasteners) -> str:
    """Zone of a piece as a whole: the strongest that it touches."""
    return one.need.patch.zone if one.need is not None else NO_ZONE


def zones_of(pieces: Sequence[PieceFasteners]) -> list[str]:
    """Zones that pieces lie in, in order, those not assessed last."""
    return sorted({zone_of(one) for one in pieces}, key=lambda zone: (zone == NO_ZONE, zone))


def pieces_in(face: FaceFasteners, part: WallPart) -> list[PieceFasteners]:
    """Pieces of a face of which a part of the wall shows something."""
    return [one for one in face.pieces if part.overlaps(millimetres(one.piece.left), millimetres(one.piece.right))]


def fasteners_in(one: PieceFasteners, part: WallPart) -> Iterator[tuple[Point, Stage, str]]:
    """Place in mm, stage and id of those fasteners of a piece that stand in a part of the wall."""
    for (x, y), stage, name in zip(one.places, one.stages, one.ids, strict=True):
        if part.holds(millimetres(x)):
            yield (millimetres(x), millimetres(y)), stage, name


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


def zone_counts(face: FaceFasteners, part: WallPart | None = None) -> list[ZoneCounts]:
    """Counts of every zone; together they are all pieces that are seen of the face, and all fasteners in that part of it."""
    part = part or whole_of(face.face)
    pieces = pieces_in(face, part)
    return [_counts(zone, [one for one in pieces if zone_of(one) == zone], part) for zone in zones_of(pieces)]


def _counts(zone: str, pieces: Sequence[PieceFasteners], part: WallPart) -> ZoneCounts:
    stages = Counter(stage for one in pieces for _, stage, _ in fasteners_in(one, part))
    suction = max((one.need.patch.suction for one in pieces if one.need is not None), default=None)
    return ZoneCounts(zone, len(pieces), {stage: stages[stage] for stage in STAGES}, suction)


@dataclass(frozen=True, slots=True)
class ZonedPieces:
    """Groups under openings and joints, groups over them, and how many pieces are named in full, by their id alone, or not at all."""

    under: tuple[Group, ...]
    over: tuple[Group, ...]
    named: int
    shortened: int
    unnamed: int


def zoned_pieces(
    face: FaceFasteners, scale: float, edges: Sequence[Group] = (), part: WallPart | None = None
) -> ZonedPieces:
    """Pieces hatched by zone, with edges of zones under their labels, and their fasteners; each fastener has its id."""
    part = part or whole_of(face.face)
    pieces = pieces_in(face, part)
    polygons = [part.polygon(polygon_of(one.piece)) for one in pieces]
    labels = PieceLabels(scale, (_REACH * mark_size(scale) + _CLEAR) * scale)
    found = [labels.of(shape, _ways(one), _marks(one)) for one, shape in zip(pieces, polygons, strict=True)]
    lettered = [label for label in found if label is not None]
    texts: tuple[Text, ...] = tuple(text for label in lettered for text in label.texts)
    under = (
        *_outlines(pieces, polygons, scale),
        *_hatching(pieces, polygons, scale),
        *edges,
        Group("piece-blank", BLANK, tuple(box_polygon(label.box) for label in lettered)),
        Group("piece-ids", LETTERING, texts),
    )
    shortened = sum(label.way == _ID_ALONE for label in lettered)
    over = tuple(_marked(face.face.id, pieces, part, scale))
    return ZonedPieces(under, over, len(lettered) - shortened, shortened, len(found) - len(lettered))


_ID_ALONE: Final = 2


def _ways(one: PieceFasteners) -> tuple[Lines, ...]:
    """Id with the number of fasteners and the zone, on a line or on two; or the id alone."""
    zone, name = zone_of(one), short_id(one.piece)
    many = f"{one.total} in {zone}" if zone else str(one.total)
    return (f"{name}: {many}",), (name, many), (name,)


def _marks(one: PieceFasteners) -> list[tuple[float, float]]:
    return [(millimetres(x), millimetres(y)) for x, y in one.places]


def _outlines(pieces: Sequence[PieceFasteners], polygons: Sequence[Polygon], scale: float) -> Iterator[Group]:
    met = [shape for one, shape in zip(pieces, polygons, strict=True) if is_met(one)]
    short = [shape for one, shape in zip(pieces, polygons, strict=True) if not is_met(one)]
    yield Group("board", finer(FULL_PIECE, scale), tuple(met))
    if short:
        yield Group("board-short", finer(SHORT, scale), tuple(short))


def is_met(one: PieceFasteners) -> bool:
    """Whether no resistance that was assessed is under the action."""
    return one.need is None or one.need.met


def _hatching(pieces: Sequence[PieceFasteners], polygons: Sequence[Polygon], scale: float) -> Iterator[Group]:
    for zone in HATCHES:
        shapes = [shape.rings for one, shape in zip(pieces, polygons, strict=True) if zone_of(one) == zone]
        yield from zone_hatching(zone, shapes, scale)


def _marked(name: str, pieces: Sequence[PieceFasteners], part: WallPart, scale: float) -> Iterator[Group]:
    """Fasteners zone by zone and stage by stage; a group has the id of its face, zone and stage."""
    size = mark_size(scale)
    marks: dict[tuple[str, Stage], list[Item]] = {(zone, stage): [] for zone in zones_of(pieces) for stage in STAGES}
    for one in pieces:
        zone = zone_of(one)
        for at, stage, fastener in fasteners_in(one, part):
            marks[zone, stage].append(Marker(at, SYMBOLS[stage][0], size, fastener))
    for (zone, stage), items in marks.items():
        role = f"fastener-{stage.replace('_', '-')}"
        yield Group(role, finer(MARK, scale), tuple(items), f"{name}:fasteners:{zone or 'no-zone'}:{stage}")
