"""Heat through a junction: a section drawn by the request or made from its build-up, solved in two dimensions."""

from dataclasses import replace
from typing import Final

from storeyrod.answer import Answer, assumptions_of, refuse_cautions, unique
from storeyrod.findings import refuse
from storeyrod.junctions.details.ready import posed_detail
from storeyrod.junctions.drawn import posed_section
from storeyrod.junctions.drawn_sides import JUNCTION
from storeyrod.junctions.models import Junction, TemperatureCase, ThermalJunctionRequest, ThermalJunctionResult
from storeyrod.junctions.posed import Place, PosedCase, PosedJunction
from storeyrod.junctions.result import findings_of, result_of
from storeyrod.junctions.working import JunctionWorking, solved
from storeyrod.trace import SILENT, Trace

NOT_CHECKED: Final = (
    "The junction is taken as it is drawn: steady heat, two dimensions, dry materials of one conductivity each, surfaces of one "
    "resistance each. Corners of three planes, air that moves through joints, the ground, heat stored in the fabric and moisture were "
    "not looked at.",
    "Conductivities, sizes and surface resistances are the caller's or the defaults listed; frames are solid blocks.",
    "Whether a psi value, a temperature factor or a risk of mould is acceptable: the local code and a licensed designer decide.",
)


def calculate(request: ThermalJunctionRequest, trace: Trace = SILENT) -> Answer[ThermalJunctionResult]:
    """Coupling, linear or point transmittance, temperature factors and temperatures; raises what ``junction_working`` does."""
    return answer_of(request, junction_working(request, trace), trace)


def answer_of(
    request: ThermalJunctionRequest, working: JunctionWorking, trace: Trace = SILENT
) -> Answer[ThermalJunctionResult]:
    """The answer about a junction that has been solved: for those who show its fields too."""
    findings = unique([*working.posed.findings, *findings_of(working)])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = assumptions_of(request) + working.posed.assumptions
    return Answer(result_of(working, trace), findings, assumptions, list(NOT_CHECKED))


def junction_working(request: ThermalJunctionRequest, trace: Trace = SILENT) -> JunctionWorking:
    """The junction solved, with its fields.

    Refuses ``junction-unclear``, ``build-up-missing``, ``environment-unknown`` and what the section, its boundaries or the parameters
    of a detail get wrong.
    """
    return solved(_posed(request, trace), request.options.effort)


def _posed(request: ThermalJunctionRequest, trace: Trace) -> PosedJunction:
    junction = request.junction
    _refuse_unclear(request)
    _refuse_twice([one.id for one in junction.points], f"{JUNCTION}/points")
    _refuse_twice([one.id for one in junction.cases], f"{JUNCTION}/cases")
    if junction.detail is not None:
        posed = posed_detail(junction.detail, request.build_up, trace)
    else:
        posed = posed_section(junction, trace)
    return replace(posed, places=posed.places + tuple(_places(junction)), cases=tuple(_cases(junction, posed, trace)))


def _refuse_unclear(request: ThermalJunctionRequest) -> None:
    junction = request.junction
    drawn = bool(junction.rectangles or junction.boundaries or junction.flanks or junction.between)
    if junction.detail is not None and (drawn or {"geometry", "overlaps"} & junction.model_fields_set):
        raise refuse(
            "junction-unclear",
            JUNCTION,
            "a ready detail draws itself: leave out rectangles, boundaries, flanks, between, geometry and overlaps",
        )
    if junction.detail is None and not junction.rectangles:
        raise refuse("junction-unclear", JUNCTION, "give rectangles with their boundaries, or a ready detail")
    if junction.detail is None and request.build_up is not None:
        raise refuse(
            "junction-unclear",
            "/build_up",
            "a drawn section takes nothing from a build-up; leave it out, or ask for a detail",
        )


def _refuse_twice(ids: list[str], pointer: str) -> None:
    for at, name in enumerate(ids):
        if name in ids[:at]:
            raise refuse(
                "duplicate-id",
                f"{pointer}/{at}/id",
                f"the id {name} is already that of an earlier one; give each its own",
            )


def _places(junction: Junction) -> list[Place]:
    return [
        Place(point.id, point.x_mm, point.y_mm, f"{JUNCTION}/points/{at}", asked=True)
        for at, point in enumerate(junction.points)
    ]


def _cases(junction: Junction, posed: PosedJunction, trace: Trace) -> list[PosedCase]:
    return [
        PosedCase(case.id, _temperatures(case, posed, f"{JUNCTION}/cases/{at}", trace))
        for at, case in enumerate(junction.cases)
    ]


def _temperatures(case: TemperatureCase, posed: PosedJunction, pointer: str, trace: Trace) -> tuple[float, ...]:
    names = posed.section.environments
    made = dict(zip(names, posed.temperatures, strict=True))
    for at, one in enumerate(case.temperatures):
        if one.environment not in made:
            raise refuse(
                "environment-unknown",
                f"{pointer}/temperatures/{at}/environment",
                f"no boundary faces {one.environment}; the environments are {', '.join(names)}",
            )
        if one.environment in [other.environment for other in case.temperatures[:at]]:
            raise refuse(
                "environment-contradictory",
                f"{pointer}/temperatures/{at}/environment",
                f"the case names {one.environment} twice; give it one temperature",
            )
        made[one.environment] = trace.given(one.temperature_deg_c, f"{pointer}/temperatures/{at}/temperature_deg_c")
    return tuple(made.values())
