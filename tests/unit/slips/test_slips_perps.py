"""Equalised perps: worked by hand."""

import pytest
from slip_walls import answer, codes, face, outline, rectangle

EQUAL = {"perps": "equalised"}
ABUTMENT = {"right_edge": {"kind": "abutment", "joint_mm": 10}}


def test_the_rear_of_the_worked_house() -> None:
    """5046 = 22 x 215 + 102.5 + 22 perps."""
    bay = face(rectangle(5046, 2475), options=EQUAL)["bays"][0]
    assert bay["perps_mm"] == pytest.approx([(5046 - 22 * 215 - 102.5) / 22] * 2, abs=1e-9)


def test_an_abutment_joint_is_taken_off_first() -> None:
    """3723 - 10 = 16 x 215 + 102.5 + 16 perps."""
    row = face(rectangle(3723, 2475, **ABUTMENT), options=EQUAL)
    assert row["bays"][0]["perps_mm"] == pytest.approx([10.65625] * 2, abs=1e-9)
    assert row["bays"][0]["x_to_mm"] == 3713.0
    assert row["end_joint_area_m2"] == pytest.approx(0.010 * 2.475, abs=1e-12)


def test_nominal_perps_take_no_abutment_joint_off() -> None:
    row = face(rectangle(3723, 2475, **ABUTMENT))
    assert row["end_joint_area_m2"] == 0.0
    assert min(cut["width_mm"] for course in row["courses"] for cut in course["cuts"]) == 10.5


def test_half_bats_keep_their_length() -> None:
    courses = face(rectangle(3723, 150, **ABUTMENT), options=EQUAL)["courses"]
    assert [cut["width_mm"] for course in courses for cut in course["cuts"]] == pytest.approx([102.5, 102.5], abs=1e-9)


def test_courses_with_another_number_of_perps_get_another_perp() -> None:
    """A wall of whole modules: 9 perps between 10 slips, and 10 between 9 slips and two halves."""
    bay = face(rectangle(2240 - 2, 150), options=EQUAL)["bays"][0]
    assert bay["perps_mm"] == pytest.approx([(2238 - 2150) / 9, (2238 - 9 * 215 - 205) / 10], abs=1e-9)


def test_every_course_fills_the_face() -> None:
    for course in face(rectangle(5046, 150), options=EQUAL)["courses"]:
        last = max(
            [cut["x_mm"] + cut["width_mm"] for cut in course["cuts"]]
            + [run["x_mm"] + (run["count"] - 1) * run["pitch_mm"] + run["width_mm"] for run in course["runs"]]
        )
        assert last == pytest.approx(5046, abs=1e-6)


def test_a_length_that_nothing_can_take_up_keeps_nominal_perps_and_says_so() -> None:
    """215 + 102.5 + a perp of 12.1; two equal pieces beside a slip would be 47.3, a sliver."""
    made = answer(rectangle(329.6, 150), options=EQUAL)
    bay = made.result["elevations"][0]["bays"][0]
    assert (bay["equalised"], bay["arrangement"]) == (False, "nominal")
    assert bay["perps_mm"] == [10.0, 10.0]
    finding = next(item for item in made.findings if item["code"] == "perp-out-of-range")
    assert (finding["value"], finding["limit"]) == (pytest.approx(12.1, abs=1e-9), 12.0)


def test_just_inside_the_limits_there_is_no_finding() -> None:
    """215 + 102.5 + a perp of 12."""
    assert "perp-out-of-range" not in codes(rectangle(329.5, 150), options=EQUAL)


def pieces(course):
    """Left ends and lengths of the pieces of a course."""
    made = [(cut["x_mm"], cut["width_mm"]) for cut in course["cuts"]]
    for run in course["runs"]:
        made += [(run["x_mm"] + index * run["pitch_mm"], run["width_mm"]) for index in range(run["count"])]
    return sorted(made)


def test_a_length_that_no_perp_takes_up_is_closed_by_cuts_in_the_middle() -> None:
    """1045 = 4 x 225 - 10 + 155: one course takes a piece of 155 - 10, the other two of (215 + 155 - 10) / 2."""
    row = face(rectangle(1045, 150), options=EQUAL)
    lengths = [[width for _, width in pieces(course)] for course in row["courses"]]
    assert lengths[0] == pytest.approx([215, 215, 145, 215, 215], abs=1e-9)
    assert lengths[1] == pytest.approx([102.5, 215, 180, 180, 215, 102.5], abs=1e-9)
    assert (row["bays"][0]["arrangement"], row["bays"][0]["perps_mm"]) == ("broken_bond_at_centre", [10.0, 10.0])


def test_a_closing_bond_leaves_no_finding() -> None:
    assert codes(rectangle(1045, 150), options=EQUAL) == []


def test_with_nominal_perps_the_sliver_stays_and_is_reported() -> None:
    """The same wall as drawn: 102.5, three slips and 32.5 in its second course, with their four perps."""
    assert "sliver" in codes(rectangle(1045, 150))


def test_a_closing_bond_keeps_its_joint_areas() -> None:
    row = face(outline((0, 0), (1045, 0), (1045, 700.3), (0, 450)), options=EQUAL)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-9)


def test_a_bond_set_out_from_the_right_is_broken_in_the_mirror() -> None:
    rows = [face(rectangle(1600, 150, bond_from=side), options=EQUAL) for side in ("left", "right")]
    assert rows[0]["bays"][0]["arrangement"] == "broken_bond_at_centre"
    for one, other in zip(rows[0]["courses"], rows[1]["courses"], strict=True):
        turned = sorted((1600 - x - width, width) for x, width in pieces(one))
        assert [number for piece in turned for number in piece] == pytest.approx(
            [number for piece in pieces(other) for number in piece], abs=1e-6
        )


def test_a_bay_behind_a_joint_carries_the_phase_of_the_bond_on() -> None:
    """A joint on the half module: the bay behind it starts with a half bat where the nominal bond has one."""
    wall = rectangle(4490, 150, existing_joints_x_mm=[2357.5])
    courses = face(wall, options=EQUAL)["courses"]
    starts = [
        next(x for x in sorted(p["x_mm"] for p in course["runs"] + course["cuts"]) if x > 2357) for course in courses
    ]
    widths = [
        [p["width_mm"] for p in course["cuts"] if p["x_mm"] == pytest.approx(start)]
        for course, start in zip(courses, starts, strict=True)
    ]
    assert starts == pytest.approx([2362.5, 2362.5], abs=1e-6)
    assert [len(width) for width in widths] == [1, 0]


def test_at_an_internal_corner_either_face_stops_a_perp_short() -> None:
    """Co-ordinating sizes: a face with one internal corner is n modules long, CO, not CO-."""
    first = {"id": "a", **rectangle(2250, 150, right_edge={"kind": "internal_corner", "to": "b:left"})}
    second = {"id": "b", **rectangle(2250, 150, left_edge={"kind": "internal_corner", "to": "a:right"})}
    rows = answer(first, second, options=EQUAL).result["elevations"]
    bays = [row["bays"][0] for row in rows]
    assert [(bay["x_from_mm"], bay["x_to_mm"]) for bay in bays] == [(0.0, 2240.0), (10.0, 2250.0)]
    assert [bay["perps_mm"][0] for bay in bays] == pytest.approx([10.0, 10.0], abs=1e-9)
    assert [row["end_joint_area_m2"] for row in rows] == pytest.approx([0.0015, 0.0015], abs=1e-12)


def test_a_step_and_a_rake_clip_the_equalised_grid() -> None:
    stepped = outline((0, 0), (1800, 0), (1800, 150), (3723, 150), (3723, 3375), (0, 2475), **ABUTMENT)
    row = face(stepped, options=EQUAL)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-9)


@pytest.mark.parametrize("bond", ["third_lap", "quarter_lap", "stack", "header", "english", "flemish"])
def test_other_bonds_come_out_too(bond) -> None:
    row = face(rectangle(5046, 300), options=EQUAL, bond=bond)
    assert row["bays"][0]["equalised"]
    for course in row["courses"]:
        last = max(
            [cut["x_mm"] + cut["width_mm"] for cut in course["cuts"]]
            + [run["x_mm"] + (run["count"] - 1) * run["pitch_mm"] + run["width_mm"] for run in course["runs"]]
        )
        assert last == pytest.approx(5046, abs=1e-6)
