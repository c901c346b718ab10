"""Typed client of the Storeyrod service; requests and answers are in ``storeyrod_client.models``."""

from storeyrod_client.async_client import AsyncClient
from storeyrod_client.client import Client
from storeyrod_client.errors import (
    ConnectionFailed,
    ErrorItem,
    MalformedRequest,
    NotAcceptable,
    NotFound,
    ProblemError,
    ProblemReport,
    Refused,
    RequestInvalid,
    ServerFault,
    StoreyrodError,
    TimedOut,
    TooLarge,
    TooManyRequests,
    Unavailable,
    UnreadableAnswer,
    UnsupportedMedia,
)
from storeyrod_client.exchange import DEFAULT_TIMEOUT, Drawing
from storeyrod_client.placed_slips import PlacedSlip, placed_on, placed_slips
from storeyrod_client.received import Received
from storeyrod_client.retries import Retries
from storeyrod_client.version import __version__

__all__ = [
    "DEFAULT_TIMEOUT",
    "AsyncClient",
    "Client",
    "ConnectionFailed",
    "Drawing",
    "ErrorItem",
    "MalformedRequest",
    "NotAcceptable",
    "NotFound",
    "PlacedSlip",
    "ProblemError",
    "ProblemReport",
    "Received",
    "Refused",
    "RequestInvalid",
    "Retries",
    "ServerFault",
    "StoreyrodError",
    "TimedOut",
    "TooLarge",
    "TooManyRequests",
    "Unavailable",
    "UnreadableAnswer",
    "UnsupportedMedia",
    "__version__",
    "placed_on",
    "placed_slips",
]
