"""Cutting pieces from boards: straight cuts from edge to edge, never turned, each piece at its own height in the board.

Pieces are taken widest first, or highest first, or largest first, whichever needs fewest boards; each goes into the tightest
offcut that takes it. A piece is sawn off upright over the whole height of its offcut and then trimmed level, so that what is
left beside it keeps its height. The count is what this rule reaches, not a proved least.
"""

from bisect import bisect_left, insort
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import count
from typing import Final

from storeyrod.boards.pieces import Piece
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece lies in the board that it is cut from: number of the board, from 1, and lower left corner in ticks."""

    board: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Leftover:
    """A rectangle that is left of a board, in ticks from the board's lower left corner."""

    board: int
    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """Boards and the place of every piece in them; ``places`` runs parallel to the pieces handed in."""

    boards_count: int
    places: tuple[Place, ...]
    leftovers: tuple[Leftover, ...]


@dataclass(frozen=True, slots=True)
class _Blank:
    """What a board offers and what a cut costs, in ticks; ``handed`` when its sides are profiled."""

    length: float
    height: float
    kerf: float
    handed: bool


_Shelf = tuple[float, float, bool, bool]
"""Foot and head of an offcut in its board, and whether its left and right side are factory edges that somebody needs."""

_Offcut = tuple[float, int, float]
"""Width, board and left end of an offcut."""


@dataclass(slots=True)
class _Bench:
    """Boards opened so far and the offcuts at hand, by shelf and then by width."""

    blank: _Blank
    boards: int = 0
    shelves: dict[_Shelf, list[_Offcut]] = field(default_factory=dict)

    def put(self, shelf: _Shelf, offcut: _Offcut) -> None:
        """Keep an offcut; one without width or height is none."""
        if offcut[0] > 0.0 and shelf[1] > shelf[0]:
            insort(self.shelves.setdefault(shelf, []), offcut)

    def take(self, piece: Piece) -> tuple[_Shelf, _Offcut]:
        """The tightest offcut that takes a piece, else a new board: least height, then least width, then longest at hand."""
        needs_left, needs_right = self.needs(piece)
        foot, head, width = piece.lift, piece.lift + piece.height, piece.width
        best: tuple[float, int, _Offcut, _Shelf] | None = None
        for shelf, offcuts in self.shelves.items():
            low, high, left, right = shelf
            if low > foot or high < head or needs_left > left or needs_right > right:
                continue
            index = bisect_left(offcuts, (width,))
            if index == len(offcuts):
                continue
            option = (high - low, left + right, offcuts[index], shelf)
            if best is None or option < best:
                best = option
        if best is None:
            self.boards += 1
            return (0.0, self.blank.height, self.blank.handed, self.blank.handed), (self.blank.length, self.boards, 0.0)
        _, _, offcut, shelf = best
        offcuts = self.shelves[shelf]
        del offcuts[bisect_left(offcuts, offcut)]
        if not offcuts:
            del self.shelves[shelf]
        return shelf, offcut

    def needs(self, piece: Piece) -> tuple[bool, bool]:
        """Whether a piece needs the factory edge at its left and at its right."""
        return self.blank.handed and piece.meets_left, self.blank.handed and piece.meets_right

    def cut(self, piece: Piece) -> Place:
        """Saw a piece off and keep what is left."""
        (low, high, left, right), (width, board, x) = self.take(piece)
        rest = max(0.0, width - piece.width - self.blank.kerf)
        alone = piece.width == width
        if self._from_right(piece, left=left, right=right):
            place = x + width - piece.width
            own_left, own_right = alone and left, right
            self.put((low, high, left, False), (rest, board, x))
        else:
            place = x
            own_left, own_right = left, alone and right
            self.put((low, high, False, right), (rest, board, x + width - rest))
        kerf, foot, head = self.blank.kerf, piece.lift, piece.lift + piece.height
        self.put((low, foot - kerf, own_left, own_right), (piece.width, board, place))
        self.put((head + kerf, high, own_left, own_right), (piece.width, board, place))
        return Place(board, place, foot)

    def _from_right(self, piece: Piece, *, left: bool, right: bool) -> bool:
        """Sides that a piece does not need are spared for one that does."""
        needs_left, needs_right = self.needs(piece)
        return needs_right or (left and not right and not needs_left)


_Key = Callable[[Piece], tuple[float, ...]]

_ORDERS: Final[tuple[_Key, ...]] = (
    lambda piece: (-piece.width, -piece.height, piece.lift),
    lambda piece: (-piece.height, -piece.width, piece.lift),
    lambda piece: (-piece.width * piece.height, -piece.width, piece.lift),
)


def cutting_plan(pieces: Sequence[Piece], system: System, apart: Sequence[CuttingPlan] = ()) -> CuttingPlan:
    """Boards for the pieces; ``apart`` are plans for consecutive parts of them, taken over when they need fewer boards."""
    board = system.board
    blank = _Blank(
        ticks(board.cover_length_mm), ticks(board.cover_height_mm), ticks(board.kerf_mm), board.side_edges != "square"
    )
    if len(apart) == 1:
        return apart[0]
    plans = [_plan(pieces, blank, order) for order in _ORDERS] + ([_joined(apart)] if apart else [])
    return _numbered(min(plans, key=lambda plan: plan.boards_count))


def _plan(pieces: Sequence[Piece], blank: _Blank, order: _Key) -> CuttingPlan:
    """A plan that takes the cut pieces in one order; whole boards come after them."""
    bench = _Bench(blank)
    cut = [(order(piece), piece.id, index) for index, piece in enumerate(pieces) if piece.kind != "full"]
    placed = {index: bench.cut(pieces[index]) for _, _, index in sorted(cut)}
    leftovers = [
        Leftover(board, x, low, width, high - low)
        for (low, high, _, _), offcuts in bench.shelves.items()
        for width, board, x in offcuts
    ]
    whole = count(bench.boards + 1)
    places = [placed[index] if index in placed else Place(next(whole), 0.0, 0.0) for index in range(len(pieces))]
    return CuttingPlan(bench.boards + len(pieces) - len(cut), tuple(places), tuple(leftovers))


def _joined(plans: Sequence[CuttingPlan]) -> CuttingPlan:
    """The plans one behind the other."""
    places: list[Place] = []
    leftovers: list[Leftover] = []
    boards = 0
    for plan in plans:
        places += [Place(place.board + boards, place.x, place.y) for place in plan.places]
        leftovers += [Leftover(rest.board + boards, rest.x, rest.y, rest.width, rest.height) for rest in plan.leftovers]
        boards += plan.boards_count
    return CuttingPlan(boards, tuple(places), tuple(leftovers))


def _numbered(plan: CuttingPlan) -> CuttingPlan:
    """The plan with its boards numbered in the order in which the wall asks for them."""
    numbers: dict[int, int] = {}
    for place in plan.places:
        numbers.setdefault(place.board, len(numbers) + 1)
    leftovers = (Leftover(numbers[rest.board], rest.x, rest.y, rest.width, rest.height) for rest in plan.leftovers)
    return CuttingPlan(
        plan.boards_count,
        tuple(Place(numbers[place.board], place.x, place.y) for place in plan.places),
        tuple(sorted(leftovers, key=lambda rest: (rest.board, rest.x, rest.y))),
    )


def useful(leftovers: Sequence[Leftover], least_width: float, least_height: float) -> Iterator[Leftover]:
    """Leftovers large enough to be kept."""
    return (rest for rest in leftovers if rest.width >= least_width and rest.height >= least_height)
