"""Size and shape of the source: short files, short functions, names that say something, documented surfaces."""

import ast
import re
import statistics
from pathlib import Path

import pytest

from architecture.package import files, functions, name_of, tree_of

LONGEST_FILE, LONGEST_BODY, MEDIAN_BODY, NINETIETH = 400, 50, 10, 25
EACH_FILE = pytest.mark.parametrize("file", files(), ids=name_of)
EMPTY_NAMES = {"util", "utils", "helper", "helpers", "common", "manager", "managers", "base", "misc", "stuff", "tools"}


def body_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a body without its docstring."""
    body = function.body
    first = body[0]
    if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
        body = body[1:]
    return (function.end_lineno or 0) - body[0].lineno + 1 if body else 0


@EACH_FILE
def test_a_file_holds_one_idea(file: Path) -> None:
    assert len(file.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE


@EACH_FILE
def test_no_body_is_long(file: Path) -> None:
    long = {one.name: body_lines(one) for one in functions(tree_of(file)) if body_lines(one) > LONGEST_BODY}
    assert long == {}


def test_most_bodies_are_short() -> None:
    lengths = sorted(body_lines(one) for file in files() for one in functions(tree_of(file)))
    assert statistics.median(lengths) <= MEDIAN_BODY
    assert lengths[int(0.9 * len(lengths))] <= NINETIETH


@EACH_FILE
def test_a_file_is_named_by_its_subject(file: Path) -> None:
    assert file.stem not in EMPTY_NAMES
    assert re.fullmatch(r"[a-z][a-z0-9_]*|__init__|__main__", file.stem)


@EACH_FILE
def test_what_is_public_is_documented(file: Path) -> None:
    tree = tree_of(file)
    if file.name == "__init__.py" and not tree.body:
        return
    assert ast.get_docstring(tree), "the file says nothing about itself"
    bare = [
        node.name
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef)
        and not node.name.startswith("_")
        and not ast.get_docstring(node)
    ]
    assert bare == []


@EACH_FILE
def test_nothing_is_left_for_later(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert re.findall(r"\b(?:TODO|FIXME|XXX|HACK|NotImplementedError)\b", text) == []


@EACH_FILE
def test_every_silenced_warning_says_why(file: Path) -> None:
    for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), start=1):
        silenced = re.search(r"#\s*(?:noqa: ([A-Z0-9, ]+)|type: ignore\[[^]]+\])(.*)$", line)
        if silenced is None or silenced[1] in ("N803", "N806", "E741", "N803, E741"):  # symbols of a formula
            continue
        assert len(silenced[2].strip()) > 3, f"line {number}: {line.strip()}"


@EACH_FILE
def test_core_functions_raise_refusals_and_swallow_nothing(file: Path) -> None:
    if name_of(file).startswith(("api/", "__main__", "demo")):
        return
    for node in ast.walk(tree_of(file)):
        if isinstance(node, ast.ExceptHandler):
            assert node.type is not None
            assert not (isinstance(node.type, ast.Name) and node.type.id in ("Exception", "BaseException"))
