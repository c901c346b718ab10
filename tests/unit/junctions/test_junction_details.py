"""Ready details: what they draw, where their flanks end, and what must be nought."""

import pytest

from junction_requests import PARAMETERS, PLAIN_FRAME, SHANK, WALL, answered, detail, drawn, layered

U_WALL = 1 / (0.13 + 0.215 / 0.77 + 0.1 / 0.031 + 0.025 / 0.9 + 0.04)
MASONRY, INSULATION, SLIP = WALL["layers"]
QUICK = {"effort": "quick"}
EACH_KIND = pytest.mark.parametrize("kind", PARAMETERS)
EACH_LINE = pytest.mark.parametrize("kind", [kind for kind in PARAMETERS if kind != "point_fastener"])


def result(kind, build_up=WALL, options=QUICK, **parameters):
    return answered(detail(kind, build_up, options, **parameters)).result


def flank(answer, name):
    (found,) = {
        (one["internal_length_mm"], one["external_length_mm"]) for one in answer["flanks"] if one["name"] == name
    }
    return pytest.approx(found)


def boxes(answer, name):
    return [
        (one["x_mm"], one["y_mm"], one["width_mm"], one["height_mm"])
        for one in answer["rectangles"]
        if one["name"] == name
    ]


@EACH_KIND
def test_the_wall_beside_a_detail_has_the_u_value_of_its_layers(kind):
    assert result(kind)["flanks"][0]["u_value_w_per_m2_k"] == pytest.approx(U_WALL)


@EACH_LINE
def test_psi_by_internal_and_external_dimensions_differ_by_u_times_the_lengths(kind):
    answer = result(kind)

    apart = sum(
        one["u_value_w_per_m2_k"] * (one["external_length_mm"] - one["internal_length_mm"]) / 1000
        for one in answer["flanks"]
    )

    assert answer["psi_internal_w_per_m_k"] - answer["psi_external_w_per_m_k"] == pytest.approx(apart, abs=1e-12)
    assert answer["psi_w_per_m_k"] == answer["psi_internal_w_per_m_k"]


@EACH_LINE
def test_internal_psi_is_the_coupling_less_the_flanks(kind):
    answer = result(kind)

    plain = sum(one["u_value_w_per_m2_k"] * one["internal_length_mm"] / 1000 for one in answer["flanks"])

    assert answer["psi_w_per_m_k"] == pytest.approx(answer["coupling_w_per_m_k"] - plain, abs=1e-12)


@EACH_KIND
def test_what_a_detail_drew_gives_the_same_as_a_section_of_its_own(kind):
    answer = result(kind)
    edges = [
        {"segment": {name: edge[name] for name in ("x_from_mm", "y_from_mm", "x_to_mm", "y_to_mm")}, "adiabatic": True}
        if edge["adiabatic"]
        else {
            "segment": {name: edge[name] for name in ("x_from_mm", "y_from_mm", "x_to_mm", "y_to_mm")},
            "environment": edge["environment"],
            "temperature_deg_c": edge["temperature_deg_c"],
            "surface_resistance_m2_k_per_w": edge["surface_resistance_m2_k_per_w"],
        }
        for edge in answer["boundaries"]
    ]
    request = drawn(answer["rectangles"], edges, QUICK, overlaps="later_covers", geometry=answer["geometry"])
    member = "coupling_w_per_k" if answer["geometry"] == "axisymmetric" else "coupling_w_per_m_k"

    assert answered(request).result[member] == pytest.approx(answer[member], rel=0.01)


@EACH_KIND
def test_heat_that_enters_a_detail_leaves_it(kind):
    assert result(kind)["balance_fraction"] < 1e-9


@EACH_LINE
def test_cut_off_planes_stand_three_thicknesses_away(kind):
    lengths = [one["internal_length_mm"] for one in result(kind)["flanks"] if one["name"] == "wall"]

    assert min(lengths) >= 1020 - 1e-9


def test_a_thin_wall_is_cut_off_at_a_metre():
    thin = layered({**MASONRY, "thickness_mm": 100}, {**INSULATION, "thickness_mm": 50})

    assert flank(result("jamb", thin, setback_mm=20), "wall") == (1000, 1000)


def test_a_corner_that_points_outwards_is_longer_outside_by_the_wall():
    assert flank(result("external_corner"), "wall") == (1020, 1360)


def test_a_corner_that_points_inwards_is_longer_inside_by_the_wall():
    assert flank(result("internal_corner"), "wall") == (1360, 1020)


def test_layers_run_round_a_corner():
    answer = result("external_corner", leg_mm=1100)

    assert boxes(answer, "insulation") == [(25, 25, 1415, 100), (25, 125, 100, 1315)]


@pytest.mark.parametrize(("kind", "sign"), [("external_corner", 1), ("internal_corner", -1)])
def test_by_internal_dimensions_a_corner_adds_heat_outwards_and_saves_it_inwards(kind, sign):
    assert sign * result(kind)["psi_internal_w_per_m_k"] > 0


def test_a_jamb_stands_on_its_side_with_the_finished_face_below():
    answer = result("jamb", leg_mm=1500)

    assert boxes(answer, "adhesive and slip") == [(-1500, 0, 1500, 25)]
    assert boxes(answer, "frame") == [(0, 60, 60, 70)]


def test_a_sill_has_the_wall_below_the_frame_and_a_head_above():
    assert boxes(result("sill", leg_mm=1500), "frame") == [(60, 0, 70, 60)]
    assert boxes(result("sill", leg_mm=1500), "masonry") == [(125, -1500, 215, 1500)]
    assert boxes(result("head", leg_mm=1500), "frame") == [(60, -60, 70, 60)]
    assert boxes(result("head", leg_mm=1500), "masonry") == [(125, 0, 215, 1500)]


def test_without_lintel_and_sill_piece_head_and_sill_are_jambs():
    jamb = result("jamb")["psi_w_per_m_k"]

    assert result("head", lintel=None)["psi_w_per_m_k"] == pytest.approx(jamb, abs=1e-9)
    assert result("sill", piece=None)["psi_w_per_m_k"] == pytest.approx(jamb, abs=1e-9)


def test_a_lintel_takes_the_place_of_the_thickest_layer_behind_the_cladding():
    made = answered(detail("head", WALL, QUICK))

    assert boxes(made.result, "lintel") == [(125, 0, 215, 215)]
    assert {"/junction/detail/parameters/lintel/layer": 0}.items() <= {
        one["field"]: one["value"] for one in made.assumptions
    }.items()


def test_a_lintel_of_the_masonrys_own_conductivity_changes_nothing():
    own = {"height_mm": 215, "conductivity_w_per_m_k": 0.77}

    assert result("head", lintel=own)["psi_w_per_m_k"] == pytest.approx(
        result("head", lintel=None)["psi_w_per_m_k"], abs=0.0005
    )


def test_a_lining_narrows_the_opening_outside_and_covers_the_frame():
    lining = {"thickness_mm": 30, "conductivity_w_per_m_k": 0.04, "overlap_mm": 20}
    answer = result("jamb", lining=lining, leg_mm=1500)

    # the frame stands 10 mm off the wall; 20 of its 60 mm are covered
    assert boxes(answer, "lining of the reveal") == [(0, 0, 30, 60)]
    assert boxes(answer, "filling of the gap") == [(0, 60, 10, 70)]
    assert boxes(answer, "frame") == [(10, 60, 60, 70)]
    assert flank(answer, "wall") == (1500, 1530)
    assert flank(answer, "frame") == (60, 40)


def test_a_lining_with_more_overlap_than_thickness_has_the_frame_behind_the_wall():
    lining = {"thickness_mm": 30, "conductivity_w_per_m_k": 0.04, "overlap_mm": 45}
    answer = result("jamb", lining=lining)

    assert boxes(answer, "frame") == [(-15, 60, 60, 70)]
    assert flank(answer, "frame") == (45, 15)


def test_the_face_of_a_gap_beside_the_frame_counts_with_the_wall():
    # the frame stands 40 mm off the wall and its gap is filled with mortar
    gap = {
        "lining": {"thickness_mm": 40, "conductivity_w_per_m_k": 0.034, "overlap_mm": 0},
        "gap_conductivity_w_per_m_k": 0.5,
    }
    request = detail("jamb", WALL, QUICK, **gap)
    request["junction"]["points"] = [{"id": "on the gap", "x_mm": 20, "y_mm": 130}]
    answer = answered(request).result

    (on_gap,) = [one for one in answer["points"] if one["id"] == "on the gap"]
    assert answer["temperature_factor"] <= on_gap["temperature_factor"] < answer["points"][0]["temperature_factor"]
    assert answer["coldest"]["y_mm"] == 130
    assert [(one["x_from_mm"], one["x_to_mm"]) for one in answer["boundaries"] if one["name"] == "gap, inside"] == [
        (0, 40)
    ]


def test_a_lining_lowers_the_heat_loss_of_a_reveal_by_external_dimensions_of_the_frame():
    lining = {"thickness_mm": 30, "conductivity_w_per_m_k": 0.035}

    assert (
        result("jamb", lining=lining, setback_mm=140)["psi_internal_w_per_m_k"]
        < result("jamb", setback_mm=140)["psi_internal_w_per_m_k"]
    )


def test_the_u_value_of_a_frame_gives_its_block_the_conductivity_that_has_it():
    # 0.07 / (1 / 1.4 - 0.17)
    (block,) = [
        one
        for one in result("jamb", frame={**PLAIN_FRAME, "u_value_w_per_m2_k": 1.4})["rectangles"]
        if one["name"] == "frame"
    ]

    assert block["conductivity_w_per_m_k"] == pytest.approx(0.07 / (1 / 1.4 - 0.17))


def test_a_sill_piece_stands_out_of_the_face():
    assert boxes(result("sill"), "sill piece") == [(-30, 0, 90, 40)]


def test_frames_are_left_out_of_the_lowest_temperature_factor():
    answer = result("jamb")

    assert answer["temperature_factor"] == pytest.approx(answer["points"][0]["temperature_factor"])


def test_a_rail_of_the_insulations_own_material_on_a_plinth_like_the_cladding_is_no_junction():
    plain = layered(MASONRY, INSULATION)
    rail = {"thickness_mm": 2, "conductivity_w_per_m_k": 0.031}
    plinth = {"thickness_mm": 100, "conductivity_w_per_m_k": 0.031}

    assert result("base_rail", plain, rail=rail, plinth=plinth)["psi_w_per_m_k"] == pytest.approx(0, abs=1e-9)


def test_a_rail_lies_under_the_cladding_and_up_the_wall_behind():
    answer = result("base_rail", rail={"thickness_mm": 2, "upright_mm": 50})

    assert boxes(answer, "rail") == [(0, -2, 125, 2), (123, -2, 2, 50)]


def test_the_wall_behind_a_bare_plinth_has_its_own_flank():
    bare = result("base_rail")["flanks"][1]

    assert bare["name"] == "plinth"
    assert bare["u_value_w_per_m2_k"] == pytest.approx(1 / (0.13 + 0.215 / 0.77 + 0.04))


def test_aluminium_conducts_more_than_stainless_steel_under_the_boards():
    stainless = result("base_rail", rail={"thickness_mm": 2, "conductivity_w_per_m_k": 17})

    assert stainless["psi_w_per_m_k"] < result("base_rail")["psi_w_per_m_k"]


def test_a_slab_bears_through_all_that_stands_behind_the_cladding():
    answer = result("slab_edge")

    assert boxes(answer, "floor slab") == [(125, 0, 1215, 200)]
    assert flank(answer, "wall") == (2040, 2240)


def test_a_joint_filled_with_the_insulations_own_material_is_no_junction():
    plain = layered(MASONRY, INSULATION)

    assert result("movement_joint", plain, filling_conductivity_w_per_m_k=0.031)["psi_w_per_m_k"] == pytest.approx(
        0, abs=1e-9
    )


def test_a_joint_cuts_the_cladding_and_leaves_what_stands_behind():
    answer = result("movement_joint", sealant={"depth_mm": 8})

    assert boxes(answer, "filling of the joint") == [(-6, 0, 12, 125)]
    assert boxes(answer, "sealant") == [(-6, 0, 12, 8)]


def test_a_fastener_of_the_insulations_own_material_is_none():
    own = {**SHANK, "conductivity_w_per_m_k": 0.031}

    assert result("point_fastener", shank=own, embedment_mm=0)["chi_w_per_k"] == pytest.approx(0, abs=1e-10)


def test_six_fasteners_to_the_square_metre_have_a_sixth_of_one_each():
    answer = result("point_fastener", count_per_m2=6)

    radius = answer["flanks"][0]["internal_length_mm"] / 1000
    assert 3.141592653589793 * radius**2 == pytest.approx(1 / 6)
    assert answer["use"]["count_per_m2"] == 6
    assert answer["use"]["delta_u_w_per_m2_k"] == pytest.approx(6 * answer["chi_w_per_k"])


def test_a_recessed_head_loses_less_heat():
    head = {"diameter_mm": 60, "thickness_mm": 2, "conductivity_w_per_m_k": 0.25}
    flush, sunk = (
        result("point_fastener", head=head, **recess)["chi_w_per_k"] for recess in ({}, {"recess": {"depth_mm": 20}})
    )

    assert sunk < 0.6 * flush


def test_plug_head_and_shank_follow_one_another_from_the_outside():
    head = {"diameter_mm": 60, "thickness_mm": 2, "conductivity_w_per_m_k": 0.25}
    answer = result("point_fastener", head=head, recess={"depth_mm": 20})

    assert boxes(answer, "plug") == [(0, 25, 30, 20)]
    assert boxes(answer, "head") == [(0, 45, 30, 2)]
    assert boxes(answer, "shank") == [(0, 47, 4, 128)]


def test_an_air_layer_is_drawn_with_the_conductivity_that_has_its_resistance():
    # 25 mm, level heat flow, 0.9 on both faces: 0.183 m2.K/W by ISO 6946 (from memory)
    cavity = layered(MASONRY, {"kind": "air", "thickness_mm": 25, "ventilation": "none"}, INSULATION, SLIP)
    (air,) = [one for one in result("movement_joint", cavity)["rectangles"] if one["name"] == "air layer"]

    assert air["conductivity_w_per_m_k"] == pytest.approx(0.025 / 0.1831, rel=0.001)


def test_layers_outside_a_well_ventilated_one_are_left_out_and_its_air_stands_still():
    vented = {"kind": "air", "thickness_mm": 40, "ventilation": "strong", "opening_mm2_per_m": 1500}
    made = answered(detail("movement_joint", layered(MASONRY, INSULATION, vented, SLIP), QUICK))

    assert {one["name"] for one in made.result["rectangles"]} == {"masonry", "insulation", "filling of the joint"}
    assert made.result["flanks"][0]["u_value_w_per_m2_k"] == pytest.approx(1 / (0.26 + 0.215 / 0.77 + 0.1 / 0.031))
    assert "beyond-ventilated-layer" in {one["code"] for one in made.findings}


VENTED = {"kind": "air", "thickness_mm": 40, "ventilation": "strong", "opening_mm2_per_m": 1500}
BEHIND_AIR = layered(MASONRY, INSULATION, VENTED, {**SLIP, "thickness_mm": 20})


def resistances(answer, *names):
    return {
        (one["name"], one["y_from_mm"] == one["y_to_mm"]): one["surface_resistance_m2_k_per_w"]
        for one in answer["boundaries"]
        if one["name"] in names
    }


def test_frame_and_reveal_of_a_ventilated_cladding_stand_in_the_open_and_the_wall_behind_its_air_does_not():
    answer = result("jamb", BEHIND_AIR, setback_mm=160)

    level_face, upright_reveal = True, False
    assert resistances(answer, "wall, outside", "frame, outside") == {
        ("wall, outside", level_face): 0.13,
        ("wall, outside", upright_reveal): 0.04,
        ("frame, outside", True): 0.04,
    }


def test_the_setback_of_a_frame_counts_from_the_face_of_a_ventilated_cladding():
    # 20 of slips and 40 of air are not drawn
    made = answered(detail("jamb", BEHIND_AIR, QUICK, setback_mm=160))
    (found,) = [one for one in made.findings if one["code"] == "ventilated-cladding-not-drawn"]

    assert boxes(made.result, "frame") == [(0, 100, 60, 70)]
    assert found["value"] == 60
    assert found["where"]["pointer"] == "/build_up/layers/2"


def test_a_frame_behind_a_ventilated_cladding_has_its_u_value_between_room_and_open():
    (block,) = [
        one
        for one in result("jamb", BEHIND_AIR, setback_mm=160, frame={**PLAIN_FRAME, "u_value_w_per_m2_k": 1.4})[
            "rectangles"
        ]
        if one["name"] == "frame"
    ]

    assert block["conductivity_w_per_m_k"] == pytest.approx(0.07 / (1 / 1.4 - 0.17))


def test_the_coupling_of_a_jamb_behind_a_ventilated_cladding_is_that_of_finite_elements():
    # 190 mm block 0.57, 100 insulation 0.034, air, 20 slips; a mesh of quadratic triangles of its own gave 0.4844
    block, board = (
        {**MASONRY, "thickness_mm": 190, "conductivity_w_per_m_k": 0.57},
        {**INSULATION, "conductivity_w_per_m_k": 0.034},
    )
    frame = {"width_mm": 70, "depth_mm": 70, "u_value_w_per_m2_k": 1.4}
    answer = result(
        "jamb", layered(block, board, VENTED, {**SLIP, "thickness_mm": 20}), None, frame=frame, setback_mm=160
    )

    assert answer["coupling_w_per_m_k"] == pytest.approx(0.4844, abs=0.0001)


def test_the_underside_of_a_rail_and_the_plinth_stand_in_the_open():
    answer = result("base_rail", BEHIND_AIR)
    edges = [one for one in answer["boundaries"] if one.get("environment") == "outside"]

    assert {one["surface_resistance_m2_k_per_w"] for one in edges if one["y_from_mm"] >= 0 < one["y_to_mm"]} == {0.13}
    assert {one["surface_resistance_m2_k_per_w"] for one in edges if one["y_to_mm"] <= 0} == {0.04}
    assert answer["flanks"][1]["u_value_w_per_m2_k"] == pytest.approx(1 / (0.13 + 0.215 / 0.77 + 0.04))


def leg_findings(kind, **parameters):
    found = answered(detail(kind, WALL, QUICK, **parameters)).findings
    return [one["limit"] for one in found if one["code"] == "cut-off-near"]


def test_cut_off_planes_are_measured_from_the_end_of_a_lintel():
    # three times 340, and 215 of lintel
    assert leg_findings("head", leg_mm=1234.9) == [1235]
    assert leg_findings("head", leg_mm=1235) == leg_findings("head") == []
    assert flank(result("head"), "wall") == (1235, 1235)


def test_cut_off_planes_are_measured_from_the_end_of_the_upright_leg_of_a_rail():
    # the leg of 40 begins 2 below the wall
    assert leg_findings("base_rail", leg_mm=1057.9) == [1058]
    assert leg_findings("base_rail", leg_mm=1058) == leg_findings("base_rail") == []


def test_cut_off_planes_stand_three_thicknesses_of_a_plinth_away_that_is_thicker_than_the_wall():
    plinth = {"thickness_mm": 225, "conductivity_w_per_m_k": 0.035}

    # three times 215 and 225, and 38 of rail
    assert leg_findings("base_rail", plinth=plinth, leg_mm=1357.9) == [1358]


def test_what_a_detail_takes_for_granted_comes_back():
    fields = {
        one["field"].removeprefix("/junction/detail/"): one
        for one in answered(detail("base_rail", WALL, QUICK)).assumptions
    }

    assert {
        "temperatures/internal_deg_c", "temperatures/external_deg_c", "parameters/leg_mm", "parameters/insulation_layer",
        "parameters/rail/depth_mm", "parameters/rail/upright_mm", "parameters/rail/conductivity_w_per_m_k",
    } == set(fields)  # fmt: skip
    assert fields["parameters/leg_mm"]["source"].startswith("ISO 10211")
    assert fields["parameters/rail/conductivity_w_per_m_k"]["status"] == "published"
