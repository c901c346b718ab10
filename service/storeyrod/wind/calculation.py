"""Wind of a request: pressure by height, zones of every direction on every face, and their envelope."""

from collections.abc import Sequence

from storeyrod.answer import Answer, Assumption, assumptions_of, refuse_cautions, unique
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import Face, faces_as_drawn, faces_of
from storeyrod.wall.mirror import source_of
from storeyrod.wall.models import Elevation
from storeyrod.wind.findings import area_findings
from storeyrod.wind.models import WindLoadRequest, WindLoadResult
from storeyrod.wind.plan import WindWorking, wind_working
from storeyrod.wind.result_rows import basis_of, direction_rows, envelope_rows, height_rows, side_rows, zone_rows
from storeyrod.wind.site_models import AnyWind

NOT_CHECKED = (
    "Wind was worked out for a plain box: re-entrant corners, courtyards, neighbouring buildings that funnel the wind, canopies, roofs "
    "and parapets, friction along walls and dynamic response were not looked at.",
    "Velocity, terrain, orography, distance to the sea and the choices of the national annex are the caller's; a structural engineer "
    "must confirm them under the local code before anything is fixed by these figures.",
)


def calculate(request: WindLoadRequest, trace: Trace = SILENT) -> Answer[WindLoadResult]:
    """Peak pressures, zones and envelope; raises the refusals of outlines and of ``wind_working``."""
    working = wind_working(_faces(request), request.wind, trace)
    boards = area_findings(request.system, request.wind) if request.system is not None else ()
    findings = unique([*working.plan.findings, *boards])
    if request.options.strict:
        refuse_cautions(findings)
    return Answer(wind_result(working, request.wind, trace), findings, _assumptions(request), list(NOT_CHECKED))


def _assumptions(request: WindLoadRequest) -> list[Assumption]:
    """Defaults that play a part: those of the wind and of places on the building, and what moves outlines of the substrate.

    A request shares its elevations and system with other operations; most of their defaults say nothing about wind.
    """
    return [item for item in assumptions_of(request) if _plays_a_part(item["field"].split("/")[1:], request)]


def _plays_a_part(field: Sequence[str], request: WindLoadRequest) -> bool:
    moved = request.system is not None and any(one.plane == "substrate" for one in request.elevations)
    match field:
        case ["wind", *_] | ["elevations", _, "face", *_]:
            return True
        case ["elevations", _, "plane"]:
            return request.system is not None
        case ["elevations", index, "left_edge" | "right_edge"] | ["elevations", index, _, "angle_deg"]:
            return moved and _source(request.elevations, int(index)).plane == "substrate"
        case _:
            return moved and field == ["system", "adhesive", "compressed_thickness_mm"]


def _source(elevations: Sequence[Elevation], index: int) -> Elevation:
    """The elevation whose plane holds: a mirror image is drawn in that of the elevation it mirrors."""
    return source_of(elevations[index], {one.id: one for one in elevations})


def _faces(request: WindLoadRequest) -> Sequence[Face]:
    if request.system is None:
        return faces_as_drawn(request.elevations)
    return faces_of(request.elevations, request.system)


def wind_result(working: WindWorking, wind: AnyWind, trace: Trace = SILENT) -> WindLoadResult:
    """The rows of the answer."""
    directions = working.directions
    result: WindLoadResult = {
        "basis": basis_of(wind),
        "peak_pressure_pa": max(one.profile.at(one.height).pressure for one in directions),
        "heights": height_rows(directions),
        "directions": direction_rows(directions),
        "zones": zone_rows(working, trace) if working.zones else side_rows(directions, trace),
        "envelope": envelope_rows(working, trace),
    }
    fastest = max(directions, key=lambda one: one.profile.basic_velocity or 0.0).profile
    if fastest.basic_velocity is not None and fastest.basic_pressure is not None:
        result["basic_velocity_m_per_s"] = fastest.basic_velocity
        result["basic_pressure_pa"] = fastest.basic_pressure
    return result
