"""Boards, bounds and work of cutting lists of 600 and 6 000 pieces, beside the best bounds known for them.

Run: python tests/load/bench_cutting.py [EFFORT]
"""

import random
import statistics
import sys
import time
import tracemalloc
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

from storeyrod.cutting.cut import cut
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Edges, Item, Saw

GRID = 50_000.0  # 5 mm in ticks
CEILING = {("A", 1): 279, ("A", 2): 358, ("A", 3): 300, ("B", 2): 74, ("B", 3): 68, ("C", 2): 408, ("C", 3): 399}
BOARD = Blank(240 * GRID, 120 * GRID, FACTORY, 0.0, None)


def random_list(kind, seed, total=600, kinds=80):
    """Sizes on a grid of 5 mm: A up to nearly a board, B up to 600 x 400 mm, C of a board's height; counts by a Pareto law."""
    chance = random.Random(seed)
    sizes = set()
    while len(sizes) < kinds:
        if kind == "A":
            width = chance.randrange(12, 236)
            height = 120 if chance.random() < 0.4 else chance.randrange(12, 120)
        elif kind == "B":
            width, height = chance.randrange(12, 120), chance.randrange(12, 80)
        else:
            width, height = chance.randrange(12, 236), 120
        sizes.add((width + 1, height + 1))
    ordered = sorted(sizes, key=lambda size: -size[0] * size[1])
    weights = [chance.paretovariate(1.3) for _ in ordered]
    counts = [max(1, round(total * weight / sum(weights))) for weight in weights]
    while sum(counts) > total:
        counts[counts.index(max(counts))] -= 1
    while sum(counts) < total:
        counts[chance.randrange(kinds)] += 1
    return [
        Item((width - 1) * GRID, (height - 1) * GRID, NO_EDGE, 0.0, count)
        for (width, height), count in zip(ordered, counts, strict=True)
    ]


def ribbed_list(seed, pieces=600):
    """Heights of whole courses of 75 mm, 400 widths on a grid of 0.5 mm, ends with a factory edge, feet and heads with theirs."""
    chance = random.Random(seed)
    widths = [chance.randrange(300, 2300) * 5_000.0 for _ in range(400)]
    heights = [75.0e4 * courses for courses in (8, 8, 8, 8, 8, 8, 1, 2, 3, 4, 5, 6, 7)]
    items = []
    for index in range(pieces):
        width, height = widths[index % 400], chance.choice(heights)
        end = chance.random()
        needs = Edges(end < 0.2, end > 0.8, chance.random() < 0.5, height == 600.0e4)
        items.append(Item(width, height, needs, 0.0, 1))
    return items


def loop():
    x = 0.0
    for i in range(1_000_000):
        x += i * 0.5
    return x


def clocked(function):
    start = time.process_time()
    result = function()
    return result, time.process_time() - start


def calibrated():
    return statistics.median(clocked(loop)[1] for _ in range(5)) * 1e3


def line(name, ceiling, items, saw, effort, cal):
    plan, seconds = clocked(lambda: cut(items, BOARD, (), saw, effort))
    goal = "" if ceiling is None else f"ceiling {ceiling} allowed {ceiling + max(1, int(0.005 * ceiling))}"
    print(
        f"{name:10} bought {plan.bought:5} bound {plan.lower_bound:5} ({plan.bound}, two-stage {plan.two_stage_bound}) {plan.status:12} "
        f"{seconds * 1e3:7.1f} ms {seconds * 1e3 / cal:6.2f} MCAL  {plan.work}  {goal}",
        flush=True,
    )
    return seconds


def main(effort):
    from highspy import Highs  # noqa: F401  the import is not part of the work

    cal = calibrated()
    print(f"1 CAL = {cal:.1f} ns; effort {effort}")
    saw = Saw(GRID, None)
    for (kind, seed), ceiling in CEILING.items():
        small = line(f"{kind}{seed}", ceiling, random_list(kind, seed), saw, effort, cal)
        large = line(f"{kind}{seed} x10", None, random_list(kind, seed, 6000), saw, effort, cal)
        print(f"{'':10} x10 takes {large / small:.2f} of the time")
    for seed in (1, 2):
        line(f"ribs {seed}", None, ribbed_list(seed), Saw(3.0e4, 75.0e4), effort, cal)
    for total in (600, 6000):
        items = random_list("B", 3, total)
        tracemalloc.start()
        cut(items, BOARD, (), saw, effort)
        print(f"{total} pieces: peak {tracemalloc.get_traced_memory()[1] / 1e6:.2f} MB")
        tracemalloc.stop()


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "standard")
