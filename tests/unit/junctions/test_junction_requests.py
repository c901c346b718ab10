"""What a request may say of a junction, what comes back, and what is refused with its place."""

import pytest

from junction_requests import (
    PLAIN_FRAME,
    SHANK,
    WALL,
    adiabatic,
    answered,
    boundary,
    detail,
    drawn,
    layered,
    rectangle,
    square,
)  # fmt: skip
from storeyrod.findings import Refusal

MASONRY, INSULATION, SLIP = WALL["layers"]
QUICK = {"effort": "quick"}
U_SQUARE = 1 / (0.13 + 0.1 / 1.0 + 0.04)
HEAD = {"diameter_mm": 60, "thickness_mm": 2, "conductivity_w_per_m_k": 0.25}
LINING = {"thickness_mm": 30, "conductivity_w_per_m_k": 0.04}


VENTED = {"kind": "air", "thickness_mm": 40, "ventilation": "strong", "opening_mm2_per_m": 1500}
BEHIND_AIR = layered(MASONRY, INSULATION, VENTED, {**SLIP, "thickness_mm": 20})


def refused(request):
    """Slug, pointer and sentence of a refusal."""
    with pytest.raises(Refusal) as caught:
        answered(request)
    (fault,) = caught.value.faults
    return caught.value.slug, fault.pointer, fault.detail


def test_a_plain_square_couples_by_its_u_value():
    assert answered(square()).result["coupling_w_per_m_k"] == pytest.approx(U_SQUARE * 0.1)


def test_without_flanks_no_psi_is_answered():
    assert "psi_w_per_m_k" not in answered(square()).result


def test_a_wall_without_junction_has_no_psi():
    flanks = [{"u_value_w_per_m2_k": U_SQUARE, "internal_length_mm": 100, "external_length_mm": 100}]

    assert answered(square(flanks=flanks)).result["psi_w_per_m_k"] == pytest.approx(0, abs=1e-12)


def test_boundaries_of_one_temperature_are_one_environment_unless_they_have_names():
    edges = [
        boundary(0, 0, 100, 0, temperature=20, resistance=0.13),
        boundary(0, 100, 50, 100, temperature=-2.5, resistance=0.04),
        boundary(50, 100, 100, 100, temperature=-2.5, resistance=0.06),
        adiabatic(0, 0, 0, 100),
        adiabatic(100, 0, 100, 100),
    ]

    assert answered(square(boundaries=edges)).result["environments"] == ["20 °C", "-2.5 °C"]


THREE = [
    boundary(0, 0, 100, 0, temperature=20, resistance=0.13, environment="room"),
    boundary(0, 100, 100, 100, temperature=0, resistance=0.04, environment="outside"),
    boundary(0, 0, 0, 100, temperature=10, resistance=0.13, environment="stair"),
    adiabatic(100, 0, 100, 100),
]
FLANK = {"u_value_w_per_m2_k": U_SQUARE, "internal_length_mm": 100, "external_length_mm": 100}


def codes(request):
    return [one["code"] for one in answered(request).findings]


def test_three_environments_have_three_couplings_and_no_psi():
    answer = answered(square(boundaries=THREE, flanks=[])).result
    pairs = {tuple(one["environments"]): one["coupling_w_per_m_k"] for one in answer["couplings"]}

    assert set(pairs) == {("room", "outside"), ("room", "stair"), ("outside", "stair")}
    assert not {"coupling_w_per_m_k", "psi_w_per_m_k", "temperature_factor"} & set(answer)
    into_room = 20 * pairs["room", "outside"] + 10 * pairs["room", "stair"]
    (room,) = [one for one in answer["boundaries"] if one.get("environment") == "room"]
    assert room["heat_flow_w_per_m"] == pytest.approx(into_room)


def test_three_environments_with_flanks_say_what_they_leave_out():
    assert codes(square(boundaries=THREE)) == ["temperature-factors-left-out"]
    assert codes(square(boundaries=THREE, flanks=[FLANK])) == ["temperature-factors-left-out", "transmittance-left-out"]


def test_between_names_the_two_of_three_environments_whose_coupling_has_flanks():
    between = {"inside": "room", "outside": "outside"}
    answer = answered(square(boundaries=THREE, flanks=[FLANK], between=between)).result
    pairs = {tuple(one["environments"]): one["coupling_w_per_m_k"] for one in answer["couplings"]}

    assert answer["coupling_w_per_m_k"] == pairs["room", "outside"]
    assert answer["psi_w_per_m_k"] == pytest.approx(pairs["room", "outside"] - U_SQUARE * 0.1)
    assert codes(square(boundaries=THREE, flanks=[FLANK], between=between)) == ["temperature-factors-left-out"]


def test_the_order_in_between_does_not_change_the_coupling():
    one, other = (
        answered(square(boundaries=THREE, between=between)).result["coupling_w_per_m_k"]
        for between in ({"inside": "stair", "outside": "room"}, {"inside": "room", "outside": "stair"})
    )

    assert one == other > 0


def named_coldly(**more):
    """The square with its cold side named inside."""
    edges = [{**one} for one in square()["junction"]["boundaries"]]
    edges[0]["environment"], edges[1]["environment"] = "outside", "inside"
    return square(boundaries=edges, **more)


def test_the_warmest_environment_is_the_inside_whatever_its_name_and_that_is_said():
    made = answered(named_coldly())

    assert made.result["coldest"]["y_mm"] == 0
    assert [one["code"] for one in made.findings] == ["inside-by-temperature"]


def test_between_lets_the_names_of_two_environments_count():
    made = answered(named_coldly(between={"inside": "inside", "outside": "outside"}))

    assert made.findings == []
    assert made.result["coldest"]["y_mm"] == 100
    # the inside is behind 0.04 of 0.27 m2.K/W
    assert made.result["temperature_factor"] == pytest.approx(1 - 0.04 / 0.27)
    assert made.result["coupling_w_per_m_k"] == pytest.approx(U_SQUARE * 0.1)


def test_a_flank_longer_than_from_corner_to_corner_is_remarked_on_at_its_length():
    long = {**FLANK, "external_length_mm": 141.5}
    (found,) = answered(square(flanks=[long])).findings

    assert found["code"] == "flank-beyond-section"
    assert found["where"]["pointer"] == "/junction/flanks/0/external_length_mm"
    assert found["limit"] == pytest.approx(100 * 2**0.5, abs=0.0001)


def test_lengths_of_flanks_and_sides_of_rectangles_are_whole_ticks_and_nought_has_no_sign():
    answer = answered(detail("jamb", WALL, QUICK, lining=LINING, setback_mm=100, leg_mm=2010)).result

    lengths = [value for one in answer["flanks"] for member, value in one.items() if member.endswith("length_mm")]
    sides = [one[member] for one in answer["rectangles"] for member in ("x_mm", "y_mm", "width_mm", "height_mm")]
    assert [round(value, 4) for value in lengths] == lengths
    assert "-0.0" not in map(repr, sides)


def test_a_case_without_temperatures_repeats_those_of_the_junction():
    (case,) = answered(square(cases=[{"id": "same", "temperatures": []}])).result["cases"]

    assert [one["temperature_deg_c"] for one in case["environments"]] == [20, 0]


def test_points_lie_between_surfaces_in_step_with_the_resistances():
    answer = answered(square(points=[{"id": "middle", "x_mm": 30, "y_mm": 50}])).result

    # 0.13 and half of 0.1 of 0.27 m2.K/W are passed
    assert answer["points"][0]["temperature_deg_c"] == pytest.approx(20 - 20 * 0.18 / 0.27)
    assert answer["points"][0]["temperature_factor"] == pytest.approx(1 - 0.18 / 0.27)


def test_the_temperature_factor_of_a_plain_wall_is_one_less_u_times_its_surface_resistance():
    answer = answered(square()).result

    assert answer["temperature_factor"] == pytest.approx(1 - 0.13 * U_SQUARE)
    assert answer["temperature_factor_mould"] == pytest.approx(1 - 0.25 / (0.25 + 0.1 + 0.04))
    assert answer["coldest"]["temperature_deg_c"] == pytest.approx(20 * (1 - 0.13 * U_SQUARE))


def test_factors_and_transmittances_do_not_depend_on_the_temperatures():
    winter = detail("jamb", WALL, QUICK)
    summer = {**winter, "junction": {"detail": {**winter["junction"]["detail"]}}}
    summer["junction"]["detail"]["temperatures"] = {"internal_deg_c": 24, "external_deg_c": 35}
    cold, hot = answered(winter).result, answered(summer).result

    for member in ("coupling_w_per_m_k", "psi_w_per_m_k", "temperature_factor", "temperature_factor_mould"):
        assert hot[member] == pytest.approx(cold[member], rel=1e-9), member
    assert hot["coldest"]["temperature_deg_c"] > 24


def test_a_case_gives_what_its_temperatures_would_have_given():
    case = {"id": "night", "temperatures": [{"environment": "out", "temperature_deg_c": -12}]}
    middle = [{"id": "p", "x_mm": 30, "y_mm": 50}]
    (night,) = answered(square(points=middle, cases=[case])).result["cases"]
    edges = [{**one} for one in square()["junction"]["boundaries"]]
    edges[1]["temperature_deg_c"] = -12
    alone = answered(square(points=middle, boundaries=edges)).result

    assert night["id"] == "night"
    assert [one["temperature_deg_c"] for one in night["environments"]] == [20, -12]
    assert night["points"][0]["temperature_deg_c"] == pytest.approx(alone["points"][0]["temperature_deg_c"])
    assert night["environments"][0]["heat_flow_w_per_m"] == pytest.approx(alone["boundaries"][0]["heat_flow_w_per_m"])


def test_where_two_held_temperatures_meet_no_coupling_is_answered_but_temperatures_are():
    edges = [
        boundary(0, 0, 100, 0, temperature=20),
        boundary(0, 0, 0, 100, temperature=0),
        boundary(0, 100, 100, 100, temperature=0),
        boundary(100, 0, 100, 100, temperature=0),
    ]
    made = answered(square(boundaries=edges, points=[{"id": "middle", "x_mm": 50, "y_mm": 50}]))

    assert [one["code"] for one in made.findings] == ["heat-flow-unbounded"]
    assert made.result["couplings"] == []
    assert "coupling_w_per_m_k" not in made.result
    # by symmetry the middle of a square has the mean of its four sides
    assert made.result["points"][0]["temperature_deg_c"] == pytest.approx(5, abs=0.01)


def test_the_mesh_says_how_far_it_was_refined():
    mesh = answered(detail("jamb")).result["mesh"]

    assert mesh["criterion_met"] is True
    assert 0 < mesh["change_fraction"] < 0.01
    assert mesh["change_w_per_m_k"] < 0.001
    assert mesh["refinements_count"] >= 1


def test_thorough_comes_closer_than_quick():
    quick, standard, thorough = (
        answered(detail("external_corner", WALL, {"effort": effort})).result["psi_w_per_m_k"]
        for effort in ("quick", "standard", "thorough")
    )

    assert abs(standard - thorough) < abs(quick - thorough)


def test_psi_is_not_for_a_u_value_and_chi_is():
    psi, chi = (answered(detail(kind, WALL, QUICK)).result["use"] for kind in ("jamb", "point_fastener"))

    assert psi["in_u_value"] is False
    assert chi["in_u_value"] is True
    assert "corrections.fasteners" in chi["how"]


def test_chi_in_a_u_value_adds_what_the_junction_says():
    from thermal_requests import UValueRequest, calculate

    use = answered(detail("point_fastener", WALL, QUICK, count_per_m2=8)).result["use"]
    fasteners = {"kind": "declared", "chi_w_per_k": use["chi_w_per_k"], "count_per_m2": use["count_per_m2"]}
    made = calculate(UValueRequest.model_validate({"build_up": WALL, "corrections": {"fasteners": fasteners}})).result

    assert made["u_value_with_fasteners_w_per_m2_k"] - made["u_value_uncorrected_w_per_m2_k"] == pytest.approx(
        use["delta_u_w_per_m2_k"]
    )


REFUSED = {
    "a detail without build-up": (detail("jamb", None), "build-up-missing", "/junction/detail"),
    "a detail beside rectangles": (
        {"junction": {**square()["junction"], **detail("jamb")["junction"]}, "build_up": WALL}, "junction-unclear", "/junction",
    ),
    "nothing at all": ({"junction": {}}, "junction-unclear", "/junction"),
    "a build-up beside rectangles": ({**square(), "build_up": WALL}, "junction-unclear", "/build_up"),
    "a section without boundaries": (drawn([rectangle(0, 0, 9, 9)], []), "boundary-missing", "/junction"),
    "all adiabatic": (
        square(boundaries=[adiabatic(0, 0, 100, 0), adiabatic(0, 100, 100, 100), adiabatic(0, 0, 0, 100), adiabatic(100, 0, 100, 100)]),
        "no-temperature-difference", "/junction/boundaries",
    ),
    "a boundary without resistance": (
        square(boundaries=[{"segment": adiabatic(0, 0, 100, 0)["segment"], "temperature_deg_c": 20}]),
        "boundary-contradictory", "/junction/boundaries/0",
    ),
    "a slanted segment": (
        square(boundaries=[*square()["junction"]["boundaries"], adiabatic(0, 0, 100, 100)]),
        "boundary-off-outline", "/junction/boundaries/4/segment",
    ),
    "a layer by resistance": (
        detail("jamb", layered(MASONRY, {"kind": "resistance", "name": "foil", "resistance_m2_k_per_w": 0.5})),
        "layer-not-drawable", "/build_up/layers/1",
    ),
    "a slightly ventilated layer": (
        detail("jamb", layered(MASONRY, {"kind": "air", "thickness_mm": 25, "ventilation": "slight", "opening_mm2_per_m": 800}, SLIP)),
        "layer-not-drawable", "/build_up/layers/1/ventilation",
    ),
    "two insulation layers and none named": (
        detail("movement_joint", layered(MASONRY, INSULATION, INSULATION)), "insulation-layer-unclear", "/junction/detail/parameters",
    ),
    "a frame that sticks out inside": (
        detail("jamb", setback_mm=280), "detail-unfit", "/junction/detail/parameters/setback_mm",
    ),
    "a frame that its lining hides": (
        detail("jamb", lining={**LINING, "overlap_mm": 60}), "detail-unfit", "/junction/detail/parameters/frame/width_mm",
    ),
    "a frame in a ventilated cladding that is not drawn": (
        detail("jamb", BEHIND_AIR, setback_mm=59.9), "detail-unfit", "/junction/detail/parameters/setback_mm",
    ),
    "a ventilated cladding of unknown thickness": (
        detail("jamb", layered(MASONRY, INSULATION, VENTED, {"kind": "resistance", "name": "slab", "resistance_m2_k_per_w": 0.1})),
        "layer-not-drawable", "/build_up/layers/3",
    ),
    "a lining of no reveal": (
        detail("jamb", lining=LINING, setback_mm=0), "detail-unfit", "/junction/detail/parameters/setback_mm",
    ),
    "a frame that loses more than its surfaces let through": (
        detail("jamb", frame={**PLAIN_FRAME, "u_value_w_per_m2_k": 6}), "detail-unfit",
        "/junction/detail/parameters/frame/u_value_w_per_m2_k",
    ),
    "a frame with two conductivities": (
        detail("jamb", frame={**PLAIN_FRAME, "u_value_w_per_m2_k": 1, "conductivity_w_per_m_k": 0.13}), "detail-unfit",
        "/junction/detail/parameters/frame/u_value_w_per_m2_k",
    ),
    "a lintel in a layer that is not there": (
        detail("head", lintel={"height_mm": 200, "layer": 3}), "detail-unfit", "/junction/detail/parameters/lintel/layer",
    ),
    "a lintel higher than the wall that is drawn": (
        detail("head", lintel={"height_mm": 1020.1}, leg_mm=1020), "detail-unfit", "/junction/detail/parameters/lintel",
    ),
    "a rail longer than the wall that is drawn": (
        detail("base_rail", rail={"thickness_mm": 2, "upright_mm": 60}, leg_mm=50), "detail-unfit", "/junction/detail/parameters/rail",
    ),
    "two points of one name": (
        square(points=[{"id": "p", "x_mm": 1, "y_mm": 1}, {"id": "p", "x_mm": 2, "y_mm": 1}]), "duplicate-id", "/junction/points/1/id",
    ),
    "a rail as thick as its own leg": (
        detail("base_rail", rail={"thickness_mm": 5, "upright_mm": 5}), "detail-unfit", "/junction/detail/parameters/rail/thickness_mm",
    ),
    "cladding on nothing": (
        detail("base_rail", layered(INSULATION, SLIP)), "detail-unfit", "/build_up/layers/0",
    ),
    "a slab through the whole wall": (
        detail("slab_edge", embedment_mm=340), "detail-unfit", "/junction/detail/parameters/embedment_mm",
    ),
    "sealant deeper than the cladding": (
        detail("movement_joint", sealant={"depth_mm": 100, "conductivity_w_per_m_k": 0.35}, insulation_layer=2), "detail-unfit",
        "/junction/detail/parameters/sealant/depth_mm",
    ),
    "a shank through the whole wall": (
        detail("point_fastener", embedment_mm=216), "detail-unfit", "/junction/detail/parameters/embedment_mm",
    ),
    "a head narrower than its shank": (
        detail("point_fastener", head={**HEAD, "diameter_mm": 6}), "detail-unfit", "/junction/detail/parameters/head/diameter_mm",
    ),
    "a head wider than its disc": (
        detail("point_fastener", head=HEAD, radius_of_influence_mm=30), "detail-unfit",
        "/junction/detail/parameters/radius_of_influence_mm",
    ),
    "a recess through all the insulation": (
        detail("point_fastener", recess={"depth_mm": 100}), "detail-unfit", "/junction/detail/parameters/recess/depth_mm",
    ),
    "a disc of two sizes": (
        detail("point_fastener", shank=SHANK, count_per_m2=6, radius_of_influence_mm=300), "detail-unfit",
        "/junction/detail/parameters/radius_of_influence_mm",
    ),
    "a point in the air": (
        square(points=[{"id": "p", "x_mm": -1, "y_mm": 0}]), "point-outside", "/junction/points/0",
    ),
    "a case that names an environment twice": (
        square(cases=[{"id": "a", "temperatures": [{"environment": "out", "temperature_deg_c": at} for at in (-5, -9)]}]),
        "environment-contradictory", "/junction/cases/0/temperatures/1/environment",
    ),
    "an inside that is not there": (
        square(between={"inside": "loft", "outside": "out"}), "environment-unknown", "/junction/between/inside",
    ),
    "an inside at the temperature of the outside": (
        square(between={"inside": "in", "outside": "in"}), "no-temperature-difference", "/junction/between",
    ),
    "a detail with sides of its own": (
        {**detail("jamb"), "junction": {**detail("jamb")["junction"], "between": {"inside": "inside", "outside": "outside"}}},
        "junction-unclear", "/junction",
    ),
    "a case with an unknown environment": (
        square(cases=[{"id": "a", "temperatures": [{"environment": "loft", "temperature_deg_c": 1}]}]), "environment-unknown",
        "/junction/cases/0/temperatures/0/environment",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_it_is_refused_at_the_member_that_is_wrong(case):
    request, slug, pointer = REFUSED[case]

    found = refused(request)

    assert found[:2] == (slug, pointer)
    assert len(found[2]) > 20


def test_a_cold_side_without_boundary_is_named_rather_than_the_one_temperature_left():
    _, *others = square()["junction"]["boundaries"]

    slug, _, sentence = refused(square(boundaries=others))

    assert (slug, "y 0, x 0 to 100 mm" in sentence) == ("boundary-missing", True)


def test_a_point_a_tick_off_the_section_is_printed_to_the_tick():
    assert "x 100.0001, y 50 mm" in refused(square(points=[{"id": "p", "x_mm": 100.0001, "y_mm": 50}]))[2]


@pytest.mark.parametrize(
    ("kind", "member"), [("slab_edge", "embedment_mm"), ("head", "lintel.layer")], ids=["slab", "lintel"]
)
def test_a_wall_of_one_layer_is_told_which_member_serves_instead_of_the_insulation(kind, member):
    assert f"; or give {member}" in refused(detail(kind, layered(MASONRY)))[2]


def test_a_detail_at_one_temperature_is_refused():
    request = detail("jamb")
    request["junction"]["detail"]["temperatures"] = {"internal_deg_c": 5, "external_deg_c": 5}

    assert refused(request)[:2] == ("no-temperature-difference", "/junction/detail/temperatures")


@pytest.mark.parametrize("conductivity", [0.0009, 500.1])
def test_a_conductivity_out_of_range_is_refused_by_the_schema(conductivity):
    from pydantic import ValidationError

    with pytest.raises(ValidationError, match="conductivity_w_per_m_k"):
        answered(square(rectangles=[rectangle(0, 0, 100, 100, conductivity)]))


def test_equal_requests_give_equal_answers():
    assert answered(detail("jamb")).result == answered(detail("jamb")).result
