"""Rows of the answer about planes and levels: finished faces, datum, gauge and base."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure


class PlaneSizes(TypedDict):
    """An opening in one plane."""

    x_mm: Annotated[float, figure("mm", "Left jamb.")]
    width_mm: Annotated[float, figure("mm", "Clear width.")]
    sill_mm: Annotated[float, figure("mm", "Sill or threshold.")]
    head_mm: Annotated[float, figure("mm", "Head; the crown of an arch.")]


class OpeningPlanes(TypedDict):
    """An opening in both planes, and how its width falls on the module."""

    opening: Annotated[str, Field(description="Name of the opening.")]
    finished: PlaneSizes
    substrate: PlaneSizes
    modules: Annotated[float, Field(description="Nearest whole number of half modules of the width, in modules.")]
    off_module_mm: Annotated[float, figure("mm", "Finished width less that many modules and a joint (CO+).")]


class BedLevelLimit(TypedDict):
    """How far the bed joints of a face may be out of level along it, by one document: appearance, not strength."""

    limit_mm: Annotated[float, figure("mm", "Over the length of the face.")]
    source: Annotated[str, Field(description="Document.")]
    status: Annotated[str, Field(description="How the limit is known.")]


class FinishedFace(TypedDict):
    """Length of a face in three planes."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    substrate_length_mm: Annotated[float, figure("mm", "Bare wall.")]
    finished_length_mm: Annotated[float, figure("mm", "Finished face.")]
    board_length_run_through_mm: Annotated[
        float, figure("mm", "Boards' outer faces in rows that run past both corners.")
    ]
    board_length_butted_mm: Annotated[float, figure("mm", "Boards in rows that butt at both corners.")]
    left_shift_mm: Annotated[float, figure("mm", "Finished end outside the substrate's end; negative inside it.")]
    right_shift_mm: Annotated[float, figure("mm", "Finished end outside the substrate's end; negative inside it.")]
    openings: Annotated[list[OpeningPlanes], Field(description="In the order of the request.")]
    bed_levels: Annotated[
        list[BedLevelLimit], Field(description="Tolerances of level; documents disagree, all are shown.")
    ]


class LevelOffset(TypedDict):
    """A head, sill, top or foot beside the course lines."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    opening: NotRequired[Annotated[str, Field(description="Name of the opening.")]]
    what: Annotated[Literal["head", "sill", "top", "base"], Field(description="What stands at the level.")]
    y_mm: Annotated[float, figure("mm", "Level.")]
    course: Annotated[int, Field(description="Course whose foot is nearest.")]
    offset_mm: Annotated[float, figure("mm", "Level less that course line; positive above it.")]
    rip_mm: NotRequired[
        Annotated[
            float,
            figure("mm", "Height of the slip that is ripped to meet the level; absent on course and in a bed joint."),
        ]
    ]
    bed_mm: NotRequired[
        Annotated[
            float,
            figure(
                "mm",
                "Equal bed with which `course`, counted from the datum, stands at the level; absent on course, at course 0, and where ribs "
                "fix the pitch. Level joints keep their width.",
            ),
        ]
    ]
    bed_within: NotRequired[Annotated[bool, Field(description="Whether that bed lies inside its limits.")]]


class DatumCandidate(TypedDict):
    """A level for the foot of course 0, and what it does to every level of the wall. Levels a course apart are one."""

    rank: Annotated[int, Field(description="1 is best.")]
    level_mm: Annotated[float, figure("mm", "Foot of course 0.")]
    why: Annotated[
        Literal["as_given", "fixed", "match_bed", "head", "sill", "top", "base", "least_worst"],
        Field(description="Where the level comes from."),
    ]
    worst_offset_mm: Annotated[float, figure("mm", "Greatest distance of a level from a course line.")]
    mean_offset_mm: Annotated[float, figure("mm", "Mean distance of all levels from the course lines.")]
    off_course_count: Annotated[int, Field(description="Levels off a course line by more than 0.5 mm.")]
    ripped_count: Annotated[int, Field(description="Of these, levels at which slips must be ripped.")]
    least_rip_mm: NotRequired[Annotated[float, figure("mm", "Lowest ripped slip; absent when none is ripped.")]]
    levels: Annotated[list[LevelOffset], Field(description="Every level, from the lowest.")]


class GaugeCourse(TypedDict):
    """A course on the storey rod."""

    course: Annotated[int, Field(description="Number; course 0 stands on the datum.")]
    foot_mm: Annotated[float, figure("mm", "Foot of the slip.")]
    head_mm: Annotated[float, figure("mm", "Head of the slip, where its bed joint starts.")]
    marks: Annotated[list[str], Field(description="Heads, sills, tops and feet that fall on the foot of the course.")]
    joint_below_mm: NotRequired[
        Annotated[float, figure("mm", "Width of the level movement joint on which the course stands; absent on a bed.")]
    ]
    shift_mm: NotRequired[
        Annotated[float, figure("mm", "By so much that joint is wider than a bed, and moves the courses beyond it.")]
    ]


class DatumResult(TypedDict):
    """The datum in use and its rivals."""

    level_mm: Annotated[float, figure("mm", "Foot of course 0 in this answer.")]
    kind: Annotated[Literal["as_given", "fixed", "match_bed", "best"], Field(description="How it was chosen.")]
    course_pitch_mm: Annotated[float, figure("mm", "From foot to foot.")]
    pitch_fixed_by_ribs: Annotated[
        bool,
        Field(description="true: the ribs fix the pitch, so that beds cannot be adjusted and only the datum may move."),
    ]
    candidates: Annotated[
        list[DatumCandidate],
        Field(
            description="Best first: the best ten, fewer of very many levels, and those as given, asked for and least worst."
        ),
    ]
    gauge: Annotated[
        list[GaugeCourse],
        Field(description="Every course of the wall, from the lowest, and the line on which its top falls."),
    ]


class BaseRun(TypedDict):
    """A level length of the base."""

    course: Annotated[int, Field(description="Course that stands on it.")]
    level_mm: Annotated[float, figure("mm", "Level.")]
    x_from_mm: Annotated[float, figure("mm", "Left end.")]
    x_to_mm: Annotated[float, figure("mm", "Right end.")]
    trim_mm: Annotated[float, figure("mm", "Base trim: the length less openings that stand on it or reach below it.")]


class BaseStep(TypedDict):
    """A step of the base."""

    from_level_mm: Annotated[float, figure("mm", "Level left of the step.")]
    to_level_mm: Annotated[float, figure("mm", "Level right of it.")]
    limit_x_mm: Annotated[
        float,
        figure("mm", "Where the step must stand at the latest going up to the right; at the earliest going down."),
    ]
    at_perp_x_mm: Annotated[
        float,
        figure(
            "mm",
            "Nearest place on the lower side of that limit at which the course on the upper level starts with a unit, each step by "
            "itself; the limit where no wall stands.",
        ),
    ]
    rise_mm: Annotated[float, figure("mm", "Height of the step; negative going down.")]
    courses_count: Annotated[int, Field(description="Courses of the step.")]


class OutlinePoint(TypedDict):
    """Corner of an outline."""

    x_mm: Annotated[float, figure("mm", "To the right.")]
    y_mm: Annotated[float, figure("mm", "Upwards.")]


class ElevationBase(TypedDict):
    """The foot of an elevation over its ground."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    as_drawn: Annotated[list[BaseRun], Field(description="Level runs of the outline as given.")]
    as_drawn_trim_mm: Annotated[float, figure("mm", "Base trim of the outline as given.")]
    as_drawn_stop_ends_count: Annotated[int, Field(description="Two at each step.")]
    as_drawn_other_ends_count: Annotated[
        int,
        Field(
            description="Ends to be closed at jambs and free ends; a corner is turned, and at an abutment the trim butts."
        ),
    ]
    as_drawn_upright_trim_mm: Annotated[float, figure("mm", "Return trims up the steps of the outline as given.")]
    least_clearance_mm: NotRequired[Annotated[float, figure("mm", "Least height of the drawn foot above ground.")]]
    runs: NotRequired[
        Annotated[
            list[BaseRun],
            Field(
                description="Lowest level runs in whole courses, none below the drawn foot, that keep the clearance; absent without "
                "ground."
            ),
        ]
    ]
    steps: NotRequired[Annotated[list[BaseStep], Field(description="Steps between them.")]]
    trim_mm: NotRequired[Annotated[float, figure("mm", "Base trim of those runs.")]]
    stop_ends_count: NotRequired[
        Annotated[int, Field(description="Two at each of those steps at which wall stands on either side.")]
    ]
    other_ends_count: NotRequired[Annotated[int, Field(description="Ends of those runs at jambs and free ends.")]]
    upright_trim_mm: NotRequired[
        Annotated[float, figure("mm", "Return trims up those steps at which wall stands on either side.")]
    ]
    stepped_outline: NotRequired[
        Annotated[
            list[OutlinePoint],
            Field(
                description="The outline with steps at their limits, to be given back; it goes round openings that the base runs "
                "into. Absent when the drawn foot needs no change, or when no outline can hold the base."
            ),
        ]
    ]
    stepped_net_area_m2: NotRequired[
        Annotated[float, figure("m2", "Net area over that base; absent when the drawn foot needs no change.")]
    ]
