"""Laying boards: row by row from the lowest, every face in the plane of its boards, never across a movement joint."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from storeyrod.boards.cutting import CuttingPlan, cutting_plan
from storeyrod.boards.findings import board_findings
from storeyrod.boards.pieces import Piece, kind_of
from storeyrod.boards.rows import Ground, Row, grounds_of, rows_of, runs_through
from storeyrod.boards.runs import BayRun, meeting, opening_corners, runs_of, start_of
from storeyrod.boards.seams import Limits, seams_of
from storeyrod.boards.stagger import SeamLine
from storeyrod.findings import Finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import Face
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall


@dataclass(frozen=True, slots=True)
class FaceBoards:
    """Boards of one face: pieces by row and position, seams, and areas in the board plane in square ticks."""

    face: Face
    pieces: tuple[Piece, ...]
    seam_lines: tuple[SeamLine, ...]
    gross_area: float
    net_area: float
    joint_area: float
    plan: CuttingPlan


@dataclass(frozen=True, slots=True)
class BoardLayout:
    """Boards of a wall: faces in request order, one plan of cutting for all of them, and what was found."""

    faces: tuple[FaceBoards, ...]
    plan: CuttingPlan
    system: System
    findings: tuple[Finding, ...]

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All pieces, in request order of their faces."""
        return tuple(piece for face in self.faces for piece in face.pieces)


@dataclass(frozen=True, slots=True)
class _Laid:
    """Pieces and seams of one row."""

    pieces: list[Piece]
    seams: list[list[float]]


def lay_boards(wall: Wall, plans: Sequence[JointPlan], trace: Trace = SILENT) -> BoardLayout:
    """Boards of every face, with the bays of its joint plan, and the boards they are cut from."""
    through = runs_through(wall)
    faces = []
    for face, plan in zip(wall.faces, plans, strict=True):
        faces.append(_face_boards(wall, face, grounds_of(face, plan.slots, through)))
    cutting = cutting_plan(
        [piece for face in faces for piece in face.pieces], wall.system, [face.plan for face in faces]
    )
    findings = [item for face in faces for item in board_findings(face.face, face.pieces, face.seam_lines, wall)]
    return BoardLayout(tuple(faces), cutting, wall.system, tuple(findings))


def _face_boards(wall: Wall, face: Face, grounds: tuple[Ground, Ground]) -> FaceBoards:
    rows = rows_of(wall, grounds)
    pieces: list[Piece] = []
    lines: list[SeamLine] = []
    for row in rows:
        ground = grounds[row.number % 2]
        below = lines[-1].at_head if lines else tuple(() for _ in range(len(ground.slots) + 1))
        laid = _lay_row(wall.system, face, ground, row, below)
        pieces += laid.pieces
        lines.append(_seam_line(ground, row, laid.seams))
    return FaceBoards(
        face,
        tuple(pieces),
        tuple(lines),
        sum(grounds[row.number % 2].gross_area(row) for row in rows),
        sum(grounds[row.number % 2].net_area(row) for row in rows),
        sum(grounds[row.number % 2].joint_area(row) for row in rows),
        cutting_plan(pieces, wall.system),
    )


def _seam_line(ground: Ground, row: Row, seams: Sequence[Sequence[float]]) -> SeamLine:
    at_foot = tuple(tuple(meeting(bay, ground, row.bottom, row)) for bay in seams)
    at_head = tuple(tuple(meeting(bay, ground, row.top, row)) for bay in seams)
    return SeamLine(row, at_foot, at_head)


def _lay_row(system: System, face: Face, ground: Ground, row: Row, below: Sequence[Sequence[float]]) -> _Laid:
    board = system.board
    limits = Limits(ticks(board.cover_length_mm), ticks(board.minimum_piece_mm), ticks(board.stagger_mm))
    start = start_of(face)
    shift = round(limits.board / 2.0) if row.number % 2 else 0.0
    seams: list[list[float]] = [[] for _ in range(len(ground.slots) + 1)]
    columns: list[tuple[int, Interval]] = []
    for bay_run in runs_of(ground, row, shift, start, opening_corners(face), below):
        found = _run_seams(bay_run, limits, start)
        seams[bay_run.bay] += found
        edges = [bay_run.run.left, *found, bay_run.run.right]
        columns += [(bay_run.bay, column) for column in pairwise(edges)]
    pieces = _pieces(system, face, ground, row, columns, {seam for bay in seams for seam in bay})
    return _Laid(list(pieces), seams)


def _run_seams(bay_run: BayRun, limits: Limits, start: str) -> list[float]:
    if start == "left":
        return seams_of(bay_run.run, limits)
    return [-seam for seam in reversed(seams_of(bay_run.run.mirrored(), limits))]


def _pieces(
    system: System,
    face: Face,
    ground: Ground,
    row: Row,
    columns: Sequence[tuple[int, Interval]],
    seams: set[float],
) -> Iterator[Piece]:
    length, height = ticks(system.board.cover_length_mm), ticks(system.board.cover_height_mm)
    cells = ground.clad.cells(row.bottom, row.top, [column for _, column in columns])
    position = 0
    for (bay, (left, right)), parts in zip(columns, cells, strict=True):
        for part in parts:
            position += 1
            yield Piece(
                face.id,
                row,
                position,
                bay,
                part,
                kind_of(part, length, height),
                part.left == left and left in seams,
                part.right == right and right in seams,
            )
