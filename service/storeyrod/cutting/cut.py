"""The one way into the room: from pieces, boards and offcuts to a plan with its bound."""

from collections.abc import Sequence

from storeyrod.cutting.bounds import cheap_bound
from storeyrod.cutting.demand import demand_of
from storeyrod.cutting.greedy import greedy_cuttings
from storeyrod.cutting.lie import lie, whole
from storeyrod.cutting.pattern import Cutting
from storeyrod.cutting.plan import CuttingPlan, Status, Work
from storeyrod.cutting.sheets import sheets_of
from storeyrod.cutting.stock import Blank, Effort, Item, Saw


def cut(items: Sequence[Item], board: Blank, stock: Sequence[Blank], saw: Saw, effort: Effort) -> CuttingPlan:
    """Cut every item out of offcuts at hand and as few new boards as the effort finds.

    Raises ``ValueError`` for an item that no board can give: ask ``can_be_cut`` before.
    """
    demand = demand_of(items)
    for shape in demand.shapes:
        if not can_be_cut(shape, board, saw):
            raise ValueError(f"no board gives {shape}")
    blanks = (board, *stock)
    bound, name = cheap_bound(demand.shapes, board, stock, saw)
    best = Cutting([])
    if demand.shapes:
        best = min(greedy_cuttings(demand.shapes, demand.counts, blanks, saw), key=lambda c: (c.bought, c.offcuts))
    sheets = sheets_of(best, demand, items, blanks, saw)
    status: Status = "proved" if best.bought == bound else "work_limited"
    return CuttingPlan(sheets, best.bought, bound, name, None, status, Work(0, 0, 0))


def can_be_cut(item: Item, blank: Blank, saw: Saw) -> bool:
    """Whether a blank, with nothing else cut from it, gives the item."""
    return lie(item, whole(blank), blank, saw) is not None
