"""Quantities of a request: what every layout takes, per elevation and together, and the packs to order."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from storeyrod.answer import Answer, Assumption, assumptions_of, refuse_cautions, unique
from storeyrod.boards.board_cutting import BoardCutting
from storeyrod.boards.layout import BoardLayout
from storeyrod.fasteners.loads import Loads
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.findings import Finding
from storeyrod.movement_joints.assumed import joint_assumptions, sealant_assumptions
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.quantities.base_trim import base_trim_of
from storeyrod.quantities.beads import Bead, bead_of, beads_on, beads_together
from storeyrod.quantities.filling import filling_findings
from storeyrod.quantities.layouts import layouts_of
from storeyrod.quantities.lines import Need, order_line, uncut
from storeyrod.quantities.models import ElevationQuantities, QuantitiesRequest, QuantitiesResult
from storeyrod.quantities.pieces import (
    SlipScope,
    all_slips,
    board_need,
    boards_of,
    corner_need,
    fastener_need,
    header_need,
    slips_of,
    straight_need,
)
from storeyrod.quantities.pointing import Pointing, mortar_on, mortar_together, pointing_of
from storeyrod.quantities.pooling import line_findings
from storeyrod.quantities.sealing import Run, frame_assumptions, rod_needs, sealant_of, sealed_runs
from storeyrod.slips.calculation import bond_assumptions
from storeyrod.slips.layout import SlipLayout
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.wall import Wall

NOT_CHECKED = (
    "Weights, pallets, deliveries and shelf life of what is ordered.",
    "Trims at heads, sills, jambs, verges and movement joints, primer, and fixings of the base trim; a foot that "
    "is not level has no base trim here.",
    "Yield of mortar and adhesive on site: density, bead and coverage are the request's, not a supplier's declaration.",
    "How much of the slip's back is bonded in practice: coverage is arithmetic, and no limit was applied to it.",
)


@dataclass(frozen=True, slots=True)
class Quantities:
    """What is bought, what was found about packs, and what was assumed on the way."""

    result: QuantitiesResult
    findings: tuple[Finding, ...]
    assumptions: tuple[Assumption, ...]


def calculate(request: QuantitiesRequest, trace: Trace = SILENT) -> Answer[QuantitiesResult]:
    """Quantities of every elevation and of all together; packs are the only rounding."""
    loads = Loads(request.wind, request.substrate, request.partial_factors)
    layouts = layouts_of(request.elevations, request.system, request.stock_offcuts, request.options, trace, loads)
    quantities = quantities_of(
        layouts.wall, layouts.plans, layouts.boards, layouts.cutting, layouts.fasteners, layouts.slips, trace
    )
    findings = unique([*layouts.findings, *quantities.findings])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [
        *assumptions_of(request),
        *joint_assumptions(layouts.wall, layouts.plans),
        *sealant_assumptions(request.system),
        *bond_assumptions(layouts.slips),
        *quantities.assumptions,
    ]
    return Answer(quantities.result, findings, assumptions, list(NOT_CHECKED))


def quantities_of(
    wall: Wall,
    plans: Sequence[JointPlan],
    boards: BoardLayout,
    cutting: BoardCutting,
    fasteners: FastenerSchedule,
    slips: SlipLayout,
    trace: Trace = SILENT,
) -> Quantities:
    """Quantities of a wall that is laid out; raises ``profile-too-deep`` for a hollow that does not fit its joint."""
    job = _Job(
        wall, plans, boards, cutting, fasteners, slips, bead_of(wall.system, trace), pointing_of(wall.system, trace)
    )
    runs = [sealed_runs(wall, face, plan, trace) for face, plan in zip(wall.faces, plans, strict=True)]
    elevations = [_elevation(job, index, runs[index], trace) for index in range(len(wall.faces))]
    result = _together(job, elevations, [run for row in runs for run in row], trace)
    found = (*filling_findings(wall.system, job.bead), *line_findings(result, wall.system))
    return Quantities(result, found, tuple(frame_assumptions(wall)))


@dataclass(frozen=True, slots=True)
class _Job:
    wall: Wall
    plans: Sequence[JointPlan]
    boards: BoardLayout
    cutting: BoardCutting
    fasteners: FastenerSchedule
    slips: SlipLayout
    bead: Bead
    pointing: Pointing


def _elevation(job: _Job, index: int, runs: Sequence[Run], trace: Trace) -> ElevationQuantities:
    face, system = job.slips.faces[index], job.wall.system
    boards = job.boards.faces[index]
    adhesive = beads_on(face, job.bead, trace)
    mortar = mortar_on(face, job.pointing, trace)
    sealant = sealant_of(runs, system, trace)
    trim, trim_need = base_trim_of([face.face], system, trace)
    corners = [corner for corner in job.slips.corners if corner.corner.first.face.id == face.face.id]
    needs = [
        board_need([boards], job.cutting.faces[index].boards_count, 0.0, system, trace),
        *_slip_needs(job, slips_of(job.slips, index), trace),
        corner_need(corners, face.returns, trace),
        fastener_need([job.fasteners.faces[index]], trace),
        uncut("adhesive", adhesive["volume_l"]),
        uncut("mortar", mortar["mass_kg"]),
        uncut("sealant", sealant["volume_l"]),
        *rod_needs(sealant, trace),
        trim_need,
    ]
    return {
        "elevation": face.face.id,
        "lines": [order_line(need, system, trace) for need in needs],
        "adhesive": adhesive,
        "mortar": mortar,
        "sealant": sealant,
        "base_trim": trim,
    }


def _slip_needs(job: _Job, scope: SlipScope, trace: Trace) -> Iterator[Need]:
    yield straight_need(scope, job.wall.system, trace)
    headers = header_need(scope, job.wall.system, trace)
    if headers is not None:
        yield headers


def _together(job: _Job, elevations: list[ElevationQuantities], runs: Sequence[Run], trace: Trace) -> QuantitiesResult:
    system = job.wall.system
    adhesive = beads_together([row["adhesive"] for row in elevations], job.bead, trace)
    mortar = mortar_together([row["mortar"] for row in elevations], job.slips.faces, job.pointing, trace)
    sealant = sealant_of(runs, system, trace)
    trim, trim_need = base_trim_of(job.wall.faces, system, trace)
    needs = [
        boards_of(job.boards, job.cutting, trace),
        *_slip_needs(job, all_slips(job.slips), trace),
        corner_need(job.slips.corners, job.slips.returns, trace),
        fastener_need(job.fasteners.faces, trace),
        uncut("adhesive", adhesive["volume_l"]),
        uncut("mortar", mortar["mass_kg"]),
        uncut("sealant", sealant["volume_l"]),
        *rod_needs(sealant, trace),
        trim_need,
    ]
    return {
        "lines": [order_line(need, system, trace) for need in needs],
        "adhesive": adhesive,
        "mortar": mortar,
        "sealant": sealant,
        "base_trim": trim,
        "elevations": elevations,
    }
