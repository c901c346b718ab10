"""What cutting a layout ends in: every board and stock offcut with its pieces, cuts and offcuts, and the bounds of the count."""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from storeyrod.boards.pieces import Piece
from storeyrod.cutting.plan import Cut, Rest, Status, Work
from storeyrod.cutting.stock import Edges, Item
from storeyrod.findings import Finding

LayoutBoundKind = Literal["area", "course_strips", "projected_width", "row_boxes"]
"""What a bound for any layout rests on; see ``layout_bounds``."""

CuttingBoundKind = Literal["area", "large_pieces", "two_stage_lp", "any_stage_lp", "any_layout"]
"""What a bound for the list of pieces rests on: one of the engine's, or a bound for any layout, which holds for this one too."""


@dataclass(frozen=True, slots=True)
class StockOffcut:
    """Offcuts of one size at hand before the job, in ticks, and how many of them there are."""

    id: str
    width: float
    height: float
    edges: Edges
    count: int


class PiecePlace(NamedTuple):
    """Where a piece is cut: index in ``BoardCutting.blanks``, lower left corner of its box there, and whether it is the first
    piece that is cut off there, so that what is left of the blank is the offcut, not the piece.
    """

    blank: int
    x: float
    y: float
    first: bool


@dataclass(frozen=True, slots=True)
class Offcut:
    """A rectangle that a cut leaves, in ticks from the lower left corner of its board or stock offcut.

    ``parent`` is the id of the offcut that it is cut out of, none where that is the board itself; ``released_by`` the index of the
    piece whose notch, hole or rake sets it free. ``pieces`` are indices of the pieces that are cut from it; where there are none
    it is ``kept`` for stock, or waste. A part and the parts that it is cut into later are all listed.
    """

    id: str
    parent: str | None
    released_by: int | None
    x: float
    y: float
    width: float
    height: float
    edges: Edges
    pieces: tuple[int, ...]
    kept: bool

    @property
    def is_left(self) -> bool:
        """Whether it is left at the end, and not cut up into pieces."""
        return not self.pieces


@dataclass(frozen=True, slots=True)
class CutBlank:
    """A board or a stock offcut that is used: its number and what comes out of it.

    New boards are numbered from 1 in the order in which the wall asks for them; offcuts of one ``stock`` id from 1 too.
    ``pieces`` are indices into ``BoardCutting.pieces`` and run parallel to the places of the pattern.
    """

    number: int
    stock: str | None
    pieces: tuple[int, ...]
    offcuts: tuple[Offcut, ...]


class PatternPlace(NamedTuple):
    """The box of a piece in a pattern, in ticks."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way of cutting a board or stock offcut: the cuts in their order, places of pieces, and what is left.

    ``shapes`` runs parallel to ``places``: rings of a piece from the lower left corner of its box; none for a rectangle.
    ``blanks`` are indices of what is cut so.
    """

    number: int
    stock: str | None
    width: float
    height: float
    edges: Edges
    cuts: tuple[Cut, ...]
    places: tuple[PatternPlace, ...]
    shapes: tuple[tuple[tuple[tuple[float, float], ...], ...], ...]
    rests: tuple[Rest, ...]
    blanks: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class LayoutBound:
    """Boards that no layout can do without, and what that rests on."""

    count: int
    kind: LayoutBoundKind


@dataclass(frozen=True, slots=True)
class CuttingBound:
    """Boards that no cutting of this list of pieces can do without; ``two_stage`` holds for two-stage cutting only."""

    count: int
    kind: CuttingBoundKind
    two_stage: int | None
    status: Status
    work: Work


@dataclass(frozen=True, slots=True)
class FaceCutting:
    """Boards that one face takes when it is cut on its own from new boards, and their bound for any layout."""

    boards_count: int
    bound: LayoutBound


@dataclass(frozen=True, slots=True)
class BoardCutting:
    """How a layout is cut. ``items``, what each piece asks of a board, and ``places`` run parallel to ``pieces``, the pieces of all
    faces in request order.

    ``boards_count`` are new boards bought. ``faces`` runs parallel to the faces of the layout.
    """

    pieces: tuple[Piece, ...]
    items: tuple[Item, ...]
    places: tuple[PiecePlace, ...]
    blanks: tuple[CutBlank, ...]
    patterns: tuple[Pattern, ...]
    boards_count: int
    faces: tuple[FaceCutting, ...]
    layout_bound: LayoutBound
    cutting_bound: CuttingBound
    stock_left: tuple[StockOffcut, ...]
    findings: tuple[Finding, ...]

    @property
    def offcuts(self) -> tuple[Offcut, ...]:
        """All offcuts, by board."""
        return tuple(offcut for blank in self.blanks for offcut in blank.offcuts)
