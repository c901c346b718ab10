"""Coded slip layouts written out by the client, against what the service lays and against shapely."""

import json
from pathlib import Path

import pytest
import shapely
from shapely.geometry import Polygon

from storeyrod.slips.calculation import calculate
from storeyrod.slips.models import SlipLayoutRequest
from storeyrod_client import models, placed_on, placed_slips

HOUSE = json.loads(
    (Path(__file__).parents[2] / "openapi/examples/computeSlipLayout/full.json").read_text(encoding="utf-8")
)


def laid(**options):
    request = {**HOUSE, "options": {**HOUSE.get("options", {}), **options}}
    result = calculate(SlipLayoutRequest.model_validate(request)).result
    return models.SlipLayoutResult.model_validate(json.loads(json.dumps(result, default=float)))


@pytest.mark.parametrize("perps", ["nominal", "equalised"])
def test_as_many_slips_as_the_layout_counts(perps) -> None:
    layout = laid(perps=perps)
    for row in layout.elevations:
        placed = list(placed_on(row, layout.course_pitch_mm))
        assert sum(slip.whole for slip in placed if slip.course is not None) == row.full_count
        assert sum(not slip.whole for slip in placed if slip.course is not None) == row.cut_count
        assert sum(slip.opening is not None for slip in placed) == row.soldiers_count


def test_slips_stand_apart_and_cover_the_face_area() -> None:
    layout = laid()
    for row in layout.elevations:
        shapes = [Polygon(slip.rings[0], slip.rings[1:]) for slip in placed_on(row, layout.course_pitch_mm)]
        area = sum(shape.area for shape in shapes)
        assert area == pytest.approx(row.slip_face_area_m2 * 1e6, abs=0.5)
        assert shapely.union_all(shapes).area == pytest.approx(area, abs=0.5)


def test_all_elevations_in_their_order() -> None:
    layout = laid()
    names = list(dict.fromkeys(slip.elevation for slip in placed_slips(layout)))
    assert names == [row.elevation for row in layout.elevations]


def test_a_summary_has_no_pieces_to_place() -> None:
    with pytest.raises(ValueError, match="detail"):
        next(placed_slips(laid(detail="summary")))
