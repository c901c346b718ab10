"""What a foreman has to know about a layout: narrow pieces, short stagger, level cuts between ribs."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from storeyrod.boards.pieces import Piece
from storeyrod.boards.runs import HAIRLINE
from storeyrod.boards.stagger import SeamLine, closest_seams
from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.checks import OFF_COURSE_MM
from storeyrod.wall.face import Face
from storeyrod.wall.system import Board
from storeyrod.wall.wall import Wall


def board_findings(face: Face, pieces: Sequence[Piece], lines: Sequence[SeamLine], wall: Wall) -> list[Finding]:
    """Findings of one face: each of narrow pieces and stagger once, at its worst place, with all the pieces it concerns."""
    board = wall.system.board
    return [
        *_narrow(face, pieces, board),
        *_stagger(face, pieces, lines, board),
        *_off_ribs(face, wall),
    ]


def _narrow(face: Face, pieces: Sequence[Piece], board: Board) -> Iterator[Finding]:
    limit = ticks(board.minimum_piece_mm) - HAIRLINE
    narrow = [piece for piece in pieces if piece.narrowest < limit]
    if not narrow:
        return
    worst = min(narrow, key=lambda piece: (piece.narrowest, piece.row.number, piece.position))
    where: Where = {
        "pointer": face.pointer,
        "elevation": face.id,
        "x_mm": millimetres(worst.left),
        "y_mm": millimetres(worst.bottom),
        "pieces": [piece.id for piece in narrow],
    }
    value = millimetres(worst.narrowest)
    yield finding("piece-narrow", where, value=value, limit=board.minimum_piece_mm, unit="mm")


def _stagger(face: Face, pieces: Sequence[Piece], lines: Sequence[SeamLine], board: Board) -> Iterator[Finding]:
    limit = ticks(board.stagger_mm) - HAIRLINE
    close = [pair for below, above in pairwise(lines) for pair in closest_seams(below, above) if pair.distance < limit]
    if not close:
        return
    worst = min(close, key=lambda pair: (pair.distance, pair.row, pair.x))
    short = {(pair.row, pair.x) for pair in close}
    where: Where = {
        "pointer": face.pointer,
        "elevation": face.id,
        "x_mm": millimetres(worst.x),
        "y_mm": millimetres(worst.level),
        "pieces": [piece.id for piece in pieces if piece.meets_left and (piece.row.number, piece.left) in short],
    }
    yield finding("stagger-short", where, value=millimetres(worst.distance), limit=board.stagger_mm, unit="mm")


def _off_ribs(face: Face, wall: Wall) -> Iterator[Finding]:
    """Level cuts off the rib lines, which are the course lines: sills and heads with their linings, feet, steps and tops."""
    if wall.system.board.rib_pitch_mm is None:
        return
    gauge = wall.gauge
    levels: list[tuple[float, float, str]] = [
        (a[1], min(a[0], b[0]), face.pointer) for a, b in pairwise((*face.outline, face.outline[0])) if a[1] == b[1]
    ]
    for opening in face.board_openings():
        levels += [(edge.height, edge.span[0], opening.pointer) for edge in (*opening.sills, *opening.heads)]
    for level, x, pointer in sorted(set(levels)):
        offset = millimetres(abs(gauge.off_course(level)))
        if offset > OFF_COURSE_MM and not (pointer != face.pointer and level <= face.foot):
            where: Where = {
                "pointer": pointer,
                "elevation": face.id,
                "x_mm": millimetres(x),
                "y_mm": millimetres(level),
            }
            yield finding("cut-off-rib-line", where, value=offset, limit=OFF_COURSE_MM, unit="mm")
