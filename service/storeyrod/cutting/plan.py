"""What cutting ends in: how every blank is cut, what is left, and how far the boards bought lie above a proved bound."""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from storeyrod.cutting.stock import Edges

Bound = Literal["area", "large_pieces", "two_stage_lp", "any_stage_lp"]
"""What a lower bound rests on. ``two_stage_lp`` bounds two-stage cutting only."""

Status = Literal["proved", "work_limited"]


class Place(NamedTuple):
    """Where a piece lies: index of its item, and lower left corner in the blank."""

    item: int
    x: float
    y: float


class Cut(NamedTuple):
    """One straight cut, in the order of sawing: upright at x or level at y (``at`` is the near side of the kerf), from edge to
    edge of the part that is being cut. Where less than a kerf is trimmed off, the blade reaches past the near or the far edge
    of the part: ``at`` may then lie up to a kerf before it.
    """

    upright: bool
    at: float
    start: float
    end: float


class Rest(NamedTuple):
    """A rectangle that is left, with the factory edges that it keeps."""

    x: float
    y: float
    width: float
    height: float
    edges: Edges


@dataclass(frozen=True, slots=True)
class Sheet:
    """One way of cutting a blank, and how many blanks are cut so. ``blank`` is 0 for new boards, else 1 + index of the offcut."""

    blank: int
    count: int
    places: tuple[Place, ...]
    cuts: tuple[Cut, ...]
    rests: tuple[Rest, ...]


@dataclass(frozen=True, slots=True)
class Work:
    """What the search has done: columns made, pricings solved, nodes of the integer search."""

    columns: int
    pricings: int
    nodes: int


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """Sheets that give every piece wanted, new boards they take, and the bound for this list of pieces.

    ``lower_bound`` holds for every way of guillotine cutting; ``two_stage_bound``, where it was worked out, for two-stage cutting only.
    """

    sheets: tuple[Sheet, ...]
    bought: int
    lower_bound: int
    bound: Bound
    two_stage_bound: int | None
    status: Status
    work: Work
