"""What a foreman has to know about a layout: narrow pieces, short stagger, level cuts between ribs."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import inf

from storeyrod.boards.arms import has_thin_arms
from storeyrod.boards.pieces import Piece
from storeyrod.boards.runs import HAIRLINE
from storeyrod.boards.stagger import SeamLine, close_seams
from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.checks import OFF_COURSE_MM
from storeyrod.wall.face import Face
from storeyrod.wall.system import Board
from storeyrod.wall.wall import Wall


def board_findings(
    face: Face,
    pieces: Sequence[Piece],
    lines: Sequence[SeamLine],
    corners: Sequence[tuple[float, float]],
    wall: Wall,
) -> list[Finding]:
    """Findings of one face: each kind once, at its worst place, with all the pieces it concerns.

    ``corners`` are those of openings as (height, place), from the lowest.
    """
    board = wall.system.board
    stacked = (face.elevation.board_seams or board.seams) == "stacked"
    return [
        *_narrow(face, pieces, board),
        *_thin_arms(face, pieces, board),
        *(() if stacked else _stagger(face, pieces, lines, board)),
        *_at_corners(face, pieces, lines, corners, board),
        *_off_ribs(face, wall),
    ]


def _where(face: Face, x: float, y: float, pieces: Sequence[Piece]) -> Where:
    return {
        "pointer": face.pointer,
        "elevation": face.id,
        "x_mm": millimetres(x),
        "y_mm": millimetres(y),
        "pieces": [piece.id for piece in pieces],
    }


def _narrow(face: Face, pieces: Sequence[Piece], board: Board) -> Iterator[Finding]:
    limit = ticks(board.minimum_piece_mm) - HAIRLINE
    narrow = [piece for piece in pieces if piece.part.right - piece.part.left < limit]
    if narrow:
        worst = min(narrow, key=lambda piece: (piece.width, piece.row.number, piece.position))
        where = _where(face, worst.left, worst.bottom, narrow)
        yield finding("piece-narrow", where, value=millimetres(worst.width), limit=board.minimum_piece_mm, unit="mm")


def _thin_arms(face: Face, pieces: Sequence[Piece], board: Board) -> Iterator[Finding]:
    limit = ticks(board.minimum_arm_mm) - HAIRLINE
    thin = [piece for piece in pieces if piece.kind == "shaped" and has_thin_arms(piece.part.rings, limit)]
    if thin:
        worst = min(thin, key=lambda piece: (piece.thinnest, piece.row.number, piece.position))
        where = _where(face, worst.left, worst.bottom, thin)
        yield finding("arm-thin", where, value=millimetres(worst.thinnest), limit=board.minimum_arm_mm, unit="mm")


def _stagger(face: Face, pieces: Sequence[Piece], lines: Sequence[SeamLine], board: Board) -> Iterator[Finding]:
    limit = ticks(board.stagger_mm) - HAIRLINE
    close = [pair for below, above in pairwise(lines) for pair in close_seams(below, above, limit)]
    if not close:
        return
    worst = min(close, key=lambda pair: (pair.distance, pair.row, pair.x))
    short = {(pair.row, pair.x) for pair in close}
    beside = [piece for piece in pieces if piece.meets_left and (piece.row.number, piece.left) in short]
    where = _where(face, worst.x, worst.level, beside)
    yield finding("stagger-short", where, value=millimetres(worst.distance), limit=board.stagger_mm, unit="mm")


def _at_corners(
    face: Face,
    pieces: Sequence[Piece],
    lines: Sequence[SeamLine],
    corners: Sequence[tuple[float, float]],
    board: Board,
) -> Iterator[Finding]:
    """Seams too near to the corner of an opening that lies in their row or on its lines, in the same bay."""
    limit = ticks(board.seam_clear_of_corner_mm) - HAIRLINE
    if not corners or limit <= 0.0:
        return
    rows = {line.row: sorted({x for _, x in _between(corners, line.row.bottom, line.row.top)}) for line in lines}
    near = [
        (distance, piece)
        for piece in pieces
        if piece.meets_left and rows[piece.row]
        for distance in [_nearest(rows[piece.row], piece.left)]
        if distance < limit
    ]
    if near:
        least, worst = min(near, key=lambda one: (one[0], one[1].row.number, one[1].position))
        where = _where(face, worst.left, worst.bottom, [piece for _, piece in near])
        value = millimetres(least)
        yield finding("joint-at-opening-corner", where, value=value, limit=board.seam_clear_of_corner_mm, unit="mm")


def _between(corners: Sequence[tuple[float, float]], low: float, high: float) -> Sequence[tuple[float, float]]:
    return corners[bisect_left(corners, (low,)) : bisect_right(corners, (high, inf))]


def _nearest(places: Sequence[float], x: float) -> float:
    index = bisect_left(places, x)
    ahead = places[index] - x if index < len(places) else inf
    return min(ahead, x - places[index - 1]) if index else ahead


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
