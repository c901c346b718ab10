"""Distances from edges of the substrate by hand: heads keep 50 mm from the board's edge, masonry is to have 100 mm (ETAG 014, from memory)."""

from fastener_requests import wall, window
from loaded_walls import FRONT, body, declared, peak

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest

NARROW = wall(400, 600, face=FRONT, left_edge={"kind": "free_end"}, right_edge={"kind": "abutment"})


def close(*elevations, **fastener):
    asked = FastenerScheduleRequest.model_validate(body(*elevations, wind=peak(), pull_out=declared(5), **fastener))
    return [item for item in calculate(asked).findings if item["code"] == "substrate-edge-close"]


def test_a_head_close_to_a_free_end_is_named_with_its_distance() -> None:
    """A board of 160 mm beside a free end: one column in its middle, 80 mm from it."""
    (item,) = close(wall(160, 600, face=FRONT, left_edge={"kind": "free_end"}, right_edge={"kind": "abutment"}))
    assert (item["value"], item["limit"], item["where"]["pieces"]) == (80, 100, ["wall-00-01"])


def test_two_columns_of_a_narrow_board_stand_at_its_quarters() -> None:
    """400 mm: at 100 and 300 mm, so none is closer than 100 mm to the free end."""
    assert close(NARROW) == []


def test_an_abutment_is_no_edge_of_the_substrate() -> None:
    assert close(wall(160, 600, face=FRONT, left_edge={"kind": "abutment"}, right_edge={"kind": "abutment"})) == []


def test_heads_beside_over_and_under_an_opening_are_measured_to_its_nearest_edge_or_corner() -> None:
    ends = {f"{side}_edge": {"kind": "abutment"} for side in ("left", "right")}
    (item,) = close(wall(3600, 1800, face=FRONT, openings=[window("w", 1250, 600, 1000, 600)], **ends))
    assert 50 <= item["value"] < 100


def test_without_wind_or_resistance_edges_are_not_looked_at() -> None:
    asked = body(wall(160, 600, face=FRONT), wind=None)
    found = calculate(FastenerScheduleRequest.model_validate(asked)).findings
    assert "substrate-edge-close" not in [item["code"] for item in found]
