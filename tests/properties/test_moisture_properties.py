"""What holds for moisture in every section: balance of vapour, symmetry, division of layers, and agreement with another method."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from moisture_requests import air, answer_of, body, by_class, monthly, resistance, steady
from properties import moisture_oracle as oracle
from storeyrod.findings import Refusal
from storeyrod.moisture.calculation import moisture_working
from storeyrod.moisture.humid_air import dew_point, saturation, saturation_constants
from storeyrod.moisture.models import CondensationRequest
from storeyrod.moisture.section import Compartment
from storeyrod.moisture.vapour_string import pressures_between, rates, strung
from storeyrod.trace import SILENT, Recorder

quick = settings(max_examples=60, deadline=None)
KNOWN = saturation_constants(SILENT)
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)

temperatures = st.floats(-40.0, 40.0)
humidities = st.floats(0.05, 1.0)
resistances = st.floats(0.01, 3.0)
thicknesses = st.floats(0.01, 20.0)
plain_layers = st.lists(st.tuples(resistances, thicknesses), min_size=1, max_size=5)
airs = st.builds(air, st.floats(-20.0, 30.0), humidities)
different_months = st.lists(airs, min_size=12, max_size=12, unique_by=lambda one: one["temperature_deg_c"])
swings = st.tuples(st.floats(-8.0, 12.0), st.floats(1.0, 12.0), st.floats(0.5, 0.95))


def section(layers):
    return [resistance(value, sd) for value, sd in layers]


def seasons(mean, swing, humidity):
    """Outdoor air that is coldest in January."""
    shape = (-1.0, -0.87, -0.5, 0.0, 0.5, 0.87, 1.0, 0.87, 0.5, 0.0, -0.5, -0.87)
    return [air(mean + swing * one, humidity) for one in shape]


def working(layers, climate, **more):
    return moisture_working(CondensationRequest.model_validate(body(section(layers), climate, **more)))


@quick
@given(temperatures, st.floats(0.001, 10.0))
def test_saturation_pressure_rises_with_temperature(temperature, more):
    assert saturation(temperature, KNOWN, SILENT) < saturation(temperature + more, KNOWN, SILENT)


@quick
@given(temperatures)
def test_the_dew_point_undoes_saturation(temperature):
    assert dew_point(saturation(temperature, KNOWN, SILENT), KNOWN, SILENT) == pytest.approx(temperature, abs=1e-9)


@quick
@given(plain_layers, st.tuples(st.floats(0.01, 0.25), thicknesses), st.floats(0.1, 0.9), airs, airs)
def test_vapour_resistance_adds_up_and_a_layer_cut_in_two_passes_the_same_vapour(layers, last, share, inside, outside):
    whole = [*layers, last]
    cut = [*layers, *((last[0] * part, last[1] * part) for part in (share, 1 - share))]
    results = [answer_of(body(section(one), steady(inside, outside))).result for one in (whole, cut)]
    for result in results:
        assert result["vapour_sd_total_m"] == pytest.approx(sum(sd for _, sd in whole), rel=1e-12)
    made = working(whole, steady(inside, outside))
    assume(not made.course.condenses and not working(cut, steady(inside, outside)).course.condenses)
    flows = [result["condensation"]["balances"][0]["flux_in_kg_per_m2_s"] for result in results]
    assert flows[1] == pytest.approx(flows[0], rel=1e-9, abs=1e-20)


@quick
@given(plain_layers, airs, airs)
def test_climates_exchanged_turn_the_flow_round_where_nothing_condenses(layers, inside, outside):
    there, back = (working(layers, steady(*pair)) for pair in ((inside, outside), (outside, inside)))
    assume(not there.course.condenses and not back.course.condenses)
    assume(max(inside["humidity_fraction"], outside["humidity_fraction"]) < 0.99)
    flows = [
        answer_of(body(section(layers), steady(*pair))).result["condensation"]["balances"][0]["flux_in_kg_per_m2_s"]
        for pair in ((inside, outside), (outside, inside))
    ]
    # At a surface colder than its air the string ends at saturation, and the two flows may part.
    surfaces = [one.pressures[0][end] for one in (there, back) for end in (0, -1)]
    airs_ = [one.periods[0].pressures[end] for one in (there, back) for end in (0, 1)]
    assume(surfaces == airs_)
    assert flows[0] == pytest.approx(-flows[1], rel=1e-9, abs=1e-24)


@quick
@given(plain_layers, airs, airs, st.floats(0.05, 0.3), st.floats(0.02, 0.2))
def test_a_section_turned_round_between_climates_exchanged_holds_the_same_moisture(layers, inside, outside, one, other):
    surfaces = ("surface_internal_m2_k_per_w", "surface_external_m2_k_per_w")
    there = working(layers, steady(inside, outside), build_up=dict(zip(surfaces, (one, other), strict=True)))
    back = working(layers[::-1], steady(outside, inside), build_up=dict(zip(surfaces, (other, one), strict=True)))
    assert back.course.greatest == pytest.approx(there.course.greatest, rel=1e-6, abs=1e-9)


@quick
@given(plain_layers, st.floats(-10.0, 30.0), humidities)
def test_nothing_condenses_between_equal_airs(layers, temperature, humidity):
    assert not working(layers, steady(air(temperature, humidity), air(temperature, humidity))).course.condenses


@quick
@given(plain_layers, airs, airs)
def test_what_comes_in_and_does_not_go_out_condenses(layers, inside, outside):
    balance = answer_of(body(section(layers), steady(inside, outside))).result["condensation"]["balances"][0]
    stays = (balance["flux_in_kg_per_m2_s"] - balance["flux_out_kg_per_m2_s"]) * 30 * 86400
    assert balance["condensed_kg_per_m2"] == pytest.approx(stays, rel=1e-6, abs=1e-9)


@quick
@given(plain_layers, airs, airs)
def test_vapour_pressure_is_nowhere_over_saturation(layers, inside, outside):
    made = working(layers, steady(inside, outside))
    for pressure, most in zip(made.pressures[0], made.course.profiles[0].saturations, strict=True):
        assert pressure <= most * (1 + 2e-9)


@quick
@given(plain_layers, airs, airs, st.floats(0.1, 20.0))
def test_more_vapour_resistance_inside_lets_no_more_condense_in_heated_rooms(layers, inside, outside, more):
    assume(inside["temperature_deg_c"] > outside["temperature_deg_c"])
    before = working(layers, steady(inside, outside))
    assume(before.pressures[0][0] == before.periods[0].indoor.pressure)
    retarded = working([(0.0, more), *layers], steady(inside, outside))
    assert retarded.course.greatest <= before.course.greatest * (1 + 1e-9) + 1e-9


@st.composite
def strings(draw):
    """Depths that rise, saturation pressures that rise or fall all the way as temperatures do, and pressures of two airs."""
    count = draw(st.integers(3, 25))
    depths, saturations = [0.0], []
    for _ in range(count - 1):
        depths.append(depths[-1] + draw(st.floats(0.01, 5.0)))
    saturations = sorted((draw(st.floats(200.0, 2500.0)) for _ in range(count)), reverse=draw(st.booleans()))
    ends = (draw(st.floats(50.0, 2500.0)), draw(st.floats(50.0, 2500.0)))
    return depths, saturations, ends


@quick
@given(strings())
def test_the_string_is_the_highest_convex_curve_under_saturation(case):
    """Linear programme: the greatest sum of pressures that nowhere bends downwards and nowhere passes saturation."""
    depths, saturations, ends = case
    count = len(depths)
    inner, outer = min(ends[0], saturations[0]), min(ends[1], saturations[-1])
    slopes = []
    for at in range(1, count - 1):
        row = [0.0] * count
        left, right = depths[at] - depths[at - 1], depths[at + 1] - depths[at]
        row[at - 1], row[at], row[at + 1] = -1 / left, 1 / left + 1 / right, -1 / right
        slopes.append(row)
    bounds = [(None, most) for most in saturations]
    bounds[0], bounds[-1] = (inner, inner), (outer, outer)
    best = linprog([-1.0] * count, A_ub=slopes, b_ub=[0.0] * len(slopes), bounds=bounds, method="highs")
    assert best.status == 0
    found = strung(Compartment(0, count - 1, True, True), depths, saturations, ends)
    assert pressures_between(found, depths) == pytest.approx(list(best.x), rel=1e-6)


@quick
@given(strings())
def test_planes_on_the_string_gain_moisture_and_no_others(case):
    depths, saturations, ends = case
    found = strung(Compartment(0, len(depths) - 1, True, True), depths, saturations, ends)
    for plane, rate in rates(found, depths):
        assert rate > 0.0
        assert found.pressures[found.knots.index(plane)] == saturations[plane]


def months_of(made):
    return [(*period.temperatures, *period.pressures, period.seconds) for period in made.periods]


@settings(max_examples=25, deadline=None)
@given(plain_layers, swings, st.sampled_from([2, 3, 4, 5]), st.integers(0, 11))
def test_a_year_is_the_last_of_many_by_linear_systems_in_which_planes_go_on_and_off(layers, climate, number, start):
    """Whichever month the many years begin with."""
    made = working(layers, monthly(by_class(number, temperature_deg_c=25.0), outdoor=seasons(*climate)))
    greatest, remaining = oracle.settled(oracle.years(layers, months_of(made), start=start), layers)
    assert made.course.remaining == pytest.approx(remaining, rel=1e-5, abs=1e-7)
    for plane in range(len(greatest)):
        assert made.course.greatest_at(plane) == pytest.approx(greatest[plane], rel=1e-5, abs=1e-6)


@settings(max_examples=30, deadline=None)
@given(plain_layers, different_months, st.integers(1, 11), st.floats(0.3, 0.7))
def test_no_month_is_the_beginning_of_the_year(layers, outdoors, turn, humidity):
    """Months that begin elsewhere in the same round give the same amounts in the same months.

    No two months are alike: of equal ones none is the driest, and a plane that never dries may be counted from either.
    """
    indoors = {"kind": "constant", **air(31.0, humidity)}
    here, there = (
        working(layers, monthly(indoors, outdoor=[{**one, "days": 30} for one in outdoor]))
        for outdoor in (outdoors, outdoors[turn:] + outdoors[:turn])
    )
    assert there.course.verdict == here.course.verdict
    assert there.course.remaining == pytest.approx(here.course.remaining, rel=1e-9, abs=1e-12)
    for at, moment in enumerate(there.course.moments):
        assert moment.held == pytest.approx(here.course.moments[(at + turn) % 12].held, rel=1e-9, abs=1e-12)
    for plane in here.greatest:
        first, again = (one.moments[one.course.start_of(plane)].held[plane] for one in (here, there))
        assert again == pytest.approx(first, rel=1e-9, abs=1e-12)


any_layer = st.one_of(
    st.builds(resistance, st.floats(0.0, 3.0), st.one_of(st.just(0.0), st.floats(1e-7, 1e5))),
    st.builds(lambda value: resistance(value, vapour_tight=True), st.floats(0.0, 1.0)),
    st.builds(lambda mm: {"kind": "air", "thickness_mm": mm, "ventilation": "none"}, st.floats(1.0, 300.0)),
    st.just({"kind": "air", "thickness_mm": 25.0, "ventilation": "strong"}),
    st.builds(
        lambda key: {"kind": "material", "material": key, "thickness_mm": 20.0},
        st.sampled_from(["osb-650", "steel", "dense-plaster", "cork-tiles"]),
    ),
)
any_climate = st.one_of(
    st.builds(steady, airs, airs, st.floats(1.0, 100.0)),
    st.builds(
        lambda inside, outside, days, later: steady(
            inside, outside, drying={"days": days, "indoor": later, "outdoor": later}
        ),
        airs,
        airs,
        st.floats(1.0, 100.0),
        airs,
    ),
    st.builds(lambda swing, number: monthly(by_class(number), outdoor=seasons(*swing)), swings, st.integers(1, 5)),
)


def outcome(document, trace=SILENT):
    try:
        return answer_of(document, trace)
    except Refusal as refusal:
        return refusal


@settings(max_examples=100, deadline=None)
@given(st.lists(any_layer, min_size=1, max_size=5), any_climate, st.floats(0.0, 0.05))
def test_any_valid_request_is_answered_or_refused_and_its_trace_links_everything(layers, climate, film):
    document = body(layers, climate, surface_vapour={"internal_sd_m": film, "external_sd_m": film})
    silent = outcome(document)
    if isinstance(silent, Refusal):
        assert silent.faults[0].pointer.startswith(("/build_up", "/climate"))
        return
    recorder = Recorder()
    traced = answer_of(document, recorder)
    assert traced.findings == silent.findings
    origins = [row["from"] for step in recorder.steps for row in step["inputs"]]
    assert "caller" not in origins
    values = {step["id"]: step["value"] for step in recorder.steps}
    for step, shown in figures_with_steps(traced.result["condensation"]):
        assert values[step] == pytest.approx(shown, rel=1e-12, abs=1e-15)


def figures_with_steps(found):
    """Steps named in an answer, each with the figure that it stands beside."""
    if "remaining_working" in found:
        yield found["remaining_working"], found["remaining_kg_per_m2"]
    for row in found["balances"]:
        yield row["flux_in_working"], row["flux_in_kg_per_m2_s"]
        yield row["flux_out_working"], row["flux_out_kg_per_m2_s"]
        if "working" in row:
            yield row["working"], row["accumulated_kg_per_m2"]
            yield row["condensed_working"], row["condensed_kg_per_m2"]
    for plane in found["interfaces"]:
        if "depth_working" in plane:
            yield plane["depth_working"], plane["depth_fraction"]
        for row in plane["months"]:
            if "condensed_working" in row:
                yield row["condensed_working"], row["condensed_kg_per_m2"]
            if "working" in row:
                wet = "condensed_working" in row
                yield row["working"], row["accumulated_kg_per_m2"] if wet else row["vapour_pressure_pa"]
