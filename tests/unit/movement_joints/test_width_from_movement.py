"""Width from movement: closing and opening apart, what the capability means, both conventions, and limits that are found."""

from typing import Any, get_args

import pytest
from pydantic import ValidationError

from storeyrod.findings import Refusal
from storeyrod.movement_joints.calculation import calculate
from storeyrod.movement_joints.coefficients import COEFFICIENTS
from storeyrod.movement_joints.models import MovementJointsRequest
from storeyrod.movement_joints.movement_width import movement_with_movement, spacing_for_width, width_by_factor
from storeyrod.wall.movement import CoefficientKey, Movement
from unit.wall.survey import PLAIN, rectangle

BAY_MM = 6000
INCH = 25.4


def movement(**members: Any) -> dict[str, Any]:
    """10e-6/K over -20 to 70 degrees, and a sealant of 25 % each way."""
    capability = {"value_percent": 25, "basis": "plus_minus"}
    plain = {"temperature_min_deg_c": -20, "temperature_max_deg_c": 70, "sealant": {"movement_capability": capability}}
    coefficient = {} if "material" in members else {"expansion_um_per_m_k": 10}
    return {**plain, **coefficient, **members}


def request(joint: dict[str, Any]) -> MovementJointsRequest:
    """Two bays of 6 m beside an existing joint, whatever its width."""
    wall = rectangle(width_mm=2 * BAY_MM, existing_joints_x_mm=[BAY_MM])
    return MovementJointsRequest.model_validate({"elevations": [wall], "system": {**PLAIN, "movement_joint": joint}})


def answer(width_mm: float | None = None, joint: dict[str, Any] | None = None, **members: Any) -> Any:
    return calculate(request({"width_mm": width_mm, "movement": movement(**members), **(joint or {})}))


def row(**members: Any) -> Any:
    return answer(**members).result["elevations"][0]


def working(**members: Any) -> Any:
    return row(**members)["width_working"]


def total(value_percent: float = 25) -> dict[str, Any]:
    return {"movement_capability": {"value_percent": value_percent, "basis": "total"}}


def test_without_an_installation_temperature_the_whole_range_may_come_either_way_but_only_once_in_all() -> None:
    made = working()
    # 10e-6 x 90 K x 6 m = 5.4 mm.
    assert [made[name] for name in ("closing_mm", "opening_mm", "total_mm")] == pytest.approx([5.4, 5.4, 5.4])


def test_heating_from_the_installation_temperature_closes_and_cooling_opens() -> None:
    made = working(installation_temperature_deg_c=10)
    # 60 K above and 30 K below.
    assert [made[name] for name in ("closing_mm", "opening_mm", "total_mm")] == pytest.approx([3.6, 1.8, 5.4])
    assert made["governing"] == "closing"


def test_moisture_moves_in_its_own_direction_only() -> None:
    grows = working(moisture_expansion_mm_per_m=0.5, installation_temperature_deg_c=25)
    assert (grows["closing_mm"], grows["opening_mm"]) == pytest.approx((2.7 + 3.0, 2.7))
    shrinks = working(moisture_shrinkage_mm_per_m=0.2, installation_temperature_deg_c=25)
    assert (shrinks["closing_mm"], shrinks["opening_mm"], shrinks["governing"]) == (
        pytest.approx(2.7), pytest.approx(2.7 + 1.2), "opening",
    )  # fmt: skip


def test_drift_counts_as_closing_and_as_opening() -> None:
    made = working(drift_mm=2, installation_temperature_deg_c=25)
    assert [made[name] for name in ("closing_mm", "opening_mm", "total_mm")] == pytest.approx([4.7, 4.7, 9.4])


def test_a_total_capability_of_twice_the_percentage_is_no_narrower_than_one_each_way() -> None:
    made = {basis: working(
        installation_temperature_deg_c=25,
        sealant={"movement_capability": {"value_percent": percent, "basis": basis}},
    ) for basis, percent in (("plus_minus", 25), ("total", 50))}  # fmt: skip
    # Sealed in the middle of the range both are the same joint: 2.7 mm of a quarter, 5.4 mm of a half.
    assert {basis: one["widths"][0]["width_mm"] for basis, one in made.items()} == pytest.approx(
        {"plus_minus": 10.8, "total": 10.8}
    )
    assert {one["governing"] for one in made.values()} == {"closing", "total"}


def test_the_same_percentage_differs_by_a_factor_of_two_between_its_meanings() -> None:
    each_way = working(installation_temperature_deg_c=25)
    in_all = working(installation_temperature_deg_c=25, sealant=total())
    assert in_all["widths"][0]["width_mm"] == pytest.approx(2 * each_way["widths"][0]["width_mm"])


@pytest.mark.parametrize("missing", ["basis", "value_percent"])
def test_a_capability_without_its_meaning_is_refused_by_name(missing: str) -> None:
    capability = {"value_percent": 25, "basis": "total"}
    del capability[missing]
    with pytest.raises(ValidationError) as caught:
        request({"movement": movement(sealant={"movement_capability": capability})})
    (error,) = caught.value.errors()
    assert (error["type"], error["loc"][-2:]) == ("missing", ("movement_capability", missing))


def test_both_conventions_are_answered_and_the_one_asked_for_is_used() -> None:
    # 5.4 mm over a quarter; and that with the movement.
    for convention, width in (("factor", 22), ("factor_plus_movement", 27)):
        made = row(convention=convention)
        widths = {one["convention"]: one for one in made["width_working"]["widths"]}
        assert {name: one["width_mm"] for name, one in widths.items()} == pytest.approx(
            {"factor": 21.6, "factor_plus_movement": 27.0}
        )
        assert [name for name, one in widths.items() if one["used"]] == [convention]
        assert made["joints"][0]["width_mm"] == widths[convention]["width_rounded_mm"] == width


def test_nothing_that_moves_asks_for_the_tolerance_only_and_a_joint_that_can_be_sealed() -> None:
    made = row(expansion_um_per_m_k=0, tolerance_mm=2)
    assert made["width_working"]["widths"][0]["width_mm"] == 2.0
    assert made["joints"][0]["width_mm"] == 6.0
    assert "longest_bay_mm" not in made["width_working"]["widths"][0]


def test_a_width_that_is_given_is_kept_and_found_too_narrow() -> None:
    made = answer(width_mm=20)
    assert made.result["elevations"][0]["joints"][0]["width_mm"] == 20.0
    (short,) = [one for one in made.findings if one["code"] == "joint-width-short"]
    assert (short["value"], short["limit"]) == (20.0, pytest.approx(21.6))


def test_the_longest_bay_for_a_width_asks_for_just_that_width() -> None:
    widths = working(width_mm=20, convention="factor")["widths"]
    # 20 mm serve 5 mm by the factor, and 20 / (4 + 1) = 4 mm with the movement added, at 0.9 mm for each metre.
    assert [one["longest_bay_mm"] for one in widths] == pytest.approx([5000 / 0.9, 4000 / 0.9])


def test_drift_that_takes_the_whole_width_leaves_no_bay() -> None:
    assert working(width_mm=10, drift_mm=3)["widths"][0]["longest_bay_mm"] == 0.0


def test_the_trade_association_s_spacing_is_the_printed_one() -> None:
    """BIA technical note 18A: joint 1/2 in, sealant 50 %, moisture 0.0005, 4e-6 over 100 degrees Fahrenheit: 23 ft 2 in."""
    metres = spacing_for_width(M_w=0.5 * INCH * 0.5, n=0, M_d=0, e=(0.0005 + 4e-6 * 100) * 1000)
    assert metres * 1000 / INCH == pytest.approx(23 * 12 + 2, abs=0.5)


def test_four_times_the_movement_is_the_factor_of_a_quarter() -> None:
    """Waterproofing handbook: a joint is at least four times its movement."""
    assert width_by_factor(M=5.0, X=0.25, t=0.0) == 20.0


def test_a_joint_of_the_least_width_is_that_wide_when_it_is_narrowest() -> None:
    """BS 6093 (from memory): 16.2 mm serve 3.24 mm at 25 %, and 12.96 mm are left when they have come."""
    assert movement_with_movement(w=16.2, t=0.0, X=0.25) == pytest.approx(3.24)


@pytest.mark.parametrize(
    ("joint", "value", "limit"),
    [({"width_mm": 5}, 5.0, 6.0), ({"width_mm": 55}, 55.0, 50.0), ({"movement": movement(drift_mm=12)}, 70.0, 50.0)],
)
def test_joints_that_are_hard_to_seal_are_found(joint: dict[str, Any], value: float, limit: float) -> None:
    # 5.4 mm and a drift of 12 mm over a quarter: 69.6, so 70 mm.
    (found,) = [one for one in calculate(request(joint)).findings if one["code"] == "joint-hard-to-seal"]
    assert (found["value"], found["limit"]) == (value, limit)


@pytest.mark.parametrize(("diameter", "limit"), [(12.4, 12.5), (13.4, 13.3)])
def test_a_rod_outside_the_range_of_its_foam_is_found(diameter: float, limit: float) -> None:
    rod = {"kind": "closed_cell", "diameter_mm": diameter}
    found = calculate(request({"width_mm": 10, "backer_rod": rod})).findings
    assert [(one["value"], one["limit"]) for one in found if one["code"] == "backer-rod-unfit"] == [
        (diameter, pytest.approx(limit))
    ]


@pytest.mark.parametrize(
    ("members", "slug", "pointer"),
    [
        ({"temperature_min_deg_c": 71}, "temperatures-contradictory", "temperature_min_deg_c"),
        ({"installation_temperature_deg_c": -21}, "temperatures-contradictory", "installation_temperature_deg_c"),
        ({"expansion_um_per_m_k": None}, "expansion-unclear", "movement"),
        ({"material": "clay_annex", "expansion_um_per_m_k": 6}, "expansion-unclear", "movement"),
    ],
)
def test_what_contradicts_itself_is_refused_at_its_member(members: dict[str, Any], slug: str, pointer: str) -> None:
    with pytest.raises(Refusal) as caught:
        answer(**members)
    assert caught.value.slug == slug
    assert caught.value.faults[0].pointer.endswith(pointer)


def test_the_materials_of_a_request_are_the_rows_of_the_table() -> None:
    assert set(get_args(CoefficientKey)) == set(COEFFICIENTS)


@pytest.mark.parametrize("key", COEFFICIENTS)
def test_the_value_used_is_the_upper_end_or_inside_what_the_document_gives(key: str) -> None:
    one = COEFFICIENTS[key]
    low, used, high = (one[f"expansion_{part}um_per_m_k"] for part in ("low_", "", "high_"))  # type: ignore[literal-required]
    assert low <= used <= high
    assert used == high or one["document"] == "concrete masonry page"


@pytest.mark.parametrize(
    ("key", "expansion", "growth", "shrinkage"),
    [
        # 4e-6 and 3.6e-6 per degree Fahrenheit are 7.2e-6 and 6.48e-6 per kelvin; the annex from memory.
        ("clay_brick_note", 7.2, 0.5, 0.0),
        ("clay_design_exercises", 6.48, 0.2, 0.0),
        ("clay_annex", 6.0, 0.5, 0.0),
        ("dense_concrete_annex", 10.0, 0.0, 0.2),
        ("aerated_concrete_eurocode", 9.0, 0.2, 0.4),
    ],
)
def test_a_material_brings_its_coefficients_with_their_document(
    key: str, expansion: float, growth: float, shrinkage: float
) -> None:
    made = answer(material=key)
    work = made.result["elevations"][0]["width_working"]
    assert work["closing_mm"] == pytest.approx((expansion * 0.09 + growth) * 6)
    assert work["opening_mm"] == pytest.approx((expansion * 0.09 + shrinkage) * 6)
    assumed = {one["field"].rpartition("/")[2]: one["value"] for one in made.assumptions}
    assert (assumed["moisture_expansion_mm_per_m"], assumed["moisture_shrinkage_mm_per_m"]) == (growth, shrinkage)


def test_documents_that_disagree_on_a_material_are_shown_beside_the_one_used() -> None:
    rows = working(material="clay_annex")["coefficients"]
    assert {one["material"] for one in rows} == {"clay"}
    assert [one["key"] for one in rows if one["used"]] == ["clay_annex"]
    assert len({one["document"] for one in rows}) == len(rows) > 5


def test_rules_of_depth_that_disagree_are_shown_beside_the_one_used() -> None:
    depths = row(width_mm=20)["seal"]["depths"]
    given = {one["document"]: (one["depth_least_mm"], one["depth_most_mm"]) for one in depths}
    # Half of 20, at most 13; half of 20 beyond 1/2 in; once to twice; half, at most 12.
    assert given == {
        "detailing textbook": (10.0, 10.0),
        "waterproofing handbook": (10.0, 10.0),
        "District movement note": (20.0, 40.0),
        "common practice": (10.0, 10.0),
    }
    assert [one["document"] for one in depths if one["used"]] == ["detailing textbook"]


def test_the_handbook_s_depth_is_square_up_to_half_an_inch() -> None:
    depths = row(width_mm=12)["seal"]["depths"]
    assert [one["depth_most_mm"] for one in depths] == [6.0, 12.0, 24.0, 6.0]


def test_a_depth_that_is_given_rests_on_no_rule() -> None:
    made = row(width_mm=20, joint={"sealant_depth_mm": 12})["seal"]
    assert made["section_mm2"] == 240.0
    assert not any(one["used"] for one in made["depths"])


def test_what_was_not_checked_says_whether_movement_was_given() -> None:
    silent, told = calculate(request({})).not_checked, answer().not_checked
    assert any("were not checked; give system.movement_joint.movement" in sentence for sentence in silent)
    assert any("rests on the movement given" in sentence for sentence in told)


def test_a_movement_says_what_it_left_to_defaults() -> None:
    fields = {one["field"]: one["value"] for one in answer().assumptions}
    given = "/system/movement_joint/movement"
    assert fields[f"{given}/convention"] == "factor"
    assert fields[f"{given}/drift_mm"] == fields[f"{given}/tolerance_mm"] == 0.0
    assert "/system/movement_joint/width_mm" not in fields


def test_a_movement_is_closed_to_members_it_does_not_know() -> None:
    with pytest.raises(ValidationError):
        Movement.model_validate(movement(humidity_percent=50))
