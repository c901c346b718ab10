"""Request and result of POST /v1/board-layouts."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Assumed, Closed
from storeyrod.boards.cutting_models import BoardBounds, CutSheet, EdgeName, FactoryEdges, Offcut, UsedStock
from storeyrod.options import Options
from storeyrod.reference.documents import HOUSE
from storeyrod.units import WHOLE, figure, identifier, quantity
from storeyrod.units import count as counted
from storeyrod.wall.models import Elevations
from storeyrod.wall.system import System

PieceKind = Annotated[
    Literal["full", "cut", "shaped", "raked"],
    Field(
        description="full: a whole board; cut: a smaller rectangle; shaped: with square notches or holes; raked: with a sloping or curved cut."
    ),
]


class StockOffcut(Closed):
    """Offcuts of one size at hand from other work; they are used where that saves boards."""

    id: Annotated[str, identifier("Name of the offcut; no other has it.")]
    width_mm: Annotated[float, quantity("mm", 1.0, 6000.0, "Width: at most the board's cover length.")]
    height_mm: Annotated[float, quantity("mm", 1.0, 3000.0, "Height: at most the board's cover height.")]
    factory_edges: Annotated[
        list[EdgeName],
        Field(
            max_length=4,
            fail_fast=True,
            description="Edges as the board left the factory. One without its lower edge stands with its foot on a rib line.",
        ),
    ] = []
    count: Annotated[
        int, counted(1, 1000, "How many of this size there are."), WHOLE, Assumed("count", HOUSE, "one of each id")
    ] = 1


StockOffcuts = Annotated[
    list[StockOffcut],
    Field(max_length=200, fail_fast=True, description="Offcuts at hand, to be used before boards are bought."),
]


class BoardLayoutRequest(Closed):
    """The elevations to lay boards on."""

    elevations: Elevations
    system: System
    stock_offcuts: StockOffcuts = []
    options: Options = Options()


class RingPoint(TypedDict):
    """A corner of a piece, in the coordinates of its elevation."""

    x_mm: Annotated[float, figure("mm", "To the right.")]
    y_mm: Annotated[float, figure("mm", "Upwards.")]


class PlacedPiece(TypedDict):
    """One piece of board on the wall, by its bounding box in the board plane."""

    id: Annotated[
        str, Field(description="Elevation, row and position: rows from 0 at the lowest, positions from 1 at the left.")
    ]
    x_mm: Annotated[float, figure("mm", "Left end.")]
    y_mm: Annotated[float, figure("mm", "Foot.")]
    width_mm: Annotated[float, figure("mm", "Width.")]
    height_mm: Annotated[float, figure("mm", "Height.")]
    row: Annotated[int, Field(description="Row, counted over the whole building from 0 at the lowest.")]
    bay: Annotated[int, Field(description="Bay between movement joints, from 0 at the left.")]
    kind: PieceKind
    area_m2: Annotated[float, figure("m2", "Area.")]
    board: NotRequired[
        Annotated[int, Field(description="Number of the board that it is, or is cut from; absent for one from stock.")]
    ]
    stock_offcut: NotRequired[Annotated[str, Field(description="Stock offcut that it is cut from.")]]
    stock_number: NotRequired[Annotated[int, Field(description="Which of the offcuts of that id, from 1.")]]
    board_x_mm: NotRequired[
        Annotated[float, figure("mm", "Left end in its board or stock offcut; absent for a whole board.")]
    ]
    board_y_mm: NotRequired[Annotated[float, figure("mm", "Foot in its board or stock offcut.")]]
    ring: NotRequired[Annotated[list[RingPoint], Field(description="Outline, anticlockwise; absent for a rectangle.")]]
    holes: NotRequired[
        Annotated[list[list[RingPoint]], Field(description="Outlines of openings that lie wholly in the piece.")]
    ]


class CutSize(TypedDict):
    """Pieces that are cut alike."""

    kind: PieceKind
    width_mm: Annotated[float, figure("mm", "Width.")]
    height_mm: Annotated[float, figure("mm", "Height.")]
    above_rib_mm: Annotated[float, figure("mm", "Height of its foot over the rib line at or below it.")]
    factory_edges: FactoryEdges
    count: Annotated[int, Field(description="Pieces of this size and shape.")]
    pieces: Annotated[list[str], Field(description="Their ids.")]


class ElevationBoards(TypedDict):
    """Boards of one elevation, measured in the board plane: it is shorter than the finished face at external corners."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    board_gross_area_m2: Annotated[float, figure("m2", "Area of the outline in the board plane.")]
    board_net_area_m2: Annotated[
        float, figure("m2", "That area less the openings: pieces and movement joints together.")
    ]
    joint_area_m2: Annotated[float, figure("m2", "Area of movement joints in the board plane.")]
    piece_area_m2: Annotated[float, figure("m2", "Area of all pieces.")]
    rows_count: Annotated[int, Field(description="Rows of boards.")]
    pieces_count: Annotated[int, Field(description="Pieces.")]
    full_count: Annotated[int, Field(description="Whole boards.")]
    cut_count: Annotated[int, Field(description="Pieces that are cut from a board.")]
    boards_needed_count: Annotated[
        int,
        Field(
            description="New boards when this elevation is cut on its own, without stock offcuts and in a quick search."
        ),
    ]
    boards_lower_bound_count: Annotated[
        int, Field(description="Boards that no layout of this elevation in these rows can do without.")
    ]


class BoardLayoutResult(BoardBounds):
    """Boards of all elevations, cut together."""

    boards_needed_count: Annotated[
        int, Field(description="New boards of this layout, offcuts used over all elevations.")
    ]
    boards_lower_bound_count: Annotated[
        int,
        Field(
            description="Boards that no layout in these rows can do without, wherever its seams stand; not the least for this list of "
            "pieces."
        ),
    ]
    full_count: Annotated[int, Field(description="Whole boards.")]
    cut_count: Annotated[int, Field(description="Pieces that are cut from a board.")]
    piece_area_m2: Annotated[float, figure("m2", "Area of all pieces.")]
    waste_area_m2: Annotated[
        float,
        figure("m2", "Area of the boards needed and of the stock used, less the pieces: kerfs, offcuts and waste."),
    ]
    kept_area_m2: Annotated[float, figure("m2", "What of that is left in offcuts for stock.")]
    elevations: Annotated[list[ElevationBoards], Field(description="In the order of the request.")]
    cut_list: Annotated[list[CutSize], Field(description="Pieces to cut, largest first.")]
    offcuts: Annotated[
        list[Offcut],
        Field(
            description="What cuts leave and where it goes; with options.detail summary only what is left for stock."
        ),
    ]
    stock_offcuts: NotRequired[
        Annotated[list[UsedStock], Field(description="Use of the stock offcuts; absent when the request has none.")]
    ]
    cut_sheets: NotRequired[
        Annotated[list[CutSheet], Field(description="How boards are cut; absent with options.detail summary.")]
    ]
    pieces: NotRequired[Annotated[list[PlacedPiece], Field(description="Absent with options.detail summary.")]]
