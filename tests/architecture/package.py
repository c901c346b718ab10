"""The package as source text and as modules, for the tests that judge its shape."""

import ast
import importlib
import pkgutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import storeyrod

PACKAGE: Final = Path(storeyrod.__file__).resolve().parent
CHECKOUT: Final = Path(__file__).resolve().parents[2]


def files() -> list[Path]:
    """Every Python file of the package."""
    return sorted(PACKAGE.rglob("*.py"))


def name_of(file: Path) -> str:
    """Path below the package, for test ids and messages."""
    return str(file.relative_to(PACKAGE))


def tree_of(file: Path) -> ast.Module:
    return ast.parse(file.read_text(encoding="utf-8"))


def modules() -> Iterator[Any]:
    """Every module but the entry point."""
    for found in pkgutil.walk_packages(storeyrod.__path__, "storeyrod."):
        if not found.name.endswith("__main__"):
            yield importlib.import_module(found.name)


def functions(tree: ast.AST) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def docstring_nodes(tree: ast.AST) -> set[int]:
    """Ids of the string nodes that document a module, class, function or the assignment before them."""
    found: set[int] = set()
    for node in ast.walk(tree):
        for statement in getattr(node, "body", []) if isinstance(getattr(node, "body", []), list) else []:
            if isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant):
                found.add(id(statement.value))
    return found
