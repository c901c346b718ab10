"""The search beyond the heuristic: column generation for a bound and good patterns, then whole numbers of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.cutting.any_stage import AnyStage
from storeyrod.cutting.effort import Limits
from storeyrod.cutting.generation import Generation
from storeyrod.cutting.greedy import Greedy
from storeyrod.cutting.job import Job, Wanted
from storeyrod.cutting.levels import level_axis
from storeyrod.cutting.master import Master
from storeyrod.cutting.pattern import Cutting
from storeyrod.cutting.plan import Work
from storeyrod.cutting.rounding import Rest, dived
from storeyrod.cutting.sliding import Ends, Stretch, sliding_axis


@dataclass(frozen=True, slots=True)
class Found:
    """Best cutting, bound for any guillotine cutting, and the work that it took."""

    best: Cutting
    bound: int
    work: Work


def search(job: Job, greedy: Greedy, cuttings: Sequence[Cutting], bound: int, limits: Limits) -> Found:
    """Look for fewer boards than the best so far, and for a higher bound, until both meet or the limits are reached.

    ``cuttings`` are those of all greedy ways: their patterns are the first of the master.
    """
    best = min(cuttings, key=Cutting.rank)
    ways = sorted(range(len(cuttings)), key=lambda way: cuttings[way].rank())[: limits.greedy_ways]
    generation = Generation(job, stages_of(job, limits), _master(job, greedy, cuttings, ways), limits, bound)
    relaxed = generation.run(best.bought)
    aim = generation.bound + limits.spared(generation.bound)
    for up in _LACKING[: limits.dives_for(generation.bound)]:
        if best.bought > aim:
            best = dived(generation, Rest(greedy, tuple(ways)), best, relaxed, up)
            generation.master.want(job.all_wanted)
            relaxed = generation.master.solve()
    best = _stirred(generation, greedy, best, aim)
    columns, nodes = len(generation.master.patterns), 0
    if best.bought > aim and columns * len(job.shapes) <= limits.integer_cells:
        whole, nodes = generation.master.whole(job.all_wanted, limits.nodes)
        best = best if whole is None else min(best, whole, key=Cutting.rank)
    return Found(best, generation.bound, Work(columns, generation.pricings, nodes))


def _stirred(generation: Generation, greedy: Greedy, best: Cutting, aim: int) -> Cutting:
    """Cuttings in other orders, as many as the limits allow: one may be better, and all have patterns for the integer search."""
    wanted = generation.job.all_wanted
    for number in range(generation.limits.fillings // max(1, best.bought + best.offcuts)):
        if best.bought <= aim:
            break
        cutting = greedy.stirred(wanted, number)
        generation.master.add(pattern for pattern, _ in cutting.used)
        best = min(best, cutting, key=Cutting.rank)
    return best


def _master(job: Job, greedy: Greedy, cuttings: Sequence[Cutting], ways: Sequence[int]) -> Master:
    """A master with the patterns of the heuristic; some cover everything without offcuts, so that every piece has a value."""
    master = Master(job)
    for cutting in cuttings:
        master.add(pattern for pattern, _ in cutting.used)
    if len(job.blanks) > 1:
        boards_only = Wanted(job.all_wanted.pieces, [None, *(0 for _ in job.blanks[1:])])
        master.add(pattern for pattern, _ in greedy.best(boards_only, ways).used)
    return master


def stages_of(job: Job, limits: Limits) -> AnyStage:
    """Both axes for pricing, as fine as the limits allow."""
    kerf = job.saw.kerf
    up = level_axis(job.shapes, job.blanks, job.saw, _MOST_LEVELS)
    if up is None:
        shapes = [Stretch(s.height + kerf, Ends(s.needs.bottom, s.needs.top)) for s in job.shapes]
        blanks = [Stretch(b.height + kerf, Ends(b.edges.bottom, b.edges.top)) for b in job.blanks]
        up = sliding_axis(shapes, blanks, int((2.0 * limits.splits) ** (1.0 / 3.0)))
    shapes = [Stretch(s.width + kerf, Ends(s.needs.left, s.needs.right)) for s in job.shapes]
    blanks = [Stretch(b.width + kerf, Ends(b.edges.left, b.edges.right)) for b in job.blanks]
    return AnyStage(sliding_axis(shapes, blanks, int((4.0 * limits.splits / up.size) ** 0.5)), up)


_MOST_LEVELS: Final = 30
"""Levels in a blank that pricing tells apart: spans grow with their square."""

_LACKING: Final = (0.1, 0.3, 0.0, 0.2)
"""What shares may lack of a whole blank in one dive after the other."""
