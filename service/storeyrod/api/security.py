"""Pages of other origins: refused by the browser unless their origin is on the allow-list, which is empty by default."""

import os
from typing import Final

from fastapi import FastAPI
from starlette.datastructures import Headers
from starlette.middleware.cors import CORSMiddleware
from starlette.responses import Response

from storeyrod.api.problems import Problem
from storeyrod.api.settings import Settings

_PREFLIGHT_SECONDS: Final = 600


def allow_origins(app: FastAPI, settings: Settings) -> None:
    """Add the allow-list as the outermost layer, so that faults can be read by an allowed page too."""
    if settings.allowed_origins:
        app.add_middleware(
            AllowList,
            allow_origins=settings.allowed_origins,
            allow_methods=("GET", "POST"),
            allow_headers=("Content-Type", "Accept", "If-None-Match", "traceparent"),
            expose_headers=("Request-Id", "Retry-After", "ETag"),
            max_age=_PREFLIGHT_SECONDS,
        )


class AllowList(CORSMiddleware):
    """The framework's layer, answering a refused preflight with a problem document."""

    def preflight_response(self, request_headers: Headers) -> Response:
        """The answer to OPTIONS of a browser."""
        response = super().preflight_response(request_headers)
        if response.status_code != 200:
            reply = Problem("origin-not-allowed").reply()
            headers = {"Vary": response.headers.get("vary", "Origin"), **dict(reply.headers)}
            response = Response(reply.body, reply.status, headers, reply.media_type)
        response.headers["Request-Id"] = os.urandom(16).hex()
        return response
