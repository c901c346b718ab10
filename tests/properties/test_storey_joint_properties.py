"""Level joints on random walls: areas close, pieces are those of a clipping model, and courses move only by what beds gain."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, box
from slip_oracle import MODULES, SMALLEST_MM2, laid, net_polygon, pieces_of, system, walls

from storeyrod.movement_joints.calculation import calculate
from storeyrod.movement_joints.models import MovementJointsRequest

UNITS = st.sampled_from(MODULES)
PERPS = st.sampled_from(["nominal", "equalised"])
EPSILON_M2 = 1e-6
HAIR_MM = 1e-4
QUICK = settings(max_examples=30, deadline=None)


def pitch_of(module):
    return module["height_mm"] + module["bed_mm"]


@st.composite
def jointed(draw, soldiers=False, wider=None):
    """A wall with its units and a system that has level joints: widths, courses over joints, and the storey levels they follow."""
    wall, module = draw(walls(soldiers=soldiers)), draw(UNITS)
    lift = draw(st.sampled_from([0.0, 2.5, 10.0])) if wider is None else wider
    pitch, foot = pitch_of(module), min(point["y_mm"] for point in wall["outline"])
    top = max(point["y_mm"] for point in wall["outline"])
    lowest = math.ceil((foot + 600.0) / pitch) + 1
    courses = draw(st.lists(st.integers(lowest, lowest + 25), min_size=1, max_size=3, unique=True))
    off = draw(st.sampled_from([0.0, -0.4, 0.4])) * pitch  # less than half a course: the joint's own course is nearest
    reach = 3 * lift + pitch + max(off, 0.0)  # over a storey level stands a course at least
    courses = [course for course in sorted(courses) if course * pitch + reach < top]
    wall = {**wall, "storey_levels_mm": [course * pitch + at * lift + off for at, course in enumerate(courses)]}
    width = module["bed_mm"] + lift
    joints = {"width_mm": 10, "max_spacing_mm": 50_000, "max_boards_count": 100}
    joints |= {"at_storeys": True, "storey_width_mm": width}
    return wall, module, system(module, movement_joint=joints), courses, lift


def foot_of(course, module, courses, lift):
    """Foot of a course: what joints under it have gained is added to its even height."""
    return course * pitch_of(module) + lift * sum(course >= one for one in courses)


def level_boxes(wall, module, courses, lift):
    """Level joints as boxes, by shapely: where the net wall is met just below, in the middle and just above."""
    net = net_polygon(wall)
    left, _, right, _ = net.bounds
    for course in courses:
        top = foot_of(course, module, courses, lift)
        bottom = top - lift - module["bed_mm"]
        spans = None
        for y in (bottom - HAIR_MM, (bottom + top) / 2, top + HAIR_MM / 10):
            met = shapely.intersection(net, LineString([(left - 1, y), (right + 1, y)]))
            lines = [part for part in shapely.get_parts(met) if part.length > 0]
            here = [(line.bounds[0], line.bounds[2]) for line in lines]
            spans = here if spans is None else [
                (max(a, c), min(b, d)) for a, b in spans for c, d in here if min(b, d) > max(a, c)
            ]  # fmt: skip
        yield from (box(low, bottom, high, top) for low, high in spans)


def free_of(wall, module, courses, lift):
    net = net_polygon(wall)
    _, bottom, _, top = net.bounds
    plumb = [box(x - 5, bottom, x + 5, top) for x in wall.get("existing_joints_x_mm", [])]
    return shapely.difference(net, shapely.union_all([*plumb, *level_boxes(wall, module, courses, lift)]))


def clipped(wall, module, courses, lift):
    """Areas of the pieces of stretcher bond in mm2: every unit a box at its own height, cut by shapely."""
    length, height, perp = module["length_mm"], module["height_mm"], module["perp_mm"]
    free = free_of(wall, module, courses, lift)
    left, bottom, right, top = free.bounds
    origin = min(point["x_mm"] for point in wall["outline"])
    half = wall.get("bond_start") == "half"
    boxes = []
    for course in range(math.floor(bottom / pitch_of(module)) - 1, math.ceil(top / pitch_of(module)) + 1):
        foot = foot_of(course, module, courses, lift)
        x = origin - (length + perp) * (2.5 if (course + half) % 2 else 2.0)
        while x < right:
            boxes.append((x, foot, x + length, foot + height))
            x += length + perp
    inside = np.array([one for one in boxes if one[2] > left and one[0] < right])
    areas = shapely.area(shapely.get_parts(shapely.intersection(shapely.box(*inside.T), free)))
    return np.sort(areas[areas > SMALLEST_MM2])


@given(jointed(soldiers=True), PERPS)
@settings(max_examples=60, deadline=None)
def test_areas_close_in_both_ways_with_level_joints_among_plumb_ones(case, perps) -> None:
    wall, module, made, courses, lift = case
    row = laid(wall, made, perps=perps, detail="summary").result["elevations"][0]
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=EPSILON_M2)
    free = free_of(wall, module, courses, lift)
    taken = net_polygon(wall).area - free.area
    assert row["movement_joint_area_m2"] == pytest.approx(taken / 1e6, abs=EPSILON_M2)


@given(jointed())
@QUICK
def test_every_piece_is_the_clipping_models_with_its_course_moved(case) -> None:
    wall, module, made, courses, lift = case
    pieces = pieces_of(laid(wall, made).result["elevations"][0])
    ours = np.sort([piece.area for piece in pieces])
    expected = clipped(wall, module, courses, lift)
    assert len(ours) == len(expected)
    assert np.allclose(ours, expected, rtol=0, atol=0.1)
    outside = shapely.difference(shapely.union_all(pieces), free_of(wall, module, courses, lift).buffer(1e-3))
    assert outside.area / 1e6 < 1e-9


@given(jointed())
@QUICK
def test_p39a_sealed_lengths_are_those_of_the_joint_lines_with_wall_on_both_sides(case) -> None:
    wall, module, made, courses, lift = case
    asked = MovementJointsRequest.model_validate({"elevations": [wall], "system": made})
    (row,) = calculate(asked).result["elevations"]
    boxes = list(level_boxes(wall, module, courses, lift))
    sealed = math.fsum(one.bounds[2] - one.bounds[0] for one in boxes)
    assert row["storey_sealed_length_m"] == pytest.approx(sealed / 1e3, abs=1e-6)
    areas = [joint["area_m2"] for joint in row["storey_joints"]]
    taken = net_polygon(wall).area - free_of(wall, module, courses, lift).area
    assert row["joint_area_m2"] + math.fsum(areas) == pytest.approx(taken / 1e6, abs=EPSILON_M2)


@given(jointed(wider=0.0), PERPS)
@QUICK
def test_p38_joints_as_wide_as_a_bed_leave_every_piece_where_it_is(case, perps) -> None:
    wall, module, made, _, _ = case
    without = system(module)
    rows = [laid(wall, one, perps=perps).result["elevations"][0] for one in (made, without)]
    with_joints, plain = ([_rounded(piece) for piece in pieces_of(row)] for row in rows)
    assert sorted(with_joints) == sorted(plain)


def _rounded(piece):
    return tuple(round(value, 3) for value in (*piece.bounds, piece.area))


@given(jointed())
@QUICK
def test_a_joint_parts_the_wall_into_two_walls_that_are_laid_alike(case) -> None:
    """What stands over a joint is a wall of its own, gauged from a datum that the joint has lifted."""
    wall, module, made, courses, lift = case
    if not courses or wall["openings"]:
        return
    left, lowest, right, top = net_polygon(wall).bounds
    upper_foot = foot_of(courses[-1], module, courses, lift)
    over = shapely.intersection(net_polygon(wall), box(left, upper_foot, right, top))
    corners = list(over.exterior.coords)[:-1]
    if over.bounds[0] != left or upper_foot <= lowest:
        return
    alone = {**wall, "outline": [{"x_mm": x, "y_mm": y} for x, y in corners], "storey_levels_mm": []}
    datum = lift * len(courses)
    upper = pieces_of(laid(alone, {**made, "course_datum_mm": datum}).result["elevations"][0])
    whole = pieces_of(laid(wall, made).result["elevations"][0])
    assert sorted(_coarse(piece) for piece in upper) == sorted(
        _coarse(piece) for piece in whole if piece.bounds[1] > upper_foot - HAIR_MM
    )


def _coarse(piece):
    return tuple(round(value, 1) for value in (*piece.bounds, piece.area / 100))


@given(walls(), UNITS, st.integers(-20, 20))
@QUICK
def test_the_foot_of_course_0_stays_at_the_datum_wherever_joints_lie(wall, module, pitches) -> None:
    datum = pitches * pitch_of(module)
    made = system(module, course_datum_mm=datum)
    made["movement_joint"] |= {"at_storeys": True, "storey_width_mm": module["bed_mm"] + 5}
    foot = min(point["y_mm"] for point in wall["outline"])
    wall = {**wall, "storey_levels_mm": [foot + 700.0]}
    row = laid(wall, made).result["elevations"][0]
    feet = {course["course"]: course["y_mm"] for course in row["courses"]}
    if 0 in feet:
        assert feet[0] == pytest.approx(datum, abs=HAIR_MM)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=EPSILON_M2)
