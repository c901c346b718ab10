"""The load path: actions and resistances by hand. Factors of EN 1990 (from memory); resistances invented."""

import pytest
from weight_requests import SYSTEM, WALL, WIND, asked, codes, link

BOND = {"link": "slip_bond", "action": "suction", "resistance_kn_per_m2": 100, "gamma_m": 2.5}
CORE = {**BOND, "link": "board_core"}
HELD = {"pull_out": {"characteristic_kn": 0.5}, "pull_through": {"panel_kn": 0.4, "joint_kn": 0.3, "gamma_m": 2}}


def test_suction_acts_on_every_link_with_its_partial_factor() -> None:
    """Zone C: 0.5 kPa, times 1.5, against 100 / 2.5."""
    found = asked(members={"wind": WIND, "links": [CORE]})
    assert link(found, "board_core")["action_kn_per_m2"] == pytest.approx(0.75)
    assert link(found, "board_core")["resistance_kn_per_m2"] == pytest.approx(40)
    assert link(found, "board_core")["utilisation_fraction"] == pytest.approx(0.75 / 40)


def test_the_face_of_a_board_carries_slips_pointing_and_adhesive_and_no_board() -> None:
    found = asked()
    faces = [link(found, name, "weight")["action_kn_per_m2"] for name in ("slip_bond", "adhesive", "board_face")]
    assert faces == pytest.approx([1.35 * 40.8674 * 9.80665e-3] * 3, rel=1e-5)


def test_weight_outside_the_boards_is_assessed_though_the_mass_of_the_board_is_not_known() -> None:
    board = {name: value for name, value in SYSTEM["board"].items() if name != "density_kg_per_m3"}
    bond = {**BOND, "action": "weight"}
    found = asked(members={"system": {**SYSTEM, "board": board}, "links": [bond, {**CORE, "action": "weight"}]})
    assert link(found, "slip_bond", "weight")["status"] == "assessed"
    assert link(found, "board_core", "weight")["missing"] == "the mass of the board"


def test_links_outside_the_board_carry_the_face_and_those_behind_all_of_it() -> None:
    """40.867 and 44.367 kg/m2 at 9.80665 m/s2, times 1.35."""
    found = asked()
    assert link(found, "adhesive", "weight")["action_kn_per_m2"] == pytest.approx(1.35 * 40.8674 * 9.80665e-3, rel=1e-5)
    assert link(found, "structure", "weight")["action_kn_per_m2"] == pytest.approx(
        1.35 * 44.3674 * 9.80665e-3, rel=1e-5
    )


def test_a_bond_in_beads_counts_the_area_that_they_cover() -> None:
    """Beads of 10 mm pressed to 3 mm cover 26.18 of 65 mm: 0.4028; slips are 0.8281 of the wall: a third of it is bonded."""
    found = asked(members={"wind": WIND, "links": [BOND]}, adhesive={"laid": "beads"})
    assert link(found, "slip_bond")["resistance_kn_per_m2"] == pytest.approx(40 * 0.40277 * 0.828148, rel=1e-4)


@pytest.mark.parametrize("name", ["slip_bond", "adhesive"])
def test_a_bed_over_all_holds_slips_at_their_backs_and_by_nothing_under_joints(name: str) -> None:
    """215 x 65 of 225 x 75 mm: 0.828148."""
    found = asked(members={"wind": WIND, "links": [{**BOND, "link": name}]})
    assert link(found, name)["resistance_kn_per_m2"] == pytest.approx(40 * 0.828148, rel=1e-5)


def test_boards_hold_on_the_whole_wall() -> None:
    found = asked(members={"wind": WIND, "links": [{**BOND, "link": "board_face"}]})
    assert link(found, "board_face")["resistance_kn_per_m2"] == pytest.approx(40)


def test_slips_of_a_header_bond_hold_at_their_own_backs() -> None:
    """102.5 x 65 of 112.5 x 75 mm: 0.789630 of 10 / 2 kN/m2."""
    bond = {**BOND, "action": "weight", "resistance_kn_per_m2": 10, "gamma_m": 2}
    made = {**SYSTEM, "bond": "header"}
    row = link(asked(members={"system": made, "links": [bond]}), "slip_bond", "weight")
    assert row["resistance_kn_per_m2"] == pytest.approx(3.94815, rel=1e-5)


def test_pull_out_is_that_of_the_piece_whose_fasteners_are_used_most() -> None:
    """A whole board: 0.72 m2 at 0.75 kN/m2 on eight fasteners of 0.25 kN; a half board has half of both."""
    found = asked(members={"wind": WIND, "substrate": {"category": "B"}}, fastener=HELD)
    row = link(found, "pull_out")
    assert row["utilisation_fraction"] == pytest.approx(0.54 / 2.0)
    assert row["action_kn"] / row["resistance_kn"] == pytest.approx(0.27)


def test_the_link_used_most_governs() -> None:
    weak = {"link": "board_core", "action": "weight", "resistance_kn_per_m2": 1.2, "gamma_m": 1.5}
    found = asked(members={"wind": WIND, "links": [BOND, weak]})
    path = found.result["load_path"]
    assert (path["governing_link"], path["governing_action"]) == ("board_core", "weight")
    assert path["utilisation_fraction"] == pytest.approx(1.35 * 44.3674 * 9.80665e-3 / 0.8, rel=1e-5)


def test_links_without_data_are_not_assessed_and_say_what_is_missing() -> None:
    found = asked(members={"links": [BOND]})
    rows = found.result["load_path"]["links"]
    assert {row["status"] for row in rows} == {"not_assessed"}
    assert all(row["missing"] and "utilisation_fraction" not in row for row in rows)
    assert "governing_link" not in found.result["load_path"]
    assert "load-path-incomplete" in codes(found)


def test_an_overloaded_link_withholds_the_verdict() -> None:
    found = asked(members={"wind": WIND, "links": [{**CORE, "resistance_kn_per_m2": 1.3}]})
    (item,) = [item for item in found.findings if item["code"] == "link-overloaded"]
    assert (item["level"], item["value"]) == ("stop", pytest.approx(0.75 / 0.52))


def test_of_two_resistances_of_a_link_the_lower_counts() -> None:
    found = asked(members={"wind": WIND, "links": [CORE, {**CORE, "resistance_kn_per_m2": 50}]})
    assert link(found, "board_core")["resistance_kn_per_m2"] == pytest.approx(20)


def test_heads_are_used_by_their_pull_through_in_panel_and_near_edges() -> None:
    """A whole board has 0.54 kN. All eight heads away from edges: 8 x 0.4 / 2; all near them: 8 x 0.3 / 2."""
    row = link(asked(members={"wind": WIND, "substrate": {"category": "B"}}, fastener=HELD), "head_pull_through")
    assert row["status"] == "assessed"
    assert 0.54 / 1.6 <= row["utilisation_fraction"] <= 0.54 / 1.2
    assert row["action_kn"] / row["resistance_kn"] == pytest.approx(row["utilisation_fraction"])


def test_suction_of_a_large_area_is_none_for_a_slip() -> None:
    """Coefficients for 10 m2 (-0.5 in zone C, as for 1 m2, but not so in zones A and B) say nothing of a slip."""
    wide = {**WIND, "loaded_area_m2": 10}
    found = asked(members={"wind": wide, "links": [BOND, CORE]})
    assert link(found, "slip_bond")["status"] == "not_assessed"
    assert "loaded_area_m2" in link(found, "slip_bond")["missing"]
    assert link(found, "board_core")["status"] == "assessed"


def test_a_parapet_is_named_as_left_out_of_links_that_were_assessed_below_it() -> None:
    wall = {**WALL, "parapet_from_mm": 1800}
    found = asked(wall, members={"wind": WIND, "links": [CORE], "substrate": {"category": "B"}}, fastener=HELD)
    assert link(found, "board_core")["status"] == "assessed"
    assert link(found, "board_core")["missing"] == "wind on the parapet of wall"
    assert "pieces" in link(found, "pull_out")["missing"]
    assert "utilisation_fraction" in link(found, "pull_out")


def test_bending_of_fasteners_under_weight_is_assessed_by_a_declared_resistance_only() -> None:
    shank = {"link": "fastener_shank", "action": "weight", "resistance_kn_per_m2": 2, "gamma_m": 2}
    assert "bending" in link(asked(), "fastener_shank", "weight")["missing"]
    row = link(asked(members={"links": [shank]}), "fastener_shank", "weight")
    assert row["utilisation_fraction"] == pytest.approx(1.35 * 44.3674 * 9.80665e-3, rel=1e-5)


BOARDS = {"link": "board_bond", "action": "weight", "resistance_kn_per_m2": 8, "gamma_m": 2}


def test_boards_that_are_bonded_as_well_have_their_bond_as_a_link_until_then_not_assessed() -> None:
    """All of the cladding and its bonding hangs on it: 44.3674 + 5 kg/m2."""
    row = link(asked(members={"supplementary_adhesive": True, "bonding_kg_per_m2": 5}), "board_bond", "weight")
    assert row["status"] == "not_assessed"
    assert row["missing"] == "a declared resistance of the bond between boards and substrate to weight"
    assert row["action_kn_per_m2"] == pytest.approx(1.35 * 49.3674 * 9.80665e-3, rel=1e-5)


def test_a_declared_bond_of_boards_counts_on_the_whole_wall() -> None:
    """8 / 2 kN/m2 of wall, whatever share of it is bonded, against 44.3674 kg/m2."""
    row = link(asked(members={"links": [BOARDS], "supplementary_adhesive": True}), "board_bond", "weight")
    assert row["resistance_kn_per_m2"] == pytest.approx(4)
    assert row["utilisation_fraction"] == pytest.approx(1.35 * 44.3674 * 9.80665e-3 / 4, rel=1e-5)


@pytest.mark.parametrize(
    ("members", "actions"),
    [
        ({}, []),
        ({"supplementary_adhesive": True}, ["weight"]),
        ({"links": [BOARDS]}, ["weight"]),
        ({"links": [{**BOARDS, "action": "suction"}], "supplementary_adhesive": True}, ["suction", "weight"]),
    ],
)
def test_the_bond_of_boards_is_a_link_only_where_it_is_said_to_be_there(members: dict, actions: list[str]) -> None:
    rows = asked(members=members).result["load_path"]["links"]
    assert [row["action"] for row in rows if row["link"] == "board_bond"] == actions


def test_links_not_assessed_and_assessed_in_part_are_counted_apart_and_named_together() -> None:
    """Suction on the core is known but for the parapet; of the other 15 links and actions nothing is."""
    found = asked({**WALL, "parapet_from_mm": 1800}, members={"wind": WIND, "links": [CORE]})
    path = found.result["load_path"]
    counts = path["assessed_count"], path["partly_assessed_count"], path["not_assessed_count"]
    assert counts == (1, 1, 15)
    (item,) = [item for item in found.findings if item["code"] == "load-path-incomplete"]
    assert item["value"] == 16
    assert item["advice"].startswith("Not assessed: 15; assessed in part: 1. ")


def test_links_stand_in_order_from_slip_to_structure() -> None:
    names = [row["link"] for row in asked().result["load_path"]["links"]]
    assert list(dict.fromkeys(names)) == [
        "slip_bond", "adhesive", "board_face", "board_core", "head_pull_through", "fastener_shank", "pull_out",
        "substrate", "structure",
    ]  # fmt: skip
