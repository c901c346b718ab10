"""Mirror images of elevations: places by hand (x becomes left + right - x), pointers, and what is refused."""

from typing import Any

import pytest

from storeyrod.answer import assumptions_of
from storeyrod.canonical import fingerprint
from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.models import MovementJointsRequest
from storeyrod.wall.face import Face
from storeyrod.wall.models import Elevation
from storeyrod.wall.size import estimated_units
from unit.wall.survey import PLAIN, points, rectangle, system, wall, window

LEAN_TO = points((100, 0), (3823, 0), (3823, 3375), (100, 2475))


def image(source: dict[str, Any], **members: Any) -> Face:
    """The face of the image; its source comes behind it, so that order is no help."""
    return wall({"id": "handed", "mirror_of": source["id"], **members}, source).faces[0]


def outline(face: Face) -> list[tuple[float, float]]:
    return [(millimetres(x), millimetres(y)) for x, y in face.outline]


def test_an_outline_keeps_its_frame_and_changes_its_sides() -> None:
    assert outline(image(rectangle(outline=LEAN_TO))) == [(100, 0), (3823, 0), (3823, 2475), (100, 3375)]


def test_the_image_of_a_plain_rectangle_is_the_rectangle() -> None:
    assert outline(image(rectangle())) == [(0, 0), (4800, 0), (4800, 2475), (0, 2475)]


def test_openings_keep_their_ids_and_change_their_places() -> None:
    arch = {
        "kind": "arch", "id": "a", "x_mm": 3000, "width_mm": 685, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 342.5,
    }  # fmt: skip
    found = image(rectangle(openings=[window(), arch])).openings
    assert [(one.id, millimetres(one.left), millimetres(one.right)) for one in found] == [
        ("w", 4800 - 2035, 4800 - 900), ("a", 4800 - 3685, 4800 - 3000),
    ]  # fmt: skip
    assert millimetres(found[1].springing) == 1800


def test_reveals_change_sides_and_name_the_member_they_come_from() -> None:
    reveal = {"left": {"depth_mm": 65}, "right": {"depth_mm": 240}, "head": {"depth_mm": 10}}
    (opening,) = image(rectangle(openings=[window(reveal=reveal)])).openings
    assert [opening.model.reveal.left.depth_mm, opening.model.reveal.right.depth_mm] == [240, 65]
    assert opening.model.reveal.head.depth_mm == 10
    assert opening.reveal_pointer("left") == "/elevations/1/openings/0/reveal/right"
    assert opening.reveal_pointer("right") == "/elevations/1/openings/0/reveal/left"


def test_joints_ground_and_origin_of_the_bond_are_mirrored() -> None:
    base = {"ground": points((0, -300), (1000, -300), (4800, -150)), "clearance_mm": 100}
    source = rectangle(existing_joints_x_mm=[1000, 3000.5], base=base, bond_origin_x_mm=112.5, bond_start="half")
    made = image(source).elevation
    assert made.existing_joints_x_mm == [3800, 1799.5]
    assert made.base is not None
    assert [(point.x_mm, point.y_mm) for point in made.base.ground] == [(0, -150), (3800, -300), (4800, -300)]
    assert (made.bond_from, made.bond_origin_x_mm, made.bond_start) == ("right", 4687.5, "half")


def test_ends_change_sides_without_their_partners() -> None:
    source = rectangle(left_edge={"kind": "external_corner", "to": "x:right"},
                       right_edge={"kind": "abutment", "joint_mm": 15})  # fmt: skip
    made = image(source)
    assert (made.edge("left").kind, made.edge("left").joint_mm) == ("abutment", 15)
    assert (made.edge("right").kind, made.edge("right").to) == ("external_corner", None)
    assert made.edge_pointer("left") == "/elevations/1/right_edge"


def test_an_end_of_its_own_stands_instead_of_the_mirrored_one() -> None:
    made = image(rectangle("external_corner", "abutment"), right_edge={"kind": "free_end"})
    assert [made.edge(side).kind for side in ("left", "right")] == ["abutment", "free_end"]
    assert made.edge_pointer("right") == "/elevations/0/right_edge"


def test_the_substrate_is_moved_out_at_the_mirrored_corner() -> None:
    made = image(rectangle("external_corner", "free_end", plane="substrate"))
    assert (millimetres(made.left), millimetres(made.right)) == (0, 4800 + 123)


def test_an_image_mirrored_by_hand_is_the_source_again() -> None:
    # Ticks of 0.0001 mm are kept: (x_left + x_right) - 0.0001 has no exact float in millimetres.
    source = rectangle(openings=[window(x_mm=900.0001, width_mm=1135.0003)])
    (opening,) = image(source).openings
    (back,) = image({**source, "openings": [opening.model.model_dump()]}).openings
    assert back.ring == wall(source).faces[0].openings[0].ring


def test_an_image_may_turn_a_corner_with_its_own_partner() -> None:
    corners = wall(
        rectangle(right_edge={"kind": "external_corner"}),
        {"id": "handed", "mirror_of": "rear", "left_edge": {"kind": "external_corner", "to": "rear:right"}},
    ).corners
    assert [[end.name for end in corner.ends] for corner in corners] == [["handed:left", "rear:right"]]


def test_findings_on_an_image_point_at_the_member_of_its_source() -> None:
    base = {"ground": points((0, -150), (4800, -100))}
    source = rectangle(openings=[window(height_mm=1060)], base=base)
    found = wall({"id": "handed", "mirror_of": "rear"}, source).findings
    assert [(one["where"]["elevation"], one["code"], one["where"]["pointer"]) for one in found] == [
        ("handed", "head-off-course", "/elevations/1/openings/0"),
        ("handed", "clearance-short", "/elevations/1/base"),
        ("rear", "head-off-course", "/elevations/1/openings/0"),
        ("rear", "clearance-short", "/elevations/1/base"),
    ]
    assert [one["where"]["x_mm"] for one in found if one["code"] == "clearance-short"] == [0, 4800]


REFUSED = {
    "itself": ("reference-unknown", "/elevations/0/mirror_of", [{"id": "a", "mirror_of": "a"}]),
    "one that is not there": ("reference-unknown", "/elevations/0/mirror_of", [{"id": "a", "mirror_of": "b"}]),
    "each other": (
        "reference-unknown", "/elevations/0/mirror_of", [{"id": "a", "mirror_of": "b"}, {"id": "b", "mirror_of": "a"}],
    ),
    "an image": (
        "reference-unknown", "/elevations/0/mirror_of",
        [{"id": "a", "mirror_of": "b"}, {"id": "b", "mirror_of": "rear"}, rectangle()],
    ),
    "and draws": (
        "mirror-contradictory", "/elevations/0/width_mm", [{"id": "a", "mirror_of": "rear", "width_mm": 4800}, rectangle()],
    ),
    "and opens": (
        "mirror-contradictory", "/elevations/0/openings", [{"id": "a", "mirror_of": "rear", "openings": []}, rectangle()],
    ),
}  # fmt: skip


@pytest.mark.parametrize(("slug", "pointer", "elevations"), REFUSED.values(), ids=REFUSED)
def test_an_image_of_nothing_and_one_that_describes_itself_are_refused(
    slug: str, pointer: str, elevations: list[dict[str, Any]]
) -> None:
    with pytest.raises(Refusal) as caught:
        wall(*elevations)
    assert (caught.value.slug, [fault.pointer for fault in caught.value.faults]) == (slug, [pointer])


def request(**members: Any) -> MovementJointsRequest:
    elevations = [rectangle("external_corner", "abutment"), {"id": "handed", "mirror_of": "rear", **members}]
    return MovementJointsRequest.model_validate({"elevations": elevations, "system": PLAIN})


def test_defaults_of_an_image_are_no_assumptions_but_those_of_its_source() -> None:
    fields = [row["field"] for row in assumptions_of(request())]
    assert "/elevations/0/plane" in fields
    assert not [field for field in fields if field.startswith("/elevations/1")]


def test_a_free_end_that_is_given_is_another_request_than_a_mirrored_end() -> None:
    given = request(right_edge={"kind": "free_end"})
    assert fingerprint(given) != fingerprint(request())
    assert fingerprint(given) != fingerprint(request(left_edge={"kind": "free_end"}))


def test_an_image_counts_as_much_as_its_source_before_anything_is_laid() -> None:
    source = Elevation.model_validate(rectangle(outline=LEAN_TO))
    other = Elevation.model_validate({"id": "handed", "mirror_of": "rear"})
    once = estimated_units([source], system())
    assert estimated_units([source, other], system()) in (2 * once, 2 * once + 1)
