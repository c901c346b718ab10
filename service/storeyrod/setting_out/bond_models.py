"""Rows of the answer about the bond: perps of bays and runs, corners, and the way round the building."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure

Arrangement = Annotated[
    Literal["nominal", "equalised", "closers_at_ends", "broken_bond_at_centre"],
    Field(
        description="How a run comes out: as drawn, by its perps, by equal cuts at both ends, or by cuts in its middle."
    ),
]


class ArrangementOption(TypedDict):
    """One way to make a run come out."""

    arrangement: Annotated[
        Literal["carried_through", "nominal", "equalised", "closers_at_ends", "broken_bond_at_centre"],
        Field(
            description="carried_through: a pier as the perps of its bay leave it; the others: the run by itself, as drawn, by its "
            "perps, by equal cuts at both ends, or by cuts in its middle."
        ),
    ]
    perps_mm: Annotated[
        list[Annotated[float, figure("mm", "Perp.")]],
        Field(description="Perp of each course of the bond's repeat, course 0 first."),
    ]
    worst_deviation_mm: Annotated[float, figure("mm", "Greatest difference of a perp from the nominal one.")]
    cut_count: Annotated[
        int, Field(description="Cut units, half bats among them, in one repeat of the bond's courses.")
    ]
    shortest_piece_mm: Annotated[float, figure("mm", "Shortest piece.")]
    perps_within: Annotated[
        bool,
        Field(
            description="Whether all perps lie inside perp_min_mm to perp_max_mm, and no course stops short of an end of the run."
        ),
    ]
    sliver_free: Annotated[bool, Field(description="Whether no piece is shorter than minimum_cut_mm.")]
    ends_mm: Annotated[
        list[list[Annotated[float, figure("mm", "Length of a piece.")]]],
        Field(description="For each course of the repeat, first and last piece."),
    ]


class RunSetOut(TypedDict):
    """A run between two plumb lines: ends, jambs or movement joints."""

    x_from_mm: Annotated[float, figure("mm", "Left end.")]
    x_to_mm: Annotated[float, figure("mm", "Right end.")]
    course_from: Annotated[int, Field(description="Lowest course that has this run; of a bay, the lowest in it.")]
    course_to: Annotated[int, Field(description="Highest such course.")]
    kind: Annotated[
        Literal["bay", "pier", "end_pier"],
        Field(description="Whole bay, between two openings, or between an opening and an end."),
    ]
    co_mm: Annotated[
        float, figure("mm", "Length less the nearest whole number of half modules, counted without a last joint (CO-).")
    ]
    options: Annotated[
        list[ArrangementOption],
        Field(
            description="Best first. Of a pier the first, carried_through, is what the perps of its bay leave in it; then how it "
            "would come out by itself, best first."
        ),
    ]


class PerpMark(TypedDict):
    """Where to carry a plumb line from the set-out courses."""

    x_mm: Annotated[float, figure("mm", "Middle of the perp, or the jamb.")]
    what: Annotated[Literal["perp", "jamb", "end"], Field(description="What the line marks.")]
    carry: Annotated[Literal["up", "down", "up_and_down"], Field(description="Which way the wall goes on from there.")]


class SetOutCourse(TypedDict):
    """A course from which perps are spaced."""

    course: Annotated[int, Field(description="Number.")]
    y_mm: Annotated[float, figure("mm", "Middle of its slips.")]
    perps_x_mm: Annotated[
        list[Annotated[float, figure("mm", "Middle of a perp.")]], Field(description="From left to right, exact.")
    ]


class BaySetOut(TypedDict):
    """A bay with its perps."""

    x_from_mm: Annotated[float, figure("mm", "Left end, clear of joints.")]
    x_to_mm: Annotated[float, figure("mm", "Right end.")]
    arrangement: Arrangement
    perps_mm: Annotated[
        list[Annotated[float, figure("mm", "Perp.")]],
        Field(description="Perp of each course of the bond's repeat, course 0 first."),
    ]
    runs: Annotated[list[RunSetOut], Field(description="The bay and its piers, from the bottom.")]
    set_out_courses: Annotated[
        list[SetOutCourse],
        Field(description="The two courses at the middle of a board's height; common practice, no source."),
    ]
    marks: Annotated[list[PerpMark], Field(description="Plumb lines: every fourth perp, jambs and ends.")]


class OpeningStack(TypedDict):
    """Openings one above another."""

    openings: Annotated[list[str], Field(description="From the bottom.")]
    left_drift_mm: Annotated[float, figure("mm", "Greatest distance of their left jambs from one another.")]
    right_drift_mm: Annotated[float, figure("mm", "Greatest distance of their right jambs from one another.")]
    perps_run_through: Annotated[bool, Field(description="Whether both jambs meet the same perps at every opening.")]


class Storey(TypedDict):
    """From one storey level to the next."""

    from_mm: Annotated[float, figure("mm", "Lower level.")]
    to_mm: Annotated[float, figure("mm", "Upper level.")]
    courses: Annotated[float, Field(description="Height in courses.")]
    whole_courses: Annotated[bool, Field(description="Whether that is a whole number.")]
    repeats: Annotated[
        bool,
        Field(description="Whether a layout of this storey fits the next one: whole repeats of the bond's courses."),
    ]


class ElevationSetOut(TypedDict):
    """Perps of one elevation."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    bond_from: Annotated[Literal["left", "right"], Field(description="End from which the bond was set out.")]
    bond_start: Annotated[Literal["full", "half"], Field(description="First unit of course 0 at that end.")]
    carried_from: NotRequired[
        Annotated[str, Field(description="Edge from which the bond was carried round the corner.")]
    ]
    bays: Annotated[list[BaySetOut], Field(description="From left to right.")]
    stacks: Annotated[list[OpeningStack], Field(description="Openings above one another.")]
    storeys: Annotated[list[Storey], Field(description="Between storey levels; empty when none are given.")]


class CornerSetOut(TypedDict):
    """A corner and the bond at it."""

    edges: Annotated[list[str], Field(description="Edges that meet.")]
    kind: Annotated[Literal["external_corner", "internal_corner"], Field(description="Kind of corner.")]
    course_0: Annotated[
        list[Literal["long", "short"]],
        Field(description="What each edge shows in course 0: more or less than three quarters of a slip."),
    ]
    bond_turns: Annotated[bool, Field(description="Whether one edge shows the long and the other the short side.")]


class LoopFace(TypedDict):
    """A face on the way round the building."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    edge_convention: Annotated[
        Literal["CO-", "CO", "CO+"],
        Field(description="Joint that the length lacks or has: by its internal corners and abutments."),
    ]
    half_modules: Annotated[float, Field(description="Length in half modules after that convention.")]
    half_modules_count: Annotated[int, Field(description="Nearest whole number.")]
    residual_mm: Annotated[float, figure("mm", "Length less that many half modules.")]
    perp_mm: Annotated[float, figure("mm", "Equal perp that removes the residual.")]
    perp_within: Annotated[bool, Field(description="Whether that perp lies inside its limits.")]


class LoopChange(TypedDict):
    """A face laid to one half module more or fewer, so that the bond closes."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    half_modules_count: Annotated[int, Field(description="Half modules to lay it to.")]
    perp_mm: Annotated[float, figure("mm", "Equal perp that this takes.")]


class BondLoop(TypedDict):
    """Faces joined by corners: right round the building, or from one open end to the other."""

    elevations: Annotated[list[str], Field(description="In order, to the right as seen from outside.")]
    closed: Annotated[bool, Field(description="Whether the last face meets the first.")]
    corners_count: Annotated[int, Field(description="Corners on the way.")]
    faces: Annotated[list[LoopFace], Field(description="In the same order.")]
    parity: NotRequired[
        Annotated[
            int, Field(description="0 or 1: corners and half modules added up, modulo 2; 0 closes. For closed loops.")
        ]
    ]
    closes: NotRequired[
        Annotated[
            bool,
            Field(description="Whether every face is a whole number of half modules as it stands and the parity is 0."),
        ]
    ]
    closes_with_perps: NotRequired[
        Annotated[bool, Field(description="Whether it closes once perps take up the residuals inside their limits.")]
    ]
    closes_as_laid: NotRequired[
        Annotated[
            bool,
            Field(description="Whether the long and the short end of course 0 meet at every corner of this set-out."),
        ]
    ]
    residual_mm: Annotated[float, figure("mm", "Sum of the distances of all faces from whole half modules.")]
    change: NotRequired[
        Annotated[
            LoopChange,
            Field(description="For an odd parity: the face that closes the bond with the least change of perps."),
        ]
    ]
    hide_at: NotRequired[
        Annotated[
            str,
            Field(
                description="For a bond that perps inside their limits do not close: edge of the corner at which to break it, unless "
                "closing bonds inside the faces close it as laid. Internal corners come first, then the corner between the shortest faces."
            ),
        ]
    ]
