"""Raked closers: with equalised perps the last unit under a rake is long and high enough to be cut, where its neighbour allows it.

Common practice, no source. The independent check is shapely: pieces stand apart, lie in the wall and keep their overlap.
"""

from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon
from slip_walls import answer, layout, outline

EQUAL = {"perps": "equalised"}
FLANK = outline((0, 0), (3723, 0), (3723, 3375), (0, 2475), right_edge={"kind": "abutment"})
"""Rake of 900 over 3723: 65 mm of a course run 269 mm along it."""


def lean_to(length, eaves, rise):
    return outline((0, 0), (length, 0), (length, eaves + rise), (0, eaves))


def pieces_of(wall, bond="stretcher"):
    """Every piece with equalised perps: x, y, length and ring in mm, read course by course."""
    laid = layout(wall, perps="equalised", bond=bond)
    for courses in laid.faces[0].equal_courses:
        for course in courses.written_out(laid.wall.gauge):
            for run in course.runs:
                for index in range(run.count):
                    left = run.x + index * run.pitch
                    yield _piece(
                        [
                            (left, course.bottom),
                            (left + run.width, course.bottom),
                            (left + run.width, course.top),
                            (left, course.top),
                        ]
                    )
            for cut in course.cuts:
                yield _piece(cut.part.outline[0])


def _piece(ring):
    corners = [(x / 10_000, y / 10_000) for x, y in ring]
    left, foot = min(x for x, _ in corners), min(y for _, y in corners)
    return left, foot, max(x for x, _ in corners) - left, corners


def codes(reply):
    return {finding["code"] for finding in reply.findings}


def test_a_nominal_flank_has_slivers_and_rips_under_its_rake() -> None:
    assert {"sliver", "rip-course"} <= codes(answer(FLANK))


@pytest.mark.parametrize("start", ["full", "half"])
def test_an_equalised_flank_has_none(start) -> None:
    reply = answer({**FLANK, "bond_start": start}, options=EQUAL)
    assert not {"sliver", "rip-course"} & codes(reply)
    row = reply.result["elevations"][0]
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-9)


def test_the_perp_moves_by_what_the_tip_lacks() -> None:
    """A course of 65 mm under 45 degrees that ends 20 mm into a unit: the tip becomes 50 long, its neighbour 215 - 30.

    Course 10 begins at 750 mm and its foot ends at 10 modules and 20 mm: 2270.
    """
    wall = outline((0, 0), (4490, 0), (4490, 500), (2520, 500), (2020, 1000), (0, 1000))
    course = [one for one in pieces_of(wall) if abs(one[1] - 750) < 1e-6]
    last, neighbour = sorted(course)[-1], sorted(course)[-2]
    assert last[2] == pytest.approx(50)
    assert neighbour[2] == pytest.approx(215 - 30)


@settings(max_examples=40, deadline=None)
@given(
    length=st.integers(1500, 6000),
    eaves=st.integers(2, 8),
    pitch=st.floats(0.15, 1.6),
    gable=st.booleans(),
)
def test_pieces_under_rakes_stand_apart_inside_the_wall_and_close_the_area(length, eaves, pitch, gable) -> None:
    rise = length * pitch / (2 if gable else 1)
    points = [(0, 0), (length, 0), (length, eaves * 75), (length / 2, eaves * 75 + rise), (0, eaves * 75)]
    wall = outline(*points) if gable else lean_to(length, eaves * 75, rise)
    reply = answer(wall, options=EQUAL)
    row = reply.result["elevations"][0]
    shapes = [Polygon(ring) for *_, ring in pieces_of(wall)]
    face = Polygon([(point["x_mm"], point["y_mm"]) for point in wall["outline"]])
    total = sum(shape.area for shape in shapes)
    assert shapely.union_all(shapes).area == pytest.approx(total, abs=1.0)
    assert shapely.union_all(shapes).difference(face.buffer(1e-3)).area < 1.0
    assert row["slip_face_area_m2"] == pytest.approx(total * 1e-6, abs=1e-9)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-9)
    assert all(shape.bounds[2] - shape.bounds[0] <= 215.001 for shape in shapes)


@settings(max_examples=25, deadline=None)
@given(halves=st.integers(14, 50), pitch=st.floats(0.2, 1.5))
def test_a_symmetrical_gable_is_closed_alike_at_both_rakes(halves, pitch) -> None:
    """An odd number of whole modules less a joint: both ends of every course are alike."""
    length = (halves | 1) * 225 - 10
    wall = outline((0, 0), (length, 0), (length, 450), (length / 2, 450 + length / 2 * pitch), (0, 450))
    made = sorted((round(y), round(x, 3), width) for x, y, width, _ in pieces_of(wall))
    turned = sorted((y, round(length - x - width, 3), width) for y, x, width in made)
    assert [one[:2] for one in turned] == [pytest.approx(one[:2], abs=2e-3) for one in made]
    assert [one[2] for one in turned] == pytest.approx([one[2] for one in made], abs=2e-3)


def test_a_perp_under_a_rake_keeps_40_mm_of_overlap_with_the_next_courses() -> None:
    """The shortest piece of 50 mm less a perp. EN 1996-1-1, 8.1.4.1, from memory, asks the same of units 65 mm high."""
    made = list(pieces_of(FLANK))
    courses: dict[float, list[tuple[float, float]]] = {}
    for x, y, width, _ in made:
        courses.setdefault(round(y / 75), []).append((x, x + width))
    for number, units in courses.items():
        below = sorted(courses.get(number - 1, []))
        ends = [right for _, right in sorted(units)[:-1]]
        starts = [left for left, _ in below[1:]]
        for end in ends:
            assert all(abs(end - start + 10.65625) - 10.65625 >= 39.999 for start in starts)


@pytest.mark.parametrize("bond", ["stretcher", "third_lap", "quarter_lap"])
@pytest.mark.parametrize("pitch", [0.24, 0.5, 0.84, 1.19])
def test_no_perp_under_a_rake_comes_nearer_than_the_shortest_piece_to_one_of_the_course_below(bond, pitch) -> None:
    """A lean-to of 20 modules, whose perps stay nominal: middles of joints between neighbouring pieces, course by course."""
    courses: dict[int, list[tuple[float, float]]] = {}
    for x, y, width, _ in pieces_of(lean_to(4490, 450, 4490 * pitch), bond):
        courses.setdefault(round(y / 75), []).append((x, x + width))
    perps = {
        number: [(before[1] + after[0]) / 2 for before, after in pairwise(sorted(units))]
        for number, units in courses.items()
    }
    gaps = [abs(upper - lower) for number in perps for upper in perps[number] for lower in perps.get(number - 1, [])]
    assert min(gaps) >= 50 - 0.01


def test_a_ridge_that_holds_no_more_than_a_perp_still_counts_its_joint() -> None:
    """Two rakes of 45 degrees that meet 3 mm above the foot of a course, over a perp: its 9 mm2 are joint."""
    length = 20 * 225 - 10
    wall = outline(
        (0, 0), (length, 0), (length, 300), (length / 2 + 1, 300), (length / 2, 303), (length / 2 - 1, 300), (0, 300)
    )
    row = answer(wall).result["elevations"][0]
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-12)
    assert row["courses_count"] == 4


def test_a_unit_that_reaches_over_a_raked_gap_into_the_next_run_is_laid_once() -> None:
    """A triangle open to the left end leaves a strip beside it; the half bat of odd courses stands in the strip and past the gap."""
    gap = [(0, 0), (100, 0), (60, 1035)]
    opening = {"id": "gap", "kind": "polygon", "points": [{"x_mm": x, "y_mm": y} for x, y in gap]}
    wall = {"id": "front", "width_mm": 450, "height_mm": 1035, "openings": [opening]}
    shapes = [Polygon(corners) for *_, corners in pieces_of(wall)]
    assert sum(shape.area for shape in shapes) == pytest.approx(shapely.union_all(shapes).area, abs=1e-6)
    row = answer(wall, options=EQUAL).result["elevations"][0]
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-9)
