"""The whole surface on one screen: every calculation that the service offers.

Routes, OpenAPI, self-tests and contract tests are made from this table. To add an operation, add a row, and a minimal and
a full example under ``openapi/examples/<operation_id>/``.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from storeyrod.answer import Answer
from storeyrod.api.envelope import Calculation, encoded, envelope
from storeyrod.api.reply import JSON, SVG
from storeyrod.boards import calculation as boards
from storeyrod.boards.models import BoardLayoutRequest, BoardLayoutResult
from storeyrod.drawings import calculation as drawings
from storeyrod.drawings import svg
from storeyrod.drawings.models import DrawingRequest
from storeyrod.drawings.size import units_to_draw
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.models import FastenerScheduleRequest, FastenerScheduleResult
from storeyrod.junctions import calculation as junctions
from storeyrod.junctions.models import ThermalJunctionRequest, ThermalJunctionResult
from storeyrod.moisture import calculation as moisture
from storeyrod.moisture.models import CondensationRequest
from storeyrod.moisture.result_models import CondensationResult
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.models import MovementJointsRequest, MovementJointsResult
from storeyrod.quantities import calculation as quantities
from storeyrod.quantities.models import QuantitiesRequest, QuantitiesResult
from storeyrod.setting_out import calculation as setting_out
from storeyrod.setting_out.models import SettingOutRequest, SettingOutResult
from storeyrod.slips import calculation as slips
from storeyrod.slips.models import SlipLayoutRequest, SlipLayoutResult
from storeyrod.take_off import calculation as take_off
from storeyrod.take_off.models import TakeOffRequest, TakeOffResult
from storeyrod.thermal import calculation as thermal
from storeyrod.thermal.models import UValueRequest, UValueResult
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.size import estimated_units
from storeyrod.weights import calculation as weights
from storeyrod.weights.models import DeadLoadRequest, DeadLoadResult
from storeyrod.wind import calculation as wind
from storeyrod.wind.models import WindLoadRequest, WindLoadResult

Writer = Callable[[Answer[Any], Calculation, Trace], bytes]
"""Writes an answer in one format."""


def write_json(answer: Answer[Any], calculation: Calculation, trace: Trace) -> bytes:
    """The envelope as JSON."""
    return encoded(envelope(answer, calculation, trace, traced=trace is not SILENT))


def write_svg(answer: Answer[Any], _calculation: Calculation, _trace: Trace) -> bytes:
    """The sheets as one SVG document; the title block carries the fingerprint."""
    return svg.write(answer)


def units_to_place(request: Any) -> int:  # noqa: ANN401  any request with elevations and a system
    """Slips and boards that would cover the elevations."""
    return estimated_units(request.elevations, request.system)


def _one(_request: Any) -> int:  # noqa: ANN401  any request
    return 1


@dataclass(frozen=True)
class Operation:
    """One calculation: where it is found, what it takes and gives, what calculates it and how much work that is.

    ``cost`` says where it runs: ``short`` in the event loop, ``long`` in a worker process. ``work`` estimates pieces to
    place, to be held against the limit. All functions stand at module level, so that a worker finds them by name.
    """

    path: str
    operation_id: str
    summary: str
    tag: str
    request: Any
    result: Any
    calculate: Callable[[Any, Trace], Answer[Any]]
    cost: Literal["short", "long"] = "short"
    work: Callable[[Any], int] = _one
    writers: Mapping[str, Writer] = field(default_factory=lambda: {JSON: write_json})


OPERATIONS: Final[tuple[Operation, ...]] = (
    Operation(
        "/v1/take-offs", "computeTakeOff", "A whole job: every quantity and position in one call", "take-off",
        TakeOffRequest, TakeOffResult, take_off.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/setting-out", "computeSettingOut", "Faces, datum, gauge, perps, bond round corners, base", "setting-out",
        SettingOutRequest, SettingOutResult, setting_out.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/board-layouts", "computeBoardLayout", "Boards placed, cut and counted", "setting-out",
        BoardLayoutRequest, BoardLayoutResult, boards.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/fastener-schedules", "computeFastenerSchedule", "Positions, counts and stages of fasteners", "setting-out",
        FastenerScheduleRequest, FastenerScheduleResult, fasteners.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/movement-joints", "planMovementJoints", "Movement joints, bays and sealant", "setting-out",
        MovementJointsRequest, MovementJointsResult, movement_joints.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/slip-layouts", "computeSlipLayout", "Slips placed, cut and counted", "setting-out",
        SlipLayoutRequest, SlipLayoutResult, slips.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/quantities", "computeQuantities", "What has to be bought, rounded up to packs", "quantities",
        QuantitiesRequest, QuantitiesResult, quantities.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/u-values", "computeUValue", "Thermal resistance and U-value of a build-up", "thermal",
        UValueRequest, UValueResult, thermal.calculate,
    ),
    Operation(
        "/v1/thermal-junctions", "computeThermalJunction", "Heat through junctions: psi, chi, temperature factors", "thermal",
        ThermalJunctionRequest, ThermalJunctionResult, junctions.calculate, "long",
    ),
    Operation(
        "/v1/condensation-checks", "checkCondensation", "Surface humidity and moisture between layers, month by month", "thermal",
        CondensationRequest, CondensationResult, moisture.calculate, "long",
    ),
    Operation(
        "/v1/wind-loads", "computeWindLoad", "Peak pressure, zones on every elevation, envelope", "loads",
        WindLoadRequest, WindLoadResult, wind.calculate, "long",
    ),
    Operation(
        "/v1/dead-loads", "computeDeadLoad", "Masses, what is lifted, and the load path link by link", "loads",
        DeadLoadRequest, DeadLoadResult, weights.calculate, "long", units_to_place,
    ),
    Operation(
        "/v1/drawings", "drawSheets", "Elevations, junctions and vapour pressures on sheets", "drawings",
        DrawingRequest, None, drawings.calculate, "long", units_to_draw, {SVG: write_svg},
    ),
)  # fmt: skip
"""Every operation, in the order of the documentation."""
