"""Pieces that are cut together: which of them need whole boards, what the rest is cut from, and which piece lies where.

Pieces whose boxes ask the same of a board are one item to the engine; afterwards every place of its plan gets one of them, in the
order of the wall. Pieces beside corners go into new boards first, one into each, so that they need not be offcuts.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from storeyrod.boards.board_cutting import StockOffcut
from storeyrod.boards.cutting_items import BoardSize
from storeyrod.boards.pieces import Piece
from storeyrod.boards.released import Released
from storeyrod.cutting.cut import cut
from storeyrod.cutting.plan import CuttingPlan, Place, Sheet, Work
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Edges, Effort, Item, Saw
from storeyrod.geometry.intervals import Interval

_NOTHING: Final = CuttingPlan((), 0, 0, "area", None, "proved", Work(0, 0, 0))
"""The plan where no piece has to be cut."""


NEAR: Final = 0.01
"""Share of the boards that any layout needs: so many more are as good as proved."""


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece with what it asks of a board, where its foot stands on the base, what its box sets free, and whether it stands
    beside a corner.
    """

    piece: Piece
    item: Item
    base: tuple[Interval, ...]
    released: tuple[Released, ...]
    at_corner: bool


@dataclass(frozen=True, slots=True)
class Hole:
    """A rectangle that a piece sets free: index of the piece, and which of its rectangles it is."""

    piece: int
    rectangle: int


_Source = tuple[int, int] | Hole | None


@dataclass(frozen=True, slots=True)
class Sawn:
    """One blank and how it is sawn: a new board, a stock offcut (its index and number) or a rectangle that a piece sets free.

    ``pieces`` run parallel to the places of the sheet.
    """

    source: tuple[int, int] | Hole | None
    sheet: Sheet
    pieces: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class CutJob:
    """What is cut and how; the lower bound counts all boards, whole ones too."""

    sawn: tuple[Sawn, ...]
    bought: int
    plan: CuttingPlan
    whole: int

    @property
    def lower_bound(self) -> int:
        """Boards that no cutting of these pieces can do without."""
        return self.whole + self.plan.lower_bound


@dataclass(frozen=True)
class _Job:
    size: BoardSize
    pieces: Sequence[CutPiece]
    stock: Sequence[StockOffcut]

    @cached_property
    def whole(self) -> dict[int, tuple[int, int] | None]:
        """Pieces that take a whole board, and the stock offcut that is one, where there is any."""
        at_hand = {
            index: offcut.count
            for index, offcut in enumerate(self.stock)
            if offcut.width == self.size.width and offcut.height == self.size.height
        }
        found: dict[int, tuple[int, int] | None] = {}
        for index, piece in enumerate(self.pieces):
            if piece.item.width == self.size.width and piece.item.height == self.size.height:
                fits = (
                    row for row, left in at_hand.items() if left and _covers(self.stock[row].edges, piece.item.needs)
                )
                row = next(fits, None)
                found[index] = None if row is None else (row, self.stock[row].count - at_hand[row] + 1)
                if row is not None:
                    at_hand[row] -= 1
        return found

    @cached_property
    def classes(self) -> dict[Item, list[int]]:
        """Pieces by what they ask of a board, without those that take a whole one."""
        found: dict[Item, list[int]] = {}
        for index, piece in enumerate(self.pieces):
            if index not in self.whole:
                found.setdefault(piece.item, []).append(index)
        return dict(sorted(found.items(), key=_rank))

    @cached_property
    def items(self) -> list[Item]:
        """The classes with their counts."""
        return [
            Item(item.width, item.height, item.needs, item.phase, len(pieces)) for item, pieces in self.classes.items()
        ]

    @cached_property
    def stock_blanks(self) -> list[Blank]:
        """Stock offcuts that are not used as whole boards."""
        used = [source[0] for source in self.whole.values() if source is not None]
        return [
            Blank(one.width, one.height, one.edges, _stock_phase(one, self.size), one.count - used.count(index))
            for index, one in enumerate(self.stock)
        ]

    def holes(self, *, surely: bool) -> dict[Blank, list[Hole]]:
        """Rectangles that pieces set free and that some other piece fits into, by what they are as blanks.

        ``surely`` with the factory edges that they have wherever the piece is cut; else with all that they may have.
        """
        found: dict[Blank, list[Hole]] = {}
        useful: dict[Blank, bool] = {}
        for index, piece in enumerate(self.pieces):
            for place, rectangle in enumerate(piece.released):
                blank = self._hole_blank(piece, rectangle, surely=surely)
                if blank not in useful:
                    useful[blank] = any(_may_hold(blank, item) for item in self.classes)
                if useful[blank]:
                    found.setdefault(blank, []).append(Hole(index, place))
        return dict(sorted(found.items(), key=lambda row: (-row[0].width * row[0].height, row[0].phase, row[0].edges)))

    def _hole_blank(self, piece: CutPiece, rectangle: Released, *, surely: bool) -> Blank:
        item, pitch = piece.item, self.size.rib_pitch
        sides = Edges(rectangle.left, rectangle.right, rectangle.bottom, rectangle.top)
        if surely:
            kept = self._edges_of_full_height if item.height == self.size.height else NO_EDGE
            sides = _both(sides, _either(item.needs, kept))
        phase = 0.0 if pitch is None else (item.phase + rectangle.y) % pitch
        return Blank(rectangle.width, rectangle.height, sides, phase, None)

    @cached_property
    def _edges_of_full_height(self) -> Edges:
        """Factory edges that a piece as high as a board has, whatever it is cut from."""
        high = [one.edges for one in self.stock if one.height == self.size.height]
        return Edges(False, False, all(edges.bottom for edges in high), all(edges.top for edges in high))


def cut_job(
    size: BoardSize, pieces: Sequence[CutPiece], stock: Sequence[StockOffcut], effort: Effort, floor: int
) -> CutJob:
    """Cut pieces from new boards, stock offcuts and what other pieces set free.

    Rectangles that pieces set free are used only where that saves boards; with ``floor`` boards none can be saved, and near to it
    the list gets no bound by search of its own.
    """
    job = _Job(size, pieces, stock)
    whole = sum(source is None for source in job.whole.values())
    plain = _plan(job, {}, effort)
    if whole + plain.bought <= floor:
        return _made(job, plain, {}, plain)
    surely, perhaps = job.holes(surely=True), job.holes(surely=False)
    freed = _plan(job, surely, effort) if surely else plain
    if perhaps == surely:
        bound = freed
    elif whole + min(plain.bought, freed.bought) <= (1.0 + NEAR) * floor:
        bound = replace(_plan(job, perhaps, "quick"), work=freed.work)
    else:
        bound = _plan(job, perhaps, effort)
    if freed.bought < plain.bought:
        return _made(job, freed, surely, bound)
    return _made(job, plain, {}, bound)


def quick_count(size: BoardSize, items: Iterable[Item]) -> int:
    """Boards for some pieces in a quick search, without stock and without what they set free; to tell layouts apart."""
    counts = Counter(items)
    whole = [item for item in counts if item.width == size.width and item.height == size.height]
    wanted = [replace(item, count=count) for item, count in counts.items() if item not in whole]
    boards = sum(counts[item] for item in whole)
    if not wanted:
        return boards
    board = Blank(size.width, size.height, FACTORY, 0.0, None)
    return boards + cut(wanted, board, (), Saw(size.kerf, size.rib_pitch), "quick").bought


def boards_for(size: BoardSize, pieces: Sequence[CutPiece], effort: Effort, aim: int) -> int:
    """New boards for some pieces, with what they set free where ``aim`` is not reached without."""
    job = _Job(size, pieces, ())
    bought = len(job.whole) + _plan(job, {}, effort).bought
    holes = job.holes(surely=True) if bought > aim else {}
    return min(bought, len(job.whole) + _plan(job, holes, effort).bought) if holes else bought


_Holes = Mapping[Blank, list[Hole]]


def _made(job: _Job, plan: CuttingPlan, holes: _Holes, bound: CuttingPlan) -> CutJob:
    whole = sum(source is None for source in job.whole.values())
    return CutJob((*_sawn_whole(job), *_sawn(job, plan, holes)), whole + plan.bought, bound, whole)


def _plan(job: _Job, holes: _Holes, effort: Effort) -> CuttingPlan:
    if not job.items:
        return _NOTHING
    board = Blank(job.size.width, job.size.height, FACTORY, 0.0, None)
    freed = [Blank(one.width, one.height, one.edges, one.phase, len(at)) for one, at in holes.items()]
    return cut(job.items, board, [*job.stock_blanks, *freed], Saw(job.size.kerf, job.size.rib_pitch), effort)


def _rank(row: tuple[Item, list[int]]) -> tuple[float, ...]:
    item = row[0]
    return -item.width, -item.height, item.phase, *item.needs


def _covers(edges: Edges, needs: Edges) -> bool:
    return all(has or not wants for has, wants in zip(edges, needs, strict=True))


def _both(first: Edges, second: Edges) -> Edges:
    return Edges(*(one and other for one, other in zip(first, second, strict=True)))


def _either(first: Edges, second: Edges) -> Edges:
    return Edges(*(one or other for one, other in zip(first, second, strict=True)))


def _may_hold(blank: Blank, item: Item) -> bool:
    return blank.width >= item.width and blank.height >= item.height and _covers(blank.edges, item.needs)


def _stock_phase(offcut: StockOffcut, size: BoardSize) -> float:
    """Height of its foot over a rib line: it follows from a factory edge at its foot or head."""
    if size.rib_pitch is None or offcut.edges.bottom or not offcut.edges.top:
        return 0.0
    return float(round((size.height - offcut.height) % size.rib_pitch))


def _sawn_whole(job: _Job) -> Iterable[Sawn]:
    whole = Sheet(0, 1, (Place(0, 0.0, 0.0),), (), ())
    return [Sawn(source, whole, (index,)) for index, source in job.whole.items()]


def _sawn(job: _Job, plan: CuttingPlan, holes: _Holes) -> list[Sawn]:
    """Every sheet as often as it is used, with its source and its pieces."""
    sources = _sources(job, holes)
    blanks = [
        (next(sources[sheet.blank]) if sheet.blank else None, sheet)
        for sheet in plan.sheets
        for _ in range(sheet.count)
    ]
    chosen = _chosen(job, blanks)
    return [Sawn(source, sheet, tuple(pieces)) for (source, sheet), pieces in zip(blanks, chosen, strict=True)]


def _sources(job: _Job, holes: _Holes) -> dict[int, Iterator[tuple[int, int] | Hole]]:
    """What there is of every blank of the plan, by its number."""
    used = {source for source in job.whole.values() if source is not None}
    rows: list[list[tuple[int, int] | Hole]] = [
        [(index, number) for number in range(1, offcut.count + 1) if (index, number) not in used]
        for index, offcut in enumerate(job.stock)
    ]
    rows += [list(at) for at in holes.values()]
    return {number: iter(row) for number, row in enumerate(rows, start=1)}


_Slot = tuple[int, int]
"""Index of a blank, and of a place on its sheet."""


def _chosen(job: _Job, blanks: Sequence[tuple[tuple[int, int] | Hole | None, Sheet]]) -> list[list[int]]:
    """A piece for every place, blank by blank."""
    slots: dict[int, list[_Slot]] = {}
    for index, (_, sheet) in enumerate(blanks):
        for place, row in enumerate(sheet.places):
            slots.setdefault(row.item, []).append((index, place))
    chosen = [[-1] * len(sheet.places) for _, sheet in blanks]
    cornered: set[int] = set()
    for item, pieces in enumerate(job.classes.values()):
        corner = [index for index in pieces if job.pieces[index].at_corner]
        free = slots.get(item, [])
        if corner:
            free = _best_first(free, blanks, cornered)
            cornered |= {blank for blank, _ in free[: len(corner)]}
        ranked = [*corner, *(index for index in pieces if not job.pieces[index].at_corner)]
        for (blank, place), index in zip(free, ranked, strict=True):
            chosen[blank][place] = index
    return chosen


def _best_first(
    slots: Sequence[_Slot], blanks: Sequence[tuple[_Source, Sheet]], cornered: Collection[int]
) -> list[_Slot]:
    """Slots for pieces beside corners: one in each new board that has no such piece yet, then the others, then stock and holes."""
    seen = set(cornered)
    ranked: list[tuple[int, _Slot]] = []
    for slot in slots:
        rank = 2 if blanks[slot[0]][0] is not None else int(slot[0] in seen)
        seen.add(slot[0])
        ranked.append((rank, slot))
    return [slot for _, slot in sorted(ranked)]


def first_piece(sawn: Sawn, pieces: Sequence[CutPiece]) -> int:
    """The piece of a board whose cuts come first, so that all others come out of its offcuts: one beside a corner, or else the one
    at the lower left corner of the board.
    """
    corner = [index for index in sawn.pieces if pieces[index].at_corner]
    if corner:
        return min(corner)
    return min(zip(sawn.sheet.places, sawn.pieces, strict=True), key=lambda row: (row[0].x, row[0].y))[1]


def stock_used(stock: Sequence[StockOffcut], sawn: Iterable[Sawn]) -> Mapping[int, int]:
    """How many offcuts of each stock row are used, by its index."""
    found = dict.fromkeys(range(len(stock)), 0)
    for one in sawn:
        if isinstance(one.source, tuple):
            found[one.source[0]] += 1
    return found
