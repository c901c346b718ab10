"""The gauge table: every course of the wall, as it is marked on the storey rod."""

from collections.abc import Mapping, Sequence

from storeyrod.geometry.ticks import millimetres
from storeyrod.setting_out.level_models import GaugeCourse
from storeyrod.setting_out.wall_levels import ON_COURSE, WallLevel
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.storey_joints import StoreyJoint
from storeyrod.wall.wall import Wall


def gauge_courses(wall: Wall, levels: Sequence[WallLevel]) -> list[GaugeCourse]:
    """Courses from the lowest foot to the highest top, each counted from the datum by itself; a top on a line closes them."""
    gauge = wall.gauge
    marks: dict[int, list[str]] = {}
    for level in levels:
        if abs(gauge.off_course(level.y)) <= ON_COURSE:
            marks.setdefault(gauge.nearest(level.y), []).append(level.name)
    foot, top = (_course_at(gauge, y) for y in (wall.foot, max(face.top for face in wall.faces)))
    joints = {joint.course: joint for joint in wall.storey_joints}
    return [_row(number, wall, gauge, sorted(set(marks.get(number, ()))), joints) for number in range(foot, top + 1)]


def _row(number: int, wall: Wall, gauge: Gauge, marks: list[str], joints: Mapping[int, StoreyJoint]) -> GaugeCourse:
    foot = wall.system.course_datum_mm + number * course_pitch_of(wall.system) + millimetres(gauge.shift(number))
    row: GaugeCourse = {
        "course": number,
        "foot_mm": foot,
        "head_mm": foot + wall.system.slip.height_mm,
        "marks": marks,
    }
    joint = joints.get(number)
    if joint is not None:
        row["joint_below_mm"] = millimetres(joint.width)
        row["shift_mm"] = millimetres(joint.lift)
    return row


def _course_at(gauge: Gauge, level: float) -> int:
    """Course that stands at a level, or has it in its height."""
    return gauge.nearest(level) if abs(gauge.off_course(level)) <= ON_COURSE else gauge.standing_at(level)
