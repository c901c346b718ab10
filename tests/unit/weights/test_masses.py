"""Masses by hand: from sizes and densities, and from the layouts."""

from typing import Any

import pytest
from weight_requests import SYSTEM, WALL, asked, codes

from storeyrod.answer import Answer
from storeyrod.findings import Refusal
from storeyrod.quantities import calculation as quantities
from storeyrod.quantities.models import QuantitiesRequest
from storeyrod.units import REGISTRY

CONCAVE = {"depth_mm": 10, "profile": {"kind": "concave", "sagitta_mm": 5}}
WINDOW = {"id": "w", "kind": "rectangle", "x_mm": 1000, "y_mm": 600, "width_mm": 1200, "height_mm": 1200}


CORNER = (
    {**WALL, "right_edge": {"kind": "external_corner", "to": "side:left"}},
    {"id": "side", "width_mm": 4800, "height_mm": 2400, "left_edge": {"kind": "external_corner", "to": "wall:right"}},
)


def in_bond(bond: str) -> Answer[Any]:
    return asked(members={"system": {**SYSTEM, "bond": bond}})


def test_a_slip_and_a_corner_slip_by_their_volume() -> None:
    """215 x 65 x 20 mm at 1900: 0.53105 kg. The L has legs of 215 and 102.5 mm with the corner counted once: 297.5 mm."""
    masses = {row["what"]: row["mass_kg"] for row in asked(*CORNER).result["heaviest"]}
    assert masses["slip"] == pytest.approx(0.53105)
    assert masses["corner slip"] == pytest.approx(0.53105 * 297.5 / 215)


def test_a_board_by_its_cover_and_its_density() -> None:
    """0.72 m2 x 0.1 m x 35 kg/m3."""
    masses = {row["what"]: row["mass_kg"] for row in asked().result["heaviest"]}
    assert masses["board"] == pytest.approx(2.52)


def test_pieces_of_board_add_up_to_the_elevation() -> None:
    found = asked({**WALL, "openings": [WINDOW]}).result
    assert sum(row["mass_kg"] for row in found["pieces"]) == pytest.approx(found["elevations"][0]["boards_kg"])
    assert found["elevations"][0]["boards_kg"] == pytest.approx((4.8 * 2.4 - 1.44) * 3.5)


def test_an_elevation_weighs_its_layers_times_its_area_but_for_the_split_of_face_and_joints() -> None:
    """Slips and joints together cover the wall: with equal mass for both the sum is exact."""
    found = asked({**WALL, "openings": [WINDOW]}, joint={"depth_mm": 20}).result
    row = found["elevations"][0]
    assert row["slips_kg"] + row["pointing_kg"] == pytest.approx(row["net_area_m2"] * 0.020 * 1900)
    assert row["adhesive_kg"] == pytest.approx(row["net_area_m2"] * 4.5)


def test_packs_weigh_their_content() -> None:
    found = asked(packs={"slip_count": 50, "board_count": 4, "mortar_kg": 25, "adhesive_count": 12}).result
    masses = {row["role"]: row["mass_kg"] for row in found["packs"]}
    assert masses == pytest.approx({"slips": 26.5525, "boards": 10.08, "mortar": 25, "adhesive": 12 * 0.6 * 1.5})


def test_a_pack_of_header_slips_weighs_its_content_and_is_held_against_what_one_person_lifts() -> None:
    """100 x 102.5 x 65 x 20 mm at 1900 kg/m3: 25.3175 kg."""
    system = {**SYSTEM, "bond": "header", "packs": {"header_slip_count": 100}}
    handling = {
        "lifting_limit_kg": 25,
        "pallets": [{"role": "header_slips", "packs_count": 10, "length_m": 1, "width_m": 1}],
    }
    found = asked(members={"system": system, "handling": handling})
    assert found.result["packs"] == [{"role": "header_slips", "mass_kg": pytest.approx(25.3175), "over_limit": True}]
    assert found.result["pallets"][0]["mass_kg"] == pytest.approx(253.175)
    (item,) = [item for item in found.findings if item["code"] == "piece-heavy"]
    assert item["value"] == pytest.approx(25.3175)
    assert item["advice"].startswith("Over the limit: pack of header slips. ")


@pytest.mark.parametrize(
    ("bond", "corner", "things"),
    [
        ("stretcher", False, {"slip", "board"}),
        ("stretcher", True, {"slip", "corner slip", "board"}),
        ("header", False, {"header slip", "board"}),
        ("flemish", False, {"slip", "header slip", "board"}),
    ],
)
def test_what_is_lifted_piece_by_piece_is_what_the_job_has(bond: str, corner: bool, things: set[str]) -> None:
    found = asked(*(CORNER if corner else (WALL,)), members={"system": {**SYSTEM, "bond": bond}}).result
    pieces = {row["what"] for row in found["pieces"]}
    assert {row["what"] for row in found["heaviest"]} - pieces == things


def test_a_pallet_by_its_packs() -> None:
    """Twenty packs of 50 slips: 531.05 kg on 1.2 by 0.8 m."""
    pallets = [{"role": "slips", "packs_count": 20, "length_m": 1.2, "width_m": 0.8}]
    found = asked(members={"handling": {"pallets": pallets}}, packs={"slip_count": 50}).result
    (pallet,) = found["pallets"]
    assert pallet["mass_kg"] == pytest.approx(531.05)
    assert pallet["load_kn_per_m2"] == pytest.approx(531.05 * 9.80665e-3 / 0.96)
    assert pallet["least_class"] == 6


@pytest.mark.parametrize(
    ("scaffold", "limit"),
    [({"kind": "load_class", "load_class": 3}, 2.0), ({"kind": "load", "load_kn_per_m2": 2.5}, 2.5), (None, 6.0)],
)
def test_a_pallet_is_held_against_the_scaffold_or_against_every_class(scaffold: dict | None, limit: float) -> None:
    """EN 12811-1 Table 3 (from memory): class 3 carries 2.0, class 6 6.0 kN/m2."""
    pallets = [{"role": "slips", "mass_kg": 1000, "length_m": 1.2, "width_m": 1.0}]
    handling = {"pallets": pallets} if scaffold is None else {"pallets": pallets, "scaffold": scaffold}
    (item,) = [item for item in asked(members={"handling": handling}).findings if item["code"] == "scaffold-load"]
    assert (item["value"], item["limit"]) == (pytest.approx(8.1722, abs=1e-4), limit)


def test_without_the_mass_of_the_board_known_layers_are_still_answered() -> None:
    board = {name: value for name, value in SYSTEM["board"].items() if name != "density_kg_per_m3"}
    found = asked(members={"system": {**SYSTEM, "board": board}})
    assert found.result["face_kg_per_m2"] == pytest.approx(40.8674, abs=1e-4)
    assert "cladding_kg_per_m2" not in found.result
    assert "board-mass-missing" in codes(found)


@pytest.mark.parametrize(
    ("limit", "bonding", "row"),
    [
        (40, None, {"mass_kg_per_m2": 40.8674, "exceeded": True}),
        (41, None, {"mass_kg_per_m2": 40.8674}),
        (41, 0.5, {"mass_kg_per_m2": 41.3674, "exceeded": True}),
    ],
)
def test_a_limit_of_the_cladding_without_the_mass_of_the_board(limit: float, bonding: float | None, row: dict) -> None:
    """The face alone, or the face and the bonding, may be over already; else the row says what is missing."""
    board = {name: value for name, value in SYSTEM["board"].items() if name != "density_kg_per_m3"}
    limits = [{"name": "assessment", "of": "cladding", "mass_kg_per_m2": limit}]
    members = {"system": {**SYSTEM, "board": board}, "mass_limits": limits, "bonding_kg_per_m2": bonding}
    found = asked(members=members)
    expected = {"name": "assessment", "limit_kg_per_m2": limit, "missing": "the mass of the board", **row}
    assert found.result["limits"] == [{**expected, "mass_kg_per_m2": pytest.approx(row["mass_kg_per_m2"], abs=1e-4)}]
    assert ("mass-over-limit" in codes(found)) == ("exceeded" in row)


def test_hardened_mortar_weighs_by_its_own_density() -> None:
    """0.171852 of the face, 15 mm deep: 4.898 kg/m2 at 1900, 5.414 at 2100 kg/m3."""
    rows = asked(mortar={"hardened_density_kg_per_m3": 2100}).result["layers"]
    assert (rows[1]["mass_kg_per_m2"], rows[1]["density_kg_per_m3"]) == (pytest.approx(5.4133, abs=1e-4), 2100)


def test_mortar_weighed_by_its_dry_density_is_stated() -> None:
    (row,) = [row for row in asked().assumptions if row["field"] == "/system/mortar/hardened_density_kg_per_m3"]
    assert (row["value"], row["status"]) == (1900, "house")


def test_adhesive_in_beads_weighs_by_the_length_of_beads_behind_slips() -> None:
    """Beads of 10 mm, 78.54 mm2, 12.741 m on a square metre (0.828148 / 0.065), at 1500 kg/m3: 1.501 kg/m2."""
    rows = asked(adhesive={"laid": "beads"}).result["layers"]
    assert rows[2]["mass_kg_per_m2"] == pytest.approx(78.5398e-6 * 12.7407 * 1500, rel=1e-5)


def test_a_square_metre_of_header_bond() -> None:
    """Headers of 102.5 mm: 0.789630 of the face slips of 38 kg/m2, 0.210370 joints of 28.5 kg/m2."""
    rows = in_bond("header").result["layers"]
    assert [row["mass_kg_per_m2"] for row in rows[:2]] == pytest.approx([30.00593, 5.99556], rel=1e-5)


@pytest.mark.parametrize(
    ("bond", "share"),
    [
        ("stretcher", 0.828148), ("third_lap", 0.828148), ("quarter_lap", 0.828148), ("stack", 0.828148),
        ("header", 0.789630), ("english", 0.808889), ("flemish", 0.815309),
        ("english_garden_wall", 0.818519), ("flemish_garden_wall", 0.822646),
    ],
)  # fmt: skip
def test_slips_take_their_share_of_the_face_by_the_bond(bond: str, share: float) -> None:
    """Lengths of 215 and 102.5 mm with 10 mm each, courses of 65 in 75 mm: a stretcher and a header in Flemish bond 317.5 of
    337.5 mm, three and one in the garden wall 747.5 of 787.5; English bond has every second course of headers, its garden wall
    every fourth.
    """
    rows = in_bond(bond).result["layers"]
    assert rows[0]["mass_kg_per_m2"] == pytest.approx(38 * share, rel=2e-6)
    assert rows[1]["mass_kg_per_m2"] == pytest.approx(28.5 * (1 - share), rel=1e-5)


@pytest.mark.parametrize("bond", ["stretcher", "header", "english", "flemish", "flemish_garden_wall"])
def test_a_square_metre_weighs_as_the_wall_that_is_laid(bond: str) -> None:
    """But for the joint that the last unit of a course does without, and closers: half a hundredth."""
    found = in_bond(bond).result
    laid = found["elevations"][0]
    assert found["layers"][0]["mass_kg_per_m2"] == pytest.approx(laid["slips_kg"] / laid["net_area_m2"], rel=5e-3)


def test_a_square_metre_of_concave_joints_lacks_the_hollow() -> None:
    """Half circles of 10 mm, 39.27 mm2, along 225 and 65 mm of every 225 x 75 mm: 0.67486 of 1.71852 mm of mortar."""
    rows = asked(joint=CONCAVE).result["layers"]
    assert rows[1]["mass_kg_per_m2"] == pytest.approx(1.04366 * 1.9, rel=1e-5)


def test_concave_joints_of_a_wall_keep_what_the_half_circle_leaves_of_a_square() -> None:
    """All joints are 10 mm wide and deep: 100 less 39.27 of 100 mm2."""
    hollow, flush = (asked(joint=joint).result["elevations"][0] for joint in (CONCAVE, {"depth_mm": 10}))
    assert hollow["pointing_kg"] == pytest.approx(0.607301 * flush["pointing_kg"], rel=1e-5)


def test_mortar_weighs_what_is_bought_for_it() -> None:
    document = {"elevations": [{**WALL, "openings": [WINDOW]}], "system": {**SYSTEM, "joint": CONCAVE}}
    bought = quantities.calculate(QuantitiesRequest.model_validate(document)).result["mortar"]
    weighed = asked({**WALL, "openings": [WINDOW]}, joint=CONCAVE).result["elevations"][0]
    assert weighed["pointing_kg"] == pytest.approx(bought["mass_kg"])


def test_bonding_behind_the_boards_is_part_of_all_that_a_wall_weighs() -> None:
    """5 kg/m2 on 4.8 x 2.4 m: 57.6 kg."""
    plain, bonded = asked().result, asked(members={"bonding_kg_per_m2": 5}).result
    assert bonded["elevations"][0]["bonding_kg"] == pytest.approx(57.6)
    assert bonded["elevations"][0]["total_kg"] == pytest.approx(plain["elevations"][0]["total_kg"] + 57.6)
    assert bonded["total_kg"] == pytest.approx(plain["total_kg"] + 57.6)
    assert "bonding_kg" not in plain["elevations"][0]


def test_bonding_behind_the_boards_counts_with_the_cladding_and_not_with_the_face() -> None:
    found = asked(members={"bonding_kg_per_m2": 6}).result
    assert found["face_kg_per_m2"] == pytest.approx(40.8674, abs=1e-4)
    assert found["cladding_kg_per_m2"] == pytest.approx(50.3674, abs=1e-4)


def test_weight_by_the_acceleration_of_the_request() -> None:
    """At 10 m/s2 every weight is 1.97 % higher than at 9.80665 m/s2."""
    plain, rounded = asked().result, asked(members={"gravity_m_per_s2": 10}).result
    assert rounded["face_kn_per_m2"] == pytest.approx(0.408674, abs=1e-6)
    assert rounded["cladding_kn_per_m2"] / plain["cladding_kn_per_m2"] == pytest.approx(1.0197, abs=1e-4)


def test_walls_add_up() -> None:
    found = asked(WALL, {**WALL, "id": "other"}).result
    assert found["total_kg"] == pytest.approx(2 * found["elevations"][0]["total_kg"])


def test_everything_over_the_limit_for_one_person_is_named_with_the_heaviest_mass() -> None:
    """Packs of 26.5525, 12 x 0.6 x 1.5 = 10.8 and 25 kg against 10 kg."""
    packs = {"slip_count": 50, "mortar_kg": 25, "adhesive_count": 12}
    found = asked(members={"handling": {"lifting_limit_kg": 11}}, packs=packs)
    (item,) = [item for item in found.findings if item["code"] == "piece-heavy"]
    assert (item["value"], item["limit"]) == (pytest.approx(26.5525), 11)
    assert "pack of slips, pack of mortar" in item["advice"]
    assert "adhesive" not in item["advice"]


def test_what_is_lifted_stands_beside_published_values_and_no_verdict() -> None:
    """Arms extended at head height: 5 kg for men, 3 kg for women (guidance on manual handling, from memory)."""
    rows = {(row["who"], row["zone"]): row for row in asked(packs={"board_count": 1}).result["lifting"]}
    assert rows["men", "head height, arms extended"]["mass_kg"] == 5
    assert rows["women", "head height, arms extended"]["over"] == []
    assert all(row["source"] and row["status"] == "memory" for row in rows.values())


@pytest.mark.parametrize(
    ("slip", "codes_found"),
    [
        ({"thickness_mm": 15}, {"mass-above-scope"}),
        ({"thickness_mm": 15, "length_mm": 490}, {"mass-above-scope"}),
        ({"thickness_mm": 15, "length_mm": 491}, {"mass-above-scope", "tile-scope"}),
        ({"thickness_mm": 15, "length_mm": 400, "height_mm": 301}, {"mass-above-scope", "tile-scope"}),
        ({"thickness_mm": 16, "density_kg_per_m3": 1600}, {"tile-scope"}),
    ],
)
def test_scopes_of_tiles_by_thickness_side_and_area(slip: dict, codes_found: set[str]) -> None:
    """Bonded tiles: up to 15 mm, 0.49 m and 0.12 m2. At 1600 kg/m3 and 3 mm of pointing the face weighs 26.7 kg/m2."""
    light = {"joint": {"depth_mm": 3}} if slip["thickness_mm"] == 16 else {}
    found = codes(asked(slip=slip, **light))
    assert {code for code in found if code.endswith("-scope")} == codes_found


@pytest.mark.parametrize("bonded", [False, True])
def test_scopes_by_mass_depend_on_supplementary_adhesive(bonded: bool) -> None:
    """Draft product standard (seen quoted): 30 and 60 kg/m2 without, 40 and 65 kg/m2 with it."""
    rows = asked(members={"supplementary_adhesive": bonded}).result["scopes"]
    assert [row["limit"] for row in rows[:2]] == ([40, 65] if bonded else [30, 60])


def test_packs_over_published_filter_values_are_named() -> None:
    rows = asked(packs={"slip_count": 50, "mortar_kg": 20}).result["lifting"]
    elbow = next(row for row in rows if (row["who"], row["zone"]) == ("men", "elbow height"))
    assert (elbow["mass_kg"], elbow["over"]) == (25, ["pack of slips"])


@pytest.mark.parametrize("pallet", [{}, {"mass_kg": 500, "packs_count": 3}, {"packs_count": 3}])
def test_a_pallet_needs_one_mass(pallet: dict) -> None:
    """The last one has packs without content."""
    handling = {"pallets": [{"role": "mortar", "length_m": 1, "width_m": 1, **pallet}]}
    with pytest.raises(Refusal) as refused:
        asked(members={"handling": handling})
    assert refused.value.slug == "pallet-contradictory"


@pytest.mark.parametrize(
    ("board", "packs", "wanted"),
    [
        ({}, {"board_count": 4}, "system.board.mass_kg_per_m2 (or density_kg_per_m3)"),
        ({"density_kg_per_m3": 35}, {}, "system.packs.board_count"),
        ({}, {}, "system.packs.board_count and system.board.mass_kg_per_m2 (or density_kg_per_m3)"),
    ],
)
def test_a_pallet_of_boards_says_what_is_not_known_of_its_packs(board: dict, packs: dict, wanted: str) -> None:
    plain = {name: value for name, value in SYSTEM["board"].items() if name != "density_kg_per_m3"}
    system = {**SYSTEM, "board": {**plain, **board}, "packs": packs}
    pallets = [{"role": "boards", "packs_count": 3, "length_m": 1, "width_m": 1}]
    with pytest.raises(Refusal) as refused:
        asked(members={"system": system, "handling": {"pallets": pallets}})
    assert f"a pack of boards is not known; give {wanted}, or mass_kg of the pallet" in refused.value.detail


@pytest.mark.parametrize(
    ("what", "amount", "customary", "unit"),
    [
        ("adhered veneer, 15 lb/ft2", 15, "pound/foot**2", "kilogram/meter**2"),
        ("adhered units, 2 5/8 in thick", 2.625, "inch", "millimeter"),
        ("adhered units, 36 in in either face dimension", 36, "inch", "millimeter"),
        ("adhered units, 5 ft2 of face", 5, "foot**2", "meter**2"),
    ],
)
def test_limits_of_adhered_veneer_are_the_customary_ones_turned_by_pint(
    what: str, amount: float, customary: str, unit: str
) -> None:
    """TMS 402 section 12.3 (from memory)."""
    limit = next(row["limit"] for row in asked().result["scopes"] if row["what"] == what)
    assert limit == pytest.approx(REGISTRY.Quantity(amount, customary).to(unit).magnitude, rel=1e-5)
