"""The invented block of the full example: eight faces round a court, two gables, four storeys; set out, laid and mirrored."""

import json
from pathlib import Path

import pytest
from shapely.geometry import Polygon, box

from storeyrod.setting_out.calculation import calculate as set_out
from storeyrod.setting_out.models import SettingOutRequest
from storeyrod.slips.calculation import calculate as lay_slips
from storeyrod.slips.models import SlipLayoutRequest

BLOCK = json.loads(
    (Path(__file__).parents[3] / "openapi" / "examples" / "computeSettingOut" / "full.json").read_text(encoding="utf-8")
)
EAVES_COURSES = 144
"""10800 mm of 75 mm."""


def laid(elevations):
    request = {"elevations": elevations, "system": BLOCK["system"], "options": {"perps": "equalised"}}
    return lay_slips(SlipLayoutRequest.model_validate(request)).result


def net_m2(elevation):
    """Area by shapely."""
    rings = elevation.get("outline") or [
        {"x_mm": x, "y_mm": y} for x, y in box(0, 0, elevation["width_mm"], elevation["height_mm"]).exterior.coords
    ]
    wall = Polygon([(point["x_mm"], point["y_mm"]) for point in rings])
    for hole in elevation["openings"]:
        x, y = hole["x_mm"], hole["y_mm"]
        wall -= box(x, y, x + hole["width_mm"], y + hole["height_mm"])
    return wall.area / 1e6


def covered(row):
    parts = ("slip_face_area_m2", "joint_area_m2", "movement_joint_area_m2", "end_joint_area_m2", "feature_area_m2")
    return sum(row[part] for part in parts)


def mirrored(elevation):
    """The face in the mirror by hand: places from the other end, edges changed over and named for it."""
    width = elevation.get("width_mm") or max(point["x_mm"] for point in elevation["outline"])
    sides = {"left": "right", "right": "left"}

    def edge(kept):
        name, side = kept["to"].split(":")
        return kept | {"to": f"{name}:{sides[side]}"}

    image = {key: value for key, value in elevation.items() if key != "base"}
    if "outline" in elevation:
        image["outline"] = [point | {"x_mm": width - point["x_mm"]} for point in elevation["outline"]]
    openings = [hole | {"x_mm": width - hole["x_mm"] - hole["width_mm"]} for hole in elevation["openings"]]
    edges = {"left_edge": edge(elevation["right_edge"]), "right_edge": edge(elevation["left_edge"])}
    return image | {"openings": openings} | edges


def test_its_bond_closes_and_turns_at_every_corner() -> None:
    """Half modules 120 + 80 + 40 + 48 + 40 + 48 + 40 + 80 = 496, and eight corners: even."""
    result = set_out(SettingOutRequest.model_validate(BLOCK)).result
    (loop,) = result["loops"]
    assert sum(face["half_modules_count"] for face in loop["faces"]) == 496
    assert (loop["parity"], loop["closes"], loop["closes_as_laid"]) == (0, True, True)
    assert [corner["bond_turns"] for corner in result["corners"]] == [True] * 8


def test_the_areas_of_every_face_close_on_its_net_area_by_shapely() -> None:
    for drawn, row in zip(BLOCK["elevations"], laid(BLOCK["elevations"])["elevations"], strict=True):
        assert covered(row) == pytest.approx(net_m2(drawn), abs=1e-6)
        assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-6)


def test_six_external_corners_have_one_slip_in_each_course_half_of_each_hand() -> None:
    corners = laid(BLOCK["elevations"])["corners"]
    assert [corner["corner_slips_count"] for corner in corners] == [EAVES_COURSES] * 6
    assert {corner["left_handed_count"] for corner in corners} == {EAVES_COURSES // 2}


def test_its_mirror_image_has_the_same_pieces_and_areas() -> None:
    drawn, image = laid(BLOCK["elevations"]), laid([mirrored(face) for face in BLOCK["elevations"]])
    for name in ("slips_consumed_count", "corner_slips_count", "return_slips_count", "soldiers_count"):
        assert image[name] == drawn[name], name
    for row, other in zip(drawn["elevations"], image["elevations"], strict=True):
        assert (other["full_count"], other["cut_count"]) == (row["full_count"], row["cut_count"])
        assert other["slip_face_area_m2"] == pytest.approx(row["slip_face_area_m2"], abs=1e-9)
