"""Rows of a slip layout written out: every course on its own, with all heights in the coordinates of the wall."""


def written_out(result):
    """A slip layout whose elevations carry single courses, from the bottom, with the heights of their cut pieces as ``y_mm``."""
    pitch = result["course_pitch_mm"]
    return {**result, "elevations": [_elevation(row, pitch) for row in result["elevations"]]}


def _elevation(row, pitch):
    if "courses" not in row:
        return row
    courses = [course for coded in row["courses"] for course in single_courses(coded, pitch)]
    soldiers = [{**over, "cuts": _raised(over["cuts"], over["y_mm"])} for over in row["soldier_courses"]]
    return {**row, "courses": sorted(courses, key=lambda course: course["course"]), "soldier_courses": soldiers}


def single_courses(coded, pitch):
    """The courses that a row stands for: ``count`` equal ones, each ``every`` courses higher than the one before."""
    for step in range(coded["count"]):
        up = step * coded["every"]
        y = coded["y_mm"] + up * pitch
        made = {name: value for name, value in coded.items() if name not in ("every", "count")}
        yield {**made, "course": coded["course"] + up, "y_mm": y, "cuts": _raised(coded["cuts"], y)}


def _raised(cuts, foot):
    return [_cut(cut, foot) for cut in cuts]


def _cut(cut, foot):
    made = _point(cut, foot)
    if "rings" in cut:
        made["rings"] = [[_point(corner, foot) for corner in ring] for ring in cut["rings"]]
    return made


def _point(place, foot):
    made = {name: value for name, value in place.items() if name != "above_foot_mm"}
    return {**made, "y_mm": foot + place["above_foot_mm"]}
