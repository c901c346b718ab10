"""The layout that is built: of the plain one and of some that follow the offcuts, the one that takes fewest boards.

No rule is given up for a board: a layout with more findings than the plain one is not taken.
"""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from storeyrod.boards.board_cutting import BoardCutting, StockOffcut
from storeyrod.boards.cutting_plan import cut_boards, quick_boards
from storeyrod.boards.layout import BoardLayout, lay_boards, limits_of
from storeyrod.boards.offcut_pool import OffcutPool
from storeyrod.cutting.stock import Effort
from storeyrod.geometry.ticks import ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.wall import Wall

WORTHS: Final = (0.95, 0.8)
"""Shares of its area at which an offcut is counted, one layout for each; found by trial."""

STIRRED_WORTH: Final = 0.8
"""The share for the layouts that follow, each with its own small changes of cost."""

PIECES_LAID: Final[Mapping[Effort, int]] = MappingProxyType({"quick": 0, "standard": 2_500, "thorough": 40_000})
"""Pieces of all layouts that are tried beside those of ``WORTHS``: small walls are laid in many ways, large ones in few."""

MOST_LAYOUTS: Final = 16

SHORTLISTED: Final = 4
"""Layouts at most that are cut with all rules, beside the plain one, of those that a count without offcuts finds best."""

IN_FULL: Final = 3
"""With thorough effort so many of these are cut with all of it before one is chosen."""


def chosen_boards(
    wall: Wall,
    plans: Sequence[JointPlan],
    stock_offcuts: Sequence[StockOffcut],
    effort: Effort,
    trace: Trace = SILENT,
) -> tuple[BoardLayout, BoardCutting]:
    """The layout that is built, and how it is cut."""
    layout = chosen_layout(wall, plans, effort)
    return layout, cut_boards(layout, stock_offcuts, effort, trace)


def chosen_layout(wall: Wall, plans: Sequence[JointPlan], effort: Effort) -> BoardLayout:
    """The layout with fewest boards, stock offcuts left out; so every room that asks with one request shows the same one.

    Of layouts that take equally many, the plain one, then the first that was tried.
    """
    plain = lay_boards(wall, plans)
    if effort == "quick":
        return plain
    least = cut_boards(plain, (), "quick").layout_bound.count
    layouts, counts = [plain], [quick_boards(plain)]
    if counts[0] == least:
        return plain
    for layout in _following(wall, plans, effort, len(plain.pieces)):
        if lacks_of(layout) <= lacks_of(plain):
            layouts.append(layout)
            counts.append(quick_boards(layout))
            if counts[-1] == least:
                break
    shortlisted = max(1, min(SHORTLISTED, PIECES_LAID[effort] // len(plain.pieces)))
    best = sorted(range(1, len(layouts)), key=lambda number: (counts[number], number))[:shortlisted]
    short = _ranked(layouts, [0, *best], "quick")
    if effort == "thorough":
        short = _ranked(layouts, short[:IN_FULL], effort)
    return layouts[short[0]]


def _ranked(layouts: Sequence[BoardLayout], numbers: Sequence[int], effort: Effort) -> list[int]:
    """Numbers of layouts by the boards that they take, all rules of cutting kept; of two alike, the one tried first."""
    if len(numbers) == 1:
        return list(numbers)
    counts = {number: cut_boards(layouts[number], (), effort).boards_count for number in numbers}
    return sorted(numbers, key=lambda number: (counts[number], number))


def _following(wall: Wall, plans: Sequence[JointPlan], effort: Effort, pieces: int) -> Iterator[BoardLayout]:
    """Layouts that follow the offcuts."""
    board = wall.system.board
    stirred = min(MOST_LAYOUTS, PIECES_LAID[effort] // max(1, pieces))
    ways = [*((worth, 0) for worth in WORTHS), *((STIRRED_WORTH, number) for number in range(1, stirred + 1))]
    for worth, stir in ways:
        pool = OffcutPool(limits_of(board), ticks(board.kerf_mm), board.side_edges != "square", worth, stir)
        yield lay_boards(wall, plans, pool)


def lacks_of(layout: BoardLayout) -> int:
    """Pieces that some rule of the layout is not kept for."""
    return sum(len(item["where"].get("pieces", [])) for item in layout.findings)
