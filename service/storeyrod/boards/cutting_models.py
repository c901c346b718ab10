"""Results of cutting: bounds, offcuts with where they go, stock, and the sheets by which boards are cut."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure

EdgeName = Literal["left", "right", "bottom", "top"]

FactoryEdges = Annotated[
    list[EdgeName], Field(description="Edges as the board left the factory; the others are cut, or may be.")
]

_BoardNumber = Annotated[int, Field(description="Number of the board; absent for what comes from stock.")]
_StockId = Annotated[str, Field(description="Id of the stock offcut; absent for what comes from a new board.")]
_StockNumber = Annotated[int, Field(description="Which of the offcuts of that id, from 1.")]


class SearchWork(TypedDict):
    """What the search for a cutting has done; limits of options.effort are counts of these, never a time."""

    columns: Annotated[int, Field(description="Patterns weighed by the linear programme.")]
    pricings: Annotated[int, Field(description="Searches for a better pattern.")]
    nodes: Annotated[int, Field(description="Nodes of the search for whole numbers of patterns.")]


class BoardBounds(TypedDict):
    """How far the boards bought lie above what is proved to be needed."""

    boards_lower_bound: Annotated[
        Literal["area", "course_strips", "projected_width", "row_boxes"],
        Field(
            description="What boards_lower_bound_count rests on. area: pieces and the board; course_strips: level lines through "
            "the wall at one height over the ribs; projected_width: wall that takes the whole height of a board or needs a factory "
            "edge; row_boxes: boxes of the pieces in rows that are whole boards but for their ends, seams clear of opening corners "
            "wherever the layout keeps that rule, with kerfs."
        ),
    ]
    gap_count: Annotated[int, Field(description="Boards needed less boards_lower_bound_count.")]
    gap_fraction: Annotated[
        float, figure("fraction", "That gap as a share of boards_lower_bound_count; 0 without boards.")
    ]
    cutting_lower_bound_count: Annotated[
        int, Field(description="Boards that no cutting of this list of pieces, boxes cut edge to edge, can do without.")
    ]
    cutting_lower_bound: Annotated[
        Literal["area", "large_pieces", "two_stage_lp", "any_stage_lp", "any_layout"],
        Field(
            description="What cutting_lower_bound_count rests on. area: boxes of the pieces; large_pieces: pieces of which no "
            "board holds two; *_lp: a linear programme of patterns; any_layout: the bound for any layout holds for this one too."
        ),
    ]
    cutting_gap_count: Annotated[int, Field(description="Boards needed less cutting_lower_bound_count.")]
    two_stage_bound_count: NotRequired[
        Annotated[
            int,
            Field(
                description="Bound of cutting in two stages only, strips and then pieces from them; further stages may need fewer."
            ),
        ]
    ]
    bound_status: Annotated[
        Literal["proved", "work_limited"],
        Field(
            description="proved: no cutting of this list of pieces takes fewer boards; work_limited: the search stopped at its limit."
        ),
    ]
    work: SearchWork


class Offcut(TypedDict):
    """A rectangle that cutting leaves, and where it goes. A part that is cut up later is listed with its parts."""

    id: Annotated[
        str, Field(description="Board number, or stock id and number, and number in it, in the order of sawing.")
    ]
    board: NotRequired[_BoardNumber]
    stock_offcut: NotRequired[_StockId]
    stock_number: NotRequired[_StockNumber]
    parent: NotRequired[
        Annotated[str, Field(description="Offcut that it is cut out of; absent where that is the board itself.")]
    ]
    released_by: NotRequired[
        Annotated[
            str, Field(description="Piece whose notch, hole or rake sets it free; absent for what lies beside pieces.")
        ]
    ]
    board_x_mm: Annotated[float, figure("mm", "Left end in the board.")]
    board_y_mm: Annotated[float, figure("mm", "Foot in the board.")]
    width_mm: Annotated[float, figure("mm", "Width.")]
    height_mm: Annotated[float, figure("mm", "Height.")]
    factory_edges: FactoryEdges
    destination: Annotated[
        Literal["pieces", "stock", "waste"],
        Field(
            description="pieces: pieces are cut from it; stock: left, at least minimum_piece_mm wide and one course high; waste: "
            "left and smaller."
        ),
    ]
    pieces: NotRequired[Annotated[list[str], Field(description="Pieces that are cut from it.")]]


class UsedStock(TypedDict):
    """Stock offcuts of one id."""

    id: Annotated[str, Field(description="Id of the request.")]
    used_count: Annotated[int, Field(description="Offcuts that pieces are cut from.")]
    left_count: Annotated[int, Field(description="Offcuts that stay in stock as they are.")]


class SheetCut(TypedDict):
    """One straight cut through the part in which it lies, from edge to edge."""

    direction: Annotated[Literal["upright", "level"], Field(description="Which way the saw runs.")]
    at_mm: Annotated[
        float, figure("mm", "Near side of the kerf: from the left for upright cuts, from the foot for level ones.")
    ]
    from_mm: Annotated[float, figure("mm", "Where the cut begins along the other way.")]
    to_mm: Annotated[float, figure("mm", "Where it ends.")]


class SheetPlace(TypedDict):
    """Place of a piece on a cut sheet, by its box."""

    board_x_mm: Annotated[float, figure("mm", "Left end in the board.")]
    board_y_mm: Annotated[float, figure("mm", "Foot in the board.")]
    width_mm: Annotated[float, figure("mm", "Width.")]
    height_mm: Annotated[float, figure("mm", "Height.")]
    pieces: Annotated[
        list[str], Field(description="Pieces that are cut here, one for each board, in the order of the boards.")
    ]


class SheetRest(TypedDict):
    """What is left on a cut sheet."""

    board_x_mm: Annotated[float, figure("mm", "Left end in the board.")]
    board_y_mm: Annotated[float, figure("mm", "Foot in the board.")]
    width_mm: Annotated[float, figure("mm", "Width.")]
    height_mm: Annotated[float, figure("mm", "Height.")]
    factory_edges: FactoryEdges


class CutSheet(TypedDict):
    """Boards that are cut alike: this way up, never turned."""

    number: Annotated[int, Field(description="Number of the sheet, from 1.")]
    stock_offcut: NotRequired[_StockId]
    width_mm: Annotated[float, figure("mm", "Width of the board or offcut.")]
    height_mm: Annotated[float, figure("mm", "Height of the board or offcut.")]
    count: Annotated[int, Field(description="How many are cut so.")]
    boards: Annotated[list[int], Field(description="Their numbers.")]
    cuts: Annotated[list[SheetCut], Field(description="Cuts in the order of sawing; notches are sawn after them.")]
    places: Annotated[list[SheetPlace], Field(description="Pieces.")]
    rests: Annotated[list[SheetRest], Field(description="What is left.")]
