"""Fasteners of a face, piece by piece and kind by kind."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from storeyrod.boards.layout import FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.demand import PieceNeed
from storeyrod.fasteners.kinds import Kind
from storeyrod.fasteners.stages import Stage
from storeyrod.wall.face import Face


class PieceFasteners(NamedTuple):
    """Fasteners of one piece, by its kind."""

    piece: Piece
    kind: Kind

    @property
    def places(self) -> list[tuple[float, float]]:
        """Places in ticks, row by row from the lowest, each from left to right."""
        piece, kind = self
        right, up = piece.part.left - kind.left, piece.part.bottom - kind.bottom
        return [(x + right, y + up) for x, y in zip(kind.places.xs, kind.places.ys, strict=True)]

    @property
    def ids(self) -> list[str]:
        """Id of each place: that of the piece and a number from 1; a colon stands in no id of an elevation, so ids stay apart."""
        name = self.piece.id
        return [f"{name}:{number}" for number in range(1, self.total + 1)]

    @property
    def stages(self) -> tuple[Stage, ...]:
        """Stage of each place."""
        return self.kind.stages

    @property
    def need(self) -> PieceNeed | None:
        """What wind asks of the piece, where it is assessed."""
        return self.kind.need

    @property
    def total(self) -> int:
        """Number of fasteners."""
        return self.kind.total


class Columns(NamedTuple):
    """All fasteners of a face one by one, in the order of its pieces: places in ticks, stages, and zones, empty where not assessed."""

    xs: list[float]
    ys: list[float]
    stages: list[Stage]
    zones: list[str]


@dataclass(frozen=True)
class FaceFasteners:
    """Fasteners of one face: its boards, and the kind of each piece in their order."""

    boards: FaceBoards
    kinds: Sequence[Kind]

    @property
    def face(self) -> Face:
        """The face."""
        return self.boards.face

    @cached_property
    def pieces(self) -> tuple[PieceFasteners, ...]:
        """Piece by piece in the order of the boards."""
        return tuple(map(PieceFasteners, self.boards.pieces, self.kinds))

    @property
    def columns(self) -> Columns:
        """Every fastener."""
        kinds, across, upwards = self.kinds, [], []
        for piece, kind in zip(self.boards.pieces, kinds, strict=True):
            left, bottom = piece.part[:2]
            across.append((left - kind.left, kind.places.xs))
            upwards.append((bottom - kind.bottom, kind.places.ys))
        stages, zones = list[Stage](), list[str]()
        for kind in kinds:
            stages += kind.stages
            zones += kind.zones
        return Columns(
            [x + right for right, xs in across for x in xs], [y + up for up, ys in upwards for y in ys], stages, zones
        )

    @cached_property
    def counted(self) -> tuple[tuple[Kind, int], ...]:
        """Each kind with the number of its pieces, in the order in which they first appear."""
        return tuple(Counter(self.kinds).items())

    @cached_property
    def different(self) -> list[Kind]:
        """Each kind once, in the order in which they first appear."""
        return [kind for kind, _ in self.counted]

    @cached_property
    def total(self) -> int:
        """Number of fasteners."""
        return sum(kind.total * count for kind, count in self.counted)

    def count_of(self, stage: Stage) -> int:
        """Number of fasteners of a stage."""
        return sum(kind.stages.count(stage) * count for kind, count in self.counted)
