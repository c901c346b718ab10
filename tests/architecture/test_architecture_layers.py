"""Rooms import downward only; HTTP and shapely each stay in one room."""

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

from architecture.package import CHECKOUT, PACKAGE, files, name_of, tree_of


def test_every_import_contract_holds() -> None:
    """In a process of its own: the linter's set-up of logging silences the loggers of whatever runs beside it."""
    code = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True, no_logo=True))"
    found = {**os.environ, "PYTHONPATH": str(PACKAGE.parent)}
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=CHECKOUT, env=found, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stdout
    assert "0 broken" in run.stdout


ROOMS = sorted(entry.name for entry in PACKAGE.iterdir() if (entry / "__init__.py").exists())
CAPABILITIES = [room for room in ROOMS if (PACKAGE / room / "calculation.py").exists()]


def imported(tree: ast.AST) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        if isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return names


@pytest.mark.parametrize("file", files(), ids=name_of)
def test_below_the_surface_nothing_reads_clock_chance_or_environment(file: Path) -> None:
    if name_of(file).startswith(("api/", "__main__", "demo")):
        return
    roots = {name.split(".")[0] for name in imported(tree_of(file))}
    assert roots & {"time", "datetime", "random", "secrets", "uuid", "os", "socket", "threading", "logging"} == set()


@pytest.mark.parametrize("file", files(), ids=name_of)
def test_pint_stays_at_the_edge(file: Path) -> None:
    if name_of(file) != "units.py":
        assert "pint" not in imported(tree_of(file))


@pytest.mark.parametrize("room", CAPABILITIES)
def test_a_capability_has_models_and_one_calculation(room: str) -> None:
    assert (PACKAGE / room / "models.py").exists()
    tree = tree_of(PACKAGE / room / "calculation.py")
    assert "calculate" in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}


@pytest.mark.parametrize("room", CAPABILITIES)
def test_methods_of_a_capability_leave_pydantic_to_its_models(room: str) -> None:
    for file in (PACKAGE / room).glob("*.py"):
        if not file.name.endswith("models.py"):
            assert "pydantic" not in imported(tree_of(file)), name_of(file)
