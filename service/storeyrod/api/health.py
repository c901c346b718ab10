"""State of the service, for whoever starts it and sends requests to it."""

import orjson

from storeyrod.api.compute import Compute
from storeyrod.api.views import Status

_LIVE: Status = {"status": "live"}
_READY: Status = {"status": "ready"}


async def live() -> bytes:
    """The process answers."""
    return orjson.dumps(_LIVE)


class Readiness:
    """Ready while there is a place for another long request; the reference data was read before the service started."""

    def __init__(self, compute: Compute) -> None:
        """Asks the workers' queue."""
        self._compute = compute

    async def __call__(self) -> bytes:
        """Raises the problem ``service-busy`` when every place is taken."""
        self._compute.require_place()
        return orjson.dumps(_READY)
