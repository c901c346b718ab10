"""Kinds of piece: pieces alike in shape, course, wind and support have alike fasteners, which are worked out once."""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from storeyrod.boards.layout import FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.boards.rows import substrate_of
from storeyrod.fasteners.demand import Demand, PieceNeed
from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.places import PiecePlaces
from storeyrod.fasteners.room import Room
from storeyrod.fasteners.shape import Shape
from storeyrod.fasteners.stages import Stage, stands_on_base
from storeyrod.fasteners.substrate_outline import EdgesBeside, SubstrateEdge, substrate_edges_of
from storeyrod.geometry.intervals import Interval
from storeyrod.wind.face_wind import FaceWind, WindBand, WindPatch

_Key = tuple[object, ...]


class Kind(NamedTuple):
    """Pieces of a wall with one shape, stages and need: the first of them, and what they have."""

    piece: Piece
    shape: Shape
    places: PiecePlaces
    stages: tuple[Stage, ...]
    need: PieceNeed | None
    zones: list[str]
    """Zone of each place; empty where wind was not assessed."""
    total: int


class _Level(NamedTuple):
    """What pieces between the same two levels of a face share."""

    pattern: Pattern
    number: int
    """One for each height of piece and distance of its foot over a row of the pattern."""
    band: WindBand | None
    is_low: bool
    heights: Mapping[int, float]
    """Courses with room for fasteners, and their heights."""
    edges: EdgesBeside


@dataclass(frozen=True, slots=True)
class Known:
    """Shapes and kinds of a wall worked out so far, shared by its faces."""

    shapes: dict[_Key, Shape] = field(default_factory=dict)
    kinds: dict[_Key, Kind] = field(default_factory=dict)
    levels: dict[tuple[float, float], int] = field(default_factory=dict)


@dataclass
class Placing:
    """Fasteners on one face, by patterns from level joint to level joint."""

    boards: FaceBoards
    patterns: Sequence[Pattern]
    wind: FaceWind | None
    demand: Demand | None
    known: Known

    def __post_init__(self) -> None:
        """What all pieces of the face share."""
        face = self.boards.face
        self.substrate = substrate_of(face)
        self._feet = [one.foot for one in self.patterns]
        self._base = face.base_runs()
        pattern = self.patterns[0]
        self._edges = substrate_edges_of(face) if pattern.from_end > pattern.edge else ()
        self._lowest = max((height for _, _, height in self._base), default=face.foot)

    def kinds(self) -> list[Kind]:
        """The kind of every piece, in the order of the boards."""
        levels: dict[tuple[float, float], _Level] = {}
        low, high, known, made = *self._clear_of_ends(), self.known.kinds, list[Kind]()
        for piece in self.boards.pieces:
            left, bottom, right, top, _, form = piece.part
            level = levels.get((bottom, top))
            if level is None:
                level = levels[bottom, top] = self._level(bottom, top)
            _, number, band, is_low, _, edges = level
            patch = band.governing(left, right) if band is not None else None
            ends = None if low <= left and right <= high else (left, right, *self.substrate)
            on_base = is_low and stands_on_base(piece, self._base)
            beside = edges.of(left, right) if edges.starts else ()
            seen = tuple([edge.seen_from(left, bottom, right, top) for edge in beside]) if beside else ()
            alike = right - left, number, ends, piece.shape if form else None, seen, id(patch), on_base
            kind = known.get(alike)
            if kind is None:
                shape = self._shape(piece, level, beside, alike[:5])
                kind = known[alike] = self._kind(piece, shape, patch, on_base=on_base)
            made.append(kind)
        return made

    def _clear_of_ends(self) -> Interval:
        """Between which plumb lines a piece does not notice the ends of the substrate."""
        reach = self.patterns[0].from_end - self.patterns[0].edge
        return self.substrate[0] + reach, self.substrate[1] - reach

    def _level(self, bottom: float, top: float) -> _Level:
        pattern = self.patterns[max(0, bisect_right(self._feet, bottom) - 1)]
        over = (bottom - pattern.foot) % (pattern.every * pattern.pitch)
        heights = pattern.heights_between(bottom, top)
        return _Level(
            pattern,
            self.known.levels.setdefault((top - bottom, over), len(self.known.levels)),
            self._band(bottom, top),
            bottom <= self._lowest,
            heights,
            EdgesBeside(self._edges, bottom, top, pattern.from_end, inside=pattern.edge if heights else 0.0),
        )

    def _band(self, bottom: float, top: float) -> WindBand | None:
        band = self.wind.band(bottom, top) if self.wind is not None else None
        if band is None or self.demand is None:
            return None
        return WindBand(band.starts, tuple(map(self.demand.like, band.strongest)))

    def _shape(self, piece: Piece, level: _Level, beside: Sequence[SubstrateEdge], alike: _Key) -> Shape:
        shapes = self.known.shapes
        if alike not in shapes:
            shapes[alike] = Shape(Room(piece, level.pattern, self.substrate, level.heights, beside))
        return shapes[alike]

    def _kind(self, piece: Piece, shape: Shape, patch: WindPatch | None, *, on_base: bool) -> Kind:
        if patch is None or self.demand is None:
            places, need, zone = shape.places(0), None, ""
        else:
            places, need = self.demand.placed(piece, shape, patch, self.boards.face.pointer)
            zone = patch.zone
        total = places.total
        return Kind(piece, shape, places, shape.stages(places, on_base=on_base), need, [zone] * total, total)
