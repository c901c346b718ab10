"""The only room that knows HTTP.

Whoever imports it pins the libraries under numpy and scipy to one thread for the whole process and those it starts: workers
are the parallelism of the service, and sums that threads share out differ in their last bits from run to run.
"""

import os
from typing import Final

_THREADS: Final = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "VECLIB_MAXIMUM_THREADS")
"""Read once, when such a library is loaded: so here, before any module of the service imports numpy."""

os.environ.update(dict.fromkeys(_THREADS, "1"))
