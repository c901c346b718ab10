"""The one way into the room: from pieces, boards and offcuts to a plan with its bound."""

from collections.abc import Sequence

from storeyrod.cutting.bounds import cheap_bound
from storeyrod.cutting.demand import demand_of
from storeyrod.cutting.effort import LIMITS
from storeyrod.cutting.gathering import gathered
from storeyrod.cutting.greedy import Greedy
from storeyrod.cutting.job import Job
from storeyrod.cutting.lie import lie, whole
from storeyrod.cutting.pattern import Cutting
from storeyrod.cutting.plan import Bound, CuttingPlan, Status, Work
from storeyrod.cutting.search import search
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
    job = Job(demand.shapes, (board, *stock), saw)
    bound, name = cheap_bound(demand.shapes, board, stock, saw)
    greedy = Greedy(job)
    cuttings = list(greedy.cuttings(job.all_wanted))
    best, work = min(cuttings, key=Cutting.rank), Work(0, 0, 0)
    if effort != "quick" and best.bought > bound:
        found = search(job, greedy, cuttings, bound, LIMITS[effort])
        best, work = found.best, found.work
        bound, name = max((bound, name), (found.bound, _ANY_STAGE), key=lambda some: some[0])
    if best.bought > bound or best.offcuts:
        best = gathered(best, job, bound)
    status: Status = "proved" if best.bought == bound else "work_limited"
    return CuttingPlan(sheets_of(best, demand, items, job.blanks, saw), best.bought, bound, name, None, status, work)


_ANY_STAGE: Bound = "any_stage_lp"


def can_be_cut(item: Item, blank: Blank, saw: Saw) -> bool:
    """Whether a blank, with nothing else cut from it, gives the item."""
    return lie(item, whole(blank), blank, saw) is not None
