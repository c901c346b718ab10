"""Example requests of the operations: files of the project, carried into the package when it is built."""

import json
from collections.abc import Iterator
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any, Final

_PACKAGED: Final = resources.files("storeyrod.api").joinpath("example_requests")
_CHECKED_OUT: Final = Path(__file__).parents[3] / "openapi" / "examples"


def example_names(operation_id: str) -> Iterator[str]:
    """Names of the examples of an operation, minimal before full, others after them by name."""
    folder = _folder().joinpath(operation_id)
    names = sorted(entry.name.removesuffix(".json") for entry in folder.iterdir()) if folder.is_dir() else []
    yield from sorted(
        names, key=lambda name: (("minimal", "full").index(name) if name in ("minimal", "full") else 2, name)
    )


def example_of(operation_id: str, name: str) -> Any:  # noqa: ANN401  any JSON value
    """One example request."""
    return json.loads(_folder().joinpath(operation_id, f"{name}.json").read_text(encoding="utf-8"))


def _folder() -> Traversable:
    return _PACKAGED if _PACKAGED.is_dir() else _CHECKED_OUT
