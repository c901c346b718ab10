"""Walls and buildings drawn in text, read both ways: a picture gives a wall, and a layout gives its picture.

A character is a quarter module wide, a line is a course, the foot is the last line. ``S`` stretcher, ``H`` header, ``c`` cut
piece, ``i`` piece of a quarter with its joint, ``d`` soldier, ``#`` feature, ``.`` opening, ``|`` upright joint,
``=`` movement joint, space for what is not wall. A joint is drawn in the quarter in which it ends; a piece that ends at a jamb, a
feature or a free end has none, and fills its last quarter. Where perps were equalised, quarters are stretched with them. What is
drawn is what a level line in the middle of the slips meets.

A building is drawn from above: a character is a module either way. Faces are named a, b, c, ... round it from the lower left
corner, to the right as seen from outside.
"""

import math
from itertools import pairwise

import shapely
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.polygon import orient

from slip_rows import written_out
from storeyrod.findings import Refusal
from storeyrod.setting_out.calculation import calculate as set_out_of
from storeyrod.setting_out.models import SettingOutRequest
from storeyrod.slips.calculation import calculate as slips_of
from storeyrod.slips.models import SlipLayoutRequest

MODULE, COURSE, PERP = 225.0, 75.0, 10.0
QUARTER = MODULE / 4
LEAST = 2.0
"""Narrower strips of mortar than this are no joint."""

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10, "max_spacing_mm": 50_000, "max_boards_count": 100},
}
"""Build-up 100 + 3 + 20 = 123 mm."""

_TURNS = {"external_corner": "/", "internal_corner": "\\", "sheet": ":"}
_LETTERS = {"stretcher": "S", "header": "H", "soldier": "d"}


def picture(text):
    """A picture from a test's source, without its indent."""
    lines = text.strip("\n").split("\n")
    indent = min(len(line) - len(line.lstrip()) for line in lines if line.strip())
    return "\n".join(line[indent:].rstrip() for line in lines).rstrip()


def request_for(elevations, options=None, datum=None, **system):
    made = {"elevations": list(elevations), "system": {**SYSTEM, **system}, "options": options or {}}
    return made if datum is None else {**made, "datum": datum}


def set_out(*elevations, **more):
    """The answer of the setting out."""
    return set_out_of(SettingOutRequest.model_validate(request_for(elevations, **more)))


def slips(*elevations, perps="nominal", strict=False, **system):
    """The answer of the slip layout."""
    options = {"perps": perps, "strict": strict}
    return slips_of(SlipLayoutRequest.model_validate(request_for(elevations, options, **system)))


def findings(answer, code):
    return [item for item in answer.findings if item["code"] == code]


def refusal_of(asked):
    """Slug, pointer and sentence of the refusal that a call raises."""
    try:
        asked()
    except Refusal as refusal:
        (fault,) = refusal.faults
        return refusal.slug, fault.pointer, fault.detail
    raise AssertionError("answered")


def outline(*corners):
    return {"outline": [{"x_mm": x, "y_mm": y} for x, y in corners]}


def rectangle(width, height, **more):
    return {"id": "wall", "width_mm": width, "height_mm": height, **more}


def hole(x, y, width, height, name="o", **more):
    made = {"id": name, "kind": "rectangle", "x_mm": x, "y_mm": y, "width_mm": width, "height_mm": height}
    return {**made, **more}


# -- a wall from its picture ------------------------------------------------------------------------------------------------


def wall_from(drawn_wall, **more):
    """The elevation of a picture: lengths of piers end a joint short (CO-), openings and features are a joint longer (CO+)."""
    lines = drawn_wall.split("\n")[::-1]
    ring = orient(shapely.union_all([box for line in _each(lines, "") for box in line])).exterior.simplify(0)
    openings = [hole(*sizes, f"o{at}") for at, sizes in enumerate(_patches(lines, "."))]
    features = [hole(*sizes, f"f{at}") for at, sizes in enumerate(_patches(lines, "#"))]
    return {"id": "wall", **outline(*ring.coords[:-1]), "openings": openings, "features": features, **more}


def _each(lines, mark):
    return [list(_runs(line, course, mark)) for course, line in enumerate(lines)]


def _patches(lines, mark):
    """Left, foot, width and height of every patch of a character, by their places from the left."""
    together = shapely.union_all([box for line in _each(lines, mark) for box in line])
    for patch in sorted(shapely.get_parts(together), key=lambda one: one.bounds):
        left, bottom, right, top = patch.bounds
        yield left, bottom, right - left, top - bottom


def _runs(line, course, mark):
    """Boxes of the runs of a character, or of any: wall ends a joint before its last quarter does, a gap in it starts so."""
    start = None
    for place, seen in enumerate([*line, " "]):
        here = seen == mark if mark else seen != " "
        if here and start is None:
            start = place
        if not here and start is not None:
            left = start * QUARTER - (PERP if mark and start > 0 else 0)
            right = place * QUARTER - (PERP if not mark or place == len(line) else 0)
            yield box(left, course * COURSE, right, (course + 1) * COURSE)
            start = None


# -- a picture from a layout ------------------------------------------------------------------------------------------------


def drawn(elevation, perps="nominal", **system):
    """Picture of one wall by itself."""
    return drawn_of(slips(elevation, perps=perps, **system), elevation)


def drawn_of(answer, elevation):
    """Picture of one wall of a layout."""
    lines = [_line(answer, elevation, course) for course in range(*_courses(answer, elevation["id"]))]
    return "\n".join(lines[::-1])


def unrolled(answer, elevations):
    """Faces side by side, to the right as seen from outside; ``/`` external and ``\\`` internal corner."""
    spans = [_courses(answer, one["id"]) for one in elevations]
    lines = [""] * (max(stop for _, stop in spans) - min(start for start, _ in spans))
    for one, (start, stop) in zip(elevations, spans, strict=True):
        face = {course - min(start for start, _ in spans): _line(answer, one, course) for course in range(start, stop)}
        wide = max(len(line) for line in face.values())
        mark = _TURNS.get(one.get("right_edge", {}).get("kind"), "")
        lines = [line + face.get(at, "").ljust(wide) + mark for at, line in enumerate(lines)]
    return "\n".join(line.rstrip() for line in lines[::-1])


def _courses(answer, name):
    """First course that a wall has slips in, and the one after the last."""
    bounds = shapely.total_bounds([shape for shape, _, _ in pieces_of(answer, name)])
    return math.floor(bounds[1] / COURSE + 1e-6), math.ceil(bounds[3] / COURSE - 1e-6)


def _line(answer, elevation, course):
    y = course * COURSE + (COURSE - PERP) / 2
    row = row_of(answer, elevation["id"])
    seen = [(*span, mark) for shape, mark, _ in pieces_of(answer, elevation["id"]) for span in _spans(shape, y)]
    seen += [(*span, mark) for mark, area in _areas(elevation) for span in _spans(area, y)]
    covered = shapely.union_all([box(left, y - 1, right, y + 1) for left, right, _ in seen])
    joints = [span for span in _spans(wall_polygon(elevation).difference(covered), y) if span[1] - span[0] > LEAST]
    start = row["bays"][0]["x_from_mm"]
    marks = "|" if any(right == start for _, right in joints) else ""
    for bay in row["bays"]:
        length = bay["x_to_mm"] - bay["x_from_mm"] + PERP
        is_drawn = bay["arrangement"] == "nominal"
        cells = math.ceil(length / QUARTER - 0.01) if is_drawn else round(length / QUARTER)
        step = QUARTER if is_drawn else length / cells
        ends = {
            math.ceil((right - bay["x_from_mm"]) / step - 0.25) - 1: _joint(elevation, left, right)
            for left, right in joints
        }
        marks += "".join(_mark(seen, bay["x_from_mm"] + cell * step, step, ends.get(cell)) for cell in range(cells))
    return marks.rstrip()


def _spans(shape, y):
    """Where a shape meets a level, from left to right."""
    met = shapely.get_parts(shape.intersection(LineString([(-1e6, y), (1e6, y)])))
    return sorted((part.bounds[0], part.bounds[2]) for part in met if not part.is_empty)


def _joint(elevation, left, right):
    return "=" if any(left < x < right for x in elevation.get("existing_joints_x_mm", [])) else "|"


def _mark(seen, left, step, joint):
    """The joint that ends in a quarter, else what covers the middle of the quarter without a joint, or lies within it."""
    middle = left + (step - PERP) / 2
    covering = [(low, mark) for low, high, mark in seen if low <= middle <= high]
    within = [(low, mark) for low, high, mark in seen if left <= low and high <= left + step]
    start, mark = next(iter(covering + within), (None, " "))
    if joint == "|" and start is not None and start > left - PERP / 2:
        return "i"
    return joint or mark


def _areas(elevation):
    yield from ((".", shape_of(one)) for one in elevation.get("openings", []))
    yield from (("#", shape_of(one)) for one in elevation.get("features", []))


def wall_polygon(elevation):
    if "outline" in elevation:
        return Polygon([(point["x_mm"], point["y_mm"]) for point in elevation["outline"]])
    return box(0, 0, elevation["width_mm"], elevation["height_mm"])


def shape_of(one):
    """Polygon of an opening or feature."""
    if one["kind"] == "rectangle":
        return box(one["x_mm"], one["y_mm"], one["x_mm"] + one["width_mm"], one["y_mm"] + one["height_mm"])
    return Point(one["x_mm"], one["y_mm"]).buffer(one["diameter_mm"] / 2)


# -- what a layout holds ----------------------------------------------------------------------------------------------------


def row_of(answer, name):
    return next(row for row in answer.result["elevations"] if row["elevation"] == name)


def pieces_of(answer, name):
    """Every piece of an elevation: its polygon, its letter, and its course, if it stands in one."""
    row = next(row for row in written_out(answer.result)["elevations"] if row["elevation"] == name)
    return [piece for course in (*row["courses"], *row["soldier_courses"]) for piece in _pieces(course)]


def _pieces(course):
    number, y, height = course.get("course"), course["y_mm"], course["height_mm"]
    for run in course["runs"]:
        for index in range(run["count"]):
            left = run["x_mm"] + index * run["pitch_mm"]
            yield box(left, y, left + run["width_mm"], y + height), _LETTERS[run["kind"]], number
    for cut in course["cuts"]:
        letter = "d" if cut["kind"] == "soldier" else "c"
        if "rings" in cut:
            yield _polygon(cut["rings"]), letter, number
        else:
            x, foot = cut["x_mm"], cut["y_mm"]
            yield box(x, foot, x + cut["width_mm"], foot + cut["height_mm"]), letter, number


def _polygon(rings):
    outer, *holes = [[(point["x_mm"], point["y_mm"]) for point in ring] for ring in rings]
    return Polygon(outer, holes)


# -- a building from its plan -----------------------------------------------------------------------------------------------


def building_from(plan, height=150, **more):
    """Faces round a building drawn from above: CO- between external corners, CO beside one internal corner, CO+ between two."""
    lines = plan.split("\n")[::-1]
    cells = [
        box(x * MODULE, y * MODULE, (x + 1) * MODULE, (y + 1) * MODULE)
        for y, line in enumerate(lines)
        for x, mark in enumerate(line)
        if mark != " "
    ]
    ring = [(int(x), int(y)) for x, y in orient(shapely.union_all(cells)).exterior.simplify(0).coords[:-1]]
    start = ring.index(min(ring, key=lambda corner: (corner[1], corner[0])))
    corners = [*ring[start:], *ring[:start]]
    kinds = [_kind(corners[at - 1], corner, corners[(at + 1) % len(corners)]) for at, corner in enumerate(corners)]
    names = "abcdefghijkl"[: len(corners)]
    made = []
    for at, (one, other) in enumerate(pairwise([*corners, corners[0]])):
        left, right = kinds[at], kinds[(at + 1) % len(kinds)]
        joints = (left, right).count("internal_corner") - 1
        width = math.dist(one, other) + joints * PERP
        before, after = names[at - 1], names[(at + 1) % len(names)]
        made.append(
            {
                "id": names[at],
                "width_mm": width,
                "height_mm": height,
                "left_edge": {"kind": left, "to": f"{before}:right"},
                "right_edge": {"kind": right, "to": f"{after}:left"},
                **more,
            }
        )
    return made


def _kind(before, corner, after):
    turn = (corner[0] - before[0]) * (after[1] - corner[1]) - (corner[1] - before[1]) * (after[0] - corner[0])
    return "external_corner" if turn > 0 else "internal_corner"


# -- the base under a wall --------------------------------------------------------------------------------------------------


def with_base(drawn_wall, runs):
    """The picture with ``_`` in the line under each level run of a base, over the middles of the quarters that it reaches."""
    lowest = min(0, *(round(run["level_mm"] / COURSE) - 1 for run in runs))
    lines = [*drawn_wall.split("\n")[::-1]]
    rows = {course: list(line) for course, line in enumerate(lines)}
    for run in runs:
        under = rows.setdefault(round(run["level_mm"] / COURSE) - 1, [])
        for cell in range(math.floor(run["x_from_mm"] / QUARTER), math.ceil(run["x_to_mm"] / QUARTER)):
            if run["x_from_mm"] <= (cell + 0.5) * QUARTER <= run["x_to_mm"]:
                under += " " * (cell + 1 - len(under))
                under[cell] = "_"
    made = ["".join(rows.get(course, [])).rstrip() for course in range(lowest, max(rows) + 1)]
    return "\n".join(made[::-1]).strip("\n")
