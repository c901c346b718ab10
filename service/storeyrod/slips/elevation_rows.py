"""Rows of the answer for one elevation: areas with their closure, counts, perps and, on demand, every piece."""

from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.options import Options
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.course_grid import BayPerps
from storeyrod.slips.course_rows import course_rows, soldier_pieces
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.slips.models import BayPerpWidths, ElevationSlips
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE


@formula(
    symbol="A_joint",
    expression="Max(A_least, A_net - A_feature - A_slip - A_movement - A_end)",
    unit="m2",
    inputs={"A_net": "m2", "A_feature": "m2", "A_slip": "m2", "A_movement": "m2", "A_end": "m2", "A_least": "m2"},
    clause=GEOMETRY,
)
def joint_area(  # symbols of the formula
    *,
    A_net: float,  # noqa: N803
    A_feature: float,  # noqa: N803
    A_slip: float,  # noqa: N803
    A_movement: float,  # noqa: N803
    A_end: float,  # noqa: N803
    A_least: float,  # noqa: N803
) -> float:
    """Mortar joints: what is left of the net area; a wall without them leaves no rounding below zero."""
    return max(A_least, A_net - A_feature - A_slip - A_movement - A_end)


def elevation_row(face: FaceSlips, options: Options, trace: Trace) -> ElevationSlips:
    """One elevation."""

    def measured(symbol: str, *terms: tuple[str, float]) -> float:
        return trace.measure(symbol, "m2", [(what, square_metres(area), face.face.pointer) for what, area in terms])

    openings = [(f"opening {opening.id}", -opening.area) for opening in face.face.openings]
    net = measured("A_net", ("outline", face.face.gross_area), *openings)
    features = measured("A_feature", *((f"feature {feature.id}", feature.area) for feature in face.face.features))
    slips = measured(
        "A_slip", ("courses", face.course_area), ("soldiers", face.soldier_area), ("voussoirs", face.voussoir_area)
    )
    level = [("level movement joints", face.storey_area)] if face.storey_area else []
    movement = measured("A_movement", ("movement joints", face.slot_area), *level)
    end = measured("A_end", ("joints at ends", face.end_joint_area))
    row: ElevationSlips = {
        "elevation": face.face.id,
        "gross_area_m2": measured("A_gross", ("outline", face.face.gross_area)),
        "net_area_m2": net,
        "feature_area_m2": features,
        "slip_face_area_m2": slips,
        "course_face_area_m2": square_metres(face.course_area),
        "joint_area_m2": trace.call(
            joint_area,
            A_net=net,
            A_feature=features,
            A_slip=slips,
            A_movement=movement,
            A_end=end,
            A_least=trace.lookup("A_least", 0.0, "m2", GEOMETRY),
        ),
        "joint_area_by_strips_m2": square_metres(face.joint_area_by_strips),
        "movement_joint_area_m2": movement,
        "end_joint_area_m2": end,
        "soldier_zone_area_m2": square_metres(sum(course.zone_area for course in face.soldiers)),
        "soldier_face_area_m2": square_metres(face.soldier_area),
        "courses_count": face.courses_count,
        "full_count": face.full_count,
        "cut_count": face.cut_count,
        "total_count": face.full_count + face.cut_count,
        "soldiers_count": face.soldiers_count,
        "voussoir_zone_area_m2": square_metres(sum(ring.zone_area for ring in face.voussoirs)),
        "voussoir_face_area_m2": square_metres(face.voussoir_area),
        "voussoirs_count": face.voussoirs_count,
        "bed_joint_length_m": millimetres(face.bed_length) * METRES_PER_MILLIMETRE,
        "perp_joint_length_m": millimetres(face.perp_length) * METRES_PER_MILLIMETRE,
        "bays": [_bay(bay) for bay in face.bays],
    }
    if options.detail == "pieces":
        row["courses"] = course_rows(face.equal_courses, face.gauge)
        row["soldier_courses"] = [soldier_pieces(course) for course in face.soldiers]
    return row


def _bay(bay: BayPerps) -> BayPerpWidths:
    return {
        "x_from_mm": millimetres(bay.left),
        "x_to_mm": millimetres(bay.right),
        "equalised": bay.arrangement == "equalised",
        "arrangement": bay.arrangement,
        "perps_mm": [millimetres(pattern[0].grid.perp) for pattern in bay.patterns],
    }
