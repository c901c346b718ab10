"""Sections to draw, with invented temperatures, for the tests of the drawing room."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np

from drawing_walls import particulars
from storeyrod.drawings.contours import Field
from storeyrod.drawings.display_list import Point, Sheet
from storeyrod.drawings.isotherms_sheet import isotherms_sheet
from storeyrod.drawings.section_subject import Environment, MarkedPoint, SectionSubject, Stretch, filled

Rectangle = tuple[float, float, float, float, int]
"""Left, bottom, right, top, material."""

INSIDE = Environment("inside", 20.0, 0.13, 14.853)
OUTSIDE = Environment("outside", -5.0, 0.04, -14.853)

LAYERS = (
    ("gypsum plaster", 0.57),
    ("clay bricks", 0.81),
    ("adhesive mortar", 0.93),
    ("insulating boards", 0.035),
    ("brick slips in mortar", 0.87),
)
THICK = (15.0, 240.0, 10.0, 140.0, 20.0)


def drawn(subject: SectionSubject, scale: int | None = None) -> Sheet:
    """The isotherm sheet of a section."""
    return isotherms_sheet(subject, scale, "/sheets/0/scale", particulars(subject="Isotherms"), "")


def lines_of(stops: Sequence[float], step: float) -> np.ndarray:
    """Lines at every stop, and between them no farther apart than a step."""
    made = [np.linspace(low, high, math.ceil((high - low) / step) + 1) for low, high in pairwise(stops)]
    return np.unique(np.round(np.concatenate(made), 4))


def cells_of(xs: np.ndarray, ys: np.ndarray, rectangles: Sequence[Rectangle]) -> np.ndarray:
    cells = np.full((len(ys) - 1, len(xs) - 1), -1, dtype=np.int32)
    for left, bottom, right, top, material in rectangles:
        rows = (ys[:-1] >= bottom) & (ys[1:] <= top)
        columns = (xs[:-1] >= left) & (xs[1:] <= right)
        cells[np.ix_(rows, columns)] = material
    return cells


def section_of(
    rectangles: Sequence[Rectangle],
    temperature: Callable[[float, float], float],
    named: Sequence[tuple[str, float]] = LAYERS,
    environments: Sequence[Environment] = (INSIDE, OUTSIDE),
    stretches: Sequence[tuple[Point, Point, int | None]] = (),
    points: Sequence[tuple[str, float, float]] = (),
    coldest: Point | None = None,
    step: float = 25.0,
    turned: bool = False,
) -> SectionSubject:
    xs = lines_of(sorted({x for left, _, right, _, _ in rectangles for x in (left, right)}), step)
    ys = lines_of(sorted({y for _, low, _, high, _ in rectangles for y in (low, high)}), step)
    cells = cells_of(xs, ys, rectangles)
    values = np.array([[temperature(x, y) for x in xs] for y in ys])
    marked = [MarkedPoint(name, (x, y), temperature(x, y)) for name, x, y in points]
    return SectionSubject(
        Field(xs, ys, values, filled(cells)),
        cells,
        named,
        environments,
        [Stretch(*one) for one in stretches],
        marked,
        None if coldest is None else MarkedPoint("coldest", coldest, temperature(*coldest)),
        (("coupling", "0.594 W/(m·K)"), ("temperature factor", "0.712")),
        "Heat flow 14.853 W/m; psi -0.056 internal, 0.123 external, W/(m·K)",
        turned,
    )


def corner(long: float = 1425.0) -> SectionSubject:
    """An external corner of a wall with insulation outside; the inside lies at the upper right."""
    starts = [0.0]
    for thick in reversed(THICK):
        starts.append(starts[-1] + thick)
    rectangles: list[Rectangle] = []
    for index, (near, far) in enumerate(pairwise(starts)):
        material = len(THICK) - 1 - index
        rectangles += [(near, near, long, far, material), (near, far, far, long, material)]
    inner = starts[-1]
    outline = (
        ((inner, inner), (long, inner), 0),
        ((inner, inner), (inner, long), 0),
        ((0.0, 0.0), (long, 0.0), 1),
        ((0.0, 0.0), (0.0, long), 1),
        ((long, 0.0), (long, inner), None),
        ((0.0, long), (inner, long), None),
    )
    # depth into the wall, rounded inside the corner as a field of temperatures is
    depth = (-4.6, -4.3, 16.3, 16.4, 19.3, 19.5)

    def temperature(x: float, y: float) -> float:
        near = min(x, y) - 60.0 * math.exp(-abs(x - y) / 200.0) * (min(x, y) / inner)
        return float(np.interp(near, starts, depth))

    return section_of(
        rectangles, temperature, stretches=outline, coldest=(inner, inner),
        points=(("P1", inner, 900.0), ("P2", 170.0, 170.0), ("P3", 700.0, 20.0)),
    )  # fmt: skip


def sheet_metal() -> SectionSubject:
    """A low wide section with a folded sheet thinner than its own lines, the whole of it filled."""
    rectangles = (
        (0.0, 0.0, 500.0, 6.0, 0), (0.0, 6.0, 15.0, 41.0, 1), (15.0, 6.0, 500.0, 40.0, 2), (15.0, 40.0, 500.0, 41.5, 3),
        (0.0, 41.0, 15.0, 41.5, 3), (0.0, 41.5, 500.0, 47.5, 0),
    )  # fmt: skip
    named = (("render", 1.15), ("timber", 0.12), ("mineral wool", 0.029), ("aluminium", 230.0))
    outline = (
        ((0.0, 47.5), (500.0, 47.5), 1), ((0.0, 0.0), (500.0, 0.0), 0), ((0.0, 0.0), (0.0, 47.5), None),
        ((500.0, 0.0), (500.0, 47.5), None),
    )  # fmt: skip

    def temperature(x: float, y: float) -> float:
        return 18.3 - 17.0 * y / 47.5 - 1.5 * math.exp(-x / 40.0)

    return section_of(rectangles, temperature, named, stretches=outline, step=5.0, coldest=(0.0, 0.0))


def pin() -> SectionSubject:
    """A fastener through insulation, turned about its axis."""
    rectangles = (
        (0.0, 0.0, 4.0, 200.0, 2), (4.0, 0.0, 150.0, 100.0, 1), (4.0, 100.0, 150.0, 200.0, 0), (0.0, 200.0, 150.0, 210.0, 3),
    )  # fmt: skip
    named = (("insulation", 0.035), ("concrete", 2.3), ("steel", 50.0), ("render", 0.9))
    outline = (((0.0, 210.0), (150.0, 210.0), 1), ((0.0, 0.0), (150.0, 0.0), 0), ((150.0, 0.0), (150.0, 210.0), None))

    def temperature(x: float, y: float) -> float:
        return 19.0 - 24.0 * max(0.0, (y - 80.0 - 12.0 * math.exp(-x / 20.0)) / 130.0) - y / 200.0

    return section_of(rectangles, temperature, named, stretches=outline, step=5.0, turned=True, coldest=(0.0, 0.0))


def many_materials(count: int = 30) -> SectionSubject:
    """A chequerboard of small parts with long names, each of its own conductivity."""
    side = 6
    rectangles = tuple(
        (40.0 * (place % side), 40.0 * (place // side), 40.0 * (place % side + 1), 40.0 * (place // side + 1), place)
        for place in range(count)
    )
    named = tuple(
        (f"part {place} of a frame that has a very long name indeed", 0.03 * 1.2**place) for place in range(count)
    )
    top = 40.0 * (count // side)
    outline = (
        ((0.0, 0.0), (240.0, 0.0), 0),
        ((0.0, top), (240.0, top), 1),
        ((0.0, 0.0), (0.0, top), None),
        ((240.0, 0.0), (240.0, top), None),
    )
    points = tuple((f"a-rather-long-id-{index}", 20.0 * index, 7.0 * index) for index in range(12))
    return section_of(rectangles, lambda _x, y: 20.0 - y / 8.0, named, stretches=outline, points=points, step=20.0)


def still() -> SectionSubject:
    """One temperature all over: no isotherm."""
    outline = (
        ((0.0, 0.0), (300.0, 0.0), 0),
        ((0.0, 300.0), (300.0, 300.0), 0),
        ((0.0, 0.0), (0.0, 300.0), None),
        ((300.0, 0.0), (300.0, 300.0), None),
    )
    return section_of(((0.0, 0.0, 300.0, 300.0, 0),), lambda _x, _y: 20.0, LAYERS[:1], (INSIDE,), outline)


SECTIONS = {"corner": corner, "sheet_metal": sheet_metal, "pin": pin, "many_materials": many_materials, "still": still}
