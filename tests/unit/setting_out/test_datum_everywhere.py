"""The level of course 0 in every room: a wall lifted with its datum is the same wall, and a datum a course off renumbers it.

Rigid motion and periodicity are properties of the gauge; no source is needed for them.
"""

from collections.abc import Iterator
from typing import Any

import pytest

from drawing_walls import SYSTEM, groups_of, small_wall
from storeyrod.boards import calculation as boards
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.drawings import calculation as drawings
from storeyrod.drawings.display_list import Sheet, Text
from storeyrod.drawings.models import DrawingRequest
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.models import MovementJointsRequest
from storeyrod.slips import calculation as slips
from storeyrod.slips.models import SlipLayoutRequest
from storeyrod.take_off import calculation as take_off
from storeyrod.take_off.models import TakeOffRequest
from unit.take_off.worked_house import house

LEVELS = ("y_mm", "sill_mm", "springing_mm", "y_from_mm", "y_to_mm")
"""Members that hold a level, in requests and in results."""


def lifted(value: Any, by: float, name: str = "") -> Any:
    """Request or result with every level raised."""
    match value:
        case dict():
            return {key: lifted(item, by, key) for key, item in value.items()}
        case list():
            return [lifted(item, by, name) for item in value]
        case int() | float() if name in LEVELS:
            return value + by
    return value


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    match value:
        case dict():
            for key, item in value.items():
                yield from leaves(item, f"{path}/{key}")
        case list():
            for index, item in enumerate(value):
                yield from leaves(item, f"{path}/{index}")
        case _:
            yield path, value


def same(found: Any, expected: Any) -> bool:
    """Whether two answers agree, numbers to two ticks: sizes under a rake are taken up to a whole one, from floats that differ."""
    mine, others = dict(leaves(found)), dict(leaves(expected))
    # Compared as sets, and only what differs is shown: pytest takes minutes over two long lists of keys.
    assert not sorted(mine.keys() ^ others.keys())[:10]
    for path, value in mine.items():
        wanted = others[path]
        if isinstance(value, float):
            wanted = pytest.approx(wanted, rel=1e-9, abs=2e-4)
        assert value == wanted, path
    return True


def on_datum(request: dict[str, Any], level: float) -> dict[str, Any]:
    return {**request, "system": {**request["system"], "course_datum_mm": level}}


def raised_house(by: float) -> dict[str, Any]:
    made = house(options={"perps": "equalised"})
    return on_datum({**made, "elevations": lifted(made["elevations"], by)}, by)


@pytest.mark.parametrize("by", [37.5, -1234.5678, 10_000.1])
def test_a_house_lifted_with_its_datum_changes_nothing_but_levels(by: float) -> None:
    stands = take_off.calculate(TakeOffRequest.model_validate(raised_house(0.0)))
    moved = take_off.calculate(TakeOffRequest.model_validate(raised_house(by)))
    assert same(moved.result, lifted(stands.result, by))
    assert same(moved.findings, lifted(stands.findings, by))


ROOMS = {
    "boards": (boards, BoardLayoutRequest),
    "fasteners": (fasteners, FastenerScheduleRequest),
    "movement joints": (movement_joints, MovementJointsRequest),
}


@pytest.mark.parametrize("courses", [1, -3])
@pytest.mark.parametrize("room", ROOMS)
def test_a_datum_whole_courses_off_changes_nothing_but_the_numbers_of_courses(room: str, courses: int) -> None:
    calculation, model = ROOMS[room]
    shared = {name: house()[name] for name in ("elevations", "system")}
    as_given = calculation.calculate(model.model_validate(shared))
    shifted = calculation.calculate(model.model_validate(on_datum(shared, 75.0 * courses)))
    assert (shifted.result, shifted.findings) == (as_given.result, as_given.findings)


def test_a_datum_one_repeat_of_the_bond_off_changes_nothing_but_the_numbers_of_slip_courses() -> None:
    """Stretcher bond repeats every two courses; one course alone would start the other way."""
    shared = {name: house()[name] for name in ("elevations", "system")}
    as_given = slips.calculate(SlipLayoutRequest.model_validate(shared)).result
    shifted = slips.calculate(SlipLayoutRequest.model_validate(on_datum(shared, 150.0))).result
    numbers, renumbered = (
        [(path, value) for path, value in leaves(one) if path.endswith("/course")] for one in (as_given, shifted)
    )
    assert renumbered == [(path, number - 2) for path, number in numbers]
    assert [leaf for leaf in leaves(shifted) if not leaf[0].endswith("/course")] == [
        leaf for leaf in leaves(as_given) if not leaf[0].endswith("/course")
    ]


def sheet(by: float, datum: float) -> Sheet:
    take_off_request = {"elevations": [lifted(on_outline(small_wall()), by)], "system": SYSTEM}
    name = take_off_request["elevations"][0]["id"]
    request = {
        "take_off": on_datum(take_off_request, datum),
        "sheets": [{"kind": "elevation", "elevation": name, "scale": 20}],
    }
    (made,) = drawings.calculate(DrawingRequest.model_validate(request)).result
    return made


def on_outline(elevation: dict[str, Any]) -> dict[str, Any]:
    """The elevation with its width and height written as corners, which have levels."""
    if "outline" in elevation:
        return elevation
    width, height = elevation["width_mm"], elevation["height_mm"]
    corners = [(0, 0), (width, 0), (width, height), (0, height)]
    rest = {key: value for key, value in elevation.items() if key not in ("width_mm", "height_mm")}
    return {**rest, "outline": [{"x_mm": x, "y_mm": y} for x, y in corners]}


def written(drawn: Sheet, role: str) -> list[tuple[str, float, float]]:
    """Texts of a role with their places on the paper."""
    return [
        (item.words, pytest.approx(view.origin[0] + item.at[0] / view.scale), pytest.approx(view.origin[1] + item.at[1] / view.scale))
        for view, group in groups_of(drawn, role)
        for item in group.items
        if isinstance(item, Text)
    ]  # fmt: skip


def test_a_drawing_of_a_lifted_wall_has_its_courses_and_figures_in_the_same_places() -> None:
    stands, moved = sheet(0.0, 0.0), sheet(1030.0, 1030.0)
    assert written(moved, "course-numbers") == written(stands, "course-numbers")
    assert written(moved, "dimension-figures") == written(stands, "dimension-figures")


def test_the_mark_of_the_datum_stands_at_course_0_and_names_its_level() -> None:
    ((words, x, y),) = written(sheet(1030.0, 1030.0), "datum-name")
    ((plain, plain_x, plain_y),) = written(sheet(0.0, 0.0), "datum-name")
    assert (words, plain) == ("datum +1030", "datum ±0")
    assert (x, y) == (plain_x, plain_y)


def test_a_datum_below_zero_is_marked_with_its_sign() -> None:
    assert [words for words, *_ in written(sheet(-150.0, -75.0), "datum-name")] == ["datum -75"]


def test_courses_on_a_drawing_count_from_the_datum() -> None:
    numbers = [words for words, *_ in written(sheet(0.0, 600.0), "course-numbers")]
    plain = [words for words, *_ in written(sheet(0.0, 0.0), "course-numbers")]
    assert numbers == [str(int(words) - 8) for words in plain]
