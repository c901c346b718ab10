"""Cut sheets: every cutting pattern of a job, many on a sheet of paper, in the order of their numbers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.boards.board_cutting import BoardCutting, Pattern
from storeyrod.drawings.cut_figure import LEFT, RIGHT, CutFigure, figure_groups
from storeyrod.drawings.cut_list_words import blanks_of, board_numbers, headline, pattern_lines
from storeyrod.drawings.cut_numbers import DISC
from storeyrod.drawings.display_list import Group, Line, Marker, Point, Sheet, Strokes, Text, View, box_polygon
from storeyrod.drawings.hatching import hatched
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.legend_entries import PIECE, line_entry
from storeyrod.drawings.lettering import number, wrapped
from storeyrod.drawings.line_styles import (
    BOARD_EDGE,
    CUT_NUMBER,
    CUT_PIECE,
    KEPT,
    LETTERING,
    LETTERS,
    LETTERS_SMALL,
    RIB,
    SAW_CUT,
    SAWN_EDGE,
    UP_ARROW,
    WASTE,
)
from storeyrod.drawings.paper import PAPERS, SCALES, Paper, Room, paper_and_scale
from storeyrod.drawings.sheet_frame import Explained, sheet_of_views
from storeyrod.drawings.title_block import Particulars
from storeyrod.drawings.up_arrow import SMALL, arrow
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.system import Board

SHOWS: Final = "boards with their ribs, cuts in the order of sawing, pieces, offcuts for stock and waste"

PLANES: Final = "Sizes in mm; boards seen from outside, as they are built in."

_EIGHT: Final = 8
"""So many figures stand on the smallest sheet at the scale that is taken when none is asked for."""

_LEAST_WIDTH: Final = 56.0
_GAP: Final = 5.0
"""Between figures on paper, mm."""

_SIDE: Final = 4.0
_HEADING: Final = 14.0
_FOOT: Final = 2.0
_LINE: Final = 3.0
"""Distance of lines of lettering on paper, mm."""

_TITLE: Final = 3.6
_OVER_BOARD: Final = 5.0
"""From the last line above a board to the board, and from the board to the first line below: discs of cuts stand between."""

_USUAL_LINES: Final = 3
_MOST_NUMBER_LINES: Final = 8


@dataclass(frozen=True, slots=True)
class CutSheetsSubject:
    """What cut sheets draw: how a job is cut, and its board."""

    cutting: BoardCutting
    board: Board


@dataclass(frozen=True, slots=True)
class _Cell:
    """A pattern with its lines above and below the board, and the heights of both on paper in mm."""

    pattern: Pattern
    above: tuple[str, ...]
    below: tuple[str, ...]
    board_height: float

    @property
    def height(self) -> float:
        """Height of the whole on paper."""
        return self.above_board + self.board_height + _OVER_BOARD + _LINE * len(self.below)

    @property
    def above_board(self) -> float:
        """From the top of the cell to the board."""
        return _TITLE + _LINE * len(self.above) + _OVER_BOARD - 1.0


@dataclass(frozen=True, slots=True)
class CutPage:
    """One sheet of paper: its cells with their upper left corners."""

    subject: CutSheetsSubject
    paper: Paper
    scale: int
    cells: tuple[tuple[Point, _Cell], ...]

    @property
    def words(self) -> str:
        """Which patterns it shows."""
        numbers = [cell.pattern.number for _, cell in self.cells]
        if not numbers:
            return "Cut sheets: nothing to cut"
        return f"Cut sheets, pattern{'s' if len(numbers) > 1 else ''} {' to '.join(map(str, sorted({numbers[0], numbers[-1]})))}"


def cut_pages(subject: CutSheetsSubject, scale: int | None, pointer: str) -> list[CutPage]:
    """Sheets of paper that all patterns take; raises ``sheet-too-small`` when one board fits no paper at the scale asked for."""
    size = subject.board.cover_length_mm, subject.board.cover_height_mm
    around: Room = (
        LEFT + _SIDE,
        _OVER_BOARD + _USUAL_LINES * _LINE + _FOOT,
        RIGHT + _SIDE,
        _HEADING + _TITLE + _LINE + _OVER_BOARD,
    )
    paper, chosen = paper_and_scale(*size, around, scale or _usual_scale(*size), pointer)
    width = _cell_width(size[0], chosen)
    most = int((_room(paper)[1] - _TITLE - 2 * _OVER_BOARD - size[1] / chosen) / _LINE) - _MOST_NUMBER_LINES
    cells = [_cell(subject.cutting, pattern, width, chosen, max(2, most)) for pattern in subject.cutting.patterns]
    return [CutPage(subject, paper, chosen, tuple(page)) for page in _paged(cells, paper, width)] or [
        CutPage(subject, paper, chosen, ())
    ]


def _room(paper: Paper) -> tuple[float, float]:
    left, bottom, right, top = paper.field
    return right - left - 2 * _SIDE, top - bottom - _HEADING - _FOOT


def _cell_width(board: float, scale: int) -> float:
    return max(_LEAST_WIDTH, board / scale + LEFT + RIGHT)


def _usual_scale(width: float, height: float) -> int:
    """Denominator of the largest standard scale at which eight figures with a few lines each stand on the smallest sheet."""
    across, down = _room(PAPERS[0])
    for scale in SCALES:
        cell = _TITLE + _LINE + 2 * _OVER_BOARD + height / scale + _USUAL_LINES * _LINE
        if int((across + _GAP) / (_cell_width(width, scale) + _GAP)) * int((down + _GAP) / (cell + _GAP)) >= _EIGHT:
            return scale
    return SCALES[-1]


def _cell(cutting: BoardCutting, pattern: Pattern, width: float, scale: int, most: int) -> _Cell:
    numbers = wrapped(board_numbers(blanks_of(cutting, pattern)), LETTERS_SMALL, width)
    if len(numbers) > _MOST_NUMBER_LINES:
        numbers = [*numbers[: _MOST_NUMBER_LINES - 1], "… and more: see the board layout"]
    below = pattern_lines(cutting, pattern, width, most)
    return _Cell(pattern, tuple(numbers), tuple(below), millimetres(pattern.height) / scale)


def _paged(cells: Sequence[_Cell], paper: Paper, width: float) -> Iterator[list[tuple[Point, _Cell]]]:
    """Cells down the columns of a page, which are spread over its width, and then down those of the next."""
    across, _ = _room(paper)
    columns = max(1, int((across + _GAP) / (width + _GAP)))
    pitch = width + _GAP if columns == 1 else (across - width) / (columns - 1)
    left, bottom, _, top = paper.field
    page: list[tuple[Point, _Cell]] = []
    y, column = top - _HEADING, 0
    for cell in cells:
        if y < top - _HEADING and y - cell.height < bottom + _FOOT:
            y, column = top - _HEADING, column + 1
        if column == columns:
            yield page
            page, column = [], 0
        page.append(((left + _SIDE + column * pitch, y), cell))
        y -= cell.height + _GAP
    if page:
        yield page


def cut_sheet(page: CutPage, said: Particulars, id_prefix: str) -> Sheet:
    """One sheet of paper. Scale, name and planes of ``said`` are set here."""
    subject = page.subject
    figures = [_figure(subject, page.scale, at, cell) for at, cell in page.cells]
    words = View((0.0, 0.0), 1.0, tuple(group for at, cell in page.cells for group in _words(at, cell)))
    told = Explained(SHOWS, list(_entries(subject)), list(_notes(subject)), of="board")
    said = replace(said, scale=page.scale, subject=page.words, planes=PLANES)
    return sheet_of_views(page.paper, (*figures, words), said, told, id_prefix)


def _figure(subject: CutSheetsSubject, scale: int, at: Point, cell: _Cell) -> View:
    x, top = at
    origin = (x + LEFT, top - cell.above_board - cell.board_height)
    figure = CutFigure(subject.cutting, cell.pattern, subject.board, float(scale))
    return View(origin, float(scale), figure_groups(figure))


def _words(at: Point, cell: _Cell) -> Iterator[Group]:
    x, top = at
    y = top - _TITLE
    below = top - cell.above_board - cell.board_height - _OVER_BOARD
    lines = [(y - _LINE * (index + 1), words) for index, words in enumerate(cell.above)]
    lines += [(below - _LINE * index - LETTERS_SMALL / 2.0, words) for index, words in enumerate(cell.below)]
    title = Text((x, y), headline(cell.pattern), LETTERS, bold=True)
    yield Group("pattern-words", LETTERING, (title, *(Text((x, line), words, LETTERS_SMALL) for line, words in lines)))


def _entries(subject: CutSheetsSubject) -> Iterator[Entry]:
    yield line_entry("board-edge", BOARD_EDGE, "factory edge of a board")
    if any(pattern.stock is not None for pattern in subject.cutting.patterns):
        yield line_entry("sawn-edge", SAWN_EDGE, "sawn edge of a stock offcut")
    cut = Line((0.0, 0.0), (SYMBOL - DISC, 0.0))
    disc = Marker((SYMBOL - DISC / 2.0, 0.0), "ring", DISC)
    yield Entry((("saw-cut", SAW_CUT, cut), ("cut-number-disc", CUT_NUMBER, disc)), "cut, numbered as sawn")
    yield Entry((("board-cut", CUT_PIECE, box_polygon(PIECE)),), "piece: letter, id, size")
    hatching = Strokes(tuple(hatched(PIECE, 2.5)))
    yield Entry((("kept", KEPT, box_polygon(PIECE)), ("kept", KEPT, hatching)), "rest kept for stock")
    yield Entry((("waste", WASTE, box_polygon(PIECE)),), "waste")
    if subject.board.rib_pitch_mm is not None:
        yield line_entry("ribs", RIB, "rib line, counted from foot")
    yield Entry(tuple(("way-up", UP_ARROW, item) for item in arrow((SYMBOL / 2.0, 0.0), SMALL)), "this way up")


def _notes(subject: CutSheetsSubject) -> Iterator[str]:
    cutting, board = subject.cutting, subject.board
    old = sum(blank.stock is not None for blank in cutting.blanks)
    stock = f" and {old} stock offcuts" if old else ""
    yield f"{cutting.boards_count} new boards{stock} in {len(cutting.patterns)} patterns."
    edges = f"foot {board.bottom_edge}, head {board.top_edge}, sides {board.side_edges}"
    yield f"Board {number(board.cover_length_mm)} × {number(board.cover_height_mm)}: {edges}."
    yield f"Saw cut {number(board.kerf_mm)} wide. Boards are never turned."
