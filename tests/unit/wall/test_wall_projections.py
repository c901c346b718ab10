"""Old sills and plinths beside the build-up of 123 mm; the worked house keeps sills that stand out by 50."""

from typing import Any

import pytest

from storeyrod.findings import Finding
from unit.wall.survey import points, rectangle, wall, window

ARCH = {
    "kind": "arch", "id": "a", "x_mm": 1340, "width_mm": 685, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 342.5,
}  # fmt: skip


def found(**members: Any) -> list[Finding]:
    return list(wall(rectangle(**members)).findings)


@pytest.mark.parametrize("opening", [window(), ARCH], ids=["window", "arch"])
def test_a_sill_of_50_is_buried_by_a_build_up_of_123(opening: dict[str, Any]) -> None:
    (one,) = found(openings=[{**opening, "sill_projection_mm": 50}])
    assert (one["code"], one["value"], one["limit"], one["unit"]) == ("sill-buried", 50, 153, "mm")
    assert one["where"]["pointer"] == "/elevations/0/openings/0/sill_projection_mm"


@pytest.mark.parametrize(("projection", "buried"), [(152.9, True), (153, False), (200, False)])
def test_a_sill_must_throw_water_30_clear_of_the_slips(projection: float, buried: bool) -> None:
    assert bool(found(openings=[window(sill_projection_mm=projection)])) is buried


def test_a_sill_that_is_not_given_is_not_checked() -> None:
    assert found(openings=[window()]) == []


@pytest.mark.parametrize(("projection", "ledge"), [(0, False), (123, False), (123.1, True)])
def test_a_plinth_beyond_the_new_face_is_a_ledge(projection: float, ledge: bool) -> None:
    base = {"ground": points((0, -300), (4800, -300)), "plinth_projection_mm": projection}
    codes = [(one["code"], one["where"]["pointer"]) for one in found(base=base)]
    assert codes == ([("plinth-ledge", "/elevations/0/base/plinth_projection_mm")] if ledge else [])
