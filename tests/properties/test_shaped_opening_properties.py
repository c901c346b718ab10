"""Polygons and circles as openings on random walls: areas close, and nominal pieces are those of an independent clipping."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from slip_oracle import MODULES, SHIFTS, clipped_units, laid, points, system

QUICK = settings(max_examples=25, deadline=None)


@st.composite
def shapes(draw):
    """Corners by rising angle round a middle, at any distance from it: simple rings of three to eight corners."""
    count = draw(st.integers(3, 8))
    turns = sorted(draw(st.lists(st.integers(0, 71), min_size=count, max_size=count, unique=True)))
    x, y = draw(st.integers(800, 1400)), draw(st.integers(700, 1000))
    corners = [
        (x + away * math.cos(math.radians(5 * turn)), y + away * math.sin(math.radians(5 * turn)))
        for turn in turns
        for away in [draw(st.integers(60, 500))]
    ]
    return [(round(a, 1), round(b, 1)) for a, b in corners]


@given(shapes(), st.sampled_from(MODULES), st.sampled_from(sorted(SHIFTS)))
@QUICK
def test_slips_round_a_polygon_are_the_units_cut_by_it(corners, module, bond) -> None:
    ring = shapely.Polygon(corners)
    if not ring.is_valid or ring.area < 1000:
        return
    opening = {"id": "p", "kind": "polygon", "points": points(*corners)}
    wall = {"id": "wall", "outline": points((0, 0), (2200, 0), (2200, 1700), (0, 1700)), "openings": [opening]}
    made = system(module, bond)
    (row,) = laid(wall, made).result["elevations"]
    assert row["net_area_m2"] == pytest.approx((2200 * 1700 - ring.area) / 1e6, abs=1e-9)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-6)
    expected = clipped_units(wall, made)
    assert row["slip_face_area_m2"] == pytest.approx(np.sum(expected) / 1e6, abs=1e-6)


@given(st.integers(60, 1500), st.integers(750, 1400), st.integers(750, 900))
@QUICK
def test_areas_close_round_a_circle(diameter, x, y) -> None:
    opening = {"id": "c", "kind": "circle", "x_mm": x, "y_mm": y, "diameter_mm": diameter}
    wall = {"id": "wall", "width_mm": 2200, "height_mm": 1700, "openings": [opening]}
    (row,) = laid(wall, system(MODULES[0])).result["elevations"]
    assert row["net_area_m2"] == pytest.approx(2.2 * 1.7 - math.pi * (diameter / 2000) ** 2, abs=1e-9)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-6)
