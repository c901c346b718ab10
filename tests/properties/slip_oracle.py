"""Random walls, and an independent clipping model of slips: every unit of the bond as a box, cut by shapely.

The model knows nothing of runs, slabs or courses of the service: it lays boxes over the bounding box of the wall and intersects
them with a polygon. Only the polygon of an arch comes from the service's geometry, which has its own tests.
"""

import math

import numpy as np
import shapely
from hypothesis import strategies as st
from shapely.affinity import scale
from shapely.geometry import Polygon, box

from slip_rows import written_out
from storeyrod.geometry.arc import arc_vertices
from storeyrod.slips.calculation import calculate
from storeyrod.slips.models import SlipLayoutRequest

MODULES = (
    {"length_mm": 215.0, "height_mm": 65.0, "perp_mm": 10.0, "bed_mm": 10.0},
    {"length_mm": 240.0, "height_mm": 52.0, "perp_mm": 10.0, "bed_mm": 10.5},
    {"length_mm": 193.675, "height_mm": 57.15, "perp_mm": 9.525, "bed_mm": 9.525},
)
"""UK, German thin format, and US modular with 3/8 in joints."""

SHIFTS = {
    "stretcher": ((0, "S"), (1 / 2, "S")),
    "third_lap": ((0, "S"), (1 / 3, "S")),
    "stack": ((0, "S"),),
    "header": ((0, "H"), (1 / 4, "H")),
    "english": ((0, "S"), (1 / 4, "H")),
    "flemish": ((0, "SH"), (3 / 4, "SH")),
}

SMALLEST_MM2 = 1e-4


def system(module, bond="stretcher", **more):
    perp = module["perp_mm"]
    return {
        "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
        "slip": {"length_mm": module["length_mm"], "height_mm": module["height_mm"], "thickness_mm": 20},
        "joint": {"perp_mm": perp, "bed_mm": module["bed_mm"], "perp_min_mm": perp - 2, "perp_max_mm": perp + 2},
        "bond": bond,
        "movement_joint": {"width_mm": 10, "max_spacing_mm": 50_000, "max_boards_count": 100},
        **more,
    }


def laid(elevations, made, **options):
    """The answer, its courses written out."""
    rows = elevations if isinstance(elevations, list) else [elevations]
    answer = calculate(SlipLayoutRequest.model_validate({"elevations": rows, "system": made, "options": options}))
    answer.result = written_out(answer.result)
    return answer


def points(*vertices):
    return [{"x_mm": float(x), "y_mm": float(y)} for x, y in vertices]


_tenths = st.integers(0, 9).map(lambda tenth: tenth / 10)


@st.composite
def lengths(draw, low, high):
    """Millimetres with one decimal."""
    return draw(st.integers(low, high - 1)) + draw(_tenths)


@st.composite
def outlines(draw):
    """Rectangle, gable, mono-pitch or step, its foot anywhere on or off the course grid."""
    width, height = draw(lengths(900, 4500)), draw(lengths(600, 2500))
    left, foot = draw(lengths(-500, 500)), draw(st.sampled_from([0.0, 150.0, -37.5, 12.3]))
    right, top = left + width, foot + height
    kind = draw(st.sampled_from(["rectangle", "gable", "mono_pitch", "step"]))
    if kind == "rectangle":
        return kind, [(left, foot), (right, foot), (right, top), (left, top)]
    rise = draw(lengths(50, 1500))
    if kind == "gable":
        apex = left + width * draw(st.sampled_from([0.5, 0.3, 0.8]))
        return kind, [(left, foot), (right, foot), (right, top), (apex, top + rise), (left, top)]
    if kind == "mono_pitch":
        return kind, [(left, foot), (right, foot), (right, top + rise), (left, top)]
    step, up = left + width * draw(st.sampled_from([0.4, 0.55])), draw(st.sampled_from([75.0, 150.0, 99.9]))
    return kind, [(left, foot), (step, foot), (step, foot + up), (right, foot + up), (right, top), (left, top)]


@st.composite
def openings(draw, ring, soldiers=False):
    """Up to three openings side by side, below the eaves, some at the foot, some arched, some smaller than a slip."""
    left, right = min(x for x, _ in ring), max(x for x, _ in ring)
    foot, top = (
        max(y for x, y in ring if y < min(y for _, y in ring) + 300),
        min(y for x, y in ring[2:] if y > ring[0][1] + 300),
    )
    made, x = [], left
    for index in range(draw(st.integers(0, 3))):
        x += draw(lengths(20, 700))
        width, height = draw(lengths(30, 1200)), draw(lengths(30, 1200))
        y = foot + draw(st.sampled_from([0.0, 75.0, 201.7]))
        if x + width > right - 5 or y + height > top - 5:
            continue
        made.append(_opening(draw, f"o{index}", x, y, width, height, soldiers))
        x += width
    return made


def _opening(draw, name, x, y, width, height, soldiers):
    if height > width and draw(st.booleans()):
        rise = width / 2 if draw(st.booleans()) else width / 5
        springing = y + height - rise
        return {
            "id": name,
            "kind": "arch",
            "x_mm": x,
            "width_mm": width,
            "sill_mm": y,
            "springing_mm": springing,
            "rise_mm": rise,
        }
    head = draw(st.sampled_from(["plain", "soldier"])) if soldiers else "plain"
    return {"id": name, "kind": "rectangle", "x_mm": x, "y_mm": y, "width_mm": width, "height_mm": height, "head": head}


@st.composite
def walls(draw, soldiers=False, joints=True):
    """An elevation."""
    _, ring = draw(outlines())
    made = {"id": "wall", "outline": points(*ring), "openings": draw(openings(ring, soldiers))}
    made["bond_start"] = draw(st.sampled_from(["full", "half"]))
    left, right = min(x for x, _ in ring), max(x for x, _ in ring)
    if joints and draw(st.booleans()):
        made["existing_joints_x_mm"] = [round(left + (right - left) * draw(st.sampled_from([0.31, 0.5, 0.62])), 1)]
    return made


def ring_of(opening):
    if opening["kind"] == "rectangle":
        x, y = opening["x_mm"], opening["y_mm"]
        return box(x, y, x + opening["width_mm"], y + opening["height_mm"])
    if opening["kind"] == "polygon":
        return Polygon([(point["x_mm"], point["y_mm"]) for point in opening["points"]])
    left, width = opening["x_mm"], opening["width_mm"]
    jambs = [(left, opening["sill_mm"]), (left + width, opening["sill_mm"])]
    arc = arc_vertices(left * 1e4, opening["springing_mm"] * 1e4, width * 1e4, opening["rise_mm"] * 1e4)
    return Polygon([*jambs, *((x / 1e4, y / 1e4) for x, y in arc)])


def net_polygon(wall):
    """Outline less openings."""
    outer = Polygon([(point["x_mm"], point["y_mm"]) for point in wall["outline"]])
    return shapely.difference(outer, shapely.union_all([ring_of(one) for one in wall["openings"]]))


def free_polygon(wall, made, soldiers=()):
    """Net wall less movement joints and the zones of the openings that got soldiers."""
    net = net_polygon(wall)
    _, bottom, _, top = net.bounds
    strips = [box(x - 5, bottom, x + 5, top) for x in wall.get("existing_joints_x_mm", [])]
    rise = made["slip"]["length_mm"] + made["joint"]["bed_mm"]
    for one in wall["openings"]:
        if one["id"] in soldiers:
            foot = one["y_mm"] + one["height_mm"]
            strips.append(box(one["x_mm"], foot, one["x_mm"] + one["width_mm"], foot + rise))
    return shapely.difference(net, shapely.union_all(strips)) if strips else net


def clipped_units(wall, made, soldiers=()):
    """Areas of all pieces of the nominal bond in mm2, by boxes cut with shapely."""
    slip, joint = made["slip"], made["joint"]
    length, height, perp = slip["length_mm"], slip["height_mm"], joint["perp_mm"]
    module, pitch = length + perp, height + joint["bed_mm"]
    free = free_polygon(wall, made, soldiers)
    left, bottom, right, top = free.bounds
    origin = min(point["x_mm"] for point in wall["outline"])
    half = wall.get("bond_start") == "half"
    turns_by_half_a_module = made["bond"] in ("stack", "english_garden_wall")
    start = module / 2 if half and turns_by_half_a_module else 0.0
    later = 1 if half and not turns_by_half_a_module else 0
    boxes = []
    for course in range(math.floor(bottom / pitch), math.ceil(top / pitch)):
        shift, units = SHIFTS[made["bond"]][(course + later) % len(SHIFTS[made["bond"]])]
        widths = [length if unit == "S" else (length - perp) / 2 for unit in units]
        x = origin - start - shift * module - 2 * (sum(widths) + len(widths) * perp)
        while x < right:
            for width in widths:
                boxes.append((x, course * pitch, x + width, course * pitch + height))
                x += width + perp
    lows = np.array(boxes)
    inside = lows[(lows[:, 2] > left) & (lows[:, 0] < right)]
    cut = shapely.intersection(shapely.box(*inside.T), free)
    parts = shapely.get_parts(cut)
    areas = shapely.area(parts)
    return np.sort(areas[areas > SMALLEST_MM2])


def pieces_of(row):
    """Polygons of all pieces of an elevation's row, runs written out."""
    polygons = []
    for course in row["courses"] + row["soldier_courses"]:
        for run in course["runs"]:
            for index in range(run["count"]):
                x = run["x_mm"] + index * run["pitch_mm"]
                polygons.append(box(x, course["y_mm"], x + run["width_mm"], course["y_mm"] + course["height_mm"]))
        polygons += [_polygon(cut) for cut in course["cuts"]]
    return polygons


def _polygon(cut):
    if "rings" not in cut:
        return box(cut["x_mm"], cut["y_mm"], cut["x_mm"] + cut["width_mm"], cut["y_mm"] + cut["height_mm"])
    outer, *holes = [[(point["x_mm"], point["y_mm"]) for point in ring] for ring in cut["rings"]]
    return Polygon(outer, holes)


def mirrored(wall, axis):
    """The wall mirrored at a plumb line."""
    made = {**wall, "outline": points(*((2 * axis - point["x_mm"], point["y_mm"]) for point in wall["outline"]))}
    made["openings"] = [{**one, "x_mm": 2 * axis - one["x_mm"] - one["width_mm"]} for one in wall["openings"]]
    if "existing_joints_x_mm" in wall:
        made["existing_joints_x_mm"] = [2 * axis - x for x in wall["existing_joints_x_mm"]]
    return made


def mirrored_polygon(polygon, axis):
    return scale(polygon, xfact=-1, origin=(axis, 0))
