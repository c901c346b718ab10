"""Request and result of POST /v1/slip-layouts.

With ``options.detail`` at ``pieces`` each elevation carries its courses, run-length coded upwards and along. A row stands for
``count`` equal courses, each ``every`` courses above the one before; a run stands for ``count`` whole units at equal pitch, each
as high as its course; a cut is one piece with its bounding box and, unless it is a rectangle, its rings. To write a row out::

    for step in range(row["count"]):
        number = row["course"] + step * row["every"]
        foot = row["y_mm"] + step * row["every"] * result["course_pitch_mm"]
        for run in row["runs"]:
            for index in range(run["count"]):
                whole(number, run["x_mm"] + index * run["pitch_mm"], foot, run["width_mm"], row["height_mm"])
        for cut in row["cuts"]:
            piece(number, cut["x_mm"], foot + cut["above_foot_mm"], cut["width_mm"], cut["height_mm"])

Where the pitch is no whole number of 0.0001 mm, feet are rounded to that.
"""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.options import Options
from storeyrod.setting_out.models import CoordinatingSize, UnitRates
from storeyrod.units import figure
from storeyrod.wall.models import Elevations
from storeyrod.wall.system import System

PieceKind = Annotated[
    Literal["stretcher", "header", "soldier", "voussoir"], Field(description="Unit that the piece belongs to.")
]


class SlipLayoutRequest(Closed):
    """The elevations whose slips are wanted."""

    elevations: Elevations
    system: System
    options: Options = Options()


class SlipRun(TypedDict):
    """Whole units at equal pitch."""

    x_mm: Annotated[float, figure("mm", "Left end of the first unit.")]
    count: Annotated[int, Field(description="Units.")]
    pitch_mm: Annotated[float, figure("mm", "From the left end of one unit to the left end of the next.")]
    width_mm: Annotated[float, figure("mm", "Length of each unit on the face.")]
    kind: PieceKind


class RingPoint(TypedDict):
    """Corner of a cut piece."""

    x_mm: Annotated[float, figure("mm", "To the right.")]
    y_mm: Annotated[float, figure("mm", "Upwards.")]


class PiecePoint(TypedDict):
    """Corner of a cut piece in a course."""

    x_mm: Annotated[float, figure("mm", "To the right.")]
    above_foot_mm: Annotated[float, figure("mm", "Above the foot of the course.")]


class SlipCut(TypedDict):
    """A cut piece."""

    x_mm: Annotated[float, figure("mm", "Left end of its bounding box.")]
    above_foot_mm: Annotated[float, figure("mm", "Foot of its bounding box above the foot of the course.")]
    width_mm: Annotated[float, figure("mm", "Length of its bounding box.")]
    height_mm: Annotated[float, figure("mm", "Height of its bounding box.")]
    kind: PieceKind
    rings: NotRequired[
        Annotated[list[list[PiecePoint]], Field(description="Outline, then holes; absent for a plain rectangle.")]
    ]


class SlipCourse(TypedDict):
    """Equal courses: the lowest of them, and how the others follow."""

    course: Annotated[int, Field(description="Number of the lowest course; course 0 stands on the datum.")]
    every: Annotated[int, Field(description="From the number of one course to that of the next; 1 for a single one.")]
    count: Annotated[int, Field(description="Courses.")]
    y_mm: Annotated[
        float,
        figure("mm", "Foot of the lowest course; the next ones stand every times the course pitch higher."),
    ]
    height_mm: Annotated[float, figure("mm", "Height of whole units.")]
    runs: Annotated[list[SlipRun], Field(description="Whole units, from left to right.")]
    cuts: Annotated[list[SlipCut], Field(description="Cut pieces, from left to right.")]


class SoldierPieces(TypedDict):
    """The soldiers over one opening."""

    opening: Annotated[str, Field(description="Opening under them.")]
    y_mm: Annotated[float, figure("mm", "Foot of the soldiers.")]
    height_mm: Annotated[float, figure("mm", "Height of whole units.")]
    runs: Annotated[list[SlipRun], Field(description="Whole units, from left to right.")]
    cuts: Annotated[list[SlipCut], Field(description="Cut pieces, from left to right.")]


class BayPerpWidths(TypedDict):
    """Perps of one bay."""

    x_from_mm: Annotated[float, figure("mm", "Left end of the bay.")]
    x_to_mm: Annotated[float, figure("mm", "Right end of the bay.")]
    equalised: Annotated[bool, Field(description="Whether perps were equalised; false: nominal.")]
    arrangement: Annotated[
        Literal["nominal", "equalised", "closers_at_ends", "broken_bond_at_centre"],
        Field(description="How the bay comes out: as drawn, by its perps, or by cuts at both ends or in its middle."),
    ]
    perps_mm: Annotated[
        list[Annotated[float, figure("mm", "Perp.")]],
        Field(description="Perp of each course of the bond's repeat, course 0 first."),
    ]


class ElevationSlips(TypedDict):
    """Slips, joints and areas of one elevation. Soldiers and voussoirs are counted apart from courses."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    gross_area_m2: Annotated[float, figure("m2", "Area of the outline.")]
    net_area_m2: Annotated[float, figure("m2", "Outline less openings.")]
    slip_face_area_m2: Annotated[float, figure("m2", "Face area of all pieces, soldiers and voussoirs included.")]
    course_face_area_m2: Annotated[float, figure("m2", "Face area of the pieces in courses.")]
    feature_area_m2: Annotated[float, figure("m2", "Features, which something else than slips covers.")]
    joint_area_m2: Annotated[
        float, figure("m2", "Mortar joints: net area less features, pieces, movement joints and end joints.")
    ]
    joint_area_by_strips_m2: Annotated[float, figure("m2", "Mortar joints again, added up strip by strip.")]
    movement_joint_area_m2: Annotated[
        float, figure("m2", "Movement joints; their parts in features count as features.")
    ]
    end_joint_area_m2: Annotated[
        float, figure("m2", "Joints at abutments and internal corners; none with nominal perps.")
    ]
    soldier_zone_area_m2: Annotated[float, figure("m2", "Soldier courses with their joints.")]
    soldier_face_area_m2: Annotated[float, figure("m2", "Face area of soldiers.")]
    courses_count: Annotated[int, Field(description="Courses with at least one piece.")]
    full_count: Annotated[int, Field(description="Whole units in courses.")]
    cut_count: Annotated[int, Field(description="Cut pieces in courses.")]
    total_count: Annotated[int, Field(description="Pieces in courses.")]
    soldiers_count: Annotated[int, Field(description="Soldiers, whole and cut.")]
    voussoir_zone_area_m2: Annotated[float, figure("m2", "Rings of voussoirs with their joints.")]
    voussoir_face_area_m2: Annotated[float, figure("m2", "Face area of voussoirs.")]
    voussoirs_count: Annotated[int, Field(description="Voussoirs, whole and clipped.")]
    bed_joint_length_m: Annotated[float, figure("m", "Length of bed joints.")]
    perp_joint_length_m: Annotated[float, figure("m", "Length of upright joints.")]
    bays: Annotated[list[BayPerpWidths], Field(description="Bays from left to right with their perps.")]
    courses: NotRequired[
        Annotated[
            list[SlipCourse],
            Field(description="Equal courses in one row, by the lowest course of each; with detail pieces."),
        ]
    ]
    soldier_courses: NotRequired[Annotated[list[SoldierPieces], Field(description="With detail pieces.")]]


class SoldierRow(TypedDict):
    """Soldiers over one opening."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    opening: Annotated[str, Field(description="Name of the opening.")]
    soldiers_count: Annotated[int, Field(description="Soldiers, whole and cut.")]
    cut_count: Annotated[int, Field(description="Cut ones among them.")]
    perp_mm: Annotated[float, figure("mm", "Equal joint between them and at both ends.")]
    zone_area_m2: Annotated[float, figure("m2", "Area of the zone in the wall, joints included.")]
    slip_face_area_m2: Annotated[float, figure("m2", "Face area of the soldiers.")]
    joint_area_m2: Annotated[float, figure("m2", "Joints of the zone.")]


class VoussoirPiece(TypedDict):
    """One voussoir where it stands in the wall."""

    voussoir: Annotated[
        int, Field(description="Number in its ring, 1 at the left springing; one cut apart stands twice.")
    ]
    whole: Annotated[bool, Field(description="False: clipped where the wall, or what is left of it, ends.")]
    rings: Annotated[list[list[RingPoint]], Field(description="Outline, then holes.")]


class VoussoirRow(TypedDict):
    """One ring of voussoirs over one arch. Lengths round the arch are measured along the arc."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    opening: Annotated[str, Field(description="Name of the opening.")]
    ring: Annotated[int, Field(description="Number of the ring; 1 stands on the intrados of the arch.")]
    voussoirs_count: Annotated[int, Field(description="Voussoirs, whole and clipped.")]
    cut_count: Annotated[int, Field(description="Those of them that are clipped.")]
    depth_mm: Annotated[float, figure("mm", "Depth of the ring: length of a voussoir.")]
    cut: Annotated[
        Literal["square", "taper"],
        Field(description="square: as slips are; taper: sawn to a wedge, straight at both ends."),
    ]
    joint_intrados_mm: Annotated[float, figure("mm", "Joint at the intrados; half of it at each springing.")]
    joint_extrados_mm: Annotated[float, figure("mm", "Joint at the extrados.")]
    width_intrados_mm: Annotated[float, figure("mm", "Width of a voussoir at the intrados.")]
    width_extrados_mm: Annotated[float, figure("mm", "Width of a voussoir at the extrados.")]
    zone_area_m2: Annotated[float, figure("m2", "Area of the ring in the wall, with the joint above it.")]
    slip_face_area_m2: Annotated[float, figure("m2", "Face area of the voussoirs.")]
    joint_area_m2: Annotated[float, figure("m2", "Joints of the ring, measured by strips.")]
    pieces: NotRequired[
        Annotated[
            list[VoussoirPiece],
            Field(description="With detail pieces: every voussoir, from the left springing."),
        ]
    ]


class CornerRow(TypedDict):
    """Corner slips of one external corner."""

    edges: Annotated[list[str], Field(description="The edges that meet, as elevation:left or elevation:right.")]
    corner_slips_count: Annotated[int, Field(description="One for each course that both edges have.")]
    left_handed_count: Annotated[
        int, Field(description="Slips whose longer leg lies left of the arris, seen from outside.")
    ]
    right_handed_count: Annotated[int, Field(description="Slips whose longer leg lies right of the arris.")]
    longer_leg_even: Annotated[str, Field(description="Edge that shows the longer leg in even courses.")]
    replaced_pieces_count: Annotated[int, Field(description="Face pieces that the slips replace.")]
    mitred_courses_count: NotRequired[
        Annotated[
            int,
            Field(description="Courses cut or mitred at a corner that is not square and has no L slips; else absent."),
        ]
    ]


class ReturnRow(TypedDict):
    """Lining of one jamb with slips."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    opening: Annotated[str, Field(description="Name of the opening.")]
    side: Annotated[Literal["left", "right"], Field(description="Jamb, seen from outside.")]
    depth_mm: Annotated[float, figure("mm", "Depth of the lined reveal.")]
    return_slips_count: Annotated[int, Field(description="L slips: one for each course that meets the jamb.")]
    cut_in_reveal_count: Annotated[int, Field(description="Those whose leg is longer than the reveal is deep.")]
    cut_on_face_count: Annotated[int, Field(description="Those whose leg is longer than the piece they replace.")]
    straight_full_count: Annotated[int, Field(description="Whole straight slips behind the legs.")]
    straight_cut_count: Annotated[int, Field(description="Cut straight slips behind the legs.")]
    area_m2: Annotated[float, figure("m2", "Area of the reveal.")]
    slip_face_area_m2: Annotated[float, figure("m2", "Face area of slips in the reveal.")]
    joint_area_m2: Annotated[float, figure("m2", "Joints of the reveal.")]


class CutRow(TypedDict):
    """Cut pieces of one size and shape, to a hundredth of a millimetre and of a degree.

    Without further members a piece is square. A piece with ``rake_deg`` is its length by its height less one corner: the
    triangle that takes the long side down to short_length_mm, at that angle. Turned half round it is the same piece.
    """

    kind: PieceKind
    length_mm: Annotated[float, figure("mm", "Length along the slip, on its longer side.")]
    height_mm: Annotated[float, figure("mm", "Height across the slip.")]
    count: Annotated[int, Field(description="Pieces.")]
    rake_deg: NotRequired[
        Annotated[float, figure("deg", "Angle of the cut from level, as the piece stands in the wall.")]
    ]
    rises: NotRequired[Annotated[Literal["left", "right"], Field(description="Way the rake rises, seen from outside.")]]
    short_length_mm: NotRequired[
        Annotated[float, figure("mm", "Length of the shorter side along the slip; 0 where the rake takes all of it.")]
    ]
    width_intrados_mm: NotRequired[Annotated[float, figure("mm", "Width of a tapered voussoir at the intrados.")]]
    width_extrados_mm: NotRequired[Annotated[float, figure("mm", "Width of a tapered voussoir at the extrados.")]]
    curved: NotRequired[
        Annotated[bool, Field(description="Cut to a curve, marked from a template: an arch or a round opening.")]
    ]
    trimmed: NotRequired[
        Annotated[bool, Field(description="A voussoir that is cut again where the wall ends: see its outline.")]
    ]
    outline: NotRequired[
        Annotated[
            list[RingPoint],
            Field(
                description="Corners from the lower left of the bounding box, where neither size nor one rake tells the shape."
            ),
        ]
    ]


class PieceBalance(TypedDict):
    """Where every face piece in the courses comes from."""

    face_pieces_count: Annotated[int, Field(description="Pieces in courses on all elevations.")]
    straight_pieces_count: Annotated[int, Field(description="Those that are straight or header slips.")]
    corner_ends_count: Annotated[int, Field(description="Those that corner slips replace, two for each slip.")]
    return_ends_count: Annotated[int, Field(description="Those that return slips replace, one for each.")]
    twice_replaced_count: Annotated[
        int, Field(description="Those replaced from both sides, so that two L slips meet or a special is made.")
    ]


class SlipLayoutResult(TypedDict):
    """Slips of all elevations together, what they consume, and each elevation."""

    gross_area_m2: Annotated[float, figure("m2", "Outlines.")]
    net_area_m2: Annotated[float, figure("m2", "Outlines less openings.")]
    feature_area_m2: Annotated[float, figure("m2", "Features, which something else than slips covers.")]
    slip_face_area_m2: Annotated[float, figure("m2", "Face area of all pieces on the elevations.")]
    joint_area_m2: Annotated[float, figure("m2", "Mortar joints on the elevations.")]
    movement_joint_area_m2: Annotated[float, figure("m2", "Movement joints.")]
    end_joint_area_m2: Annotated[float, figure("m2", "Joints at abutments and internal corners.")]
    reveal_area_m2: Annotated[float, figure("m2", "Lined reveals; no part of the net area.")]
    reveal_slip_face_area_m2: Annotated[float, figure("m2", "Face area of slips in reveals.")]
    reveal_joint_area_m2: Annotated[float, figure("m2", "Joints in reveals.")]
    slips_consumed_count: Annotated[
        int,
        Field(
            description="Straight slips used up by courses, reveals, voussoirs and soldiers, cuts paired into whole slips."
        ),
    ]
    slips_lower_bound_count: Annotated[
        int, Field(description="No cutting of the same pieces end to end needs fewer straight slips.")
    ]
    header_slips_consumed_count: Annotated[int, Field(description="Header slips used up.")]
    corner_slips_count: Annotated[int, Field(description="L slips at external corners.")]
    return_slips_count: Annotated[int, Field(description="L slips at lined jambs.")]
    soldiers_count: Annotated[int, Field(description="Soldiers; each takes one straight slip.")]
    voussoirs_count: Annotated[int, Field(description="Voussoirs, whole and clipped.")]
    pieces: PieceBalance
    units_per_m2: UnitRates
    course_pitch_mm: Annotated[float, figure("mm", "From the foot of a course to the foot of the next one.")]
    coordinating_sizes: Annotated[
        list[CoordinatingSize], Field(description="Of half, one, one and a half modules, ...")
    ]
    elevations: Annotated[list[ElevationSlips], Field(description="In the order of the request.")]
    soldiers: Annotated[list[SoldierRow], Field(description="By opening.")]
    voussoirs: Annotated[list[VoussoirRow], Field(description="By opening, from its intrados outwards.")]
    corners: Annotated[list[CornerRow], Field(description="By name of their edges.")]
    returns: Annotated[list[ReturnRow], Field(description="By jamb.")]
    cut_list: Annotated[list[CutRow], Field(description="Pieces to cut from straight and header slips, longest first.")]
