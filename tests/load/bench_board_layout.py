"""Board layouts of a long elevation with many openings and a gable, beside the cells of the same wall by vectorised shapely.

Run: python tests/load/bench_board_layout.py [GREATEST SCALE]
"""

import gc
import random
import statistics
import sys
import time
import tracemalloc
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

import numpy as np
import shapely

from storeyrod.api.memory import settle
from storeyrod.boards.layout import lay_boards
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.wall.wall import wall_of

BOARD = (1200.0, 600.0)


def openings(scale):
    """One opening of 1.21 x 1.35 m every 3 m in each of six storeys, off the 3 m by a random multiple of 0.5 mm."""
    chance = random.Random(7)
    return [
        (3000.0 * bay + 900 + chance.randrange(0, 3000, 5) / 10, 3000.0 * storey + 900)
        for storey in range(6)
        for bay in range(20 * scale)
    ]


def outline(scale):
    points = [(0.0, 0.0), (60_000.0 * scale, 0.0), (60_000.0 * scale, 18_000.0)]
    for gable in reversed(range(scale)):
        points += [
            (60_000.0 * gable + x, y) for x, y in ((40_000.0, 18_000.0), (30_000.0, 24_000.0), (20_000.0, 18_000.0))
        ]
    return [*points, (0.0, 18_000.0)]


def request(scale, **joint):
    """As many elevations of 60 m: no single one may be longer than 500 m."""
    return BoardLayoutRequest.model_validate(
        {
            "elevations": [elevation(f"long-{number}") for number in range(scale)],
            "system": {
                "board": {"cover_length_mm": BOARD[0], "cover_height_mm": BOARD[1], "thickness_mm": 100},
                "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
                "movement_joint": joint,
            },
        }
    )


def elevation(name):
    return {
        "id": name,
        "outline": [{"x_mm": x, "y_mm": y} for x, y in outline(1)],
        "openings": [
            {"id": f"w{i}", "kind": "rectangle", "x_mm": x, "y_mm": y, "width_mm": 1210, "height_mm": 1350}
            for i, (x, y) in enumerate(openings(1))
        ],
    }


def floor_cells(scale):
    """Every cell of a half-staggered grid, clipped to outline and openings: number of connected parts and area in m2."""
    wall = shapely.Polygon(outline(scale))
    holes = np.array([shapely.box(x, y, x + 1210, y + 1350) for x, y in openings(scale)])

    def cells():
        length, height = BOARD
        boxes = []
        for row in range(40):
            x = np.arange(-length / 2 if row % 2 else 0.0, 60_000.0 * scale, length)
            ends = np.maximum(x, 0), np.minimum(x + length, 60_000.0 * scale)
            boxes.append(shapely.box(ends[0], row * height, ends[1], (row + 1) * height))
        cell = np.concatenate(boxes)
        shapely.prepare(wall)
        cell = cell[shapely.intersects(wall, cell)]
        inside = shapely.contains(wall, cell)
        cut = cell.copy()
        cut[~inside] = shapely.intersection(cell[~inside], wall)
        of_cell, of_hole = shapely.STRtree(holes).query(cell, predicate="intersects")
        order = np.argsort(of_cell, kind="stable")
        of_cell, of_hole = of_cell[order], of_hole[order]
        first = np.r_[True, of_cell[1:] != of_cell[:-1]]
        rank = np.arange(len(of_cell)) - np.maximum.accumulate(np.where(first, np.arange(len(of_cell)), 0))
        for turn in range(int(rank.max()) + 1):
            now = rank == turn
            cut[of_cell[now]] = shapely.difference(cut[of_cell[now]], holes[of_hole[now]])
        parts = shapely.get_parts(cut)
        area = shapely.area(parts)
        return int((area > 1.0).sum()), float(area.sum()) / 1e6

    return cells


def timed(run, rounds):
    times = []
    for _ in range(rounds):
        gc.collect()
        start = time.process_time()
        found = run()
        times.append(time.process_time() - start)
    return statistics.median(times), found


def calibration():
    """Seconds of one iteration of a plain loop, the least of five."""

    def once():
        total, start = 0, time.process_time()
        for i in range(1_000_000):
            total += i & 7
        return (time.process_time() - start) / 1e6

    return min(once() for _ in range(5))


def main():
    settle()
    print(f"1 CAL = {calibration() * 1e9:.1f} ns")
    greatest, before = int(sys.argv[1]) if len(sys.argv) > 1 else 10, {}
    for scale in [scale for scale in (1, 10, 100) if scale <= greatest]:
        rounds = 7 if scale == 1 else 3 if scale == 10 else 1
        floor, (cells, area) = timed(floor_cells(scale), rounds)
        print(f"x{scale}: floor {floor * 1e3:.1f} ms, {cells} cells, {area:.6f} m2")
        for name, joint in (("no joints", {"max_spacing_mm": 50_000, "max_boards_count": 100}), ("joints", {})):
            wanted = request(scale, **joint)
            wall = wall_of(wanted.elevations, wanted.system)
            plans = joint_plans(wall)
            took, layout = timed(lambda wall=wall, plans=plans: lay_boards(wall, plans), rounds)
            pieces = len(layout.pieces)
            grown = f", {took / before[name]:.1f} times the wall before" if name in before else ""
            before[name] = took
            print(f"  {name}: {pieces} pieces, {took * 1e3:.1f} ms, {took / floor:.2f} of the floor{grown}")
            del layout
            tracemalloc.start()
            lay_boards(wall, plans)
            print(f"    peak {tracemalloc.get_traced_memory()[1] / 1e6:.1f} MB")
            tracemalloc.stop()


if __name__ == "__main__":
    main()
