"""Fasteners of an invented block of four sides, beside the columns of a plain grid of as many points.

The block has movement joints, wind on four sides, resistances from tests and heads that pull through, so pieces have zones, stages and
needs; what windows cut out of boards makes many kinds of piece. Both programs run in turn in one process. Run: python tests/load/bench_fasteners.py [GREATEST SCALE]
"""

import gc
import statistics
import sys
import time
import tracemalloc
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

from storeyrod.api.memory import settle
from storeyrod.boards.layout import lay_boards
from storeyrod.fasteners.calculation import loads_of
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.fasteners.schedule import set_fasteners
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.wall.wall import wall_of

LENGTHS_M = {"front": 36, "right": 15, "rear": 36, "left": 15}
HEIGHT_M = 12
STOREY_M = BAY_M = 3
WINDOW_MM = {"width_mm": 1210, "height_mm": 1350}


def elevation(side, length, number, off_grid):
    """A window in every bay of every storey, none without ``off_grid``; with some of it each bay's stands a little farther along."""
    bays = 0 if off_grid is None else length // BAY_M
    places = [(bay, storey) for storey in range(HEIGHT_M // STOREY_M) for bay in range(bays)]
    return {
        "id": f"{side}-{number}",
        "width_mm": length * 1000,
        "height_mm": HEIGHT_M * 1000,
        "face": {"side": side, "offset_mm": 0},
        "openings": [
            {
                "id": f"w{bay}-{storey}",
                "kind": "rectangle",
                "x_mm": 1000 * BAY_M * bay + 900 + off_grid * (37 * bay + 13 * storey),
                "y_mm": 1000 * STOREY_M * storey + 900,
                **WINDOW_MM,
            }
            for bay, storey in places
        ],
    }


def request(blocks, *, off_grid=0):
    return FastenerScheduleRequest.model_validate(
        {
            "elevations": [
                elevation(side, length, number, off_grid)
                for number in range(blocks)
                for side, length in LENGTHS_M.items()
            ],
            "system": {
                "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
                "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
                "fastener": {
                    "pull_out": {"tests_kn": [0.5 + index / 100 for index in range(15)]},
                    "pull_through": {"panel_kn": 0.4, "joint_kn": 0.3, "gamma_m": 2.0},
                },
            },
            "wind": {
                "kind": "basic_velocity",
                "fundamental_velocity_m_per_s": 25,
                "terrain": "III",
                "building": {"breadth_m": 36, "depth_m": 15, "height_m": HEIGHT_M},
            },
            "substrate": {"category": "B"},
        }
    )


def plain_grid(points):
    """The floor: board after board of two rows of four, as columns of x, y and board."""
    xs, ys, boards = [], [], []
    for board in range(points // 8):
        left, bottom = board % 50 * 1200.0, board // 50 * 600.0
        for y in (bottom + 182.5, bottom + 482.5):
            for x in (left + 150.0, left + 450.0, left + 750.0, left + 1050.0):
                xs.append(x)
                ys.append(y)
                boards.append(board)
    return xs, ys, boards


def scheduled(wall, layout, loads):
    """The schedule, and every fastener with its place, stage and zone as columns."""
    return [face.columns for face in set_fasteners(wall, layout, loads).faces]


def timed_in_turn(runs, rounds):
    """Median seconds of each, run one after the other in every round."""
    times = [[] for _ in runs]
    for _ in range(rounds):
        for run, taken in zip(runs, times, strict=True):
            gc.collect()
            start = time.process_time()
            run()
            taken.append(time.process_time() - start)
    return [statistics.median(taken) for taken in times]


def main():
    settle()
    greatest, before = int(sys.argv[1]) if len(sys.argv) > 1 else 10, {}
    for name, off_grid in (("no windows", None), ("windows on a module", 0), ("windows off any module", 1)):
        for blocks in [blocks for blocks in (1, 10) if blocks <= greatest]:
            wanted = request(blocks, off_grid=off_grid)
            wall = wall_of(wanted.elevations, wanted.system)
            layout, loads = lay_boards(wall, joint_plans(wall)), loads_of(wanted)
            points = sum(len(columns.xs) for columns in scheduled(wall, layout, loads))
            runs = [
                lambda points=points: plain_grid(points),
                lambda wall=wall, layout=layout, loads=loads: scheduled(wall, layout, loads),
            ]
            floor, took = timed_in_turn(runs, 31 if blocks == 1 else 7)
            grown = f", {took / before[name]:.1f} times one block" if name in before else ""
            before.setdefault(name, took)
            tracemalloc.start()
            scheduled(wall, layout, loads)
            peak = tracemalloc.get_traced_memory()[1] / 1e6
            tracemalloc.stop()
            print(
                f"{name}, {blocks} blocks: {len(layout.pieces)} pieces, {points} fasteners, {took * 1e3:.1f} ms, "
                f"floor {floor * 1e3:.2f} ms, ratio {took / floor:.1f}{grown}, peak {peak:.1f} MB"
            )


if __name__ == "__main__":
    main()
