"""Rows of the answer for soldiers, voussoirs, corners and returns."""

from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.options import Options
from storeyrod.reference.documents import GEOMETRY
from storeyrod.slips.arch_rings import VoussoirRing
from storeyrod.slips.corner_slips import CornerSlips
from storeyrod.slips.models import CornerRow, ReturnRow, RingPoint, SoldierRow, VoussoirRow
from storeyrod.slips.returns import JambReturns
from storeyrod.slips.soldiers import SoldierCourse
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face


@formula(symbol="A_reveal", expression="d*H", unit="m2", inputs={"d": "m", "H": "m"}, clause=GEOMETRY)
def reveal_area(*, d: float, H: float) -> float:  # noqa: N803  symbol of the formula
    """Area of a reveal of depth d beside a jamb of height H."""
    return d * H


@formula(
    symbol="A_reveal_joint",
    expression="A_reveal - A_slip",
    unit="m2",
    inputs={"A_reveal": "m2", "A_slip": "m2"},
    clause=GEOMETRY,
)
def reveal_joint_area(*, A_reveal: float, A_slip: float) -> float:  # noqa: N803  symbols of the formula
    """Joints of a reveal."""
    return A_reveal - A_slip


def soldier_row(face: Face, course: SoldierCourse) -> SoldierRow:
    """The soldiers over one opening."""
    return {
        "elevation": face.id,
        "opening": course.opening.id,
        "soldiers_count": course.count,
        "cut_count": len(course.cuts),
        "perp_mm": millimetres(course.perp),
        "zone_area_m2": square_metres(course.zone_area),
        "slip_face_area_m2": square_metres(course.face_area),
        "joint_area_m2": square_metres(course.joint_area),
    }


def voussoir_row(face: Face, ring: VoussoirRing, options: Options) -> VoussoirRow:
    """One ring over one arch."""
    made = ring.setting
    row: VoussoirRow = {
        "elevation": face.id,
        "opening": ring.opening.id,
        "ring": made.number,
        "voussoirs_count": ring.count,
        "cut_count": len(ring.parts),
        "depth_mm": made.depth_mm,
        "cut": made.cut,
        "joint_intrados_mm": made.joint_intrados_mm,
        "joint_extrados_mm": made.joint_extrados_mm,
        "width_intrados_mm": made.width_intrados_mm,
        "width_extrados_mm": made.width_extrados_mm,
        "zone_area_m2": square_metres(ring.zone_area),
        "slip_face_area_m2": square_metres(ring.face_area),
        "joint_area_m2": square_metres(ring.joint_area),
    }
    if options.detail == "pieces":
        row["pieces"] = [
            {"voussoir": index + 1, "whole": whole, "rings": [_points(one) for one in rings]}
            for index, whole, rings in ring.pieces
        ]
    return row


def _points(ring: Ring) -> list[RingPoint]:
    return [{"x_mm": millimetres(x), "y_mm": millimetres(y)} for x, y in ring]


def corner_row(slips: CornerSlips) -> CornerRow:
    """The slips of one external corner."""
    row: CornerRow = {
        "edges": [end.name for end in slips.corner.ends],
        "corner_slips_count": slips.count,
        "left_handed_count": slips.handed("left"),
        "right_handed_count": slips.handed("right"),
        "longer_leg_even": slips.longer_leg_even,
        "replaced_pieces_count": slips.replaced_count,
    }
    if not slips.corner.is_square:
        row["mitred_courses_count"] = slips.mitred_count
    return row


def return_row(jamb: JambReturns, trace: Trace) -> ReturnRow:
    """The lining of one jamb."""
    pointer = jamb.opening.pointer
    area = trace.call(
        reveal_area,
        d=trace.given(
            millimetres(jamb.depth) * METRES_PER_MILLIMETRE, f"{jamb.opening.reveal_pointer(jamb.side)}/depth_mm"
        ),
        H=trace.given(millimetres(jamb.jamb_height) * METRES_PER_MILLIMETRE, pointer),
    )
    slips = trace.measure("A_slip", "m2", [("legs and straight slips", square_metres(jamb.slip_area), pointer)])
    return {
        "elevation": jamb.face.id,
        "opening": jamb.opening.id,
        "side": jamb.side,
        "depth_mm": millimetres(jamb.depth),
        "return_slips_count": jamb.count,
        "cut_in_reveal_count": jamb.sums.cut_in_reveal,
        "cut_on_face_count": jamb.sums.cut_on_face,
        "straight_full_count": jamb.sums.straight_full,
        "straight_cut_count": jamb.sums.straight_cut,
        "area_m2": area,
        "slip_face_area_m2": slips,
        "joint_area_m2": trace.call(reveal_joint_area, A_reveal=area, A_slip=slips),
    }
