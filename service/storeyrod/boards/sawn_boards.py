"""Boards as they are sawn, from a job's sheets: pieces at their places, the tree of offcuts, and boards that are cut alike."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from storeyrod.boards.board_cutting import CutBlank, Offcut, Pattern, PatternPlace, PiecePlace, StockOffcut
from storeyrod.boards.cutting_items import BoardSize
from storeyrod.boards.cutting_job import CutPiece, Hole, Sawn, first_piece
from storeyrod.boards.released import Worth
from storeyrod.boards.sawn_parts import SawnPart, sawn_parts
from storeyrod.cutting.plan import Cut, Rest
from storeyrod.cutting.stock import FACTORY, Edges


@dataclass(frozen=True, slots=True)
class SawnBoards:
    """All boards and stock offcuts that are cut, their patterns, and where every piece lies."""

    places: tuple[PiecePlace, ...]
    blanks: tuple[CutBlank, ...]
    patterns: tuple[Pattern, ...]


@dataclass(slots=True)
class _Node:
    """An offcut in the making: index of the one that it is cut out of, and the pieces that come out of it."""

    parent: int | None
    released_by: int | None
    part: SawnPart
    pieces: list[int] = field(default_factory=list)


@dataclass(slots=True)
class _Board:
    """A board or stock offcut in the making; pieces with the lower left corners of their boxes."""

    source: tuple[int, int] | None
    first: int
    whole: SawnPart
    pieces: list[tuple[int, float, float]] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    nodes: list[_Node] = field(default_factory=list)


def sawn_boards(
    size: BoardSize, pieces: Sequence[CutPiece], stock: Sequence[StockOffcut], sawn: Sequence[Sawn], worth: Worth
) -> SawnBoards:
    """Put every sheet and all that is cut from what its pieces set free into one board."""
    bench = _Bench(size, pieces, {one.source: one for one in sawn if isinstance(one.source, Hole)})
    boards = []
    for one in sawn:
        if not isinstance(one.source, Hole):
            blank = stock[one.source[0]] if one.source is not None else None
            whole = SawnPart(None, 0.0, 0.0, size.width, size.height, FACTORY)
            if blank is not None:
                whole = SawnPart(None, 0.0, 0.0, blank.width, blank.height, blank.edges)
            board = _Board(one.source, first_piece(one, pieces), whole)
            bench.saw(board, one, whole, None, None)
            boards.append(board)
    return _numbered(boards, pieces, stock, worth)


@dataclass(frozen=True, slots=True)
class _Bench:
    """Where boards are sawn; ``freed`` says how rectangles are cut that pieces set free."""

    size: BoardSize
    pieces: Sequence[CutPiece]
    freed: dict[Hole, Sawn]

    def saw(self, board: _Board, sawn: Sawn, whole: SawnPart, node: int | None, released_by: int | None) -> None:
        """Saw a part of a board by a sheet; ``node`` is the offcut that the part is, none for the board itself."""
        cuts = [_moved(cut, whole.x, whole.y) for cut in sawn.sheet.cuts]
        board.cuts += cuts
        corners = {
            (whole.x + place.x, whole.y + place.y): piece
            for place, piece in zip(sawn.sheet.places, sawn.pieces, strict=True)
        }
        nodes: dict[int, int | None] = {0: node}
        for index, part in enumerate(sawn_parts(whole, cuts, self.size.kerf)):
            piece = None if part.is_cut else corners.get((part.x, part.y))
            parent = nodes[part.parent] if part.parent is not None else node
            if piece is not None:
                self._place(board, piece, part, parent)
            elif index:
                nodes[index] = len(board.nodes)
                board.nodes.append(_Node(parent, None, part))

    def _place(self, board: _Board, piece: int, part: SawnPart, node: int | None) -> None:
        """Take a piece off, and what it sets free."""
        board.pieces.append((piece, part.x, part.y))
        _credit(board, node, piece)
        for index, free in enumerate(self.pieces[piece].released):
            sides = (free.left, free.right, free.bottom, free.top)
            edges = Edges(*(side and edge for side, edge in zip(sides, part.edges, strict=True)))
            whole = SawnPart(None, part.x + free.x, part.y + free.y, free.width, free.height, edges)
            board.nodes.append(_Node(node, piece, whole))
            inner = self.freed.get(Hole(piece, index))
            if inner is not None:
                self.saw(board, inner, whole, len(board.nodes) - 1, piece)


def _credit(board: _Board, node: int | None, piece: int) -> None:
    while node is not None:
        board.nodes[node].pieces.append(piece)
        node = board.nodes[node].parent


def _moved(cut: Cut, x: float, y: float) -> Cut:
    along, across = (x, y) if cut.upright else (y, x)
    return Cut(cut.upright, cut.at + along, cut.start + across, cut.end + across)


def _numbered(
    boards: Sequence[_Board], pieces: Sequence[CutPiece], stock: Sequence[StockOffcut], worth: Worth
) -> SawnBoards:
    """Boards in the order in which the wall asks for them, behind them stock offcuts in the order of the request."""
    new = sorted((one for one in boards if one.source is None), key=lambda one: min(one.pieces))
    old = sorted((one for one in boards if one.source is not None), key=lambda one: one.source or (0, 0))
    places: dict[int, PiecePlace] = {}
    blanks: list[CutBlank] = []
    alike: dict[Pattern, list[int]] = {}
    numbers: dict[int | None, int] = {}
    for index, board in enumerate((*new, *old)):
        row = None if board.source is None else board.source[0]
        numbers[row] = numbers.get(row, 0) + 1
        at_hand = None if row is None else stock[row].id
        at = alike.setdefault(_pattern(board, pieces, at_hand), [])
        at.append(index)
        for piece, x, y in board.pieces:
            places[piece] = PiecePlace(index, x, y, row is None and piece == board.first)
        blanks.append(_blank(board, numbers[row], at_hand, worth))
    rows = enumerate(alike.items(), start=1)
    patterns = tuple(replace(pattern, number=number, blanks=tuple(at)) for number, (pattern, at) in rows)
    return SawnBoards(tuple(places[index] for index in range(len(pieces))), tuple(blanks), patterns)


def _blank(board: _Board, number: int, at_hand: str | None, worth: Worth) -> CutBlank:
    label = str(number) if at_hand is None else f"{at_hand}.{number}"
    pieces = tuple(piece for piece, _, _ in board.pieces)
    return CutBlank(number, at_hand, pieces, tuple(_offcuts(board, label, worth)))


def _pattern(board: _Board, pieces: Sequence[CutPiece], source: str | None) -> Pattern:
    """How a board is cut, still without a number."""
    boxes = [(pieces[piece], x, y) for piece, x, y in board.pieces]
    return Pattern(
        0,
        source,
        board.whole.width,
        board.whole.height,
        board.whole.edges,
        tuple(board.cuts),
        tuple(PatternPlace(x, y, one.item.width, one.item.height) for one, x, y in boxes),
        tuple(_rounded(one) for one, _, _ in boxes),
        tuple(
            Rest(node.part.x, node.part.y, node.part.width, node.part.height, node.part.edges)
            for node in board.nodes
            if not node.pieces and not node.part.is_cut
        ),
        (),
    )


def _rounded(piece: CutPiece) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Shape in whole ticks: rakes are clipped to fractions of a tick, which make no other pattern."""
    return tuple(tuple((float(round(x)), float(round(y))) for x, y in ring) for ring in piece.piece.shape)


def _offcuts(board: _Board, label: str, worth: Worth) -> Iterator[Offcut]:
    """Offcuts with their ids."""
    for index, node in enumerate(board.nodes, start=1):
        part = node.part
        yield Offcut(
            f"{label}.{index}",
            None if node.parent is None else f"{label}.{node.parent + 1}",
            node.released_by,
            part.x,
            part.y,
            part.width,
            part.height,
            part.edges,
            tuple(node.pieces),
            not node.pieces and not part.is_cut and part.width >= worth.width and part.height >= worth.height,
        )
