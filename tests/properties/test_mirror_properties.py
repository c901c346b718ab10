"""Mirror images on random walls: the same pieces in mirrored places, corner slips of the other hand, the same sums."""

import math

import board_walls
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from slip_oracle import MODULES, SHIFTS, laid, mirrored_polygon, pieces_of, system, walls

from storeyrod.boards.calculation import calculate as boards_of
from storeyrod.boards.models import BoardLayoutRequest

QUICK = settings(max_examples=30, deadline=None)


@given(
    walls(soldiers=True),
    st.sampled_from(MODULES),
    st.sampled_from(sorted(SHIFTS)),
    st.sampled_from(["nominal", "equalised"]),
    st.sampled_from([("external_corner", "abutment"), ("internal_corner", "external_corner"), ("free_end", "external_corner")]),
    st.sampled_from(["full", "half"]),
)  # fmt: skip
@QUICK
def test_the_image_of_a_wall_has_the_image_of_its_slips(wall, module, bond, perps, edges, start) -> None:
    """Bond, joints and ends of any kind; the image is asked for by the id of the wall alone."""
    ends = {f"{side}_edge": {"kind": kind} for side, kind in zip(("left", "right"), edges, strict=True)}
    drawn = {**wall, **ends, "bond_start": start}
    made = laid([drawn, {"id": "handed", "mirror_of": wall["id"]}], system(module, bond), perps=perps).result
    one, two = made["elevations"]
    places = [point["x_mm"] for point in wall["outline"]]
    axis = (min(places) + max(places)) / 2
    seen = sorted(
        (round(p.bounds[1], 2), round(p.bounds[0], 2), p.area)
        for p in (mirrored_polygon(piece, axis) for piece in pieces_of(one))
    )
    image = sorted((round(p.bounds[1], 2), round(p.bounds[0], 2), p.area) for p in pieces_of(two))
    assert len(seen) == len(image)
    assert np.allclose(np.sort([area for *_, area in seen]), np.sort([area for *_, area in image]), atol=0.02)
    assert np.allclose(sorted(x for _, x, _ in seen), sorted(x for _, x, _ in image), atol=0.02)
    for name in ("full_count", "cut_count", "soldiers_count", "courses_count"):
        assert one[name] == two[name], name
    for name in ("slip_face_area_m2", "joint_area_by_strips_m2", "end_joint_area_m2", "movement_joint_area_m2"):
        assert one[name] == pytest.approx(two[name], abs=1e-9), name
    first, second = made["corners"]
    assert first["left_handed_count"] == second["right_handed_count"]
    assert first["right_handed_count"] == second["left_handed_count"]


def box_of(piece, axis=None):
    """Row and box of a piece of board, or of its image; a last digit does not change their order."""
    x = piece["x_mm"] if axis is None else axis - piece["x_mm"] - piece["width_mm"]
    return piece["row"], round(x, 1), round(piece["y_mm"], 1), piece["width_mm"], piece["height_mm"]


@given(board_walls.elevations(), board_walls.systems(), st.sampled_from(["left", "right"]))
@QUICK
def test_the_image_of_a_wall_has_the_image_of_its_boards(wall, made, side) -> None:
    """Also between two like ends, where rows start at the end of the bond; laid plain, since both would share their offcuts."""
    drawn = {**wall, "bond_from": side}
    request = {
        "elevations": [drawn, {"id": "handed", "mirror_of": wall["id"]}],
        "system": made,
        "options": {"effort": "quick"},
    }
    pieces = boards_of(BoardLayoutRequest.model_validate(request)).result["pieces"]
    axis = max(point["x_mm"] for point in wall["outline"])
    seen = sorted(box_of(piece, axis) for piece in pieces if piece["id"].startswith(wall["id"]))
    image = sorted(box_of(piece) for piece in pieces if piece["id"].startswith("handed"))
    assert len(seen) == len(image)
    for one, other in zip(seen, image, strict=True):
        assert all(math.isclose(a, b, abs_tol=0.11) for a, b in zip(one, other, strict=True))
