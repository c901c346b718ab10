"""Features on random walls: slips are what an independent clipping leaves beside them, and the areas close with them."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from slip_oracle import MODULES, SHIFTS, clipped_units, laid, net_polygon, ring_of, system, walls

QUICK = settings(max_examples=40, deadline=None)


@st.composite
def walls_with_features(draw):
    """A wall with one to three features from a raster, those left out that leave it, or touch an opening or another one."""
    wall = draw(walls(joints=False))
    free, made = net_polygon(wall), []
    left, bottom, right, top = free.bounds
    for index in range(draw(st.integers(1, 3))):
        x, y = (low + (high - low) * draw(st.integers(0, 9)) / 10 for low, high in ((left, right), (bottom, top)))
        width, height = draw(st.integers(30, 900)), draw(st.integers(30, 600))
        one = {
            "id": f"f{index}",
            "kind": "rectangle",
            "x_mm": round(x, 1),
            "y_mm": round(y, 1),
            "width_mm": width,
            "height_mm": height,
        }
        if free.buffer(1e-6).covers(ring_of(one)):
            made.append(one)
            free = shapely.difference(free, ring_of(one))
    return {**wall, "features": made}


@given(walls_with_features(), st.sampled_from(MODULES), st.sampled_from(sorted(SHIFTS)))
@QUICK
def test_slips_beside_features_are_the_units_cut_by_them(wall, module, bond) -> None:
    made = system(module, bond)
    (row,) = laid(wall, made).result["elevations"]
    features = sum(ring_of(one).area for one in wall["features"])
    assert row["feature_area_m2"] == pytest.approx(features / 1e6, abs=1e-9)
    cut = clipped_units({**wall, "openings": [*wall["openings"], *wall["features"]]}, made)
    assert row["slip_face_area_m2"] == pytest.approx(np.sum(cut) / 1e6, abs=1e-6)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-6)
    parts = row["slip_face_area_m2"] + row["joint_area_by_strips_m2"] + row["feature_area_m2"]
    assert parts == pytest.approx(row["net_area_m2"], abs=1e-6)


@given(walls_with_features(), st.sampled_from(["nominal", "equalised"]))
@QUICK
def test_features_are_mirrored_with_their_wall(wall, perps) -> None:
    made = laid([wall, {"id": "handed", "mirror_of": "wall"}], system(MODULES[0]), perps=perps).result
    one, two = made["elevations"]
    assert (one["full_count"], one["cut_count"]) == (two["full_count"], two["cut_count"])
    assert one["slip_face_area_m2"] == pytest.approx(two["slip_face_area_m2"], abs=1e-9)
