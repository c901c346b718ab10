"""The whole job in one call: every layout once, then every room's own answer about it."""

from storeyrod.answer import Answer, Assumption, assumptions_of, refuse_cautions, unique
from storeyrod.boards import calculation as boards
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.loads import Loads
from storeyrod.fasteners.proof_tests import failure_findings, proof_tests_of
from storeyrod.fasteners.substrate_edges import edge_findings
from storeyrod.findings import Finding, finding
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.assumed import joint_assumptions, sealant_assumptions
from storeyrod.movement_joints.profile_checks import disagreements
from storeyrod.quantities import calculation as quantities
from storeyrod.quantities.layouts import Layouts, layouts_of
from storeyrod.site.occupational import CAUTIONS
from storeyrod.site.reminders import SAID_OF_FIRE, fire_reminders
from storeyrod.slips import calculation as slips
from storeyrod.take_off.elevation_rows import elevation_rows
from storeyrod.take_off.heat import u_value_of
from storeyrod.take_off.models import TakeOffRequest, TakeOffResult
from storeyrod.take_off.survey import survey_checks
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.system import System
from storeyrod.weights import calculation as weights
from storeyrod.wind import calculation as wind

NOT_CHECKED = (
    "Nothing here is a structural design: the wall behind and its structure, what carries the cladding over openings, and the "
    "figures given for wind and resistances must be checked by whoever is responsible under the local code.",
    *SAID_OF_FIRE,
    "Moisture: rain, condensation, old damp, and details at base, sills, heads and verges were not looked at.",
    "The plan of the work: days, weather and the order of the gang; `work` is kept for it and was not used.",
    *CAUTIONS,
)


def calculate(request: TakeOffRequest, trace: Trace = SILENT) -> Answer[TakeOffResult]:
    """Boards, fasteners, movement joints, slips, quantities and U-value of a job.

    Raises ``reference-unknown`` for a survey of an elevation that is not there, and the refusals of every room.
    """
    options = request.options
    loads = Loads(request.wind, request.substrate, request.partial_factors)
    layouts = layouts_of(request.elevations, request.system, request.stock_offcuts, options, trace, loads)
    bought = quantities.quantities_of(
        layouts.wall, layouts.plans, layouts.boards, layouts.cutting, layouts.fasteners, layouts.slips, trace
    )
    slip_layout = slips.slip_result(layouts.slips, options, trace)
    result: TakeOffResult = {
        "elevations": elevation_rows(layouts, bought.result["elevations"], trace),
        "gross_area_m2": slip_layout["gross_area_m2"],
        "net_area_m2": slip_layout["net_area_m2"],
        "boards": boards.board_result(layouts.boards, layouts.cutting, layouts.stock, options, trace),
        "fasteners": fasteners.fastener_result(layouts.fasteners, options, trace),
        "movement_joints": movement_joints.joints_result(layouts.wall, layouts.plans, trace),
        "slips": slip_layout,
        "quantities": bought.result,
    }
    found = [*_fire(request), *layouts.findings, *bought.findings, *_survey(request, layouts, result, trace)]
    found += disagreements(result["movement_joints"]["profiles"], layouts.wall)
    assumed = [*bought.assumptions]
    not_checked = [*NOT_CHECKED, *_rooms_not_checked(request.system, layouts)]
    acting, said, stated = _loads(request, layouts, result, trace)
    found += acting
    not_checked += said
    assumed += stated
    if request.build_up is not None:
        heat = u_value_of(request, request.build_up, result["fasteners"]["density_per_m2"], trace)
        result["u_value"] = heat.result
        found += [*heat.findings, *_given_twice(request)]
        assumed += heat.assumptions
        not_checked += heat.not_checked
    findings = unique(found)
    if options.strict:
        refuse_cautions(findings)
    return Answer(result, findings, [*_layout_assumptions(request, layouts), *assumed], not_checked)


def _loads(
    request: TakeOffRequest, layouts: Layouts, result: TakeOffResult, trace: Trace
) -> tuple[list[Finding], list[str], list[Assumption]]:
    """Wind, proof tests and dead loads, as far as the request has them: what was found, not checked and assumed."""
    found: list[Finding] = []
    assumed: list[Assumption] = []
    said: list[str] = []
    tests, schedule = request.proof_tests, layouts.fasteners
    if request.wind is not None and schedule.wind is not None:
        result["wind"] = wind.wind_result(schedule.wind, request.wind, trace)
        said += wind.NOT_CHECKED
    if tests is not None:
        named = request.options.detail == "pieces"
        result["fasteners"]["proof_tests"] = proof_tests_of(schedule, tests, trace, named=named)
        found += failure_findings(tests)
    found += edge_findings(schedule)
    if request.asks_for_dead_loads:
        heavy = weights.dead_loads(
            layouts.boards, schedule, layouts.slips, request, request.partial_factors, request.options, trace
        )
        result["dead_loads"] = heavy.result
        found += heavy.findings
        said += heavy.not_checked
        assumed += heavy.assumptions
    return found, said, assumed


def _fire(request: TakeOffRequest) -> list[Finding]:
    """Reminders of fire codes, where a site is given."""
    site = request.project.site if request.project is not None else None
    if site is None:
        return []
    board = request.system.board
    return fire_reminders(site, "/project/site", board.reaction_to_fire, board.thickness_mm)


def _given_twice(request: TakeOffRequest) -> list[Finding]:
    """Fasteners stand in the corrections and in the schedule: the corrections are taken alone."""
    if request.corrections.fasteners is None or request.system.fastener.chi_w_per_k is None:
        return []
    return [finding("fasteners-given-twice", {"pointer": "/corrections/fasteners"})]


def _survey(request: TakeOffRequest, layouts: Layouts, result: TakeOffResult, trace: Trace) -> list[Finding]:
    if not request.survey:
        return []
    result["survey"], findings = survey_checks(request.survey, layouts.wall.faces, request.system, trace)
    return findings


def _layout_assumptions(request: TakeOffRequest, layouts: Layouts) -> list[Assumption]:
    return [
        *assumptions_of(request),
        *joint_assumptions(layouts.wall, layouts.plans),
        *sealant_assumptions(request.system),
        *slips.bond_assumptions(layouts.slips),
        *fasteners.schedule_assumptions(layouts.fasteners),
    ]


def _rooms_not_checked(system: System, layouts: Layouts) -> list[str]:
    rooms = (movement_joints, slips, quantities)
    said = [*boards.not_checked(system), *fasteners.not_checked(layouts.fasteners)]
    said += [sentence for room in rooms for sentence in room.NOT_CHECKED]
    return [*said, *movement_joints.unchecked_joints(layouts.wall)]
