"""Boards that no layout in the rows of a wall can do without, wherever its seams stand.

What a bound may rest on: rows keep their heights; a piece is never turned, and lies in its board with its foot as high over a rib line
as on the wall; pieces of one board do not overlap. The first three leave out straight cuts, kerfs and least widths, and how a plan uses what is
left, so that they also hold where notches and rakes set rectangles free.

area           Pieces cover the wall less its openings and joints, and a board covers length times height.

course_strips  Take one height over the rib lines, the same for all courses, and the level lines at that height through the wall. A
               point on one of them lies, in the board that its piece is cut from, on one of the board's own lines at that
               height: as many as it has courses, each as long as the board. Two points of the wall never share a place in a
               board. So boards times courses times length is at least the length of all those lines in the wall, whatever
               hangs over what. It holds for every height; two are tried, just over the rib lines and just under them: on a
               gable the first gives the widest clear width of every course, over arches the second. Boards without ribs, and
               level cuts less than half a millimetre off the ribs, which a plan takes for cuts on them, have no such bound.

projected_width  Where the wall stands over the whole height of a row that is as high as a board, one piece holds the whole
               upright line there, and nothing else of its board lies over or under that line. Where a profiled lower edge
               stands on the row below, or on the base trim, the piece reaches the lower edge of its board. Either way a point
               of the foot of the row takes a place of its own on the lower edge of some board, which is as long as the board.
               The same holds for heads and upper edges. A gable that rises row by row on lapped boards needs the length of its
               rows' feet, not of their middles: the triangle over a rake fits no other rake. With square edges a narrow piece
               under a rake may be cut from another height of the board, and only the upright lines count.

row_boxes      What ``row_boxes`` finds: pieces are cut as boxes, so notches at openings take their width too, and a kerf goes
               between neighbours. It holds for rows whose boards are whole but for the first and the last of a run; in rows
               whose seams keep clear of opening corners, for all layouts in which they do.

Stock offcuts count as what they could give at best: their area, their lines, and their width where a factory edge or full height
makes it count. What they can give is taken off what has to be bought.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.boards.board_cutting import LayoutBound, LayoutBoundKind, StockOffcut
from storeyrod.boards.cutting_items import BoardSize
from storeyrod.boards.cutting_job import CutPiece
from storeyrod.boards.pieces import Piece
from storeyrod.boards.row_boxes import LINES, BoxedFace, Boxes, Line, boxes_of
from storeyrod.boards.runs import HAIRLINE
from storeyrod.geometry.intervals import Interval, intersection, total, union
from storeyrod.geometry.ticks import ROUNDING_GUARD, TICKS_PER_MM, square_metres, ticks
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.checks import OFF_COURSE_MM
from storeyrod.wall.system import System

_TICK: Final = 1.0
"""How near a line stands to a rib line: just over it, or just under it."""


@formula(
    symbol="n_area",
    expression="Max(0, ceiling((A - A_stock)/(l*h) - tolerance))",
    unit="count",
    inputs={"A": "m2", "A_stock": "m2", "l": "m", "h": "m", "tolerance": "count"},
    clause=GEOMETRY,
)
def boards_by_area(*, A: float, A_stock: float, l: float, h: float, tolerance: float) -> float:  # noqa: E741, N803  symbols
    """Boards of l by h that an area A takes at least, beside stock offcuts of the area A_stock."""
    return max(0.0, math.ceil((A - A_stock) / (l * h) - tolerance))


@formula(
    symbol="n_strips",
    expression="Max(0, ceiling((L - L_stock)/(m*l) - tolerance))",
    unit="count",
    inputs={"L": "m", "L_stock": "m", "m": "count", "l": "m", "tolerance": "count"},
    clause=GEOMETRY,
)
def boards_by_strips(*, L: float, L_stock: float, m: float, l: float, tolerance: float) -> float:  # noqa: E741, N803  symbols
    """Boards of m courses and length l that level lines of the length L take at least, one line for each course."""
    return max(0.0, math.ceil((L - L_stock) / (m * l) - tolerance))


@formula(
    symbol="n_width",
    expression="Max(0, ceiling((b - b_stock)/l - tolerance))",
    unit="count",
    inputs={"b": "m", "b_stock": "m", "l": "m", "tolerance": "count"},
    clause=GEOMETRY,
)
def boards_by_width(*, b: float, b_stock: float, l: float, tolerance: float) -> float:  # noqa: E741  symbol of the formula
    """Boards of length l that rows of the width b take at least, where each point needs a place on the edge of a board."""
    return max(0.0, math.ceil((b - b_stock) / l - tolerance))


@formula(
    symbol="n_boxes",
    expression="Max(0, ceiling((b + n*k - b_stock)/(l + k) - tolerance))",
    unit="count",
    inputs={"b": "m", "n": "count", "k": "m", "b_stock": "m", "l": "m", "tolerance": "count"},
    clause=GEOMETRY,
)
def boards_by_boxes(*, b: float, n: float, k: float, b_stock: float, l: float, tolerance: float) -> float:  # noqa: E741  symbol of the formula
    """Boards of length l that n boxes of the width b together take at least, side by side with a kerf k between them; b_stock is
    what stock offcuts hold of their widths and kerfs.
    """
    return max(0.0, math.ceil((b + n * k - b_stock) / (l + k) - tolerance))


@dataclass(frozen=True, slots=True)
class BoundedWall:
    """What the bounds are about: some faces and their pieces, the board, and stock offcuts."""

    boxed: Sequence[BoxedFace]
    size: BoardSize
    stock: Sequence[StockOffcut]
    pointer: str

    @property
    def faces(self) -> Sequence[Sequence[CutPiece]]:
        """Pieces, face by face."""
        return [one.pieces for one in self.boxed]


def layout_bound(wall: BoundedWall, area_m2: float, system: System, trace: Trace) -> LayoutBound:
    """The best of the bounds; of equal ones the one named first above. ``area_m2`` is the area of all pieces."""
    length = trace.given(system.board.cover_length_mm * METRES_PER_MILLIMETRE, "/system/board/cover_length_mm")
    height = trace.given(system.board.cover_height_mm * METRES_PER_MILLIMETRE, "/system/board/cover_height_mm")
    guard = trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY)
    stock = trace.measure(
        "A_stock",
        "m2",
        [(one.id, square_metres(one.width * one.height * one.count), "/stock_offcuts") for one in wall.stock],
    )
    by_area = trace.call(boards_by_area, A=area_m2, A_stock=stock, l=length, h=height, tolerance=guard)
    bounds: list[tuple[float, LayoutBoundKind]] = [(by_area, "area")]
    lines = _course_lines(wall)
    if lines is not None:
        courses = trace.count("m", [("courses of a board", lines.courses, "/system/board")])
        strips = trace.call(
            boards_by_strips,
            L=_measured("L", lines.wall, wall.pointer, trace),
            L_stock=_measured("L_stock", lines.stock, "/stock_offcuts", trace),
            m=courses,
            l=length,
            tolerance=guard,
        )
        bounds.append((strips, "course_strips"))
    width, supply = _projected(wall)
    by_width = trace.call(
        boards_by_width,
        b=_measured("b", width, wall.pointer, trace),
        b_stock=_measured("b_stock", supply, "/stock_offcuts", trace),
        l=length,
        tolerance=guard,
    )
    bounds.append((by_width, "projected_width"))
    bounds.append((_by_boxes(wall, system, length, guard, trace), "row_boxes"))
    best = max(count for count, _ in bounds)
    return LayoutBound(int(best), next(kind for count, kind in bounds if count == best))


def _by_boxes(wall: BoundedWall, system: System, length: float, guard: float, trace: Trace) -> float:
    """Boards for the boxes of the rows, on the line where they take most."""
    kerf = wall.size.kerf

    def taken(line: Line) -> tuple[float, Boxes, float]:
        boxes, supply = boxes_of(wall.boxed, wall.size, line), _box_supply(wall, line)
        return boxes.width + boxes.pieces * kerf - supply, boxes, supply

    _, boxes, supply = max((taken(line) for line in LINES), key=lambda row: row[0])
    return trace.call(
        boards_by_boxes,
        b=_measured("b", boxes.width, wall.pointer, trace),
        n=trace.count("n", [("pieces in the rows at least", boxes.pieces, wall.pointer)]),
        k=trace.given(system.board.kerf_mm * METRES_PER_MILLIMETRE, "/system/board/kerf_mm"),
        b_stock=_measured("b_stock", supply, "/stock_offcuts", trace),
        l=length,
        tolerance=guard,
    )


def _box_supply(wall: BoundedWall, line: Line) -> float:
    """Widths of stock offcuts that hold boxes on a line, each with a kerf more."""
    high = wall.size.height if line != "middle" else wall.size.height / 2.0
    held = (one for one in wall.stock if one.height >= high or (line != "middle" and getattr(one.edges, line)))
    return sum((one.width + wall.size.kerf) * one.count for one in held)


def _measured(symbol: str, length: float, pointer: str, trace: Trace) -> float:
    metres = length / TICKS_PER_MM * METRES_PER_MILLIMETRE
    return trace.measure(symbol, "m", [("measured on the layout", metres, pointer)])


@dataclass(frozen=True, slots=True)
class _Lines:
    """Length of level lines in the wall and in stock offcuts, in ticks, and lines in a board."""

    wall: float
    stock: float
    courses: float


def _course_lines(wall: BoundedWall) -> _Lines | None:
    """The lines just over the rib lines or just under them, whichever are longer; none where pieces do not keep to ribs."""
    pitch = wall.size.rib_pitch
    pieces = [one.piece for face in wall.faces for one in face]
    if pitch is None or wall.size.height % pitch or not all(_keeps_to_ribs(one, pitch) for one in pieces):
        return None
    courses = wall.size.height // pitch
    stock = sum(one.width * math.ceil(one.height / pitch) * one.count for one in wall.stock)
    lengths = [sum(_lines_through(one, pitch, over) for one in pieces) for over in (0.0, pitch - _TICK)]
    return _Lines(max(lengths), stock, courses)


def _keeps_to_ribs(piece: Piece, pitch: float) -> bool:
    """Whether foot and level edges lie on rib lines, or clearly off them and so are cut as they lie."""
    return all(_is_plain(level - piece.row.bottom, pitch) for level in _levels(piece))


def _levels(piece: Piece) -> Iterator[float]:
    yield piece.bottom
    for ring in piece.part.rings:
        yield from (y for (_, y), (_, other) in zip(ring, (*ring[1:], ring[0]), strict=True) if y == other)


def _is_plain(height: float, pitch: float) -> bool:
    off = min(height % pitch, -height % pitch)
    return off <= HAIRLINE or off > ticks(OFF_COURSE_MM)


def _lines_through(piece: Piece, pitch: float, over: float) -> float:
    """Length of the lines in a piece that stand ``over`` the course lines of its row."""
    origin = piece.row.bottom + over
    first, behind = math.ceil((piece.bottom - origin) / pitch), math.ceil((piece.top - origin) / pitch)
    if not piece.part.rings:
        return piece.width * (behind - first)
    return sum(total(piece.region.level_runs(origin + line * pitch)) for line in range(first, behind))


def _projected(wall: BoundedWall) -> tuple[float, float]:
    """Width on the lower or on the upper edges of boards, whichever is longer, and what stock offcuts have of it."""
    high = [one for one in wall.stock if one.height == wall.size.height]
    sides = []
    for side in ("bottom", "top"):
        width = sum(_edge_width(pieces, wall.size, is_foot=side == "bottom") for pieces in wall.faces)
        supply = sum(one.width * one.count for one in wall.stock if one in high or getattr(one.edges, side))
        sides.append((width, supply))
    return max(sides, key=lambda row: row[0] - row[1])


def _edge_width(pieces: Sequence[CutPiece], size: BoardSize, *, is_foot: bool) -> float:
    """Width of a face's rows that takes places on the lower edges of boards, or on the upper ones."""
    met = _met(pieces, is_foot=is_foot)
    taken: dict[tuple[int, float], list[Interval]] = {}
    for one in pieces:
        piece = one.piece
        runs = taken.setdefault((piece.row.number, piece.row.bottom), [])
        if one.item.height == size.height:
            runs += _whole_height(piece)
        level = piece.bottom if is_foot else piece.top
        if one.item.needs.bottom if is_foot else one.item.needs.top:
            runs += intersection(_level_end(piece, is_foot=is_foot), met.get(level, []))
    return sum(total(union(runs)) for runs in taken.values())


def _met(pieces: Sequence[CutPiece], *, is_foot: bool) -> dict[float, list[Interval]]:
    """By level, what feet stand on: heads of the row below and the base; or what heads carry: feet of the row above."""
    found: dict[float, list[Interval]] = {}
    for one in pieces:
        level = one.piece.top if is_foot else one.piece.bottom
        found.setdefault(level, []).extend(_level_end(one.piece, is_foot=not is_foot))
        if is_foot and one.base:
            found.setdefault(one.piece.bottom, []).extend(one.base)
    return {level: union(runs) for level, runs in found.items()}


def _level_end(piece: Piece, *, is_foot: bool) -> list[Interval]:
    """Where a piece reaches its foot or its head."""
    if not piece.part.rings:
        return [(piece.left, piece.right)]
    return piece.region.level_runs(piece.bottom if is_foot else piece.top - _TICK)


def _whole_height(piece: Piece) -> list[Interval]:
    if not piece.part.rings:
        return [(piece.left, piece.right)]
    return piece.region.clear_runs(piece.bottom, piece.top)
