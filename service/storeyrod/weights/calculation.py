"""Dead loads of a request: masses by layer and piece, what is lifted and set down, and the load path."""

from collections.abc import Sequence

from storeyrod.answer import Answer, Assumed, Assumption, assumptions_of, refuse_cautions, stated, unique
from storeyrod.boards.chosen_layout import chosen_layout
from storeyrod.boards.layout import BoardLayout
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.loads import Loads
from storeyrod.fasteners.schedule import FastenerSchedule, set_fasteners
from storeyrod.findings import Finding, finding
from storeyrod.movement_joints.assumed import joint_assumptions
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.options import Options
from storeyrod.quantities.filling import filling_findings
from storeyrod.reference.documents import HOUSE
from storeyrod.slips.layout import SlipLayout, lay_slips
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.substrate_models import PartialFactors
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of
from storeyrod.weights.actions import actions_of
from storeyrod.weights.handling import lifting_filters, lifting_findings, pallet_loads
from storeyrod.weights.layers import NEWTONS_PER_KILONEWTON, Layers, layers_of, weight_on_area
from storeyrod.weights.load_path import load_path_of
from storeyrod.weights.masses import elevation_masses, heaviest, layer_rows, piece_masses
from storeyrod.weights.models import DeadLoadRequest, DeadLoadResult, LoadPathMembers
from storeyrod.weights.packs import in_the_job, lacking_of_packs, pack_masses, single_masses
from storeyrod.weights.scopes import limit_checks, scope_findings, scope_limits
from storeyrod.weights.unusual import coverage_findings, density_findings
from storeyrod.wind import calculation as wind

NOT_CHECKED = (
    "Dead load: in guidelines for anchors of insulation the weight is carried by adhesive and board and not assigned to the anchors "
    "(ETAG 014, from memory); where boards are only fastened, bending of the fasteners needs a declared resistance and a structural engineer.",
    "Resistances are the caller's, for new and dry material: ageing, frost, wetting and drying, and repeated wind, which load tests may not "
    "show, were not looked at; nor were impact, lintels over openings and the structure itself.",
    "Masses are of dry material on the faces alone: water in slips and boards, linings of reveals, features, trims, sealant and packing "
    "were not added.",
    "Handling: published values are information; local rules for handling and whoever designed the scaffold decide.",
)


def calculate(request: DeadLoadRequest, trace: Trace = SILENT) -> Answer[DeadLoadResult]:
    """Masses and load path of a wall; raises the refusals of the wall, of wind, and of contradictory masses."""
    wall = wall_of(request.elevations, request.system)
    plans = joint_plans(wall, trace)
    boards = chosen_layout(wall, plans, request.options.effort)
    loads = Loads(request.wind, request.substrate, request.partial_factors)
    schedule = set_fasteners(wall, boards, loads, trace)
    slips = lay_slips(wall, plans, request.options, trace)
    made = dead_loads(boards, schedule, slips, request, request.partial_factors, request.options, trace)
    joint_findings = [item for plan in plans for item in plan.findings]
    laid = [*wall.findings, *joint_findings, *boards.findings, *schedule.findings, *slips.findings]
    findings = unique([*laid, *made.findings])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [*assumptions_of(request), *joint_assumptions(wall, plans), *made.assumptions]
    assumptions += fasteners.schedule_assumptions(schedule)
    said = [*made.not_checked, *fasteners.not_checked(schedule)]
    said += wind.NOT_CHECKED if request.wind is not None else ()
    return Answer(made.result, findings, assumptions, said)


def dead_loads(
    boards: BoardLayout,
    schedule: FastenerSchedule,
    slips: SlipLayout,
    asked: LoadPathMembers,
    factors: PartialFactors,
    options: Options,
    trace: Trace = SILENT,
) -> Answer[DeadLoadResult]:
    """Masses and load path of layouts that are there already."""
    system = schedule.system
    layers = layers_of(system, asked.bonding_kg_per_m2, trace)
    gravity = trace.given(asked.gravity_m_per_s2 / NEWTONS_PER_KILONEWTON, "/gravity_m_per_s2")
    singles, pieces = single_masses(system, layers, trace), list(piece_masses(boards, layers))
    packs, lifted = pack_masses(system, singles, asked.handling, trace), in_the_job(singles, slips)
    pallets, overloads = pallet_loads(asked.handling, packs, lacking_of_packs(system, layers), gravity, trace)
    scopes = scope_limits(system, layers, bonded=asked.supplementary_adhesive)
    limits, over = limit_checks(asked, layers)
    elevations = elevation_masses(boards, slips, layers, system, trace)
    actions = actions_of(schedule, layers, factors, gravity, trace)
    path, path_findings = load_path_of(
        schedule, layers, actions, asked.links, trace, bonded=asked.supplementary_adhesive
    )
    result: DeadLoadResult = {
        "layers": layer_rows(layers, system),
        "face_kg_per_m2": layers.face,
        "face_kn_per_m2": weight_on_area(layers.face, gravity, trace),
        "coverage_fraction": layers.bead.share,
        "bonded_fraction": layers.bonded,
        "elevations": elevations,
        "heaviest": heaviest(lifted, pieces),
        "packs": packs,
        "pallets": pallets,
        "lifting": lifting_filters(packs, lifted),
        "scopes": scopes,
        "limits": limits,
        "load_path": path,
    }
    if layers.cladding is not None:
        result["cladding_kg_per_m2"] = layers.cladding
        result["cladding_kn_per_m2"] = weight_on_area(layers.cladding, gravity, trace)
        result["total_kg"] = trace.sum("M", "kg", [row["total_kg"] for row in elevations])
    if options.detail == "pieces":
        result["pieces"] = pieces
    found = [
        *_board_missing(layers),
        *density_findings(system),
        *filling_findings(system, layers.bead),
        *coverage_findings(layers.bead),
        *over,
        *overloads,
        *lifting_findings(asked.handling, packs, lifted),
        *scope_findings(scopes),
        *path_findings,
    ]
    return Answer(result, found, _assumptions(system), list(NOT_CHECKED))


def _assumptions(system: System) -> list[Assumption]:
    """The density by which mortar is weighed, where the request leaves it open."""
    if system.mortar.hardened_density_kg_per_m3 is not None:
        return []
    rule = Assumed("kg_per_m3", HOUSE, "as much as dry mortar for a cubic metre of joint")
    return [stated("/system/mortar/hardened_density_kg_per_m3", system.mortar.density_kg_per_m3, rule)]


def _board_missing(layers: Layers) -> Sequence[Finding]:
    return [finding("board-mass-missing", {"pointer": "/system/board"})] if layers.board is None else []
