"""Findings on pieces: each with a wall that triggers it and one just inside that does not."""

import pytest
from slip_walls import answer, codes, outline, rectangle, request

from storeyrod.findings import Refusal
from storeyrod.slips.calculation import calculate


@pytest.mark.parametrize(("width", "found"), [(2240 + 10 + 49.9, True), (2240 + 10 + 50, False)])
def test_slivers(width, found) -> None:
    """A single course, whose last piece is 49.9 or 50 long."""
    assert ("sliver" in codes(rectangle(width, 75))) is found


@pytest.mark.parametrize(("height", "found"), [(150 + 32.4, True), (150 + 32.5, False)])
def test_rips(height, found) -> None:
    assert ("rip-course" in codes(rectangle(2240, height))) is found


def test_slivers_of_one_size_are_one_finding_that_counts_them() -> None:
    """Even courses end in 10.5 mm: 17 of them in 33 courses."""
    found = [item for item in answer(rectangle(225 * 16 + 10.5, 2475)).findings if item["code"] == "sliver"]
    assert len(found) == 1
    assert found[0]["value"] == pytest.approx(10.5)
    assert found[0]["advice"].startswith("17 pieces in 17 courses from 0 to 32.")


def test_a_long_rake_does_not_flood_the_answer() -> None:
    found = answer(outline((0, 0), (30_000, 0), (0, 30_000 * 0.71))).findings
    slivers = [item for item in found if item["code"] == "sliver"]
    assert len(slivers) == 11
    assert "other sizes" in slivers[-1]["advice"]


def test_a_finding_lies_in_the_elevation_it_names() -> None:
    where = next(item for item in answer(rectangle(2299, 75)).findings if item["code"] == "sliver")["where"]
    assert where["elevation"] == "face-0"
    assert where["x_mm"] == 2250.0
    assert where["pointer"] == "/elevations/0"


def test_strict_refuses_cautions() -> None:
    with pytest.raises(Refusal) as refusal:
        calculate(request(rectangle(2299, 75), options={"strict": True}))
    assert refusal.value.slug == "strict-cautions"


def test_strict_answers_a_wall_without_cautions() -> None:
    assert calculate(request(rectangle(2240, 150), options={"strict": True})).result["slips_consumed_count"] == 20
