"""Every operation of the service: where it is, what it takes and what its answer is. One function each, for both twins."""

from collections.abc import Mapping
from typing import Any, TypeVar
from urllib.parse import quote

from pydantic import BaseModel

from storeyrod_client.exchange import Call, Drawing, body_of, read_drawing, reads
from storeyrod_client.models import (
    BoardLayoutAnswer,
    BoardLayoutRequest,
    CondensationAnswer,
    CondensationRequest,
    DeadLoadAnswer,
    DeadLoadRequest,
    DrawingRequest,
    FastenerScheduleAnswer,
    FastenerScheduleRequest,
    Findings,
    Materials,
    MovementJointsAnswer,
    MovementJointsRequest,
    ProblemView,
    QuantitiesAnswer,
    QuantitiesRequest,
    SelfTests,
    SettingOutAnswer,
    SettingOutRequest,
    SlipLayoutAnswer,
    SlipLayoutRequest,
    Standards,
    Status,
    TakeOffAnswer,
    TakeOffRequest,
    ThermalJunctionAnswer,
    ThermalJunctionRequest,
    UValueAnswer,
    UValueRequest,
    WindLoadAnswer,
    WindLoadRequest,
)
from storeyrod_client.received import Received

R = TypeVar("R", bound=Received)

Document = Mapping[str, Any]
"""A request as a plain dict, in the names of the wire; it is sent as it stands and checked by the service."""

SVG = "image/svg+xml"


def compute_take_off(request: TakeOffRequest | Document) -> Call[TakeOffAnswer]:
    """The whole job of a building in one call."""
    return _post("/v1/take-offs", request, TakeOffAnswer)


def compute_setting_out(request: SettingOutRequest | Document) -> Call[SettingOutAnswer]:
    """Finished faces, datum and gauge, perps, bond round corners and base."""
    return _post("/v1/setting-out", request, SettingOutAnswer)


def plan_movement_joints(request: MovementJointsRequest | Document) -> Call[MovementJointsAnswer]:
    """Movement joints, bays and sealant."""
    return _post("/v1/movement-joints", request, MovementJointsAnswer)


def compute_board_layout(request: BoardLayoutRequest | Document) -> Call[BoardLayoutAnswer]:
    """Board pieces with positions, how boards and offcuts at hand are cut, and boards needed."""
    return _post("/v1/board-layouts", request, BoardLayoutAnswer)


def compute_fastener_schedule(request: FastenerScheduleRequest | Document) -> Call[FastenerScheduleAnswer]:
    """Every fastener with its stage, what each piece needs and what decides it, and lengths."""
    return _post("/v1/fastener-schedules", request, FastenerScheduleAnswer)


def compute_slip_layout(request: SlipLayoutRequest | Document) -> Call[SlipLayoutAnswer]:
    """Exact slips by kind, and joints."""
    return _post("/v1/slip-layouts", request, SlipLayoutAnswer)


def compute_quantities(request: QuantitiesRequest | Document) -> Call[QuantitiesAnswer]:
    """What is to be bought, from need to packs."""
    return _post("/v1/quantities", request, QuantitiesAnswer)


def compute_u_value(request: UValueRequest | Document) -> Call[UValueAnswer]:
    """Resistance and U-value of a build-up."""
    return _post("/v1/u-values", request, UValueAnswer)


def compute_thermal_junction(request: ThermalJunctionRequest | Document) -> Call[ThermalJunctionAnswer]:
    """Heat through a junction: coupling, psi or chi, temperature factors."""
    return _post("/v1/thermal-junctions", request, ThermalJunctionAnswer)


def check_condensation(request: CondensationRequest | Document) -> Call[CondensationAnswer]:
    """Humidity on the surface and moisture between layers, month by month."""
    return _post("/v1/condensation-checks", request, CondensationAnswer)


def compute_wind_load(request: WindLoadRequest | Document) -> Call[WindLoadAnswer]:
    """Peak pressures, zones on every elevation and their envelope."""
    return _post("/v1/wind-loads", request, WindLoadAnswer)


def compute_dead_load(request: DeadLoadRequest | Document) -> Call[DeadLoadAnswer]:
    """Masses, what is lifted, and the load path from slip to structure."""
    return _post("/v1/dead-loads", request, DeadLoadAnswer)


def draw_sheets(request: DrawingRequest | Document, media_type: str) -> Call[Drawing]:
    """A drawing in one of the formats of the service."""
    return Call("POST", "/v1/drawings", read_drawing, media_type, body_of(request))


def materials() -> Call[Materials]:
    """Tabulated materials with their sources."""
    return Call("GET", "/v1/materials", reads(Materials))


def standards() -> Call[Standards]:
    """Documents that figures come from."""
    return Call("GET", "/v1/standards", reads(Standards))


def findings() -> Call[Findings]:
    """Words of findings and problems."""
    return Call("GET", "/v1/findings", reads(Findings))


def problem(slug: str) -> Call[ProblemView]:
    """What a problem means and what helps."""
    return Call("GET", f"/v1/problems/{quote(slug, safe='')}", reads(ProblemView))


def self_tests() -> Call[SelfTests]:
    """Published worked examples, calculated now."""
    return Call("GET", "/v1/self-tests", reads(SelfTests))


def health() -> Call[Status]:
    """Whether requests should be sent to the service now."""
    return Call("GET", "/health/ready", reads(Status))


def _post(path: str, request: BaseModel | Document, answer: type[R]) -> Call[R]:
    return Call("POST", path, reads(answer), body=body_of(request))
