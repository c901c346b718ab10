"""Defaults that an answer about wind rests on: each changes a figure where it is changed, and those of other rooms stay out."""

import pytest
from wind_requests import asked, wind

from unit.wall.survey import PLAIN

SYSTEM = {name: PLAIN[name] for name in ("board", "slip")}
"""Its adhesive is left to defaults."""

SUBSTRATE = {
    "id": "south",
    "plane": "substrate",
    "width_mm": 12000,
    "height_mm": 14000,
    "face": {"side": "right"},
    "right_edge": {"kind": "external_corner"},
}
"""Its finished face is longer than it by the build-up at one corner."""


def fields(*elevations, **members):
    return {
        item["field"] for item in asked(wind(), *elevations, **members).assumptions if "/wind/" not in item["field"]
    }


def test_elevations_as_drawn_rest_on_their_place_alone():
    drawn = {**SUBSTRATE, "plane": "finished"}
    assert fields(drawn) == {"/elevations/0/face/offset_mm", "/elevations/0/face/seen_from"}


def test_finished_faces_beside_a_system_rest_on_being_finished():
    drawn = {name: value for name, value in SUBSTRATE.items() if name != "plane"}
    assert fields(drawn, system=SYSTEM) - fields(drawn) == {"/elevations/0/plane"}


def test_a_substrate_rests_on_what_moves_its_ends():
    moved = fields(SUBSTRATE, system=SYSTEM) - fields(SUBSTRATE)
    assert moved == {
        "/elevations/0/left_edge",
        "/elevations/0/right_edge/angle_deg",
        "/system/adhesive/compressed_thickness_mm",
    }


@pytest.mark.parametrize(
    "changed",
    [
        {"face": {"side": "right", "offset_mm": 100}},
        {"face": {"side": "right", "seen_from": "inside"}},
        {"left_edge": {"kind": "external_corner"}},
        {"right_edge": {"kind": "external_corner", "angle_deg": 120}},
        {"plane": "finished"},
    ],
)
def test_every_one_of_them_changes_zones(changed):
    before, after = (asked(wind(), one, system=SYSTEM).result["zones"] for one in (SUBSTRATE, {**SUBSTRATE, **changed}))
    assert before != after


def test_the_thickness_of_adhesive_changes_zones_of_a_substrate():
    thicker = {**SYSTEM, "adhesive": {"compressed_thickness_mm": 8}}
    before, after = (asked(wind(), SUBSTRATE, system=system).result["zones"] for system in (SYSTEM, thicker))
    assert before != after
