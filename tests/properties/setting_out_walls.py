"""Requests for properties of setting out: whole requests moved and scaled, walls over ground, buildings, and pieces by course.

A request, or an answer, is moved and scaled by the names of its members: coordinates end in x_mm, y_mm and the like, lengths in mm.
"""

from itertools import pairwise

import shapely
from hypothesis import strategies as st
from shapely.geometry import LineString, box
from shapely.geometry.polygon import orient
from slip_oracle import lengths, net_polygon, pieces_of, points, walls

from storeyrod.setting_out.calculation import calculate as set_out
from storeyrod.setting_out.models import SettingOutRequest

ACROSS = {
    "x_mm",
    "bond_origin_x_mm",
    "existing_joints_x_mm",
    "x_from_mm",
    "x_to_mm",
    "perps_x_mm",
    "limit_x_mm",
    "at_perp_x_mm",
}
UPWARDS = {"y_mm", "sill_mm", "springing_mm", "head_mm", "foot_mm", "storey_levels_mm", "level_mm", "course_datum_mm",
           "match_bed_at_mm", "from_level_mm", "to_level_mm", "from_mm", "to_mm"}  # fmt: skip


def pitch_of(module):
    return module["height_mm"] + module["bed_mm"]


def module_of(module):
    return module["length_mm"] + module["perp_mm"]


def request_of(elevations, made, datum=None, **options):
    request = {"elevations": list(elevations), "system": made, "options": options}
    return request if datum is None else {**request, "datum": datum}


def set_out_of(elevations, made, datum=None, **options):
    return set_out(SettingOutRequest.model_validate(request_of(elevations, made, datum, **options)))


def row_of(answer, name="wall"):
    return next(row for row in answer.result["elevations"] if row["elevation"] == name)


def codes(answer):
    return {item["code"] for item in answer.findings}


def moved(value, across, up, name=""):
    """A request or an answer with all its places moved."""
    if isinstance(value, dict):
        return {key: moved(item, across, up, key) for key, item in value.items()}
    if isinstance(value, list):
        return [moved(item, across, up, name) for item in value]
    if value is None or isinstance(value, str):
        return value
    return value + (across if name in ACROSS else up if name in UPWARDS else 0)


def scaled(value, k, name=""):
    """A request or an answer with all its lengths and areas multiplied."""
    if isinstance(value, dict):
        return {key: scaled(item, k, key) for key, item in value.items()}
    if isinstance(value, list):
        return [scaled(item, k, name) for item in value]
    power = 1 if name.endswith(("_mm", "_m")) else 2 if name.endswith("_m2") else 0
    return value * k**power if isinstance(value, int | float) and not isinstance(value, bool) and power else value


def figures(value, path=""):
    """Every leaf of an answer by its path."""
    if isinstance(value, dict):
        return {at: item for key, part in value.items() for at, item in figures(part, f"{path}/{key}").items()}
    if isinstance(value, list):
        return {at: item for index, part in enumerate(value) for at, item in figures(part, f"{path}/{index}").items()}
    return {path: value}


def differences(found, expected, tolerance=1e-6):
    """Paths at which two answers differ, numbers by more than a tolerance."""
    one, other = figures(found), figures(expected)
    return [
        (path, one.get(path), other.get(path))
        for path in sorted(one.keys() | other.keys())
        if not _alike(one.get(path), other.get(path), tolerance)
    ]


def _alike(one, other, tolerance):
    if isinstance(one, int | float) and isinstance(other, int | float):
        return abs(one - other) <= tolerance
    return one == other


# -- pieces -----------------------------------------------------------------------------------------------------------------


def pieces_by_course(row):
    """Polygons of the pieces in courses, by number of course."""
    return {one["course"]: pieces_of({"courses": [one], "soldier_courses": []}) for one in row["courses"]}


def same_pieces(ours, theirs):
    """Whether two layouts are the same pieces in the same places: joints part the pieces, so their unions tell them."""
    apart = shapely.symmetric_difference(shapely.union_all(ours), shapely.union_all(theirs)).area
    return len(ours) == len(theirs) and apart <= 0.02 * max(1, len(ours))


def perps_on(shapes, wall, y, slots=()):
    """On a level: gaps between two pieces that lie in the wall and in no movement joint, from left to right."""
    spans = sorted(span for shape in shapes for span in spans_on(shape, y))
    free = wall.difference(shapely.union_all([box(left, -1e5, right, 1e5) for left, right in slots]))
    runs = spans_on(free, y)
    return [
        (one[1], other[0])
        for one, other in pairwise(spans)
        if any(low <= one[1] + 1e-3 and other[0] <= high + 1e-3 for low, high in runs)
    ]


def spans_on(shape, y):
    """Where a shape meets a level, from left to right."""
    met = shapely.get_parts(shape.intersection(LineString([(-1e6, y), (1e6, y)])))
    return sorted((part.bounds[0], part.bounds[2]) for part in met if not part.is_empty)


def slots_of(wall, width=10.0):
    return [(x - width / 2, x + width / 2) for x in wall.get("existing_joints_x_mm", [])]


# -- walls ------------------------------------------------------------------------------------------------------------------


@st.composite
def grounded_walls(draw, **more):
    """A wall with ground before it, some with features and storeys, and with the origin of its bond anywhere."""
    wall = draw(walls(**more))
    ring = [(point["x_mm"], point["y_mm"]) for point in wall["outline"]]
    left, right, foot = min(x for x, _ in ring), max(x for x, _ in ring), min(y for _, y in ring)
    places = sorted(draw(st.sets(st.integers(int(left) + 1, int(right) - 1), max_size=3)))
    heights = [draw(lengths(-600, 150)) for _ in range(len(places) + 2)]
    line = [(x, foot + y) for x, y in zip([left, *places, right], heights, strict=True)]
    wall["base"] = {"ground": points(*line), "clearance_mm": float(draw(st.sampled_from([0, 100, 150])))}
    wall["bond_origin_x_mm"] = draw(st.none() | lengths(-300, 300))
    wall["storey_levels_mm"] = [foot + 150, foot + 450]
    wall["features"] = list(_bands(draw, wall, left, right, foot))
    return wall


def _bands(draw, wall, left, right, foot):
    """A band between the ends, where it is clear of openings."""
    x, y = left + draw(lengths(0, 200)), foot + draw(lengths(0, 500))
    band = {"id": "band", "kind": "rectangle", "x_mm": x, "y_mm": y, "width_mm": 300.0, "height_mm": 120.0}
    place = box(x, y, x + 300, y + 120)
    if draw(st.booleans()) and net_polygon(wall).buffer(-1e-3).contains(place):
        yield band


@st.composite
def rectilinear_plans(draw, step=1000):
    """Corners of a building that is a union of boxes, anticlockwise; and whether each is external."""
    first = (0, 0, draw(st.integers(2, 6)), draw(st.integers(2, 6)))
    boxes = [first]
    for _ in range(draw(st.integers(0, 3))):
        x, y = draw(st.integers(0, first[2] - 1)), draw(st.integers(0, first[3] - 1))
        boxes.append((x, y, x + draw(st.integers(1, 5)), y + draw(st.integers(1, 5))))
    whole = shapely.union_all([box(*(step * side for side in one)) for one in boxes])
    if whole.geom_type != "Polygon" or whole.interiors:
        whole = box(0, 0, step * first[2], step * first[3])
    corners = list(orient(whole).exterior.simplify(0).coords)[:-1]
    return [(x, y, _is_external(corners, at)) for at, (x, y) in enumerate(corners)]


def _is_external(corners, at):
    (ax, ay), (bx, by), (cx, cy) = corners[at - 1], corners[at], corners[(at + 1) % len(corners)]
    return (bx - ax) * (cy - by) - (by - ay) * (cx - bx) > 0


def building(lengths_mm, externals, height=300.0, **more):
    """Faces in order round a building; corner k is the one at the left end of face k."""
    kinds = ["external_corner" if external else "internal_corner" for external in externals]
    names = [f"f{index:02d}" for index in range(len(lengths_mm))]
    made = []
    for at, (name, length) in enumerate(zip(names, lengths_mm, strict=True)):
        after = (at + 1) % len(names)
        left = {"kind": kinds[at], "to": f"{names[at - 1]}:right"}
        right = {"kind": kinds[after], "to": f"{names[after]}:left"}
        made.append(
            {"id": name, "width_mm": length, "height_mm": height, "left_edge": left, "right_edge": right, **more}
        )
    return made
