"""Lines of an order: members that add up, a sentence that says how, and what is left out when a pack is not known."""

import math

import pytest

from storeyrod.quantities.lines import Need, order_line, uncut
from storeyrod.trace import SILENT
from unit.quantities.quantity_requests import answer, line, quantities
from unit.wall.survey import rectangle, system, window

PACKS = {
    "board_count": 4, "slip_count": 50, "corner_slip_count": 20, "fastener_count": 100, "adhesive_count": 10,
    "mortar_kg": 20, "sealant_ml": 600, "backer_rod_m": 50, "base_trim_count": 5,
}  # fmt: skip
ALWAYS = ["board", "slip", "corner_slip", "fastener", "adhesive", "mortar", "sealant", "base_trim"]


def test_the_sentence_shows_need_waste_share_order_and_packs():
    made = order_line(Need("board", 24.1, 28.0), system(packs={"board_count": 4}), SILENT)
    assert made["explanation"] == "24.1 boards of need + 3.9 cut waste, x 1.02 = 28.56 -> 8 packs of 4"


def test_a_line_without_cut_waste_says_so_by_leaving_it_out():
    made = order_line(uncut("fastener", 324.0), system(packs={"fastener_count": 100}), SILENT)
    assert made["cut_waste"] == 0.0
    assert made["explanation"] == "324 fasteners of need, x 1.03 = 333.72 -> 4 boxes of 100"


def test_one_pack_is_not_called_packs():
    made = order_line(uncut("mortar", 12.0), system(packs={"mortar_kg": 25}), SILENT)
    assert made["explanation"].endswith("-> 1 bag of 25 kg")


def test_an_order_is_never_shown_smaller_than_it_is():
    made = order_line(uncut("slip", 100.0013), system(allowances={"slip": 0}), SILENT)
    assert "= 100.01" in made["explanation"]


def test_without_a_pack_size_the_line_stays_in_its_unit():
    made = order_line(uncut("sealant", 1.5), system(), SILENT)
    assert not {"pack_size", "pack_unit", "packs_count", "spare"} & set(made)
    assert made["explanation"] == "1.5 l of need, x 1.1 = 1.65 l; pack size not known"


def test_adhesive_without_a_box_is_sold_by_the_cartridge():
    made = order_line(uncut("adhesive", 6.0), system(), SILENT)
    assert (made["pack_size"], made["pack_unit"], made["packs_count"]) == (0.6, "cartridge", 11)


def test_adhesive_in_boxes_is_sold_by_the_box():
    made = order_line(uncut("adhesive", 6.0), system(packs={"adhesive_count": 10}), SILENT)
    assert (made["pack_size"], made["pack_unit"], made["packs_count"]) == (6.0, "box", 2)


def test_what_the_packs_hold_beyond_the_order_is_spare():
    made = order_line(uncut("mortar", 100.0), system(packs={"mortar_kg": 20}), SILENT)
    assert (made["order"], made["packs_count"], made["spare"]) == (110.0, 6, 10.0)


def test_every_line_adds_up():
    result = quantities(rectangle(openings=[window()]), packs=PACKS)
    for lines in (result["lines"], result["elevations"][0]["lines"]):
        assert [one["role"] for one in lines] == [*ALWAYS[:-1], "backer_rod", ALWAYS[-1]]
        for one in lines:
            need = one["net"] + one["cut_waste"]
            assert one["allowance"] == pytest.approx(need * one["allowance_fraction"])
            assert one["order"] == pytest.approx(need + one["allowance"])
            assert one["packs_count"] * one["pack_size"] == pytest.approx(one["order"] + one["spare"])
            assert 0 <= one["spare"] < one["pack_size"]


def test_a_bond_with_headers_buys_header_slips_of_their_own():
    stretchers = quantities(rectangle(), packs=PACKS)
    english = quantities(rectangle(height_mm=2400), bond="english", packs={**PACKS, "header_slip_count": 100})
    assert [one["role"] for one in stretchers["lines"]] == ALWAYS
    assert [one["role"] for one in english["lines"]] == ["board", "slip", "header_slip", *ALWAYS[2:]]
    # English bond: alternate courses of headers, so that a face takes twice as many headers as stretchers.
    headers, slips = line(english["lines"], "header_slip"), line(english["lines"], "slip")
    assert headers["net"] == pytest.approx(2 * slips["net"], rel=0.05)
    assert headers["allowance_fraction"] == slips["allowance_fraction"]


def test_a_role_without_its_pack_is_found_by_name():
    found = [
        one for one in answer(rectangle(), packs={**PACKS, "mortar_kg": None}).findings if one["code"] == "pack-unknown"
    ]
    assert [one["advice"] for one in found] == [
        "Give packs.mortar_kg to have whole packs; the line of mortar is in kilograms."
    ]
    assert found[0]["where"] == {"pointer": "/system/packs"}


def test_what_is_counted_is_ordered_singly_without_a_pack_size():
    made = answer(rectangle(), packs={**PACKS, "board_count": None})
    boards = line(made.result["lines"], "board")
    assert boards["packs_count"] == math.ceil(boards["order"] - 1e-9)
    assert (boards["pack_size"], boards["pack_unit"]) == (1, "single")
    assert "pack-unknown" in [one["code"] for one in made.findings]


def test_nothing_to_buy_needs_no_pack_size():
    codes = [one["code"] for one in answer(rectangle(), packs={**PACKS, "corner_slip_count": None}).findings]
    assert "pack-unknown" not in codes


def test_pooling_is_found_where_one_order_saves_packs():
    twins = rectangle(), {**rectangle(), "id": "front"}
    made = answer(*twins, packs={**PACKS, "fastener_count": 1000})
    saved = {one["advice"].split(":")[0]: one["value"] for one in made.findings if one["code"] == "pooling-saves"}
    assert saved["fastener"] == 1.0
    for role, packs in saved.items():
        apart = [line(elevation["lines"], role)["packs_count"] for elevation in made.result["elevations"]]
        assert sum(apart) - line(made.result["lines"], role)["packs_count"] == packs


def test_one_elevation_has_nothing_to_pool():
    assert "pooling-saves" not in {one["code"] for one in answer(rectangle(), packs=PACKS).findings}


def test_strict_refuses_cautions_but_not_missing_pack_sizes():
    assert answer(rectangle(width_mm=4715, height_mm=2400), options={"strict": True, "perps": "equalised"}).result[
        "lines"
    ]
