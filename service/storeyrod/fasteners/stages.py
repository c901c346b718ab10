"""When a fastener is driven: the first ones hold the board for checking, the rest follow, the foot waits for the base trim.

The lowest row of a piece that stands on the base is left until the trim is slotted behind it (common practice, no source). Of
the others, the lower left and the upper right go first. A piece with too few others is held by two all the same.
"""

from collections.abc import Sequence
from typing import Final, Literal

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.places import PiecePlaces

Stage = Literal["first", "rest", "after_trim"]

STAGES: Final[tuple[Stage, ...]] = ("first", "rest", "after_trim")

FIRST_COUNT: Final = 2
"""Common practice: the first two or three of a board, then check level, plane and ribs."""


def stages_of(places: PiecePlaces, *, on_base: bool) -> list[Stage]:
    """Stage of every fastener of a piece, row by row from the lowest, each from left to right."""
    total = places.total
    lowest = len(places.rows[0][1]) if on_base and places.rows else 0
    others = total - lowest
    if others >= FIRST_COUNT:
        first = (lowest, total - 1)
    elif others:
        first = (0, total - 1)
    else:
        first = (0, max(0, lowest - 1))
    stages: list[Stage] = ["after_trim"] * lowest
    stages += ["rest"] * others
    for index in first if total else ():
        stages[index] = "first"
    return stages


def stands_on_base(piece: Piece, base: Sequence[tuple[float, float, float]]) -> bool:
    """Whether a lower edge of a piece lies on a level run of the foot of its face: (left, right, height) in ticks."""
    for left, right, height in base:
        if not piece.bottom <= height < piece.top or piece.left >= right or piece.right <= left:
            continue
        if piece.part.is_rectangle and piece.bottom == height:
            return True
        for ring in piece.part.rings:
            for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
                if a[1] == b[1] == height and b[0] > a[0] and a[0] < right and b[0] > left:
                    return True
    return False
