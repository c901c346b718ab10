"""Kinds of piece: pieces alike in shape, course, wind and support have alike fasteners, which are worked out once."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from storeyrod.boards.layout import FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.boards.rows import substrate_of
from storeyrod.fasteners.demand import Demand, PieceNeed
from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.places import PiecePlaces
from storeyrod.fasteners.room import Room
from storeyrod.fasteners.shape import Shape
from storeyrod.fasteners.stages import Stage, stages_of, stands_on_base
from storeyrod.wind.face_wind import FaceWind, WindPatch

_INSIDE: Final = ()
"""A piece that no end of the substrate is near."""


@dataclass(slots=True)
class Kind:
    """A piece with its places, stages and need, and how many pieces of the face are like it."""

    piece: Piece
    places: PiecePlaces
    stages: tuple[Stage, ...]
    need: PieceNeed | None
    total: int
    count: int = 0


_Key = tuple[object, ...]


@dataclass
class Placing:
    """Fasteners on one face, by patterns from level joint to level joint."""

    boards: FaceBoards
    patterns: Sequence[Pattern]
    wind: FaceWind | None
    demand: Demand | None
    shapes: dict[_Key, Shape]
    """Shapes of the wall, shared by its faces."""
    _known: dict[_Key, Kind] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """What all pieces of the face share."""
        face, pattern = self.boards.face, self.patterns[0]
        self.substrate = substrate_of(face)
        reach = pattern.from_end - pattern.edge
        self._from, self._to = self.substrate[0] + reach, self.substrate[1] - reach
        self._feet = [one.foot for one in self.patterns]
        self._period = pattern.every * pattern.pitch
        self._base = face.base_runs()
        self._lowest = max((height for _, _, height in self._base), default=face.foot)

    def kinds(self) -> list[Kind]:
        """The kind of every piece, in the order of the boards."""
        return [self._kind(piece) for piece in self.boards.pieces]

    def _kind(self, piece: Piece) -> Kind:
        part = piece.part
        left, bottom, right, top = part[:4]
        pattern = self.patterns[bisect_right(self._feet, bottom) - 1 if bottom >= self._feet[0] else 0]
        patch = self.wind.governing(left, right, bottom, top) if self.wind is not None else None
        on_base = bottom <= self._lowest and stands_on_base(piece, self._base)
        ends = _INSIDE if left >= self._from and right <= self._to else (left, right, *self.substrate)
        phase = (bottom - pattern.foot) % self._period
        shape = right - left, top - bottom, phase, ends, piece.shape if part.shape else None
        alike = shape, id(patch), on_base
        kind = self._known.get(alike)
        if kind is None:
            if shape not in self.shapes:
                self.shapes[shape] = Shape(Room(piece, pattern, self.substrate))
            kind = self._known[alike] = self._worked_out(self.shapes[shape], patch, on_base=on_base)
        kind.count += 1
        return kind

    def _worked_out(self, shape: Shape, patch: WindPatch | None, *, on_base: bool) -> Kind:
        if patch is None or self.demand is None:
            places, need = shape.places(0), None
        else:
            places, need = self.demand.placed(shape, patch, self.boards.face.pointer)
        return Kind(shape.piece, places, tuple(stages_of(places, on_base=on_base)), need, places.total)
