"""Junctions of random walls: finite elements as a second opinion, symmetries, and what must be nought."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from junction_requests import WALL, adiabatic, answered, boundary, detail, drawn, rectangle
from properties.junction_elements import Elements

QUICK = {"effort": "quick"}


def solid(name, thickness, conductivity):
    return {
        "kind": "solid", "name": name, "thickness_mm": thickness, "conductivity_w_per_m_k": conductivity,
    }  # fmt: skip


@st.composite
def walls(draw):
    """Masonry, insulation and slips of ordinary sizes."""
    sizes = st.integers
    layers = [
        solid("masonry", draw(sizes(100, 365)), draw(st.sampled_from([0.15, 0.57, 0.77, 1.33, 2.3]))),
        solid("insulation", draw(sizes(40, 240)), draw(st.sampled_from([0.022, 0.031, 0.04]))),
        solid("slip", draw(sizes(10, 30)), draw(st.sampled_from([0.5, 0.9, 1.3]))),
    ]
    return {**WALL, "layers": layers}


@st.composite
def details(draw):
    """A ready detail of a random wall."""
    wall = draw(walls())
    frame = {"width_mm": draw(st.integers(50, 90)), "depth_mm": draw(st.sampled_from([60, 70, 90]))}
    opening = {"frame": frame, "setback_mm": draw(st.integers(10, 60))}
    lining = {"thickness_mm": 40, "conductivity_w_per_m_k": 0.04, "overlap_mm": draw(st.sampled_from([15, 40, 45]))}
    kinds = {
        "external_corner": {},
        "internal_corner": {},
        "jamb": {**opening, **draw(st.sampled_from([{}, {"lining": lining}]))},
        "head": {**opening, "lintel": {"height_mm": draw(st.integers(100, 300))}},
        "sill": {**opening, "piece": {"thickness_mm": 40, "conductivity_w_per_m_k": 1.3, "overlap_mm": 30}},
        "base_rail": {
            "rail": {"thickness_mm": 3, "conductivity_w_per_m_k": draw(st.sampled_from([17, 160]))},
            **draw(st.sampled_from([{}, {"plinth": {"thickness_mm": 60, "conductivity_w_per_m_k": 0.035}}])),
        },
        "slab_edge": {"slab_thickness_mm": draw(st.integers(100, 300))},
        "movement_joint": {"width_mm": draw(st.integers(6, 30)), "sealant": {"depth_mm": 8}},
    }  # fmt: skip
    kind = draw(st.sampled_from(sorted(kinds)))
    return detail(kind, wall, QUICK, **kinds[kind])


@settings(max_examples=10, deadline=None)
@given(details())
def test_finite_elements_find_the_coupling_and_the_points_of_a_detail(request):
    answer = answered(request).result
    elements = Elements(answer["rectangles"], answer["boundaries"], finest=0.002)

    field, coupling = elements.solved()

    # quadratic elements err by less than the quick mesh, which stops at a change of 1 % at most
    assert answer["coupling_w_per_m_k"] == pytest.approx(coupling, rel=0.01)
    for point in answer["points"]:
        found = elements.at(field, point["x_mm"], point["y_mm"])
        assert point["temperature_factor"] == pytest.approx(found, abs=0.01), point["id"]


@settings(max_examples=3, deadline=None)
@given(walls(), st.sampled_from([17, 50]), st.sampled_from([6, 8, 10]), st.sampled_from([None, 15]))
def test_finite_elements_find_the_chi_of_a_fastener(wall, conductivity, diameter, recess):
    head = {"diameter_mm": 60, "thickness_mm": 3, "conductivity_w_per_m_k": 0.25}
    more = {} if recess is None else {"recess": {"depth_mm": recess}}
    shank = {"diameter_mm": diameter, "conductivity_w_per_m_k": conductivity}
    answer = answered(detail("point_fastener", wall, shank=shank, head=head, count_per_m2=6, **more)).result

    _, coupling = Elements(answer["rectangles"], answer["boundaries"], turned=True, finest=0.001).solved()
    chi = coupling - answer["flanks"][0]["u_value_w_per_m2_k"] / 6

    assert answer["chi_w_per_k"] == pytest.approx(chi, rel=0.02, abs=0.00002)


@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.tuples(st.integers(5, 300), st.sampled_from([0.03, 0.13, 0.8, 2.3, 50])), min_size=1, max_size=6),
    st.integers(100, 2000),
)
def test_a_wall_without_junction_has_no_psi(layers, length):
    rectangles, x, total = [], 0.0, 0.17
    for thickness, conductivity in layers:
        rectangles.append(rectangle(x, 0, thickness, length, conductivity))
        x += thickness
        total += thickness / 1000 / conductivity
    edges = [
        boundary(0, 0, 0, length, temperature=20, resistance=0.13),
        boundary(x, 0, x, length, temperature=0, resistance=0.04),
        adiabatic(0, 0, x, 0),
        adiabatic(0, length, x, length),
    ]
    flank = {"u_value_w_per_m2_k": 1 / total, "internal_length_mm": length, "external_length_mm": length}

    assert answered(drawn(rectangles, edges, QUICK, flanks=[flank])).result["psi_w_per_m_k"] == pytest.approx(
        0, abs=1e-9
    )


def moved(answer, place):
    """What a detail drew, each corner of it taken elsewhere, as a section of its own."""
    rectangles = []
    for one in answer["rectangles"]:
        left, bottom = place(one["x_mm"], one["y_mm"])
        right, top = place(one["x_mm"] + one["width_mm"], one["y_mm"] + one["height_mm"])
        low, foot = min(left, right), min(bottom, top)
        sides = (low, foot, max(left, right) - low, max(bottom, top) - foot)
        rectangles.append(rectangle(*sides, one["conductivity_w_per_m_k"]))
    edges = []
    for one in answer["boundaries"]:
        ends = (*place(one["x_from_mm"], one["y_from_mm"]), *place(one["x_to_mm"], one["y_to_mm"]))
        edges.append(
            adiabatic(*ends)
            if one["adiabatic"]
            else boundary(
                *ends,
                temperature=one["temperature_deg_c"],
                resistance=one["surface_resistance_m2_k_per_w"],
                environment=one["environment"],
            )
        )
    return drawn(rectangles, edges, QUICK, overlaps="later_covers")


MOVES = {
    "as it is": lambda x, y: (x, y),
    "mirrored": lambda x, y: (-x, y),
    "turned": lambda x, y: (-y, x),
    "elsewhere": lambda x, y: (x + 1234.5, y - 777.25),
}


@settings(max_examples=6, deadline=None)
@given(details())
def test_a_section_mirrored_turned_or_moved_lets_the_same_heat_through(request):
    answer = answered(request).result
    here, *others = (answered(moved(answer, place)).result for place in MOVES.values())

    for other in others:
        assert other["coupling_w_per_m_k"] == pytest.approx(here["coupling_w_per_m_k"], rel=1e-7)
        assert other["temperature_factor"] == pytest.approx(here["temperature_factor"], abs=1e-7)


@settings(max_examples=10, deadline=None)
@given(details())
def test_every_factor_lies_between_nought_and_one_and_no_point_is_colder_than_the_coldest(request):
    answer = answered(request).result

    assert 0 < answer["temperature_factor_mould"] < answer["temperature_factor"] < 1
    assert all(0 < one["temperature_factor"] < 1 for one in answer["points"])
    assert answer["balance_fraction"] < 1e-9
