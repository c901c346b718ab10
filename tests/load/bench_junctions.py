"""Heat through a section of five layers with a steel bracket, beside the calibration loop; goals in millions of its steps.

    python tests/load/bench_junctions.py [ROUNDS]

The section is the one of the floor that the goals were set on: 500 mm square, conductivities from 0.035 to 50, 20 degrees inside, 0 outside;
its heat flow by an independent solver on 700 by 720 cells is 4.1808 W/m. Goals: within 0.5 % in 0.3 million steps and within
0.1 % in 3 million, the check on two meshes included; a further case of temperatures at most a tenth of the first solution; memory
in step with nodes.
"""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))
sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np

from storeyrod.junctions.conduction import solution_of
from storeyrod.junctions.mesh import halved, mesh_of
from storeyrod.junctions.partition import partition_of
from storeyrod.junctions.refinement import EFFORTS, refined_solution
from unit.junctions.drawn_sections import section

REFERENCE = 4.1808
TEMPERATURES = np.array([0.0, 20.0])
LAYERS = [(0.0, 0.02, 0.77), (0.02, 0.03, 0.9), (0.03, 0.18, 0.035), (0.18, 0.28, 0.77), (0.28, 0.5, 0.15)]
METAL = [(0.02, 0.248, 0.2, 0.252, 50.0), (0.196, 0.21, 0.2, 0.29, 50.0), (0.03, 0.1, 0.18, 0.104, 17.0)]
DETAIL = section(
    [*((left, 0.0, right, 0.5, conductivity) for left, right, conductivity in LAYERS), *METAL],
    [
        (0.0, 0.0, 0.0, 0.5, "out", 0.04),
        (0.5, 0.0, 0.5, 0.5, "in", 0.13),
        (0.0, 0.0, 0.5, 0.0, None, 0.0),
        (0.0, 0.5, 0.5, 0.5, None, 0.0),
    ],
    later_covers=True,
)
STEPS = 1_000_000


def calibration():
    start = time.process_time()
    total = 0.0
    for i in range(STEPS):
        total += i * 0.5
    return (time.process_time() - start) / STEPS


def cpu(work):
    start = time.process_time()
    made = work()
    return time.process_time() - start, made


def case_of(solution):
    temperatures = np.array([-10.0, 22.0])
    return solution.heat_flows(temperatures), solution.temperatures(temperatures)


def efforts(rounds):
    for effort in EFFORTS:
        ratios, shares = [], []
        for _ in range(rounds):
            step = calibration()
            took, refined = cpu(lambda effort=effort: refined_solution(DETAIL, TEMPERATURES, EFFORTS[effort]))
            further, _ = cpu(lambda refined=refined: case_of(refined.solution))
            ratios.append(took / step / 1e6)
            shares.append(further / took)
        error = refined.levels[-1].heat_flow / REFERENCE - 1
        print(
            f"{effort:9} {len(refined.levels)} meshes, {refined.levels[-1].nodes_count} nodes, change {refined.change:.3%}, error {error:+.3%}: "
            f"{statistics.median(ratios):.2f} [{min(ratios):.2f}-{max(ratios):.2f}] million steps; a further case {statistics.median(shares):.1%}"
        )


def resident(mesh):
    """Peak memory that a solution takes beyond what stood before, in a process of its own."""
    if child := os.fork():
        return os.wait4(child, 0)[2].ru_maxrss * 1024
    if mesh is not None:
        solution_of(DETAIL, mesh)
    os._exit(0)


def memory():
    mesh = mesh_of(DETAIL, partition_of(DETAIL), finest_share=1 / 250, growth=1.6)
    for _ in range(5):
        took = resident(mesh) - resident(None)
        print(f"{mesh.nodes_count:8} nodes: {took / 1e6:6.0f} MB, {took / mesh.nodes_count / 1000:.2f} kB a node")
        mesh = halved(mesh)


if __name__ == "__main__":
    efforts(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
    memory()
