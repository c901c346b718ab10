"""What a schema error says: the member, the limit with its unit, and what to do; never a pattern to decipher."""

import pytest

WALL = {"id": "north", "width_mm": 5400, "height_mm": 2700}
SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
}


def refused(post, **wall):
    problem = post("/v1/movement-joints", document={"elevations": [WALL | wall], "system": SYSTEM}).json()
    return problem["errors"], problem["detail"]


@pytest.mark.parametrize(
    ("wall", "sentence"),
    [
        ({"width_mm": 5.4}, "Must be at least 100 mm."),
        ({"width_mm": 5_400_000}, "Must be at most 500000 mm."),
        ({"existing_joints_x_mm": [6e6]}, "Must be at most 500000 mm."),
        ({"id": "a:b"}, "Must hold no colon and no line break or other control character."),
        ({"viewed": "a\nb"}, "Must hold no line break or other control character."),
        ({"left_edge": {"kind": "external_corner", "to": "east"}},
         "Must be the id of an elevation, a colon, and left or right, like north:left."),
    ],
)  # fmt: skip
def test_an_error_names_the_limit_with_its_unit_and_what_is_allowed(post, wall, sentence):
    errors, _ = refused(post, **wall)
    assert [error["detail"] for error in errors] == [sentence]


def test_the_detail_repeats_the_first_error_for_who_shows_nothing_else(post):
    errors, detail = refused(post, width_mm=5.4, height_mm=2.7)
    assert len(errors) == 2
    assert detail == "2 errors against the schema. /elevations/0/width_mm: Must be at least 100 mm."


def test_a_body_that_is_no_object_is_named_as_the_body(post):
    assert post(content=b"[]").json()["detail"] == "1 error against the schema. The body: Must be an object."


@pytest.mark.parametrize(
    ("wall", "board", "what_to_do"),
    [
        ({}, {"rib_pitch_mm": 80}, "choose the bed that makes them equal, or leave out rib_pitch_mm for a plain board."),
        ({}, {"rib_pitch_mm": 75, "cover_height_mm": 610}, "give the cover height, not the overall height with the tongue."),
        ({}, {"cover_height_mm": 60}, "check both."),
        ({"existing_joints_x_mm": [9000]}, {}, "give the joint in the coordinates of the elevation."),
    ],
)  # fmt: skip
def test_a_refusal_says_what_to_do(post, wall, board, what_to_do):
    document = {"elevations": [WALL | wall], "system": SYSTEM | {"board": SYSTEM["board"] | board}}
    problem = post("/v1/movement-joints", document=document).json()
    assert problem["status"] == 422
    assert problem["detail"].endswith(f"; {what_to_do}")


def test_a_repeated_item_is_named_as_such(post):
    building = {"breadth_m": 12, "depth_m": 9, "height_m": 8}
    wind = {"kind": "basic_velocity", "fundamental_velocity_m_per_s": 24, "terrain": "II", "building": building}
    error = post("/v1/wind-loads", document={"wind": wind | {"directions": ["front", "front"]}}).json()["errors"][0]
    assert (error["pointer"], error["detail"]) == (
        "/wind/directions",
        "Must name each item once; leave out what is repeated.",
    )


@pytest.mark.parametrize(
    ("member", "changes"),
    [
        ("/links/0/gamma_m",
         {"links": [{"link": "slip_bond", "action": "weight", "resistance_kn_per_m2": 10, "gamma_m": 0.5}]}),
        ("/system/fastener/pull_out/gamma_m", {"system": SYSTEM | {"fastener": {"pull_out": {"gamma_m": 0.5}}}}),
        ("/system/fastener/pull_through/gamma_m",
         {"system": SYSTEM | {"fastener": {"pull_through": {"panel_kn": 1, "gamma_m": 0.5}}}}),
    ],
)  # fmt: skip
def test_a_partial_factor_has_no_unit(post, member, changes):
    """Its m stands for material, not for metres."""
    document = {"elevations": [WALL], "system": SYSTEM} | changes
    errors = post("/v1/dead-loads", document=document).json()["errors"]
    assert [(error["pointer"], error["detail"]) for error in errors] == [(member, "Must be at least 1.")]
