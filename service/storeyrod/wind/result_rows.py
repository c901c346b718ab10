"""Rows of the answer about wind."""

from collections.abc import Sequence
from typing import Final

from storeyrod.geometry.plane import Box
from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.reference.documents import DOCUMENTS
from storeyrod.trace import Trace
from storeyrod.wall.face import Face
from storeyrod.wind.coefficients import ZONES, table_of
from storeyrod.wind.directions import NET, Direction, SideZone
from storeyrod.wind.face_wind import WindPatch
from storeyrod.wind.face_zones import FaceZone
from storeyrod.wind.models import ReferenceHeight, WindBasis, WindDirection, WindEnvelope, WindZone
from storeyrod.wind.plan import WindWorking
from storeyrod.wind.site_models import AnyWind, BasicVelocity
from storeyrod.wind.tabulated import WALL_COEFFICIENTS

_EN: Final = "EN 1991-1-4"
_REMARK: Final = "An edition of 2026 exists and is not used: coefficients of editions must not be mixed, and annexes still refer to this one."
_OTHER: Final = " Recommended values were taken; hold them against the annex of the place."

_ALTITUDE: Final = (
    " The velocity was raised by the altitude of the place as the annex of the United Kingdom does, and no other."
)


_Limits = tuple[float, float, float, float]
"""Left end, right end, foot and head in mm."""


def basis_of(wind: AnyWind) -> WindBasis:
    """Edition and national choice."""
    coefficients = WALL_COEFFICIENTS[table_of(wind)]["A"][0].ten.clause
    open_choice = wind.national_choice in ("recommended", "other_annex")
    raised = _ALTITUDE if isinstance(wind, BasicVelocity) and wind.altitude is not None else ""
    return {
        "document": f"{_EN}:{DOCUMENTS[_EN].edition}",
        "national_choice": "germany" if table_of(wind) == "germany" else wind.national_choice,
        "coefficients": str(coefficients),
        "remark": _REMARK + (_OTHER if open_choice and table_of(wind) != "germany" else "") + raised,
    }


def height_rows(directions: Sequence[Direction]) -> list[ReferenceHeight]:
    """Every height at which a pressure was read."""
    return [_height(one, height) for one in directions for height in sorted(one.profile.rows)]


def _height(wind: Direction, height: float) -> ReferenceHeight:
    row = wind.profile.rows[height]
    made: ReferenceHeight = {"direction": wind.side, "height_m": row.height, "peak_pressure_pa": row.pressure}
    if row.roughness is not None and row.turbulence is not None:
        made["roughness_factor"], made["turbulence_intensity"] = row.roughness, row.turbulence
    if row.mean_velocity is not None and row.exposure is not None:
        made["mean_velocity_m_per_s"], made["exposure_factor"] = row.mean_velocity, row.exposure
    return made


def direction_rows(directions: Sequence[Direction]) -> list[WindDirection]:
    """Sizes, zone lengths and coefficients of each direction."""
    return [_direction(one) for one in directions]


def _direction(wind: Direction) -> WindDirection:
    outside = wind.coefficients
    made: WindDirection = {
        "direction": wind.side,
        "breadth_m": wind.breadth,
        "depth_m": wind.depth,
        "edge_m": wind.lengths.edge,
        "height_to_depth": outside.slenderness,
        "zone_a_m": wind.lengths.a,
        "zone_b_m": wind.lengths.b,
        "zone_c_m": wind.lengths.c,
        "coefficients": [
            {
                "zone": zone,
                "on_10_square_metres": outside.ten[zone],
                "on_1_square_metre": outside.one[zone],
                "pressure_coefficient": outside.used[zone],
            }
            for zone in ZONES
        ],
        "internal_high": wind.internal[0],
        "internal_low": wind.internal[1],
    }
    if wind.profile.basic_velocity is not None:
        made["basic_velocity_m_per_s"] = wind.profile.basic_velocity
    return made


def zone_rows(working: WindWorking, trace: Trace) -> list[WindZone]:
    """Zones of every face, direction by direction."""
    faces = working.plan.faces
    return [_on_face(one.face, zone, trace) for one, zones in zip(faces, working.zones, strict=True) for zone in zones]


def _on_face(face: Face, found: FaceZone, trace: Trace) -> WindZone:
    what = f"{_name(found.zone)}, on {face.id}"
    made = _zone(found.zone, _box(face, found.box, what, trace))
    area = square_metres(face.gross_within(found.box))
    made["area_m2"] = trace.single("A", "m2", area, lambda: what, face.members_pointer)
    made = {"elevation": face.id, **made}
    if face.elevation.face is None:
        del made["side"]
    return made


def _name(zone: SideZone) -> str:
    return f"zone {zone.zone}, wind on the {zone.direction}"


def _box(face: Face, box: Box, what: str, trace: Trace) -> _Limits:
    """Limits of what is on a face: along it by its place on its side, upwards from the ground."""
    along = face.pointer if face.elevation.face is None else f"{face.pointer}/face/offset_mm"
    left, bottom, right, top = map(millimetres, box)
    return _limits((left, right, bottom, top), what, (along, "/wind/ground_y_mm"), trace)


def _limits(ends: _Limits, what: str, pointers: tuple[str, str], trace: Trace) -> _Limits:
    left, right, foot, head = ends
    along, upwards = pointers
    return (
        trace.single("x", "mm", left, lambda: f"left end of {what}", along),
        trace.single("x", "mm", right, lambda: f"right end of {what}", along),
        trace.single("y", "mm", foot, lambda: f"foot of {what}", upwards),
        trace.single("y", "mm", head, lambda: f"head of {what}", upwards),
    )


def side_rows(directions: Sequence[Direction], trace: Trace) -> list[WindZone]:
    """Zones of the four sides of the building, without its elevations."""
    return [_on_side(zone, one, trace) for one in directions for zone in one.zones]


def _on_side(zone: SideZone, wind: Direction, trace: Trace) -> WindZone:
    along = zone.side not in (wind.side, _OPPOSITE[wind.side])
    length = wind.depth if along else wind.breadth
    left, right = (min(max(at, 0.0), length) for at in (zone.start, zone.end))
    bottom, top = (min(max(at, 0.0), wind.height) for at in (zone.bottom, zone.top))
    what, box = f"{_name(zone)}, on the {zone.side}", "/wind/building"
    ends = left * _MILLIMETRES, right * _MILLIMETRES, bottom * _MILLIMETRES, top * _MILLIMETRES
    made = _zone(zone, _limits(ends, what, (box, box), trace))
    made["area_m2"] = trace.single("A", "m2", (right - left) * (top - bottom), lambda: what, box)
    return made


_OPPOSITE: Final = {"front": "rear", "rear": "front", "right": "left", "left": "right"}
_MILLIMETRES: Final = 1000.0


def _zone(zone: SideZone, box: _Limits) -> WindZone:
    left, right, bottom, top = box
    return {
        "side": zone.side,
        "direction": zone.direction,
        "zone": zone.zone,
        "x_from_mm": left,
        "x_to_mm": right,
        "y_from_mm": bottom,
        "y_to_mm": top,
        "area_m2": 0.0,
        "reference_height_m": zone.reference.height,
        "pressure_coefficient": zone.coefficient,
        "pressure_pa": zone.external,
        "net_suction_pa": zone.outward,
        "net_pressure_pa": zone.inward,
    }


def envelope_rows(working: WindWorking, trace: Trace) -> list[WindEnvelope]:
    """Patches of every face."""
    faces = zip(working.plan.faces, working.zones, strict=True)
    return [_envelope(wind.face, patch, zones, trace) for wind, zones in faces for patch in wind.patches]


def _envelope(face: Face, patch: WindPatch, zones: Sequence[FaceZone], trace: Trace) -> WindEnvelope:
    box = patch.left, patch.bottom, patch.right, patch.top
    here = [one.zone for one in zones if _holds(one.box, box)]
    left, right, bottom, top = _box(face, box, f"a patch on {face.id}", trace)
    suctions = ((_name(zone), zone.suction, "pa") for zone in here)
    pressures = ((_name(zone), zone.inward, "pa") for zone in here)
    return {
        "elevation": face.id,
        "x_from_mm": left,
        "x_to_mm": right,
        "y_from_mm": bottom,
        "y_to_mm": top,
        "zone": patch.zone,
        "direction": patch.direction,
        "suction_pa": trace.solved("w_s", patch.suction, "pa", "greatest of the zones here", suctions, NET),
        "pressure_pa": trace.solved("w_p", patch.pressure, "pa", "greatest of the zones here, or 0", pressures, NET),
    }


def _holds(outer: Box, inner: Box) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and outer[2] >= inner[2] and outer[3] >= inner[3]
