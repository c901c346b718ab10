"""The schedule of fasteners: every position of every piece with its stage."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from storeyrod.boards.layout import BoardLayout, FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.boards.rows import row_origin, substrate_of
from storeyrod.fasteners.findings import piece_findings
from storeyrod.fasteners.pattern import Pattern, pattern_of
from storeyrod.fasteners.places import PiecePlaces, places_in
from storeyrod.fasteners.stages import Stage, stages_of, stands_on_base
from storeyrod.findings import Finding
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import Face
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall


@dataclass(frozen=True, slots=True)
class PieceFasteners:
    """Fasteners of one piece: places in ticks and stages, row by row from the lowest, each from left to right."""

    piece: Piece
    places: tuple[tuple[float, float], ...]
    stages: tuple[Stage, ...]


@dataclass(frozen=True, slots=True)
class FaceFasteners:
    """Fasteners of one face, piece by piece in the order of its boards."""

    face: Face
    pieces: tuple[PieceFasteners, ...]

    @property
    def total(self) -> int:
        """Number of fasteners."""
        return sum(len(piece.places) for piece in self.pieces)

    def count_of(self, stage: Stage) -> int:
        """Number of fasteners of a stage."""
        return sum(piece.stages.count(stage) for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class FastenerSchedule:
    """Fasteners of a wall: faces in request order, the system, and what was found."""

    faces: tuple[FaceFasteners, ...]
    system: System
    findings: tuple[Finding, ...]

    @property
    def total(self) -> int:
        """Number of fasteners."""
        return sum(face.total for face in self.faces)


def set_fasteners(wall: Wall, layout: BoardLayout, trace: Trace = SILENT) -> FastenerSchedule:
    """Fasteners of every piece of a layout."""
    pattern = pattern_of(wall.system, row_origin(wall))
    over_joints = [replace(pattern, foot=joint.top) for joint in wall.storey_joints if joint.top > pattern.foot]
    faces, findings = [], []
    for boards in layout.faces:
        placed = list(_placed(boards, [pattern, *over_joints]))
        faces.append(_face_fasteners(boards, placed))
        findings += piece_findings(boards.face, placed, pattern)
    return FastenerSchedule(tuple(faces), wall.system, tuple(findings))


def _placed(boards: FaceBoards, patterns: Sequence[Pattern]) -> Iterator[tuple[Piece, PiecePlaces]]:
    """Pieces with their places, by the patterns from level joint to level joint; rectangles alike in size and course are worked
    out once.
    """
    substrate = substrate_of(boards.face)
    known: dict[tuple[float, float, float], tuple[Piece, PiecePlaces]] = {}
    feet, period = [pattern.foot for pattern in patterns], patterns[0].every * patterns[0].pitch
    for piece in boards.pieces:
        pattern = patterns[max(0, bisect_right(feet, piece.bottom) - 1)]
        if not piece.part.is_rectangle or piece.left < substrate[0] or piece.right > substrate[1]:
            yield piece, places_in(piece, pattern, substrate)
            continue
        alike = piece.width, piece.height, (piece.bottom - pattern.foot) % period
        if alike not in known:
            known[alike] = piece, places_in(piece, pattern, substrate)
        model, places = known[alike]
        yield piece, _moved(places, piece.left - model.left, piece.bottom - model.bottom)


def _moved(places: PiecePlaces, right: float, up: float) -> PiecePlaces:
    if right == up == 0.0:
        return places
    rows = [(height + up, tuple(x + right for x in xs)) for height, xs in places.rows]
    return PiecePlaces(rows, places.keeps_edge, places.asked)


def _face_fasteners(boards: FaceBoards, placed: Sequence[tuple[Piece, PiecePlaces]]) -> FaceFasteners:
    base = boards.face.base_runs()
    lowest = max((height for _, _, height in base), default=boards.face.foot)
    pieces = []
    for piece, places in placed:
        on_base = piece.bottom <= lowest and stands_on_base(piece, base)
        points = tuple((x, height) for height, xs in places.rows for x in xs)
        pieces.append(PieceFasteners(piece, points, tuple(stages_of(places, on_base=on_base))))
    return FaceFasteners(boards.face, tuple(pieces))
