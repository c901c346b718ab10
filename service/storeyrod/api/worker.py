"""One process that answers long requests, one at a time, and can be killed at the deadline."""

import multiprocessing
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any, Final

from storeyrod.api.memory import settle

PRELOADED: Final = ["storeyrod.api.respond", "storeyrod.api.self_tests"]

Job = tuple[Callable[..., Any], tuple[Any, ...]]
"""A function that stands at module level, and its arguments."""


class WorkerDied(Exception):  # noqa: N818  what happened
    """The process ended without an answer."""


class WorkerFault(Exception):  # noqa: N818  what happened
    """The job raised; the text is its traceback in the worker."""


def _context() -> Any:  # noqa: ANN401  the contexts have no public common type
    """Workers are forked from a clean server process that holds the imports, where the system has one."""
    if "forkserver" in multiprocessing.get_all_start_methods():
        context = multiprocessing.get_context("forkserver")
        context.set_forkserver_preload(PRELOADED)
        return context
    return multiprocessing.get_context("spawn")


class Worker:
    """A process and the pipe to it."""

    def __init__(self) -> None:
        """Start the process; it imports what it needs before its first job."""
        context = _context()
        self._pipe, far_end = context.Pipe()
        self._process = context.Process(target=_serve, args=(far_end,), daemon=True)
        self._process.start()
        far_end.close()

    def run(self, job: Job) -> Any:  # noqa: ANN401  whatever the job returns
        """Result of a job; blocks. Raises ``WorkerFault`` when it raised and ``WorkerDied`` when the process ended."""
        try:
            self._pipe.send(job)
            succeeded, outcome = self._pipe.recv()
        except (EOFError, OSError):
            raise WorkerDied from None
        if not succeeded:
            raise WorkerFault(outcome)
        return outcome

    def kill(self) -> None:
        """End the process at once and forget it; a blocked ``run`` then raises ``WorkerDied``."""
        self._process.kill()
        self._process.join()

    def close(self) -> None:
        """End the process and close the pipe; nobody may be waiting in ``run``."""
        self.kill()
        self._pipe.close()


def _serve(pipe: Connection) -> None:
    """The life of a worker: jobs in, results out, until the pipe closes."""
    settle()
    while True:
        try:
            function, arguments = pipe.recv()
        except (EOFError, KeyboardInterrupt):
            return
        try:
            reply = (True, function(*arguments))
        except Exception:  # the parent logs it and answers 500
            reply = (False, _traceback())
        pipe.send(reply)


def _traceback() -> str:
    import traceback  # noqa: PLC0415  needed only when something broke

    return traceback.format_exc()
