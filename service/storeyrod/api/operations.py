"""The whole surface on one screen: every calculation that the service offers.

Routes, OpenAPI, self-tests and contract tests are made from this table. To add an operation, add a row, and a minimal and
a full example under ``openapi/examples/<operation_id>/``.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from storeyrod.answer import Answer
from storeyrod.api.envelope import Calculation, encoded, envelope
from storeyrod.api.reply import JSON
from storeyrod.boards import calculation as boards
from storeyrod.boards.models import BoardLayoutRequest, BoardLayoutResult
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.models import FastenerScheduleRequest, FastenerScheduleResult
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.models import MovementJointsRequest, MovementJointsResult
from storeyrod.slips import calculation as slips
from storeyrod.slips.models import SlipLayoutRequest, SlipLayoutResult
from storeyrod.thermal import calculation as thermal
from storeyrod.thermal.models import UValueRequest, UValueResult
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.size import estimated_units

Writer = Callable[[Answer[Any], Calculation, Trace], bytes]
"""Writes an answer in one format."""


def write_json(answer: Answer[Any], calculation: Calculation, trace: Trace) -> bytes:
    """The envelope as JSON."""
    return encoded(envelope(answer, calculation, trace, traced=trace is not SILENT))


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
        "/v1/u-values", "computeUValue", "Thermal resistance and U-value of a build-up", "thermal",
        UValueRequest, UValueResult, thermal.calculate,
    ),
)  # fmt: skip
"""Every operation, in the order of the documentation."""
