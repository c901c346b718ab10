"""Laws of width: linear in what moves, inverse in what the sealant can follow, and the same when heat and cold change places."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.movement_joints.movement import JointMovement, joint_movement
from storeyrod.movement_joints.movement_width import governing, longest_bay_for, width_for
from storeyrod.trace import SILENT
from storeyrod.wall.movement import Convention, Movement

QUICK = settings(max_examples=80, deadline=None)
conventions = st.sampled_from(["factor", "factor_plus_movement"])
bases = st.sampled_from(["total", "plus_minus"])
lengths = st.floats(0.5, 20.0)
percents = st.sampled_from([7.5, 12.5, 20.0, 25.0, 35.0, 50.0, 100.0])


@st.composite
def movements(draw: st.DrawFn, **fixed: Any) -> dict[str, Any]:
    low = draw(st.floats(-40.0, 20.0))
    high = draw(st.floats(low, 60.0))
    made = {
        "temperature_min_deg_c": low,
        "temperature_max_deg_c": high,
        "installation_temperature_deg_c": draw(st.one_of(st.none(), st.floats(low, high))),
        "expansion_um_per_m_k": draw(st.floats(0.1, 20.0)),
        "moisture_expansion_mm_per_m": draw(st.floats(0.0, 1.0)),
        "moisture_shrinkage_mm_per_m": draw(st.floats(0.0, 1.0)),
        "drift_mm": draw(st.floats(0.0, 5.0)),
        "tolerance_mm": draw(st.floats(0.0, 5.0)),
        "sealant": {"movement_capability": {"value_percent": draw(percents), "basis": draw(bases)}},
    }
    return {**made, **fixed}


def moved(given_movement: dict[str, Any], length: float) -> JointMovement:
    return joint_movement(Movement.model_validate(given_movement), length, SILENT)


def width(given_movement: dict[str, Any], length: float, convention: Convention) -> float:
    model = Movement.model_validate(given_movement)
    _, way = governing(model, joint_movement(model, length, SILENT))
    return width_for(way.movement, model, convention, SILENT)


@given(movements(drift_mm=0.0, tolerance_mm=0.0), lengths, conventions)
@QUICK
def test_twice_the_spacing_asks_for_twice_the_width(one: dict[str, Any], length: float, convention: Convention) -> None:
    assert width(one, 2 * length, convention) == pytest.approx(2 * width(one, length, convention))


@given(movements(moisture_expansion_mm_per_m=0.0, moisture_shrinkage_mm_per_m=0.0, drift_mm=0.0, tolerance_mm=0.0),
       lengths, conventions, st.floats(0.1, 4.0))  # fmt: skip
@QUICK
def test_width_is_linear_in_the_coefficient(
    one: dict[str, Any], length: float, convention: Convention, times: float
) -> None:
    other = {**one, "expansion_um_per_m_k": one["expansion_um_per_m_k"] * times}
    assert width(other, length, convention) == pytest.approx(times * width(one, length, convention))


@given(lengths, conventions, bases, st.floats(1.0, 50.0))
@QUICK
def test_width_is_linear_in_the_range_of_temperature(
    length: float, convention: Convention, basis: str, kelvins: float
) -> None:
    def ranged(high: float) -> dict[str, Any]:
        capability = {"value_percent": 25.0, "basis": basis}
        return {
            "temperature_min_deg_c": 0.0, "temperature_max_deg_c": high, "expansion_um_per_m_k": 6.0,
            "sealant": {"movement_capability": capability},
        }  # fmt: skip

    assert width(ranged(2 * kelvins), length, convention) == pytest.approx(
        2 * width(ranged(kelvins), length, convention)
    )


@given(movements(tolerance_mm=0.0), lengths, bases)
@QUICK
def test_half_the_capability_asks_for_twice_the_width_by_the_factor(
    one: dict[str, Any], length: float, basis: str
) -> None:
    full, half = (
        {**one, "sealant": {"movement_capability": {"value_percent": percent, "basis": basis}}} for percent in (50, 25)
    )
    assert width(half, length, "factor") == pytest.approx(2 * width(full, length, "factor"))


@given(movements(), lengths)
@QUICK
def test_the_two_conventions_differ_by_the_movement(one: dict[str, Any], length: float) -> None:
    model = Movement.model_validate(one)
    _, way = governing(model, moved(one, length))
    more = width(one, length, "factor_plus_movement") - width(one, length, "factor")
    assert more == pytest.approx(way.movement, abs=1e-9)


@given(movements(expansion_um_per_m_k=0.0, moisture_expansion_mm_per_m=0.0, moisture_shrinkage_mm_per_m=0.0, drift_mm=0.0),
       lengths, conventions)  # fmt: skip
@QUICK
def test_no_movement_asks_for_the_tolerance_only(one: dict[str, Any], length: float, convention: Convention) -> None:
    assert width(one, length, convention) == one["tolerance_mm"]


@given(movements(), lengths)
@QUICK
def test_heat_for_cold_and_wet_for_dry_change_closing_for_opening(one: dict[str, Any], length: float) -> None:
    made = one["installation_temperature_deg_c"]
    turned = {
        **one,
        "temperature_min_deg_c": -one["temperature_max_deg_c"],
        "temperature_max_deg_c": -one["temperature_min_deg_c"],
        "installation_temperature_deg_c": None if made is None else -made,
        "moisture_expansion_mm_per_m": one["moisture_shrinkage_mm_per_m"],
        "moisture_shrinkage_mm_per_m": one["moisture_expansion_mm_per_m"],
    }
    here, there = moved(one, length), moved(turned, length)
    assert here.closing.movement == pytest.approx(there.opening.movement)
    assert here.opening.movement == pytest.approx(there.closing.movement)
    assert here.total.movement == pytest.approx(there.total.movement)


@given(movements(), lengths)
@QUICK
def test_total_movement_does_not_depend_on_when_joints_were_sealed(one: dict[str, Any], length: float) -> None:
    told = moved(one, length)
    silent = moved({**one, "installation_temperature_deg_c": None}, length)
    assert told.total.movement == pytest.approx(silent.total.movement)
    if one["installation_temperature_deg_c"] is not None:
        assert told.total.movement == pytest.approx(told.closing.movement + told.opening.movement)
    assert silent.closing.movement >= told.closing.movement
    assert silent.opening.movement >= told.opening.movement


@given(movements(), lengths, conventions)
@QUICK
def test_the_longest_bay_for_a_width_moves_as_much_as_that_width_serves(
    one: dict[str, Any], length: float, convention: Convention
) -> None:
    model = Movement.model_validate(one)
    _, way = governing(model, moved(one, length))
    if way.strain < 1e-3:
        return
    needed = width(one, length, convention)
    assert longest_bay_for(needed, model, way, convention, SILENT) == pytest.approx(length, rel=1e-6, abs=1e-6)
