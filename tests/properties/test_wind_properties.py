"""Wind on random boxes: what must hold whatever the site. Properties of the formulas and of geometry; no source needed."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.wind.calculation import calculate
from storeyrod.wind.models import WindLoadRequest

SIDES = ("front", "right", "rear", "left")
sizes = st.tuples(st.floats(5, 80), st.floats(5, 80), st.floats(3, 60)).filter(lambda box: box[2] <= 4.9 * min(box[:2]))
quick = settings(max_examples=60, deadline=None)


def site(box, **changes):
    breadth, depth, height = box
    building = {"breadth_m": breadth, "depth_m": depth, "height_m": height}
    made = {"kind": "basic_velocity", "fundamental_velocity_m_per_s": 25, "terrain": "II", "building": building}
    return {**made, **changes}


def faces(box):
    breadth, depth, height = box
    return [
        {
            "id": side,
            "width_mm": 1000 * (breadth if index % 2 == 0 else depth),
            "height_mm": 1000 * height,
            "face": {"side": side},
        }
        for index, side in enumerate(SIDES)
    ]


def answer(wind, elevations=()):
    return calculate(WindLoadRequest.model_validate({"wind": wind, "elevations": list(elevations)})).result


def suction_at(result, side, x_mm, y_mm):
    return next(
        row["suction_pa"]
        for row in result["envelope"]
        if row["elevation"] == side
        and row["x_from_mm"] - 0.001 <= x_mm <= row["x_to_mm"] + 0.001
        and row["y_from_mm"] - 0.001 <= y_mm <= row["y_to_mm"] + 0.001
    )


@quick
@given(sizes, st.floats(0.5, 2.0))
def test_pressures_grow_with_the_square_of_velocity(box, factor):
    slow, fast = (answer(site(box, fundamental_velocity_m_per_s=v), faces(box)) for v in (20, 20 * factor))
    for one, other in zip(slow["zones"], fast["zones"], strict=True):
        assert other["net_suction_pa"] == pytest.approx(one["net_suction_pa"] * factor**2, rel=1e-9)


@quick
@given(sizes)
def test_zones_of_each_direction_cover_each_face_once(box):
    found = answer(site(box), faces(box))
    for index, side in enumerate(SIDES):
        gross = round(1e7 * (box[0] if index % 2 == 0 else box[1])) * round(1e7 * box[2]) * 1e-14
        for direction in SIDES:
            rows = [row for row in found["zones"] if (row["elevation"], row["direction"]) == (side, direction)]
            assert math.fsum(row["area_m2"] for row in rows) == pytest.approx(gross, abs=1e-6)


@quick
@given(sizes, st.integers(0, 3), st.floats(0.01, 0.99), st.floats(0.01, 0.99))
def test_a_block_seen_in_a_mirror_has_mirrored_suction(box, index, along, up):
    """Left and right change places: a face's left end has the suction of the mirrored face's right end."""
    found = answer(site(box), faces(box))
    side, other = SIDES[index], SIDES[-index % 4] if index % 2 else SIDES[index]
    length = 1000 * (box[0] if index % 2 == 0 else box[1])
    here = suction_at(found, side, along * length, up * 1000 * box[2])
    there = suction_at(found, other, (1 - along) * length, up * 1000 * box[2])
    assert here == pytest.approx(there, rel=1e-9) or _near_a_limit(found, side, along * length)


def _near_a_limit(found, side, x_mm):
    ends = [x for row in found["envelope"] if row["elevation"] == side for x in (row["x_from_mm"], row["x_to_mm"])]
    return min(abs(x - x_mm) for x in ends) < 0.001


@quick
@given(sizes, st.sets(st.sampled_from(SIDES), min_size=1, max_size=3), st.integers(0, 3), st.floats(0, 1))
def test_another_direction_never_takes_from_the_envelope(box, few, index, along):
    some = answer(site(box, directions=sorted(few)), faces(box))
    every = answer(site(box), faces(box))
    x = along * 1000 * (box[0] if index % 2 == 0 else box[1])
    assert suction_at(every, SIDES[index], x, 1000) >= suction_at(some, SIDES[index], x, 1000) - 1e-9


@quick
@given(st.floats(4, 30), st.floats(1, 1.05))
def test_zones_change_smoothly_where_e_turns_from_breadth_to_height(height, step):
    """e = min(b, 2 h): just below and just above b = 2 h zone A is as long."""
    low, high = (answer(site((2 * height * f, 60, height)))["directions"][0]["edge_m"] for f in (1 / step, step))
    assert 2 * height / step - 1e-9 <= low <= high <= 2 * height + 1e-9


@quick
@given(sizes, st.floats(0.1, 30), st.floats(1, 4))
def test_suction_never_grows_with_the_loaded_area(box, area, factor):
    small, large = (answer(site(box, loaded_area_m2=a))["directions"][0]["coefficients"] for a in (area, area * factor))
    for one, other in zip(small, large, strict=True):
        assert abs(other["pressure_coefficient"]) <= abs(one["pressure_coefficient"]) + 1e-12
