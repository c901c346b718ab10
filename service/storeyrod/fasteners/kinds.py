"""Kinds of piece: pieces alike in shape, course, wind and support have alike fasteners, which are worked out once."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from storeyrod.boards.layout import FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.boards.rows import substrate_of
from storeyrod.fasteners.demand import Demand, PieceNeed
from storeyrod.fasteners.level import Level
from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.places import PiecePlaces
from storeyrod.fasteners.room import Room
from storeyrod.fasteners.shape import Shape
from storeyrod.fasteners.stages import Stage, stands_on_base
from storeyrod.fasteners.substrate_outline import EdgesBeside, substrate_edges_of
from storeyrod.wind.face_wind import FaceWind, WindBand, WindPatch

_Key = tuple[object, ...]


@dataclass(slots=True, eq=False)
class Kind:
    """Pieces of a wall with one shape, stages and need: the first of them, and what they have."""

    piece: Piece
    shape: Shape
    places: PiecePlaces
    stages: tuple[Stage, ...]
    need: PieceNeed | None
    zones: list[str]
    """Zone of each place; empty where wind was not assessed."""
    total: int
    left: float
    bottom: float
    """Lower left corner of the first piece of the shape, whose places they are."""
    is_ordinary: bool
    """Whether its fasteners are as many as they should be, carry the wind and keep their distances on a piece wide enough for them."""


class _Row(NamedTuple):
    """What pieces between the same two levels of a face share."""

    level: Level
    number: int
    """One for each height of piece and distance of its foot over a row of the pattern."""
    band: WindBand | None
    is_low: bool
    edges: EdgesBeside
    kinds: dict[_Key, Kind]
    """Kinds met so far in rows like these, by the ends and the shape of a piece."""


@dataclass(frozen=True, slots=True)
class Known:
    """Shapes and kinds of a wall worked out so far, shared by its faces."""

    shapes: dict[_Key, tuple[Shape, dict[tuple[int, bool], Kind]]] = field(default_factory=dict)
    """With the kinds of each by wind patch, and whether they stand on the base."""
    numbers: dict[tuple[float, float], int] = field(default_factory=dict)
    levels: dict[tuple[float, float], Level] = field(default_factory=dict)
    rows: dict[_Key, dict[_Key, Kind]] = field(default_factory=dict)


@dataclass
class Placing:
    """Fasteners on one face, by patterns from level joint to level joint."""

    boards: FaceBoards
    patterns: Sequence[Pattern]
    wind: FaceWind | None
    demand: Demand | None
    known: Known
    deeper: float
    """How far behind the boards the wall starts that holds fasteners: levelling and old render, in ticks."""

    def __post_init__(self) -> None:
        """What all pieces of the face share."""
        face = self.boards.face
        self.substrate = substrate_of(face, self.deeper)
        self._feet = [one.foot for one in self.patterns]
        self._bands: dict[int, WindBand] = {}
        self._base = face.base_runs()
        pattern = self.patterns[0]
        self._edges = substrate_edges_of(face)
        self._lowest = max((height for _, _, height in self._base), default=face.foot)
        reach = pattern.from_end - pattern.edge
        self._clear_of_ends = self.substrate[0] + reach, self.substrate[1] - reach

    def kinds(self) -> list[Kind]:
        """The kind of every piece, in the order of the boards."""
        rows: dict[tuple[float, float], _Row] = {}
        made: list[Kind] = []
        for piece in self.boards.pieces:
            left, bottom, right, top, _, form = piece.part
            row = rows.get((bottom, top))
            if row is None:
                row = rows[bottom, top] = self._row(bottom, top)
            here = left, right, form
            kind = row.kinds.get(here)
            if kind is None:
                kind = row.kinds[here] = self._kind(piece, row)
            made.append(kind)
        return made

    def _kind(self, piece: Piece, row: _Row) -> Kind:
        """The kind of a piece: that of one that is alike wherever it stands, or a new one."""
        left, bottom, right, top, _, form = piece.part
        low, high = self._clear_of_ends
        ends = None if low <= left and right <= high else (left, right, *self.substrate)
        beside = row.edges.of(left, right)
        seen = tuple([edge.seen_from(left, bottom, right, top) for edge in beside])
        alike = right - left, row.number, ends, piece.shape if form else None, seen
        known = self.known.shapes.get(alike)
        if known is None:
            known = self.known.shapes[alike] = Shape(Room(piece, row.level, self.substrate, beside)), {}
        shape, kinds = known
        patch = row.band.governing(left, right) if row.band is not None else None
        on_base = row.is_low and stands_on_base(piece, self._base)
        kind = kinds.get((id(patch), on_base))
        if kind is None:
            kind = kinds[id(patch), on_base] = self._new_kind(piece, shape, patch, on_base=on_base)
        return kind

    def _new_kind(self, piece: Piece, shape: Shape, patch: WindPatch | None, *, on_base: bool) -> Kind:
        if patch is None or self.demand is None:
            places, need, zone = shape.places(0), None, ""
        else:
            places, need = self.demand.placed(piece, shape, patch, self.boards.face.pointer)
            zone = patch.zone
        stages, total = shape.stages(places, on_base=on_base), places.total
        ordinary = places.keeps_edge and total >= places.asked and not 0.0 < shape.held < self.patterns[0].narrow
        ordinary = ordinary and (need is None or need.met)
        left, bottom = shape.part[:2]
        return Kind(piece, shape, places, stages, need, [zone] * total, total, left, bottom, ordinary)

    def _row(self, bottom: float, top: float) -> _Row:
        pattern, known = self.patterns[max(0, bisect_right(self._feet, bottom) - 1)], self.known
        level = known.levels.get((bottom, top))
        if level is None:
            level = known.levels[bottom, top] = Level(pattern, bottom, top)
        over = (bottom - pattern.foot) % (pattern.every * pattern.pitch)
        number = known.numbers.setdefault((top - bottom, over), len(known.numbers))
        band, is_low = self._band(bottom, top), bottom <= self._lowest
        inside = pattern.edge if level.courses else 0.0
        edges = EdgesBeside(self._edges, bottom, top, pattern.from_end, inside=inside)
        winds = (*band.starts, *map(id, band.strongest)) if band is not None else None
        alike = number, self.substrate, winds, tuple(self._base) if is_low else None, *edges.seen_over(bottom, top)
        return _Row(level, number, band, is_low, edges, known.rows.setdefault(alike, {}))

    def _band(self, bottom: float, top: float) -> WindBand | None:
        band = self.wind.band(bottom, top) if self.wind is not None else None
        if band is None or self.demand is None:
            return None
        made = self._bands.get(id(band))
        if made is None:
            made = self._bands[id(band)] = WindBand(band.starts, tuple(map(self.demand.like, band.strongest)))
        return made
