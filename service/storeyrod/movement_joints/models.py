"""Request and result of POST /v1/movement-joints."""

from typing import Annotated, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.movement_joints.bay_models import Bay, ProfileCheck
from storeyrod.movement_joints.positions import Reason
from storeyrod.movement_joints.storey_models import PlacedStoreyJoint, StoreyJointTotal
from storeyrod.movement_joints.width_models import JointSeal, WidthWorking
from storeyrod.options import Options
from storeyrod.units import figure
from storeyrod.wall.models import Elevations
from storeyrod.wall.system import System


class MovementJointsRequest(Closed):
    """The elevations whose movement joints are wanted."""

    elevations: Elevations
    system: System
    options: Options = Options()


class JointSegment(TypedDict):
    """A sealed length of a joint between openings or edges."""

    y_from_mm: Annotated[float, figure("mm", "Foot of the sealed length.")]
    y_to_mm: Annotated[float, figure("mm", "Head of the sealed length.")]


class PlacedJoint(TypedDict):
    """A vertical movement joint through boards and slips."""

    id: Annotated[str, Field(description="Elevation and number from the left.")]
    x_mm: Annotated[float, figure("mm", "Centre of the joint.")]
    width_mm: Annotated[float, figure("mm", "Width of the joint.")]
    existing: Annotated[bool, Field(description="Whether it repeats a joint of the structure.")]
    reason: Annotated[
        Reason,
        Field(
            description="Why it stands here. existing: it repeats a joint of the structure; designer: joints_x_mm; height_change: the "
            "top of the wall steps; spacing: a perp that keeps bays within their limits; jamb: a declared jamb line that saves a joint."
        ),
    ]
    segments: Annotated[list[JointSegment], Field(description="Sealed lengths, bottom to top.")]
    sealed_length_m: Annotated[float, figure("m", "Length to seal, openings left out.")]
    area_m2: Annotated[float, figure("m2", "Area of the joint in the finished face.")]
    trim_cuts_count: Annotated[
        int,
        Field(
            description="Where it meets the outline: base trim at its foot, coping or verge at its head are cut there."
        ),
    ]


class ElevationJoints(TypedDict):
    """Joints of one elevation."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    joints: Annotated[list[PlacedJoint], Field(description="From left to right.")]
    bays: Annotated[list[Bay], Field(description="From left to right.")]
    joints_lower_bound_count: Annotated[int, Field(description="Least joints that the longest permitted bay asks for.")]
    longest_bay_limit_mm: Annotated[float, figure("mm", "Longest permitted bay.")]
    sealed_length_m: Annotated[float, figure("m", "Length of all its vertical joints to seal.")]
    joint_area_m2: Annotated[float, figure("m2", "Area of its vertical joints in the finished face.")]
    sealant_width_mm: Annotated[float, figure("mm", "Width of its joints.")]
    sealant_depth_mm: Annotated[float, figure("mm", "Depth of sealant at that width.")]
    sealant_l: Annotated[float, figure("l", "Sealant in its vertical joints, without allowance.")]
    seal: NotRequired[Annotated[JointSeal, Field(description="What fills its joints; absent where it has none.")]]
    width_working: NotRequired[
        Annotated[WidthWorking, Field(description="Width by movement; absent without joints, or without `movement`.")]
    ]
    storey_joints: Annotated[list[PlacedStoreyJoint], Field(description="Level joints from the lowest.")]
    storey_sealed_length_m: Annotated[float, figure("m", "Length of its level joints to seal.")]
    storey_sealant_l: Annotated[float, figure("l", "Sealant in its level joints, without allowance.")]
    storey_seal: NotRequired[
        Annotated[JointSeal, Field(description="What fills its level joints; absent where it has none.")]
    ]
    withheld: NotRequired[
        Annotated[bool, Field(description="true: no legal position was found for a joint that is needed.")]
    ]


class MovementJointsResult(TypedDict):
    """Joints per elevation and in total."""

    elevations: Annotated[list[ElevationJoints], Field(description="In the order of the request.")]
    joints_count: Annotated[int, Field(description="Joints of all elevations.")]
    trim_cuts_count: Annotated[int, Field(description="Cuts in base trims, copings and verges at all vertical joints.")]
    profiles: Annotated[
        list[ProfileCheck], Field(description="The vertical joints held against every named spacing, one by one.")
    ]
    sealed_length_m: Annotated[float, figure("m", "Length of all vertical joints to seal.")]
    sealant_l: Annotated[float, figure("l", "Sealant in the vertical joints, without allowance.")]
    storey_joints: Annotated[
        list[StoreyJointTotal], Field(description="Level joints round the building, from the lowest.")
    ]
    storey_sealed_length_m: Annotated[float, figure("m", "Length of all level joints to seal.")]
    storey_sealant_l: Annotated[float, figure("l", "Sealant in the level joints, without allowance.")]
