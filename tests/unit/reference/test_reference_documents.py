"""Documents and reference tables: unique keys, known statuses, citations as a reader sees them, a source on every row."""

import json
from importlib import resources
from typing import Any, get_args

import pytest

from storeyrod.reference.documents import DOCUMENTS, Clause, Status
from storeyrod.reference.tables import rows_of, worked_examples

STATUSES = get_args(Status)
DATA = sorted(
    entry.name.removesuffix(".json")
    for entry in resources.files("storeyrod.reference").joinpath("data").iterdir()
    if entry.name.endswith(".json")
)


def test_no_document_is_listed_twice() -> None:
    keys = [row["key"] for row in rows_of("documents")]
    assert sorted(set(keys)) == sorted(keys)


@pytest.mark.parametrize("key", DOCUMENTS)
def test_a_document_has_title_use_and_status(key: str) -> None:
    document = DOCUMENTS[key]
    assert document.title
    assert document.use
    assert document.status in STATUSES


@pytest.mark.parametrize(
    ("clause", "printed"),
    [
        (Clause("ISO 6946", "6.7.2", "published"), "ISO 6946:2017, 6.7.2"),
        (Clause("EN 771-1", "", "memory"), "EN 771-1:2011"),
        (Clause("geometry", "", "independent_calculation"), "geometry"),
        (Clause("common practice", "bed", "common_practice"), "common practice, bed"),
    ],
)
def test_a_citation_gives_document_edition_and_number(clause: Clause, printed: str) -> None:
    assert str(clause) == printed


@pytest.mark.parametrize("table", [name for name in DATA if name != "documents"])
def test_every_row_of_a_table_names_a_listed_document_and_a_status(table: str) -> None:
    for row in rows_of(table):
        source: dict[str, Any] = row.get("source", row)
        assert source["document"] in DOCUMENTS, row
        assert source["status"] in STATUSES, row


def test_every_data_file_is_read_by_the_same_loader() -> None:
    folder = resources.files("storeyrod.reference").joinpath("data")
    for name in DATA:
        content = json.loads(folder.joinpath(f"{name}.json").read_text(encoding="utf-8"))
        assert set(content) >= {"about", "rows"}, name
        assert content["rows"], name


def test_every_worked_example_names_its_source_and_expects_something() -> None:
    for example in worked_examples():
        assert example["document"] in DOCUMENTS, example
        assert example["status"] in STATUSES, example
        assert example["expected"], example
