"""One JSON line for each request and each fault; never a body, a query or a raw path."""

import logging
import re
import sys
import time
from typing import Any, Final

import orjson

LOGGER: Final = logging.getLogger("storeyrod")

_TRACEPARENT: Final = re.compile(r"00-([0-9a-f]{32})-[0-9a-f]{16}-[0-9a-f]{2}")


class _JsonLine(logging.Formatter):
    def format(self, record: logging.LogRecord) -> str:
        """The record's members as one line of JSON; the clock is read here, never in an answer."""
        line: dict[str, Any] = {
            "time": time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime(record.created)),
            "level": record.levelname.lower(),
            "event": record.getMessage(),
            **getattr(record, "members", {}),
        }
        if record.exc_info:
            line["traceback"] = self.formatException(record.exc_info)
        return orjson.dumps(line, default=str, option=orjson.OPT_NON_STR_KEYS).decode()


def log_to_standard_error() -> None:
    """Send every log line of the service and its server to standard error as JSON."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(_JsonLine())
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(logging.INFO)


def log(level: int, event: str, members: dict[str, Any], *, fault: BaseException | None = None) -> None:
    """Write one line."""
    if LOGGER.isEnabledFor(level):
        LOGGER.log(level, event, extra={"members": members}, exc_info=fault)


def trace_id_of(traceparent: bytes | None) -> str | None:
    """Trace id of a W3C ``traceparent``; a malformed one is ignored."""
    if traceparent is None:
        return None
    found = _TRACEPARENT.fullmatch(traceparent.decode("latin-1"))
    return found[1] if found else None
