"""Width of board that the rows of a wall take for the boxes of their pieces, wherever the runs of the rows begin to be counted.

Every piece is cut as its box, and another piece may come out of a rectangle that a notch or a rake of it sets free. Pieces whose
boxes stand on the lower edges of boards lie side by side there, a kerf apart, unless one lies in such a rectangle. A piece that
is as high as a board stands on its lower edge; so does one that needs a factory edge at its foot. Neither fits into a rectangle
if it is higher than any notch at a foot on the wall, or as long as a board. The same holds at the upper edges, and half-way up.

So a piece takes its whole width, notches too, if it reaches a column of wall that is high enough. Inside a run all boards but the
first and the last are whole: between two such columns a piece escapes only where a whole board lies there, which one choice of
seams allows for some gaps and not for others. The choice with most escapes gives the bound.
"""

import math
from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise
from typing import Final, Literal, NamedTuple

from storeyrod.boards.cutting_items import BoardSize
from storeyrod.boards.cutting_job import CutPiece
from storeyrod.boards.pieces import Piece
from storeyrod.geometry.intervals import Interval, clip, difference, intersection, total, union
from storeyrod.wall.face import Face

Line = Literal["bottom", "top", "middle"]
"""Where boxes lie side by side: on lower edges of boards, on upper ones, or half-way up."""

LINES: Final[tuple[Line, ...]] = ("bottom", "top", "middle")

_TICK: Final = 1.0


class BoxedFace(NamedTuple):
    """A face, its pieces, its opening corners as (height, place), how far its seams keep clear of them, in ticks, and numbers of
    rows in which they do not.
    """

    face: Face
    pieces: Sequence[CutPiece]
    corners: Sequence[tuple[float, float]]
    clearance: float
    close_rows: Collection[int]


class Boxes(NamedTuple):
    """Width that boxes take at least, in ticks, and how many pieces that are at least."""

    width: float
    pieces: int


def boxes_of(faces: Sequence[BoxedFace], size: BoardSize, line: Line) -> Boxes:
    """What the rows of all faces take together."""
    notch = max((_notch(one, line) for one in faces), default=0.0)
    if line == "middle":
        notch = max(notch, size.height / 2.0)
    widths = [width for face in faces for width in _widths(face, size, line, notch)]
    return Boxes(sum(widths), sum(math.ceil(width / size.width) for width in widths))


def _widths(face: BoxedFace, size: BoardSize, line: Line, notch: float) -> Iterator[float]:
    """Run by run."""
    rows: dict[tuple[int, float, float, int], list[CutPiece]] = {}
    for one in face.pieces:
        rows.setdefault((*one.piece.row, one.piece.bay), []).append(one)
    for pieces in rows.values():
        row = pieces[0].piece.row
        high = union(run for one in pieces for run in _columns(one, size, line, notch))
        runs = union((one.piece.left, one.piece.right) for one in pieces)
        if high == runs:
            yield from (right - left for left, right in runs)
            continue
        footed = union(run for one in pieces for run in _on_edge(one, line, _TICK))
        jambs = {x for y, x in face.corners if row.bottom <= y <= row.top}
        clearance = 0.0 if row.number in face.close_rows else face.clearance
        for left, right in runs:
            run = _Run(left, right, clip(high, left, right), clip(footed, left, right))
            yield max(0.0, right - left - _escaping(run, size.width, jambs, clearance))


def _columns(one: CutPiece, size: BoardSize, line: Line, notch: float) -> list[Interval]:
    """Where a piece is so high that its box takes a place of its own."""
    row = one.piece.row
    found = _filled(one.piece, row.bottom, row.top) if row.top - row.bottom == size.height else []
    if row.top - row.bottom <= notch or found == [(one.piece.left, one.piece.right)]:
        return found
    if line == "middle":
        low, high = row.bottom + notch + _TICK, row.top - notch - _TICK
        return [*found, *_filled(one.piece, row.bottom, low), *_filled(one.piece, high, row.top)]
    return [*found, *_on_edge(one, line, notch + _TICK)]


def _on_edge(one: CutPiece, line: Line, height: float) -> list[Interval]:
    """Where a piece stands so high on a factory edge, or hangs so far below one."""
    row = one.piece.row
    if line == "bottom" and one.item.needs.bottom:
        met = union([*one.piece.beneath, *one.base])
        return intersection(_filled(one.piece, row.bottom, min(row.bottom + height, row.top)), met)
    if line == "top" and one.item.needs.top:
        return intersection(_filled(one.piece, max(row.bottom, row.top - height), row.top), union(one.piece.over))
    return []


def _filled(piece: Piece, low: float, high: float) -> list[Interval]:
    if piece.bottom > low or piece.top < high:
        return []
    return piece.region.clear_runs(low, high) if piece.part.rings else [(piece.left, piece.right)]


class _Run(NamedTuple):
    """A run of a row, its high columns, and where pieces stand on the line with a factory edge."""

    left: float
    right: float
    high: Sequence[Interval]
    footed: Sequence[Interval]


def _escaping(run: _Run, board: float, jambs: set[float], clearance: float) -> float:
    """Width of pieces beside the high columns at most; whole boards that stand on the line do not escape."""
    escaped, phases = 0.0, list[Interval]()
    for left, right in difference([(run.left, run.right)], run.high):
        footed = total(clip(run.footed, left, right)) == right - left
        ends = (left == run.left) + (right == run.right)
        if ends:
            escaped += min(right - left, ends * board) if footed else right - left
        elif not footed:
            low, high = left + clearance * (left in jambs), right - clearance * (right in jambs)
            fit = math.floor((high - low) / board)
            if fit >= 1:
                escaped += (fit - 1) * board
                phases.append((low, high - fit * board))
    return escaped + _most_at_once(phases, board) * board


def _most_at_once(phases: Sequence[Interval], board: float) -> int:
    """Most closed intervals, folded into one board length, that share a place."""
    steps: list[tuple[float, int]] = []
    for low, high in phases:
        start = low % board
        end = start + high - low
        steps += [(start, -1), (end, 1), (start + board, -1), (end + board, 1)]
    most = count = 0
    for _, step in sorted(steps):
        count -= step
        most = max(most, count)
    return most


def _notch(face: BoxedFace, line: Line) -> float:
    """Height of the highest notch of a piece at its foot, at its head, or anywhere: at openings, steps, rakes and overhangs."""
    found = [0.0]
    for row in {one.piece.row for one in face.pieces}:
        for opening in face.face.board_openings():
            low, high = max(opening.sill, row.bottom), min(opening.head, row.top)
            if low < high and (line != "bottom" or high < row.top) and (line != "top" or low > row.bottom):
                found.append(high - low)
        for (x, y), (next_x, next_y) in pairwise((*face.face.outline, face.face.outline[0])):
            low, high = min(y, next_y), max(y, next_y)
            if next_x > x and line != "top" and row.bottom < high and low < row.top:
                found.append(min(high, row.top) - row.bottom)
            if next_x < x and line != "bottom" and row.bottom < high and low < row.top:
                found.append(row.top - max(low, row.bottom))
    return max(found)
