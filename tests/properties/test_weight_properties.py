"""Weights on random systems: linear laws and the logic of the load path; no source needed."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.weights.calculation import calculate
from storeyrod.weights.models import DeadLoadRequest

quick = settings(max_examples=25, deadline=None)
WIND = {
    "kind": "peak_pressures", "peak_pressures": [{"height_m": 20, "pressure_pa": 900}],
    "building": {"breadth_m": 20, "depth_m": 10, "height_m": 5},
}  # fmt: skip
LINKS = [
    (link, action)
    for link in (
        "slip_bond",
        "adhesive",
        "board_face",
        "board_core",
        "board_bond",
        "fastener_shank",
        "substrate",
        "structure",
    )
    for action in ("suction", "weight")
]
declared = st.lists(
    st.tuples(st.sampled_from(LINKS), st.floats(0.5, 200), st.floats(1, 3)), max_size=8, unique_by=lambda row: row[0]
)


def answer(
    thickness=20.0,
    density=1900.0,
    width=3600,
    links=(),
    start="full",
    height=1800,
    joint=10.0,
    effort="quick",
    detail="summary",
):
    document = {
        "elevations": [{"id": "wall", "width_mm": width, "height_mm": height, "bond_start": start}],
        "system": {
            "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "density_kg_per_m3": 30},
            "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": thickness, "density_kg_per_m3": density},
            "joint": {"depth_mm": joint},
            "adhesive": {"laid": "bed"},
        },
        "wind": WIND,
        "links": [
            {"link": link, "action": action, "resistance_kn_per_m2": value, "gamma_m": gamma}
            for (link, action), value, gamma in links
        ],
        "options": {"effort": effort, "detail": detail},
    }
    return calculate(DeadLoadRequest.model_validate(document)).result


@quick
@given(st.floats(5, 40), st.floats(1600, 2300), st.floats(1.1, 2))
def test_the_mass_of_slips_is_linear_in_thickness_and_density(thickness, density, factor):
    plain = answer(thickness, density)["elevations"][0]["slips_kg"]
    assert answer(thickness * factor, density)["elevations"][0]["slips_kg"] == pytest.approx(plain * factor)
    assert answer(thickness, density * factor)["elevations"][0]["slips_kg"] == pytest.approx(plain * factor)


@quick
@given(st.integers(1000, 6000), st.sampled_from(["full", "half"]))
def test_masses_of_a_wall_do_not_depend_on_where_its_bond_starts_but_for_the_split_of_face_and_joints(width, start):
    """The bed and the boards are alike; slips and joints share the area differently by a joint at each end."""
    plain, other = answer(width=width)["elevations"][0], answer(width=width, start=start)["elevations"][0]
    assert other["adhesive_kg"] == pytest.approx(plain["adhesive_kg"])
    assert other["boards_kg"] == pytest.approx(plain["boards_kg"])
    assert other["total_kg"] == pytest.approx(plain["total_kg"], rel=0.02)


@quick
@given(st.integers(1000, 6000), st.sampled_from(["full", "half"]), st.floats(5, 40))
def test_with_joints_as_heavy_as_slips_a_wall_weighs_its_area_wherever_its_bond_starts(width, start, thickness):
    """Slips and joints share the area; where both have one mass on it, how they share it is lost."""
    row = answer(thickness, 1900, width, start=start, joint=thickness)["elevations"][0]
    assert row["slips_kg"] + row["pointing_kg"] == pytest.approx(row["net_area_m2"] * thickness * 1.9)
    assert row["total_kg"] == pytest.approx(row["net_area_m2"] * (thickness * 1.9 + 4.5 + 3.0))


@quick
@given(st.integers(1000, 6000), st.integers(600, 2400), st.sampled_from(["quick", "standard"]))
def test_pieces_of_board_weigh_what_the_wall_takes_in_any_layout(width, height, effort):
    found = answer(width=width, height=height, effort=effort, detail="pieces")
    pieces = sum(row["mass_kg"] for row in found["pieces"])
    assert pieces == pytest.approx(width * height * 1e-6 * 3.0)
    assert found["elevations"][0]["boards_kg"] == pytest.approx(pieces)


@quick
@given(declared)
def test_the_governing_use_is_the_greatest_of_the_links(links):
    path = answer(links=links)["load_path"]
    used = [row["utilisation_fraction"] for row in path["links"] if row["status"] == "assessed"]
    assert path.get("utilisation_fraction") == max(used, default=None)
    assert path["assessed_count"] == len(used) == len(links)


@quick
@given(declared.filter(len), st.floats(1.1, 5))
def test_a_stronger_link_that_did_not_govern_changes_nothing(links, factor):
    path = answer(links=links)["load_path"]
    governing = (path["governing_link"], path["governing_action"])
    stronger = [(at, value if at == governing else value * factor, gamma) for at, value, gamma in links]
    assert answer(links=stronger)["load_path"]["utilisation_fraction"] == path["utilisation_fraction"]


@quick
@given(declared)
def test_a_link_without_data_is_never_read_as_unused(links):
    named = {at for at, _, _ in links}
    for row in answer(links=links)["load_path"]["links"]:
        assert (row["status"] == "assessed") == ((row["link"], row["action"]) in named)
        assert ("utilisation_fraction" in row) == (row["status"] == "assessed")
