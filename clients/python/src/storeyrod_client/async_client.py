"""The client that awaits."""

import asyncio
from collections.abc import Awaitable, Callable, Mapping
from itertools import count
from types import TracebackType
from typing import Any, Self, TypeVar

import httpx2

from storeyrod_client import calls
from storeyrod_client.calls import SVG, Document
from storeyrod_client.exchange import DEFAULT_TIMEOUT, Call, Drawing, failure, service_url, standing_headers
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
from storeyrod_client.retries import Outcome, Retries

T = TypeVar("T")

Timeout = float | httpx2.Timeout


class AsyncClient:
    """One service at one address; twin of ``Client``, method for method.

    Each method takes a request as a model or as a plain dict in the names of the wire, and raises a ``StoreyrodError`` when
    there is no answer. ``timeout`` counts for each attempt. Close the client after use, or use it in an ``async with`` block;
    tasks of one event loop may share it.
    """

    def __init__(
        self,
        base_url: str,
        *,
        timeout: Timeout = DEFAULT_TIMEOUT,
        retries: Retries = Retries(),  # noqa: B008  frozen
        headers: Mapping[str, str] | None = None,
        transport: httpx2.AsyncBaseTransport | None = None,
        sleep: Callable[[float], Awaitable[None]] = asyncio.sleep,
    ) -> None:
        """Nothing is sent yet. ``transport`` carries proxies and certificates; ``sleep`` is replaced in tests.

        Raises ``ValueError`` for an address that is none.
        """
        self._http = httpx2.AsyncClient(
            base_url=service_url(base_url), timeout=timeout, headers=standing_headers(headers), transport=transport
        )
        self._retries = retries
        self._sleep = sleep

    async def compute_take_off(
        self, request: TakeOffRequest | Document, *, timeout: Timeout | None = None
    ) -> TakeOffAnswer:
        """The whole job of a building in one call."""
        return await self._run(calls.compute_take_off(request), timeout)

    async def compute_setting_out(
        self, request: SettingOutRequest | Document, *, timeout: Timeout | None = None
    ) -> SettingOutAnswer:
        """Finished faces, datum and gauge, perps, bond round corners and base."""
        return await self._run(calls.compute_setting_out(request), timeout)

    async def plan_movement_joints(
        self, request: MovementJointsRequest | Document, *, timeout: Timeout | None = None
    ) -> MovementJointsAnswer:
        """Movement joints, bays and sealant."""
        return await self._run(calls.plan_movement_joints(request), timeout)

    async def compute_board_layout(
        self, request: BoardLayoutRequest | Document, *, timeout: Timeout | None = None
    ) -> BoardLayoutAnswer:
        """Board pieces with positions, how boards and offcuts at hand are cut, and boards needed."""
        return await self._run(calls.compute_board_layout(request), timeout)

    async def compute_fastener_schedule(
        self, request: FastenerScheduleRequest | Document, *, timeout: Timeout | None = None
    ) -> FastenerScheduleAnswer:
        """Every fastener with its stage, what each piece needs and what decides it, and lengths."""
        return await self._run(calls.compute_fastener_schedule(request), timeout)

    async def compute_slip_layout(
        self, request: SlipLayoutRequest | Document, *, timeout: Timeout | None = None
    ) -> SlipLayoutAnswer:
        """Exact slips by kind, and joints."""
        return await self._run(calls.compute_slip_layout(request), timeout)

    async def compute_quantities(
        self, request: QuantitiesRequest | Document, *, timeout: Timeout | None = None
    ) -> QuantitiesAnswer:
        """What is to be bought, from need to packs."""
        return await self._run(calls.compute_quantities(request), timeout)

    async def compute_u_value(
        self, request: UValueRequest | Document, *, timeout: Timeout | None = None
    ) -> UValueAnswer:
        """Resistance and U-value of a build-up."""
        return await self._run(calls.compute_u_value(request), timeout)

    async def compute_thermal_junction(
        self, request: ThermalJunctionRequest | Document, *, timeout: Timeout | None = None
    ) -> ThermalJunctionAnswer:
        """Heat through a junction: coupling, psi or chi, temperature factors."""
        return await self._run(calls.compute_thermal_junction(request), timeout)

    async def check_condensation(
        self, request: CondensationRequest | Document, *, timeout: Timeout | None = None
    ) -> CondensationAnswer:
        """Humidity on the surface and moisture between layers, month by month."""
        return await self._run(calls.check_condensation(request), timeout)

    async def compute_wind_load(
        self, request: WindLoadRequest | Document, *, timeout: Timeout | None = None
    ) -> WindLoadAnswer:
        """Peak pressures, zones on every elevation and their envelope."""
        return await self._run(calls.compute_wind_load(request), timeout)

    async def compute_dead_load(
        self, request: DeadLoadRequest | Document, *, timeout: Timeout | None = None
    ) -> DeadLoadAnswer:
        """Masses, what is lifted, and the load path from slip to structure."""
        return await self._run(calls.compute_dead_load(request), timeout)

    async def draw_sheets(
        self, request: DrawingRequest | Document, *, media_type: str = SVG, timeout: Timeout | None = None
    ) -> Drawing:
        """A drawing in one of the formats of the service."""
        return await self._run(calls.draw_sheets(request, media_type), timeout)

    async def materials(self, *, timeout: Timeout | None = None) -> Materials:
        """Tabulated materials with their sources."""
        return await self._run(calls.materials(), timeout)

    async def standards(self, *, timeout: Timeout | None = None) -> Standards:
        """Documents that figures come from."""
        return await self._run(calls.standards(), timeout)

    async def findings(self, *, timeout: Timeout | None = None) -> Findings:
        """Words of findings and problems."""
        return await self._run(calls.findings(), timeout)

    async def problem(self, slug: str, *, timeout: Timeout | None = None) -> ProblemView:
        """What a problem means and what helps."""
        return await self._run(calls.problem(slug), timeout)

    async def self_tests(self, *, timeout: Timeout | None = None) -> SelfTests:
        """Published worked examples, calculated now."""
        return await self._run(calls.self_tests(), timeout)

    async def health(self, *, timeout: Timeout | None = None) -> Status:
        """Whether requests should be sent to the service now; asks once, whatever ``retries`` says."""
        call = calls.health()
        return call.result(await self._attempt(call, timeout))

    async def aclose(self) -> None:
        """Close the connections; the client is of no use afterwards."""
        await self._http.aclose()

    async def __aenter__(self) -> Self:
        """The client itself."""
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        """Close the connections."""
        await self.aclose()

    async def _run(self, call: Call[T], timeout: Timeout | None) -> T:
        for attempt in count(1):
            outcome = await self._attempt(call, timeout)
            pause_s = self._retries.pause_s(outcome, attempt=attempt)
            if pause_s is None:
                break
            await self._sleep(pause_s)
        return call.result(outcome)

    async def _attempt(self, call: Call[Any], timeout: Timeout | None) -> Outcome:
        try:
            return await self._http.request(
                call.method,
                call.path,
                content=call.body,
                headers=call.headers,
                timeout=httpx2.USE_CLIENT_DEFAULT if timeout is None else timeout,
            )
        except httpx2.RequestError as error:
            return failure(error)
