"""Processes of the service: what they load when they start, and how many threads linear algebra takes in them."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from storeyrod.api.worker import Worker

TASKS = Path("/proc/self/task")
"""Threads of this process, on Linux; each library of linear algebra starts its own when it is loaded."""


def threads_after_linear_algebra():
    """Of this process, once products and factors large enough to be shared out among threads are done."""
    import numpy
    import scipy.linalg
    import scipy.sparse
    import scipy.sparse.linalg

    before = len(list(TASKS.iterdir()))
    full = numpy.eye(600) + numpy.arange(360_000.0).reshape(600, 600) / 360_000.0
    scipy.linalg.lu_factor(full @ full)
    scipy.sparse.linalg.splu(scipy.sparse.csc_matrix(full))
    return before, len(list(TASKS.iterdir()))


def fresh_process(code, **environment):
    """What a new interpreter prints as JSON, with these modules to import from."""
    told = {**os.environ, **environment, "PYTHONPATH": os.pathsep.join(part for part in sys.path if part)}
    run = subprocess.run([sys.executable, "-c", code], env=told, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    return json.loads(run.stdout)


@pytest.mark.skipif(not TASKS.exists(), reason="threads are counted in /proc")
def test_a_worker_does_linear_algebra_in_one_thread():
    worker = Worker()
    try:
        assert worker.run((threads_after_linear_algebra, ())) == (1, 1)
    finally:
        worker.close()


@pytest.mark.skipif(not TASKS.exists(), reason="threads are counted in /proc")
def test_the_process_of_the_service_does_linear_algebra_in_one_thread_whatever_it_was_told():
    code = (
        "import json, storeyrod.api.app; from test_api_processes import threads_after_linear_algebra as threads;"
        "print(json.dumps(threads()))"
    )
    assert fresh_process(code, OPENBLAS_NUM_THREADS="4") == [1, 1]


def test_the_service_starts_without_numerical_solvers():
    """They take as long to load as all the rest; units load the bare package ``scipy``, which is a few files."""
    code = "import json, sys, storeyrod.api.app, storeyrod.api.self_tests; print(json.dumps(sorted(sys.modules)))"
    loaded = fresh_process(code)
    solvers = [name for name in loaded if name.startswith(("scipy.", "highspy"))]
    assert [name for name in solvers if not name.startswith(("scipy._", "scipy.version"))] == []
