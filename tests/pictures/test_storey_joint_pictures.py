"""Walls with level joints, drawn in text with the foot of every course in mm; a line of ``=`` is a level joint with its width.

Characters of the courses are those of ``slip_pictures``: a character is a quarter module wide.
"""

from slip_pictures import QUARTER, lay, picture

BOARDS = {"cover_length_mm": 1200, "cover_height_mm": 150, "thickness_mm": 100}
"""Boards of two courses, so that a joint may lie over two."""

JOINT = {"width_mm": 10, "at_storeys": True}


def drawn(elevation, **joint):
    """Courses from the top with their feet, and between them the strips that are no slips and no plain bed."""
    system = {"board": BOARDS, "movement_joint": {**JOINT, **joint}}
    row = lay(elevation, **system).result["elevations"][0]
    lines, above = [], None
    for course in sorted(row["courses"], key=lambda one: -one["y_mm"]):
        gap = None if above is None else above - course["y_mm"] - course["height_mm"]
        if gap is not None and (gap != 10 or course["course"] + 1 in joints_of(elevation, joint)):
            lines.append(f"{gap:>3g} {'=' * 16}")
        lines.append(f"{course['y_mm']:>3g} {marks(course)}")
        above = course["y_mm"]
    return "\n".join(lines)


def joints_of(elevation, joint):
    """Courses that stand on joints, as long as joints are no wider than a bed."""
    return {level / 75 for level in elevation["storey_levels_mm"]} if joint.get("storey_width_mm", 10) == 10 else set()


def marks(course):
    pieces = [(cut["x_mm"], cut["width_mm"], "c") for cut in course["cuts"]]
    for run in course["runs"]:
        pieces += [(run["x_mm"] + at * run["pitch_mm"], run["width_mm"], "S") for at in range(run["count"])]
    cells = {}
    for x, width, letter in pieces:
        for cell in range(round(x / QUARTER), round((x + width) / QUARTER)):
            cells[cell] = letter
        cells[round((x + width + 10) / QUARTER) - 1] = "|"
    return "".join(cells.get(cell, ".") for cell in range(16)).rstrip()


WALL = {"id": "wall", "width_mm": 890, "height_mm": 450, "storey_levels_mm": [225]}


def test_a_joint_as_wide_as_a_bed_lies_in_it() -> None:
    assert drawn(WALL) == picture("""
         375 c|SSS|SSS|SSS|c|
         300 SSS|SSS|SSS|SSS|
         225 c|SSS|SSS|SSS|c|
          10 ================
         150 SSS|SSS|SSS|SSS|
          75 c|SSS|SSS|SSS|c|
           0 SSS|SSS|SSS|SSS|
    """)


def test_a_wider_joint_lifts_what_stands_on_it() -> None:
    """20 mm: the top course is ripped by the 10 that the joint has gained."""
    assert drawn(WALL, storey_width_mm=20) == picture("""
         385 c|SSS|SSS|SSS|c|
         310 SSS|SSS|SSS|SSS|
         235 c|SSS|SSS|SSS|c|
          20 ================
         150 SSS|SSS|SSS|SSS|
          75 c|SSS|SSS|SSS|c|
           0 SSS|SSS|SSS|SSS|
    """)


def test_the_bond_goes_on_over_two_joints() -> None:
    wall = {**WALL, "height_mm": 470, "storey_levels_mm": [150, 320]}
    assert drawn(wall, storey_width_mm=20) == picture("""
         395 c|SSS|SSS|SSS|c|
         320 SSS|SSS|SSS|SSS|
          20 ================
         235 c|SSS|SSS|SSS|c|
         160 SSS|SSS|SSS|SSS|
          20 ================
          75 c|SSS|SSS|SSS|c|
           0 SSS|SSS|SSS|SSS|
    """)
