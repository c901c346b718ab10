"""Answers of setting out given back as fixed inputs: the best datum, the carried bond, the stepped outline; and datums whole
courses apart. Numbers as in the list of invariants.
"""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from setting_out_walls import building, differences, grounded_walls, pitch_of, set_out_of
from slip_oracle import MODULES, lengths, system

UNITS = st.sampled_from(MODULES)
BONDS = st.sampled_from(["stretcher", "third_lap", "english", "flemish"])
PERPS = st.sampled_from(["nominal", "equalised"])
QUICK = settings(max_examples=25, deadline=None)


@given(grounded_walls(), UNITS, PERPS)
@QUICK
def test_p22b_the_best_datum_given_back_as_a_fixed_one_changes_nothing(wall, module, perps) -> None:
    made = system(module)
    best = set_out_of([wall], made, {"kind": "best"}, perps=perps).result
    fixed = {"kind": "fixed", "level_mm": best["datum"]["level_mm"]}
    again = set_out_of([wall], made, fixed, perps=perps).result
    for name in ("elevations", "bases"):
        assert differences(best[name], again[name]) == []
    assert differences(best["datum"]["gauge"], again["datum"]["gauge"]) == []
    assert set_out_of([wall], {**made, "course_datum_mm": fixed["level_mm"]}, {"kind": "best"}).result["datum"][
        "level_mm"
    ] == pytest.approx(fixed["level_mm"], abs=1e-3)


@given(st.lists(st.integers(6, 40), min_size=4, max_size=4), st.integers(0, 4), st.integers(-4, 4), BONDS)
@QUICK
def test_p22b_the_bond_that_was_carried_round_given_back_to_each_face_changes_nothing(
    halves, internal, off, bond
) -> None:
    if sum(halves) % 2:
        halves = [*halves[:-1], halves[-1] + 1]
    externals = [at != internal for at in range(4)]
    joints = [10 * (2 - externals[at] - externals[(at + 1) % 4]) for at in range(4)]
    faces = building([count * 112.5 - 10 + joint + off for count, joint in zip(halves, joints, strict=True)], externals)
    made = system(MODULES[0], bond)
    first = set_out_of(faces, made, perps="equalised").result
    assume(all(loop["parity"] == 0 for loop in first["loops"]))
    given_back = [
        {**face, "bond_from": row["bond_from"], "bond_start": row["bond_start"]}
        for face, row in zip(faces, first["elevations"], strict=True)
    ]
    again = set_out_of(given_back, made, perps="equalised").result
    for one, other in zip(first["elevations"], again["elevations"], strict=True):
        assert differences(one["bays"], other["bays"]) == []
    assert differences(first["corners"], again["corners"]) == []


@given(grounded_walls(soldiers=False), UNITS)
@QUICK
def test_p22b_the_stepped_outline_given_back_needs_no_further_step(wall, module) -> None:
    made = system(module)
    wall = {**wall, "features": []}
    first = set_out_of([wall], made).result["bases"][0]
    assume("stepped_outline" in first)
    again = set_out_of([{**wall, "outline": first["stepped_outline"]}], made).result["bases"][0]
    assert "stepped_outline" not in again
    assert [run["level_mm"] for run in again["runs"]] == [run["level_mm"] for run in first["runs"]]
    assert again["least_clearance_mm"] >= wall["base"]["clearance_mm"] - 1e-9


@given(grounded_walls(), UNITS, lengths(-150, 150), st.integers(-6, 6))
@QUICK
def test_p22c_a_datum_whole_courses_off_changes_numbers_of_courses_only(wall, module, level, courses) -> None:
    """Pairs of courses leave the stretcher bond as it is; single ones leave levels, offsets and the base."""
    pitch = pitch_of(module)
    one, other = (
        set_out_of([wall], system(module), {"kind": "fixed", "level_mm": round(at, 4)}).result
        for at in (level, level + courses * pitch)
    )
    used = [next(row for row in answer["datum"]["candidates"] if row["why"] == "fixed") for answer in (one, other)]
    for before, after in zip(*(row["levels"] for row in used), strict=True):
        assert before["offset_mm"] == pytest.approx(after["offset_mm"], abs=1e-6)
        assert before["course"] == after["course"] + courses
        assert before.get("rip_mm") == pytest.approx(after.get("rip_mm"), abs=1e-6)
    for name in ("worst_offset_mm", "mean_offset_mm"):
        assert used[0][name] == pytest.approx(used[1][name], abs=1e-6)
    feet = [[row["foot_mm"] for row in answer["datum"]["gauge"]] for answer in (one, other)]
    assert feet[0] == pytest.approx(feet[1], abs=1e-6)
    levels = [[run["level_mm"] for run in answer["bases"][0]["runs"]] for answer in (one, other)]
    assert levels[0] == pytest.approx(levels[1], abs=1e-6)
    if courses % 2 == 0:
        for before, after in zip(*(answer["elevations"][0]["bays"] for answer in (one, other)), strict=True):
            assert before["perps_mm"] == pytest.approx(after["perps_mm"])
            for row, row_after in zip(before["set_out_courses"], after["set_out_courses"], strict=True):
                assert row["perps_x_mm"] == pytest.approx(row_after["perps_x_mm"], abs=1e-6)
