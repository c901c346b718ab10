"""Elevations drawn in text: a character is a quarter module wide, a line is a course, the foot is the last line.

``S`` stretcher, ``H`` header, ``c`` cut piece, ``i`` closer of a quarter with its joint, ``d`` soldier, ``|`` upright joint,
``=`` movement joint, ``.`` opening, space for what is not wall. A joint is drawn in the quarter in which it ends, none at a
jamb. Bed joints are not drawn; pieces at a rake are drawn by their bounding boxes.
"""

from slip_rows import written_out
from storeyrod.slips.calculation import calculate
from storeyrod.slips.models import SlipLayoutRequest

QUARTER, COURSE, JOINT = 56.25, 75.0, 10.0

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10},
}
_LETTERS = {"stretcher": "S", "header": "H", "soldier": "d"}


def lay(elevation, **system):
    """The answer, its courses written out."""
    request = {"elevations": [{"id": "wall", **elevation}], "system": {**SYSTEM, **system}}
    answer = calculate(SlipLayoutRequest.model_validate(request))
    answer.result = written_out(answer.result)
    return answer


def drawn(elevation, **system):
    """The wall as a picture: what covers the middle of each quarter module, less a joint, at the middle of each course."""
    row = lay(elevation, **system).result["elevations"][0]
    pieces = [piece for course in row["courses"] + row["soldier_courses"] for piece in _pieces(course)]
    right = max(x + width for x, _, width, _, _ in pieces)
    top = max(y + height for _, y, _, height, _ in pieces)
    lines = []
    for course in range(int((top - 1) // COURSE), -1, -1):
        y = course * COURSE + 32.5
        cells = [_letter(pieces, quarter * QUARTER, y, elevation) for quarter in range(int((right - 1) // QUARTER) + 1)]
        lines.append("".join(cells).rstrip())
    return "\n".join(lines)


def _pieces(course):
    for run in course["runs"]:
        for index in range(run["count"]):
            left = run["x_mm"] + index * run["pitch_mm"]
            yield left, course["y_mm"], run["width_mm"], course["height_mm"], _LETTERS[run["kind"]]
    for cut in course["cuts"]:
        letter = "d" if cut["kind"] == "soldier" else "c"
        yield cut["x_mm"], cut["y_mm"], cut["width_mm"], cut["height_mm"], letter


def _letter(pieces, left, y, elevation):
    """A quarter shows the joint at its end, if one is there, and else what lies in its middle."""
    end, middle = left + QUARTER - JOINT / 2, left + (QUARTER - JOINT) / 2
    course = [(x, x + width, letter) for x, bottom, width, height, letter in pieces if bottom <= y <= bottom + height]
    inside = [(low, letter) for low, high, letter in course if low <= middle <= high]
    if not inside:
        return "." if _in_opening(elevation, middle, y) else " "
    if any(low <= end <= high for low, high, _ in course) or _in_opening(elevation, end + JOINT, y):
        return inside[0][1]
    if any(abs(joint - end) < 1 for joint in elevation.get("existing_joints_x_mm", [])):
        return "="
    return "i" if inside[0][0] >= left - 1 else "|"


def _in_opening(elevation, x, y):
    return any(
        hole["x_mm"] < x < hole["x_mm"] + hole["width_mm"] and hole["y_mm"] < y < hole["y_mm"] + hole["height_mm"]
        for hole in elevation.get("openings", [])
    )


def picture(text):
    """A picture from a test's source, without its indent."""
    lines = text.strip("\n").split("\n")
    indent = min(len(line) - len(line.lstrip()) for line in lines if line.strip())
    return "\n".join(line[indent:].rstrip() for line in lines).rstrip()
