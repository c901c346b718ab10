"""The layout that is built: of the plain one and of some that follow the offcuts, the one that takes fewest boards.

No rule is given up for a board: a layout with more findings than the plain one is not taken.
"""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from storeyrod.boards.board_cutting import BoardCutting, StockOffcut
from storeyrod.boards.cutting_plan import cut_boards, least_boards, quick_boards
from storeyrod.boards.layout import BoardLayout, lay_boards, limits_of
from storeyrod.boards.offcut_pool import OffcutPool
from storeyrod.boards.relaying import Relaying, lacks, relaying_of
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

MOST_LAYOUTS: Final = 6

SHORTLISTED: Final = 4
"""Layouts at most that are counted with what pieces set free, beside the plain one, of those that a count without finds best."""

PIECES_LAID_ANEW: Final[Mapping[Effort, int]] = MappingProxyType({"quick": 0, "standard": 3_000, "thorough": 10_000})
"""Pieces of the wall, counted once for each face that is laid anew."""

MOST_TURNS: Final[Mapping[Effort, int]] = MappingProxyType({"quick": 0, "standard": 24, "thorough": 100})
"""Faces laid anew at most, from each of ``STARTS`` layouts."""

STARTS: Final = 2
"""Layouts whose faces are laid anew, from the best."""

LEAST_ROUNDS: Final = 2
"""Walls whose faces cannot all be laid anew so often are not laid so at all."""


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
    least = least_boards(plain)
    starts = [relaying_of(wall, plans, plain, least)]
    if starts[0].count <= least:
        return plain
    for layout in _shortlisted(wall, plans, effort, plain, least):
        starts.append(relaying_of(wall, plans, layout, least))
    starts.sort(key=lambda start: start.count)
    turns = min(MOST_TURNS[effort], PIECES_LAID_ANEW[effort] // len(plain.pieces))
    if turns < LEAST_ROUNDS * len(plain.faces):
        return starts[0].layout
    return _laid_anew(wall, starts[:STARTS], turns, least)


def _laid_anew(wall: Wall, starts: Sequence[Relaying], turns: int, least: int) -> BoardLayout:
    """The best of what the best layouts come to when their faces are laid anew: the search goes downhill only, so it needs two tries."""
    best, fewest = starts[0].layout, starts[0].count
    for start in starts:
        if fewest <= least:
            break
        layout, count = start.run(turns, least, lambda worth, stir: _pool(wall, worth, stir))
        if count < fewest:
            best, fewest = layout, count
    return best


def _shortlisted(
    wall: Wall, plans: Sequence[JointPlan], effort: Effort, plain: BoardLayout, least: int
) -> list[BoardLayout]:
    """Layouts that follow the offcuts: those that a count without what pieces set free finds best."""
    layouts: list[BoardLayout] = []
    counts: list[int] = []
    for layout in _following(wall, plans, effort, len(plain.pieces)):
        if lacks(layout.findings) <= lacks(plain.findings):
            layouts.append(layout)
            counts.append(quick_boards(layout))
            if counts[-1] <= least:
                break
    most = max(1, min(SHORTLISTED, PIECES_LAID[effort] // len(plain.pieces)))
    best = sorted(range(len(layouts)), key=lambda number: (counts[number], number))[:most]
    return [layouts[number] for number in best]


def _following(wall: Wall, plans: Sequence[JointPlan], effort: Effort, pieces: int) -> Iterator[BoardLayout]:
    """Layouts that follow the offcuts."""
    stirred = min(MOST_LAYOUTS, PIECES_LAID[effort] // max(1, pieces))
    ways = [*((worth, 0) for worth in WORTHS), *((STIRRED_WORTH, number) for number in range(1, stirred + 1))]
    for worth, stir in ways:
        yield lay_boards(wall, plans, _pool(wall, worth, stir))


def _pool(wall: Wall, worth: float, stir: int) -> OffcutPool:
    """An empty pool."""
    board = wall.system.board
    return OffcutPool(limits_of(board), ticks(board.kerf_mm), board.side_edges != "square", worth, stir)
