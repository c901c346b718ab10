"""The collector of a process that serves requests."""

import gc
from typing import Final

_YOUNG_OBJECTS: Final = 50_000


def settle() -> None:
    """Once everything is loaded: never walk it again, and let the objects of a request die by their reference count.

    Default thresholds start a collection several times a request, a seventh of the time of a U-value.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(_YOUNG_OBJECTS, 20, 20)
