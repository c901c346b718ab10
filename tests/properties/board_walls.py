"""Random walls for the properties of boards and fasteners, in millimetres; and their pieces as shapely polygons."""

from hypothesis import strategies as st
from shapely.geometry import Polygon, box

SLIPS = [
    {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    {"length_mm": 210, "height_mm": 50, "thickness_mm": 15},
    {"length_mm": 290, "height_mm": 52.5, "thickness_mm": 22},
]
BOARDS = [(1200, 8), (1000, 6), (750, 5)]
"""Cover length, and courses in a board."""

EDGES = ["external_corner", "internal_corner", "abutment", "free_end"]


@st.composite
def systems(draw: st.DrawFn) -> dict:
    slip = draw(st.sampled_from(SLIPS))
    length, courses = draw(st.sampled_from(BOARDS))
    pitch = slip["height_mm"] + 10
    board = {
        "cover_length_mm": length,
        "cover_height_mm": courses * pitch,
        "thickness_mm": draw(st.sampled_from([60, 100])),
        "rib_pitch_mm": pitch,
        "side_edges": draw(st.sampled_from(["square", "tongue"])),
        "kerf_mm": draw(st.sampled_from([0, 3])),
    }
    return {"board": board, "slip": slip, "joint": {"bed_mm": 10, "perp_mm": 10}, "movement_joint": {"width_mm": 12}}


def _outline(width: float, height: float, shape: str) -> list[dict]:
    points = {
        "plain": [(0, 0), (width, 0), (width, height), (0, height)],
        "gable": [(0, 0), (width, 0), (width, height * 0.7), (width * 0.4, height), (0, height * 0.7)],
        "lean_to": [(0, 0), (width, 0), (width, height), (0, height * 0.75)],
        "step": [(0, 0), (width * 0.6, 0), (width * 0.6, 150), (width, 150), (width, height), (0, height)],
    }[shape]
    return [{"x_mm": x, "y_mm": y} for x, y in points]


@st.composite
def elevations(draw: st.DrawFn, shapes: tuple[str, ...] = ("plain", "gable", "lean_to", "step")) -> dict:
    width, height = draw(st.integers(8, 90)) * 100, draw(st.integers(14, 40)) * 100 + draw(st.sampled_from([0, 0.5]))
    openings, x = [], 0
    for index in range(draw(st.integers(0, 3))):
        x += draw(st.integers(3, 20)) * 50
        size, sill = draw(st.integers(8, 30)) * 50, draw(st.sampled_from([0, 150, 300, 457.5]))
        if x + size > width - 150:
            break
        if draw(st.integers(0, 3)) == 0 and sill:
            shape = {"kind": "arch", "sill_mm": sill, "springing_mm": 700, "rise_mm": min(size / 2, 250)}
        else:
            shape = {"kind": "rectangle", "y_mm": sill, "height_mm": draw(st.sampled_from([525, 600])) - sill / 3}
        openings.append({"id": f"o{index}", "x_mm": x, "width_mm": size, **shape})
        x += size
    shape = draw(st.sampled_from(shapes))
    if shape == "step":
        openings = [one for one in openings if one.get("y_mm", one.get("sill_mm")) >= 150]
    made = {
        "id": "wall-1",
        "outline": _outline(width, height, shape),
        "openings": openings,
        "left_edge": {"kind": draw(st.sampled_from(EDGES))},
        "right_edge": {"kind": draw(st.sampled_from(EDGES))},
    }
    if draw(st.booleans()) and width > 2000:
        made["existing_joints_x_mm"] = [width * 0.55]
    return made


@st.composite
def requests(draw: st.DrawFn) -> dict:
    return {"elevations": [draw(elevations())], "system": draw(systems())}


def polygon_of(piece: dict) -> Polygon:
    """A piece of the answer as a polygon."""
    if "ring" not in piece:
        right, top = piece["x_mm"] + piece["width_mm"], piece["y_mm"] + piece["height_mm"]
        return box(piece["x_mm"], piece["y_mm"], right, top)
    holes = [[(p["x_mm"], p["y_mm"]) for p in hole] for hole in piece.get("holes", [])]
    return Polygon([(p["x_mm"], p["y_mm"]) for p in piece["ring"]], holes)


def mirrored(elevation: dict) -> dict:
    """The elevation seen in a mirror: x becomes width less x."""
    width = max(point["x_mm"] for point in elevation["outline"])
    made = {
        **elevation,
        "outline": [{"x_mm": width - p["x_mm"], "y_mm": p["y_mm"]} for p in reversed(elevation["outline"])],
        "openings": [{**o, "x_mm": width - o["x_mm"] - o["width_mm"]} for o in elevation["openings"]],
        "left_edge": elevation["right_edge"],
        "right_edge": elevation["left_edge"],
    }
    if "existing_joints_x_mm" in elevation:
        made["existing_joints_x_mm"] = [width - x for x in elevation["existing_joints_x_mm"]]
    return made
