"""The working: every figure linked, nothing lost, and the same answer with and without it."""

import pytest
from slip_walls import house, layout, opening, rectangle

from storeyrod.slips.calculation import calculate
from storeyrod.slips.elevation_rows import joint_area
from storeyrod.trace import Recorder

HOUSES = ["house-courses", "house-soldiers", "house-perps", "S11-exact-flemish", "S15"]


def exists(pointer, document):
    at = document
    for token in pointer.split("/")[1:]:
        if isinstance(at, list):
            if int(token) >= len(at):
                return False
            at = at[int(token)]
        elif isinstance(at, dict) and token in at:
            at = at[token]
        else:
            return False
    return True


@pytest.mark.parametrize("name", HOUSES)
def test_every_input_comes_from_a_step_or_from_the_request(name) -> None:
    request, trace = house(name), Recorder()
    calculate(request, trace)
    filled = request.model_dump()
    steps = {step["id"] for step in trace.steps}
    for step in trace.steps:
        for entry in step["inputs"]:
            assert entry["from"] in steps or exists(entry["from"], filled), (step["symbol"], entry)


@pytest.mark.parametrize("name", HOUSES)
def test_the_working_changes_no_figure(name) -> None:
    request = house(name)
    assert calculate(request, Recorder()).result == calculate(request).result


def test_what_other_rooms_take_adds_up() -> None:
    reveal = {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}
    made = layout(rectangle(4490, 3000, opening(1002.5, 900, 1135, 1050, head="soldier", reveal=reveal)))
    net = made.faces[0].face.net_area / 1e14
    assert made.slip_face_area_m2 + made.joint_area_m2 == pytest.approx(net, abs=1e-9)
    assert made.reveal_area_m2 == pytest.approx(made.reveal_slip_area_m2 + made.reveal_joint_area_m2, abs=1e-12)
    beds_and_perps = made.bed_joint_length_m * 0.010 + made.perp_joint_length_m * 0.010
    assert made.joint_area_m2 == pytest.approx(beds_and_perps, abs=1e-9)
    assert made.straight.net <= made.straight.consumed
    assert made.slips_net_count <= made.slips_consumed_count


def test_what_was_not_checked_is_said() -> None:
    assert any("Bond goes round corners" in sentence for sentence in calculate(house("S15")).not_checked)


def test_rounding_leaves_no_joint_area_below_zero() -> None:
    parts = {"A_net": 0.3, "A_feature": 0.0, "A_slip": 0.1, "A_movement": 0.1, "A_end": 0.1}
    assert parts["A_net"] - parts["A_slip"] - parts["A_movement"] - parts["A_end"] < 0.0
    assert joint_area(**parts, A_least=0.0) == 0.0
