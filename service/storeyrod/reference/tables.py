"""Reading the reference data that ships inside the package."""

import json
from importlib import resources
from typing import Any, Final

_PACKAGE: Final = "storeyrod.reference"


def rows_of(table: str) -> list[dict[str, Any]]:
    """Rows of ``data/<table>.json``, in file order."""
    text = resources.files(_PACKAGE).joinpath("data", f"{table}.json").read_text(encoding="utf-8")
    rows: list[dict[str, Any]] = json.loads(text)["rows"]
    return rows


def worked_examples() -> list[dict[str, Any]]:
    """Every worked example under ``examples/``, by file name and then in file order."""
    folder = resources.files(_PACKAGE).joinpath("examples")
    files = sorted((entry for entry in folder.iterdir() if entry.name.endswith(".json")), key=lambda entry: entry.name)
    return [example for file in files for example in json.loads(file.read_text(encoding="utf-8"))["examples"]]
