"""Rows of the answer about wind."""

from collections.abc import Sequence
from typing import Final

from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.reference.documents import DOCUMENTS
from storeyrod.wall.face import Face
from storeyrod.wind.coefficients import ZONES, table_of
from storeyrod.wind.directions import Direction, SideZone
from storeyrod.wind.face_wind import WindPlan
from storeyrod.wind.face_zones import FaceZone
from storeyrod.wind.models import ReferenceHeight, WindBasis, WindDirection, WindEnvelope, WindZone
from storeyrod.wind.plan import WindWorking
from storeyrod.wind.site_models import AnyWind
from storeyrod.wind.tabulated import WALL_COEFFICIENTS

_EN: Final = "EN 1991-1-4"
_REMARK: Final = "An edition of 2026 exists and is not used: coefficients of editions must not be mixed, and annexes still refer to this one."
_OTHER: Final = " Recommended values were taken; hold them against the annex of the place."


def basis_of(wind: AnyWind) -> WindBasis:
    """Edition and national choice."""
    coefficients = WALL_COEFFICIENTS[table_of(wind)]["A"][0].ten.clause
    open_choice = wind.national_choice in ("recommended", "other_annex")
    return {
        "document": f"{_EN}:{DOCUMENTS[_EN].edition}",
        "national_choice": "germany" if table_of(wind) == "germany" else wind.national_choice,
        "coefficients": str(coefficients),
        "remark": _REMARK + _OTHER if open_choice and table_of(wind) != "germany" else _REMARK,
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


def zone_rows(working: WindWorking) -> list[WindZone]:
    """Zones of every face, direction by direction."""
    faces = working.plan.faces
    return [_on_face(one.face, zone) for one, zones in zip(faces, working.zones, strict=True) for zone in zones]


def _on_face(face: Face, found: FaceZone) -> WindZone:
    left, bottom, right, top = found.box
    area = square_metres(face.gross_within(found.box))
    made = _zone(found.zone, [millimetres(edge) for edge in (left, right, bottom, top)], area)
    made = {"elevation": face.id, **made}
    if face.elevation.face is None:
        del made["side"]
    return made


def side_rows(directions: Sequence[Direction]) -> list[WindZone]:
    """Zones of the four sides of the building, without its elevations."""
    return [_on_side(zone, one) for one in directions for zone in one.zones]


def _on_side(zone: SideZone, wind: Direction) -> WindZone:
    along = zone.side not in (wind.side, _OPPOSITE[wind.side])
    length = wind.depth if along else wind.breadth
    left, right = (min(max(at, 0.0), length) for at in (zone.start, zone.end))
    bottom, top = (min(max(at, 0.0), wind.height) for at in (zone.bottom, zone.top))
    area = (right - left) * (top - bottom)
    return _zone(zone, [at * _MILLIMETRES for at in (left, right, bottom, top)], area)


_OPPOSITE: Final = {"front": "rear", "rear": "front", "right": "left", "left": "right"}
_MILLIMETRES: Final = 1000.0


def _zone(zone: SideZone, box: Sequence[float], area: float) -> WindZone:
    left, right, bottom, top = box
    return {
        "side": zone.side,
        "direction": zone.direction,
        "zone": zone.zone,
        "x_from_mm": left,
        "x_to_mm": right,
        "y_from_mm": bottom,
        "y_to_mm": top,
        "area_m2": area,
        "reference_height_m": zone.reference.height,
        "pressure_coefficient": zone.coefficient,
        "pressure_pa": zone.external,
        "net_suction_pa": zone.outward,
        "net_pressure_pa": zone.inward,
    }


def envelope_rows(plan: WindPlan) -> list[WindEnvelope]:
    """Patches of every face."""
    return [
        {
            "elevation": wind.face.id,
            "x_from_mm": millimetres(patch.left),
            "x_to_mm": millimetres(patch.right),
            "y_from_mm": millimetres(patch.bottom),
            "y_to_mm": millimetres(patch.top),
            "zone": patch.zone,
            "direction": patch.direction,
            "suction_pa": patch.suction,
            "pressure_pa": patch.pressure,
        }
        for wind in plan.faces
        for patch in wind.patches
    ]
