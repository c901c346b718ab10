"""Arches drawn in text: a character is 20 mm wide and 25 mm high, and shows what lies at its middle.

``S`` whole slip, ``c`` cut piece, ``V`` and ``v`` voussoirs in turn, ``.`` opening, space joint or no wall. The foot is the last line.
"""

import shapely
from shapely.geometry import Point, Polygon, box
from slip_pictures import lay

WIDE, HIGH, FIRST = 20.0, 25.0, 20.0


def drawn(elevation, **system):
    """The wall as a picture; lines stand at 20, 45 and 70 mm over every course, the last of them in its bed."""
    made = lay(elevation, **system).result
    shown = list(_pieces(made))
    tree = shapely.STRtree([polygon for polygon, _ in shown])
    hole = _hole(elevation["openings"][0])

    def letter(x, y):
        found = tree.query(Point(x, y), predicate="intersects")
        return shown[found[0]][1] if len(found) else "." if hole.contains(Point(x, y)) else " "

    columns, rows = int(elevation["width_mm"] // WIDE), int(elevation["height_mm"] // HIGH)
    lines = [
        "".join(letter((column + 0.5) * WIDE, FIRST + row * HIGH) for column in range(columns)).rstrip()
        for row in reversed(range(rows))
    ]
    return "\n".join(lines).strip("\n")


def _pieces(made):
    for course in made["elevations"][0]["courses"]:
        low, high = course["y_mm"], course["y_mm"] + course["height_mm"]
        for run in course["runs"]:
            for index in range(run["count"]):
                left = run["x_mm"] + index * run["pitch_mm"]
                yield box(left, low, left + run["width_mm"], high), "S"
        for cut in course["cuts"]:
            ends = cut["x_mm"], cut["y_mm"], cut["x_mm"] + cut["width_mm"], cut["y_mm"] + cut["height_mm"]
            yield (_polygon(cut["rings"][0]) if "rings" in cut else box(*ends)), "c"
    for ring in made["voussoirs"]:
        for piece in ring["pieces"]:
            yield _polygon(piece["rings"][0]), "vV"[piece["voussoir"] % 2]


def _polygon(ring):
    return Polygon([(corner["x_mm"], corner["y_mm"]) for corner in ring])


def _hole(opening):
    """Jambs, and a circle through both springings and the crown."""
    width, rise, springing = opening["width_mm"], opening["rise_mm"], opening["springing_mm"]
    radius = (width**2 / 4 + rise**2) / (2 * rise)
    left, right, middle = opening["x_mm"], opening["x_mm"] + width, opening["x_mm"] + width / 2
    circle = Point(middle, springing + rise - radius).buffer(radius, quad_segs=500)
    arch = shapely.intersection(circle, box(left, springing, right, springing + rise))
    return shapely.union(arch, box(left, opening["sill_mm"], right, springing))
