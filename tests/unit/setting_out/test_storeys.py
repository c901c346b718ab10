"""Storeys in courses, and whether their layout repeats. Arithmetic: stretcher bond repeats every two courses."""

from typing import Any

import pytest

from storeyrod.findings import Finding
from storeyrod.setting_out.bond_models import Storey
from storeyrod.setting_out.storeys import storey_rows
from unit.setting_out.level_walls import levelled, stood


def answered(*levels: float, **system: Any) -> tuple[list[Storey], list[Finding]]:
    wall = stood({**levelled(0, 9000), "storey_levels_mm": list(levels)}, **system)
    return storey_rows(wall.faces[0], wall)


def repeats(*levels: float, **system: Any) -> list[tuple[float, bool, bool]]:
    return [(row["courses"], row["whole_courses"], row["repeats"]) for row in answered(*levels, **system)[0]]


def test_an_even_number_of_courses_repeats_in_stretcher_bond() -> None:
    """2700 / 75 = 36."""
    assert repeats(0, 2700, 5400) == [(36.0, True, True), (36.0, True, True)]


def test_an_odd_number_of_courses_is_whole_but_starts_the_next_storey_with_the_other_unit() -> None:
    rows, (one,) = answered(0, 2700, 5325)
    assert [(row["whole_courses"], row["repeats"]) for row in rows] == [(True, True), (True, False)]
    assert (one["code"], one["level"], one["value"], one["limit"]) == ("storey-shifts-bond", "info", 35.0, 2.0)
    assert one["where"] == {"pointer": "/elevations/0/storey_levels_mm", "elevation": "rear", "y_mm": 2700.0}


def test_a_storey_between_courses_is_not_whole_and_needs_no_remark_on_bond() -> None:
    rows, findings = answered(0, 2710)
    assert [(row["whole_courses"], row["repeats"]) for row in rows] == [(False, False)]
    assert findings == []


@pytest.mark.parametrize(("bond", "repeats_"), [("stack", True), ("english_garden_wall", False), ("flemish", False)])
def test_each_bond_repeats_by_its_own_courses(bond: str, repeats_: bool) -> None:
    """2625 / 75 = 35 courses: stack bond repeats every course, Flemish every two, English garden wall every four."""
    assert repeats(0, 2625, bond=bond) == [(35.0, True, repeats_)]


def test_levels_come_in_any_order_and_once() -> None:
    assert answered(5400, 0, 2700, 0) == answered(0, 2700, 5400)


def test_inch_levels_to_a_tenth_of_a_millimetre_are_whole() -> None:
    """Forty courses of a third of 8 in are 2709.33 mm."""
    system = {
        "slip": {"length_mm": 194, "height_mm": 57.15, "thickness_mm": 20},
        "joint": {"bed_mm": 203.2 / 3 - 57.15},
    }
    ((_, whole, _),) = repeats(0, 2709.3, ribs=False, **system)
    assert whole


def test_no_level_or_one_makes_no_storey() -> None:
    assert answered() == answered(2700) == ([], [])
