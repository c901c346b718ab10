"""Where calculations run: short ones in the event loop, long ones in worker processes with a deadline and a queue's end."""

import asyncio
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from storeyrod.api.problems import Problem, size_problem
from storeyrod.api.settings import Settings
from storeyrod.api.worker import Worker, WorkerDied

T = TypeVar("T")


class Compute:
    """Workers, started when first needed and replaced when they had to be killed.

    At most ``workers`` jobs run and ``waiting_limit`` wait; the next one is answered 503 at once. A job that passes
    ``time_limit_s`` is killed with its worker and refused: no half answer goes out.
    """

    def __init__(self, settings: Settings) -> None:
        """Nothing starts yet."""
        self._settings = settings
        self._idle: list[Worker] = []
        self._places = asyncio.Semaphore(max(1, settings.workers))
        self._taken = 0
        self._threads = ThreadPoolExecutor(max(1, settings.workers), thread_name_prefix="storeyrod-pipe")

    async def run(self, function: Callable[..., T], *arguments: object) -> T:
        """Result of a long function; in the event loop itself when there are no workers."""
        if self._settings.workers == 0:
            return function(*arguments)
        self.require_place()
        self._taken += 1
        try:
            async with self._places:
                result: T = await self._in_worker((function, arguments))
                return result
        finally:
            self._taken -= 1

    async def run_all(self, function: Callable[..., T], arguments: Sequence[tuple[object, ...]]) -> list[T]:
        """Results of several long jobs at once, in their order; the first that fails stops the others."""
        jobs = [asyncio.ensure_future(self.run(function, *each)) for each in arguments]
        try:
            return await asyncio.gather(*jobs)
        finally:
            for job in jobs:
                job.cancel()

    def require_place(self) -> None:
        """Raise the problem ``service-busy`` when every place, running or waiting, is taken."""
        if self._taken >= max(1, self._settings.workers) + self._settings.waiting_limit:
            raise _busy(self._settings)

    async def _in_worker(self, job: tuple[Callable[..., T], tuple[object, ...]]) -> T:
        loop = asyncio.get_running_loop()
        worker = self._idle.pop() if self._idle else await loop.run_in_executor(self._threads, Worker)
        pending = loop.run_in_executor(self._threads, worker.run, job)
        finished = False
        try:
            done, _ = await asyncio.wait((pending,), timeout=self._settings.time_limit_s)
            finished = bool(done)
        finally:
            if not finished:  # past the deadline, or cancelled because its caller is gone
                pending.add_done_callback(_look_at)
                worker.kill()
        if not finished:
            await asyncio.wait((pending,))
            raise size_problem("over-time-limit", "The calculation was stopped", self._settings.time_limit_s, "s")
        if not isinstance(pending.exception(), WorkerDied):
            self._idle.append(worker)
        result: T = pending.result()
        return result

    def close(self) -> None:
        """End all idle workers; called once, when the service stops."""
        while self._idle:
            self._idle.pop().close()
        self._threads.shutdown(wait=False, cancel_futures=True)


def _look_at(ended: "asyncio.Future[object]") -> None:
    """The end of a killed worker is no news; unseen, it would be logged as a fault."""
    if not ended.cancelled():
        ended.exception()


def _busy(settings: Settings) -> Problem:
    seconds = settings.retry_after_s
    return Problem("service-busy", members={"retry_after_s": seconds}, headers=(("Retry-After", str(seconds)),))
