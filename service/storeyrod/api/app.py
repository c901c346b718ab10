"""The only place where the service is put together."""

from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from typing import Final

from fastapi import FastAPI
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.types import ASGIApp

from storeyrod import __version__
from storeyrod.api import reference_data
from storeyrod.api.compute import Compute
from storeyrod.api.endpoints import CalculationEndpoint, FixedEndpoint, LiveEndpoint
from storeyrod.api.health import Readiness, live
from storeyrod.api.memory import settle
from storeyrod.api.observability import log_to_standard_error
from storeyrod.api.openapi import document_bytes
from storeyrod.api.operations import OPERATIONS, Operation
from storeyrod.api.problems import Problem
from storeyrod.api.security import allow_origins
from storeyrod.api.self_tests import self_tests, share_of_rows
from storeyrod.api.settings import Settings
from storeyrod.api.watch import Watch

_SELF_TEST_SHARES: Final = 4
"""More would keep more workers from other callers for hardly less time."""

_SLUG_BY_STATUS: Final = {404: "not-found", 405: "method-not-allowed"}


def create_app(settings: Settings, operations: Sequence[Operation] = OPERATIONS) -> FastAPI:
    """The service, as an ASGI application."""
    compute = Compute(settings)

    @asynccontextmanager
    async def lifespan(_app: FastAPI) -> AsyncIterator[None]:
        yield
        compute.close()

    app = FastAPI(
        title="Storeyrod",
        version=__version__,
        openapi_url=None,
        docs_url=None,
        redoc_url=None,
        redirect_slashes=False,
        lifespan=lifespan,
        exception_handlers={HTTPException: _as_problem},
        routes=[*_calculations(operations, compute, settings), *_data(operations, compute, settings)],
    )
    app.add_middleware(Watch, log_requests=settings.log_requests)
    allow_origins(app, settings)
    return app


def app_from_environment() -> FastAPI:
    """Factory for a server process: settings from the environment, log lines to standard error."""
    log_to_standard_error()
    app = create_app(Settings())
    settle()
    return app


def _calculations(operations: Sequence[Operation], compute: Compute, settings: Settings) -> list[Route]:
    return [
        Route(
            operation.path,
            CalculationEndpoint(operation, compute, settings),
            methods=["POST"],
            name=operation.operation_id,
        )
        for operation in operations
    ]


def _data(operations: Sequence[Operation], compute: Compute, settings: Settings) -> list[Route]:
    shares = min(max(1, settings.workers), _SELF_TEST_SHARES)

    async def tests() -> bytes:
        return self_tests(await compute.run_all(share_of_rows, [(share, shares) for share in range(shares)]))

    endpoints: dict[str, ASGIApp] = {
        "/v1/materials": FixedEndpoint("listMaterials", {"": reference_data.materials()}),
        "/v1/standards": FixedEndpoint("listStandards", {"": reference_data.standards()}),
        "/v1/findings": FixedEndpoint("listFindings", {"": reference_data.findings()}),
        "/v1/problems/{slug}": FixedEndpoint("explainProblem", reference_data.problems(), parameter="slug"),
        "/v1/self-tests": LiveEndpoint("runSelfTests", tests),
        "/health/live": LiveEndpoint("getLiveness", live),
        "/health/ready": LiveEndpoint("getReadiness", Readiness(compute)),
        "/openapi.json": FixedEndpoint("openapi", {"": document_bytes(operations)}),
    }
    return [Route(path, endpoint, methods=["GET"]) for path, endpoint in endpoints.items()]


async def _as_problem(_request: Request, error: Exception) -> Response:
    """What the router refuses: unknown paths and methods."""
    status = error.status_code if isinstance(error, HTTPException) else 500
    sent = error.headers if isinstance(error, HTTPException) else None
    reply = Problem(_SLUG_BY_STATUS.get(status, "internal-error")).reply()
    headers = dict(reply.headers)
    if sent and "Allow" in sent:
        headers["Allow"] = ", ".join(sorted(method.strip() for method in sent["Allow"].split(",")))
    return Response(reply.body, reply.status, headers, reply.media_type)
