"""When to send the same request again, and after how long.

Every operation is a pure calculation, so repeating one does no harm; but it only helps against 429, 503 and a lost
connection. Everything else would get the same answer again.
"""

import random
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC
from email.utils import parsedate_to_datetime
from typing import Final

import httpx2

from storeyrod_client.errors import ConnectionFailed, StoreyrodError

_REPEATABLE_STATUS: Final = frozenset((429, 503))
_MOST_DOUBLINGS: Final = 60

Outcome = httpx2.Response | StoreyrodError
"""What one attempt brought: an answer of any status, or the reason why there is none."""


@dataclass(frozen=True, slots=True)
class Retries:
    """How often and how patiently to repeat; ``Retries(max_attempts=1)`` never repeats.

    The n-th pause is ``first_delay_s * 2 ** (n - 1)``, at most ``longest_delay_s``, of which a random half to whole is
    waited, so that clients that failed together do not return together. A ``Retry-After`` is waited in full, with jitter
    of up to ``first_delay_s`` on top; one beyond ``longest_retry_after_s`` ends the attempts at once, and the error carries
    it as ``retry_after_s``. ``chance`` (0 to 1) and ``now`` (seconds since 1970) are replaced in tests.
    """

    max_attempts: int = 4
    first_delay_s: float = 0.5
    longest_delay_s: float = 8.0
    longest_retry_after_s: float = 30.0
    chance: Callable[[], float] = random.random
    now: Callable[[], float] = time.time

    def pause_s(self, outcome: Outcome, *, attempt: int) -> float | None:
        """Seconds to wait before the next attempt; ``None`` when there shall be none. Attempts count from 1."""
        if attempt >= self.max_attempts or not _repetition_helps(outcome):
            return None
        asked_s = None if isinstance(outcome, StoreyrodError) else retry_after_s(outcome, now=self.now())
        if asked_s is None:
            return self._backed_off_s(attempt)
        if asked_s > self.longest_retry_after_s:
            return None
        return asked_s + self.first_delay_s * self.chance()

    def _backed_off_s(self, attempt: int) -> float:
        doubled = self.first_delay_s * 2.0 ** min(attempt - 1, _MOST_DOUBLINGS)
        return min(self.longest_delay_s, doubled) * (0.5 + 0.5 * self.chance())


def _repetition_helps(outcome: Outcome) -> bool:
    if isinstance(outcome, StoreyrodError):
        return isinstance(outcome, ConnectionFailed) and outcome.repeatable
    return outcome.status_code in _REPEATABLE_STATUS


def retry_after_s(response: httpx2.Response, *, now: float) -> float | None:
    """Seconds of a ``Retry-After`` (RFC 9110, section 10.2.3): whole seconds or a date; anything else is ignored."""
    text = response.headers.get("retry-after", "").strip()
    if text.isascii() and text.isdigit():
        return float(text)
    try:
        moment = parsedate_to_datetime(text)
    except ValueError:
        return None
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=UTC)
    return max(0.0, moment.timestamp() - now)
