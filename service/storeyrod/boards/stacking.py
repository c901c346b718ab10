"""Stacked bays: seams in line from row to row, one first width for all rows of a bay."""

import math
from collections.abc import Sequence

from storeyrod.boards.first_widths import Limits, Run
from storeyrod.boards.rows import Ground
from storeyrod.boards.runs import plain_seams
from storeyrod.boards.seams import seams_of
from storeyrod.wall.face import Face, Side


def stacked_seams(
    face: Face, grounds: tuple[Ground, Ground], limits: Limits, start: Side, corners: Sequence[tuple[float, float]]
) -> list[float]:
    """A seam of every bay for all of its rows: clear of every opening corner in the bay where some first width is."""
    even = grounds[0]
    left, _, right, _ = even.gross.box
    edges = [left, *(edge for slot in even.slots for edge in (slot.left, slot.right)), right]
    plain = plain_seams(even, limits.board, start, half=False)
    places = sorted({x for _, x in corners})
    jambs = [(opening.left, opening.right) for opening in face.board_openings()]
    found = []
    for low, high, seam in zip(edges[::2], edges[1::2], plain, strict=True):
        inside = [x for x in places if low < x < high]
        run = Run(
            low,
            high,
            seam,
            (max(low, even.substrate[0]), min(high, even.substrate[1])),
            sorted({a for a, _ in jambs if low < a < high}),
            sorted({b for _, b in jambs if low < b < high}),
            inside,
            (),
            (),
            math.inf,
        )
        seams = seams_of(run, limits) if start == "left" else [-x for x in seams_of(run.mirrored(), limits)]
        found.append(seams[0] if seams else seam)
    return found
