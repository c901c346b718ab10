"""The bond round a building. Co-ordinating sizes: n modules less a joint between external corners (CO-), n modules with one
internal corner (CO), a joint more with two (CO+). The bond closes when corners and half modules together are even (derived).
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from loop_walls import MODULE, building, loops, outs, wall

from storeyrod.setting_out.course_grid import module_lengths
from storeyrod.setting_out.turning import ends_long

BOX = ["external"] * 4


def test_a_box_of_whole_modules_closes_as_it_stands() -> None:
    ((loop,), findings) = loops(building([2240, 3140, 2240, 3140], BOX))
    assert loop["closed"]
    assert (loop["parity"], loop["closes"], findings) == (0, True, [])
    assert [face["half_modules_count"] for face in loop["faces"]] == [20, 28, 20, 28]


def test_an_l_shape_closes_with_co_beside_its_internal_corner() -> None:
    """Round an L: 10 x 8 modules with a quarter of 4 x 3 taken out; CO- is n x 225 - 10, CO n x 225."""
    lengths = [2240, 1115, 900, 675, 1340, 1790]
    corners = ["external", "external", "internal", "external", "external", "external"]
    ((loop,), findings) = loops(building(lengths, corners))
    assert [face["edge_convention"] for face in loop["faces"]] == ["CO-", "CO-", "CO", "CO", "CO-", "CO-"]
    assert [face["residual_mm"] for face in loop["faces"]] == pytest.approx([0] * 6, abs=1e-9)
    assert loop["closes"]
    assert findings == []


def test_a_face_of_half_a_module_more_does_not_close_and_says_which_perps_would() -> None:
    """21 half modules on one side of the box only: 4 corners and 97 half modules are odd."""
    ((loop,), (finding,)) = loops(building([2352.5, 3140, 2240, 3140], BOX))
    assert (loop["parity"], loop["closes"]) == (1, False)
    assert finding["code"] == "loop-not-closed"


def test_the_residual_and_the_perp_that_removes_it() -> None:
    """5046 between external corners is 45 half modules less 6.5; its courses have 22 perps: 10 - 6.5/22."""
    ((loop,), _) = loops(building([5046, 3140, 5046, 3140], BOX))
    face = loop["faces"][0]
    assert face["half_modules_count"] == 45
    assert face["residual_mm"] == pytest.approx(-6.5, abs=1e-9)
    assert face["perp_mm"] == pytest.approx(9.7045454545, abs=1e-9)
    assert (loop["closes"], loop["closes_with_perps"]) == (False, True)


@pytest.mark.parametrize(("length", "within"), [(994.3, False), (994.5, True)])
def test_the_perp_that_closes_a_face_keeps_the_limits_to_which_it_is_laid(length: float, within: bool) -> None:
    """9 half modules between external corners are 1002.5 with four perps: 994.3 takes perps of 7.95, 994.5 of just 8."""
    ((loop,), _) = loops(building([length, 2240, length, 2240], BOX))
    assert [face["perp_within"] for face in loop["faces"]] == [within, True, within, True]
    assert loop["closes_with_perps"] is within


def test_a_loop_that_no_perp_closes_is_broken_at_its_internal_corner() -> None:
    lengths = [700, 300, 330, 250, 370, 550]
    corners = ["external", "external", "internal", "external", "external", "external"]
    ((loop,), (finding,)) = loops(building(lengths, corners))
    assert not loop["closes_with_perps"]
    assert loop["hide_at"] == "f3:left"
    assert "f3:left" in finding["advice"]


def test_a_chain_between_two_abutments_is_no_loop() -> None:
    chain = building([2240, 3140, 2240], ["external", "external", "external"])
    chain[0]["left_edge"] = {"kind": "abutment"}
    chain[2]["right_edge"] = {"kind": "abutment"}
    ((loop,), findings) = loops(chain)
    assert not loop["closed"]
    assert loop["elevations"] == ["f0", "f1", "f2"]
    assert "closes" not in loop
    assert findings == []


def test_a_chain_is_listed_from_its_open_left_end_whatever_the_names() -> None:
    chain = building([2240, 3140, 2240], ["external", "external", "external"])
    chain[2]["left_edge"] = {"kind": "free_end"}
    chain[1]["right_edge"] = {"kind": "free_end"}
    ((loop,), _) = loops(chain)
    assert loop["elevations"] == ["f2", "f0", "f1"]


def test_us_modules_of_eight_inches_close_too() -> None:
    """7-5/8 in units with 3/8 in joints; 30 modules less a joint, and 45."""
    slip, joint = {"length_mm": 193.675, "height_mm": 57.15, "thickness_mm": 12.7}, {"bed_mm": 9.525, "perp_mm": 9.525}
    lengths = [30 * 203.2 - 9.525, 45 * 203.2 - 9.525] * 2
    ((loop,), findings) = loops(building(lengths, BOX), slip=slip, joint=joint)
    assert loop["closes"]
    assert findings == []


@settings(max_examples=40)
@given(
    halves=st.lists(st.integers(4, 60), min_size=4, max_size=8).filter(lambda counts: len(counts) % 2 == 0),
    internal=st.integers(0, 7),
)
def test_p20_parity_is_corners_and_half_modules_modulo_two(halves, internal) -> None:
    corners = ["internal" if index == internal else "external" for index in range(len(halves))]
    joints = [
        -10 + 10 * (corners[index - 1] == "internal") + 10 * (corners[index] == "internal")
        for index in range(len(halves))
    ]
    lengths = [count * MODULE / 2 + joint for count, joint in zip(halves, joints, strict=True)]
    ((loop,), _) = loops(building(lengths, corners))
    assert [face["half_modules_count"] for face in loop["faces"]] == halves
    assert loop["parity"] == (len(halves) + sum(halves)) % 2
    assert loop["closes"] == (loop["parity"] == 0)


@settings(max_examples=25, deadline=None)
@given(halves=st.lists(st.integers(8, 60), min_size=4, max_size=4), internal=st.integers(0, 4))
def test_an_even_loop_laid_round_turns_the_bond_at_every_corner(halves, internal) -> None:
    """A second way to the same answer: lay the faces and look at the pieces at each corner."""
    if sum(halves) % 2:
        halves = [*halves[:-1], halves[-1] + 1]
    corners = ["internal" if index == internal else "external" for index in range(4)]
    joints = [-10 + 10 * (corners[index - 1] == "internal") + 10 * (corners[index] == "internal") for index in range(4)]
    faces = building([count * MODULE / 2 + joint for count, joint in zip(halves, joints, strict=True)], corners)
    laid, module = outs(faces), module_lengths(wall(faces).system)
    for index, out in enumerate(laid):
        following = laid[(index + 1) % 4]
        assert ends_long(out, "right", module) != ends_long(following, "left", module)


def test_an_odd_loop_is_laid_closed_by_the_face_that_takes_the_half_module_best() -> None:
    """Short faces cannot take 112.5 mm in their perps. A face of 200 half modules laid to 201 has courses of 100 perps."""
    ((loop,), (finding,)) = loops(building([2352.5, 3140, 2240, 3140], BOX), perps="equalised")
    assert not loop["closes_as_laid"]
    assert finding["code"] == "loop-not-closed"
    ((loop,), findings) = loops(building([13602.5, 22490, 13490, 22490], BOX), perps="equalised")
    assert loop["change"]["elevation"] == "f1"
    assert loop["change"]["perp_mm"] == pytest.approx(10 - 112.5 / 100)
    assert loop["closes_as_laid"]
    assert findings == []


@settings(max_examples=25, deadline=None)
@given(
    sizes=st.lists(st.integers(200_000, 400_000), min_size=4, max_size=4),
    corners=st.permutations(["external", "external", "external", "internal"]),
    order=st.permutations(range(4)),
)
def test_long_faces_of_any_length_are_laid_closed_in_whatever_order_they_come(sizes, corners, order) -> None:
    faces = building([size / 10 for size in sizes], corners)
    ((loop,), findings) = loops(faces, perps="equalised")
    assert loop["closes_as_laid"]
    assert findings == []
    ((again,), _) = loops([faces[index] for index in order], perps="equalised")
    assert again == loop
