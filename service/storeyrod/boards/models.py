"""Request and result of POST /v1/board-layouts."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.options import Options
from storeyrod.units import figure
from storeyrod.wall.models import Elevations
from storeyrod.wall.system import System

PieceKind = Annotated[
    Literal["full", "cut", "shaped", "raked"],
    Field(
        description="full: a whole board; cut: a smaller rectangle; shaped: with square notches or holes; raked: with a sloping or curved cut."
    ),
]


class BoardLayoutRequest(Closed):
    """The elevations to lay boards on."""

    elevations: Elevations
    system: System
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
    board: Annotated[int, Field(description="Number of the board that it is, or is cut from.")]
    board_x_mm: NotRequired[Annotated[float, figure("mm", "Left end in its board; absent for a whole board.")]]
    board_y_mm: NotRequired[Annotated[float, figure("mm", "Foot in its board: equal to its place in the row.")]]
    ring: NotRequired[Annotated[list[RingPoint], Field(description="Outline, anticlockwise; absent for a rectangle.")]]
    holes: NotRequired[
        Annotated[list[list[RingPoint]], Field(description="Outlines of openings that lie wholly in the piece.")]
    ]


class CutSize(TypedDict):
    """Pieces that are cut alike."""

    kind: PieceKind
    width_mm: Annotated[float, figure("mm", "Width.")]
    height_mm: Annotated[float, figure("mm", "Height.")]
    board_y_mm: Annotated[float, figure("mm", "Height over the lower edge of the board at which it is cut.")]
    count: Annotated[int, Field(description="Pieces of this size and shape.")]
    pieces: Annotated[list[str], Field(description="Their ids.")]


class Offcut(TypedDict):
    """A rectangle that is left of a board and large enough to keep."""

    board: Annotated[int, Field(description="Number of the board.")]
    board_x_mm: Annotated[float, figure("mm", "Left end in the board.")]
    board_y_mm: Annotated[float, figure("mm", "Foot in the board.")]
    width_mm: Annotated[float, figure("mm", "Width.")]
    height_mm: Annotated[float, figure("mm", "Height.")]


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
    boards_needed_count: Annotated[int, Field(description="Boards when this elevation is cut on its own.")]
    boards_lower_bound_count: Annotated[
        int, Field(description="Boards that no layout of this elevation can do without.")
    ]


class BoardLayoutResult(TypedDict):
    """Boards of all elevations, cut together."""

    boards_needed_count: Annotated[int, Field(description="Boards of this layout, offcuts used over all elevations.")]
    boards_lower_bound_count: Annotated[
        int, Field(description="Boards that no layout can do without, by area; not the least for this list of pieces.")
    ]
    full_count: Annotated[int, Field(description="Whole boards.")]
    cut_count: Annotated[int, Field(description="Pieces that are cut from a board.")]
    piece_area_m2: Annotated[float, figure("m2", "Area of all pieces.")]
    waste_area_m2: Annotated[
        float, figure("m2", "Area of the boards needed less the pieces: kerfs, offcuts and waste.")
    ]
    elevations: Annotated[list[ElevationBoards], Field(description="In the order of the request.")]
    cut_list: Annotated[list[CutSize], Field(description="Pieces to cut, largest first.")]
    offcuts: Annotated[
        list[Offcut],
        Field(description="What is left of boards, at least minimum_piece_mm wide and one course high."),
    ]
    pieces: NotRequired[Annotated[list[PlacedPiece], Field(description="Absent with options.detail summary.")]]
