"""Runs to be closed, in mm: a bond, a length, and where its left end lies on the bond."""

from fractions import Fraction

from storeyrod.setting_out.arrangements import PerpLimits, RunBond
from storeyrod.setting_out.bond import BONDS
from storeyrod.setting_out.closing import ways_to_close
from storeyrod.setting_out.course_grid import Module, Stretch
from storeyrod.setting_out.perps import nominal_grids

TICK = 10_000


def run_of(length, bond="stretcher", unit=215.0, perp=10.0, phase="0", limits=(8.0, 12.0), shortest=50.0):
    module = Module(unit * TICK, (unit - perp) / 2 * TICK, perp * TICK)
    made = PerpLimits(limits[0] * TICK, limits[1] * TICK, shortest * TICK)
    return RunBond(BONDS[bond].started(half=False), module, (0.0, length * TICK), Fraction(phase), made)


def ways(length, **more):
    """Every way to close a run, best first."""
    run = run_of(length, **more)
    grids = nominal_grids(run.courses, run.module, -float(run.phase) * run.module.length)
    return ways_to_close(run, tuple((Stretch(*run.run, grid),) for grid in grids))


def way(length, arrangement, **more):
    """One of them, or None."""
    return next((one for one in ways(length, **more) if one.arrangement == arrangement), None)


def lengths_of(arranged):
    """Lengths of the pieces of each course, from left to right, laid here from the stretches alone."""
    return [[right - left for left, right in course] for course in spans_of(arranged)]


def spans_of(arranged):
    courses = []
    for stretches in arranged.patterns:
        spans = []
        for stretch in stretches:
            grid = stretch.grid
            start = grid.origin - grid.period * (int((grid.origin - stretch.left) / grid.period) + 2)
            while start < stretch.right:
                for unit in grid.units:
                    left, right = start + unit.offset, start + unit.offset + unit.width
                    inside = max(left, stretch.left), min(right, stretch.right)
                    if inside[1] - inside[0] > 1.0:
                        spans.append((inside[0] / TICK, inside[1] / TICK))
                start += grid.period
        courses.append(sorted(spans))
    return courses
