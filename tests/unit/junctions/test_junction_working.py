"""The working of a junction: every figure of the answer has a step, and what the solver gave leads to boundaries."""

import pytest

from junction_requests import WALL, answered, boundary, detail, square
from storeyrod.trace import Recorder

POINTS = [{"id": "middle", "x_mm": 50, "y_mm": 50}]
CASES = [{"id": "night", "temperatures": [{"environment": "out", "temperature_deg_c": -10}]}]
QUICK = {"effort": "quick"}
THIRD = boundary(0, 0, 0, 100, temperature=10, resistance=0.13, environment="stair")
NOT_SOLVED = {"x_mm", "y_mm", "x_from_mm", "y_from_mm", "x_to_mm", "y_to_mm", "width_mm", "height_mm"}
"""Places are not calculated."""


def worked(request):
    trace = Recorder()
    return answered(request, trace).result, trace.steps


def drawn(**more):
    return {**square(points=POINTS, cases=CASES, **more), "options": QUICK}


def three():
    foot, head, _, side = square()["junction"]["boundaries"]
    return drawn(boundaries=[foot, head, THIRD, side])


def figures(value, name=""):
    """All numbers of a result with the name of their member, but for those of the mesh and of places."""
    if isinstance(value, dict):
        for member, inner in value.items():
            if member not in ("mesh", "rectangles", *NOT_SOLVED):
                yield from figures(inner, member)
    elif isinstance(value, list):
        for inner in value:
            yield from figures(inner, name)
    elif isinstance(value, float):
        yield name, value


REQUESTS = {
    "drawn": drawn(),
    "three environments": three(),
    "jamb": {**detail("jamb", WALL, QUICK), "junction": {**detail("jamb")["junction"], "points": [{"id": "p", "x_mm": -9, "y_mm": 40}]}},
    "fastener": detail("point_fastener", WALL, QUICK),
}  # fmt: skip


@pytest.mark.parametrize("name", REQUESTS)
def test_every_figure_has_a_step_or_stands_in_the_request(name):
    result, steps = worked(REQUESTS[name])
    known = [step["value"] for step in steps] + [one["value"] for step in steps for one in step["inputs"]]
    # members of the working are in metres
    known += [1000 * value for value in known]

    # the balance is printed to twelve decimals
    missing = [
        (member, value) for member, value in figures(result) if not any(abs(value - one) <= 1e-9 for one in known)
    ]
    assert missing == []


def solved(steps, symbol):
    return [step for step in steps if step["kind"] == "solved" and step["symbol"] == symbol]


def test_heat_through_a_boundary_says_on_how_many_nodes_and_leads_to_its_temperature_and_resistance():
    result, steps = worked(drawn())
    first = solved(steps, "Phi")[0]

    assert first["expression"] == f"heat into the section through in, on {result['mesh']['nodes_count']} nodes"
    assert first["value"] == result["boundaries"][0]["heat_flow_w_per_m"]
    assert [one["from"] for one in first["inputs"]] == [
        "/junction/boundaries/0/temperature_deg_c",
        "/junction/boundaries/0/surface_resistance_m2_k_per_w",
    ]


def test_the_coldest_temperature_says_where_it_is():
    result, steps = worked(drawn())
    plain, mould = solved(steps, "theta_si")

    assert f"at x {result['coldest']['x_mm']:g}, y 0 mm" in plain["expression"]
    assert [one["symbol"] for one in mould["inputs"]] == ["theta_i", "theta_e", "R_si"]


def test_the_resistance_for_mould_is_an_input_of_every_figure_that_has_it():
    _, steps = worked(drawn())
    (read,) = [step for step in steps if step["kind"] == "lookup" and step["value"] == 0.25]

    assert [step["symbol"] for step in steps if any(one["from"] == read["id"] for one in step["inputs"])] == [
        "f_Rsi",
        "theta_si",
    ]


def test_the_change_compares_two_meshes():
    result, steps = worked(detail("jamb", WALL, QUICK))
    (change,) = solved(steps, "change")
    before, after = (one["value"] for one in change["inputs"])

    assert change["value"] == result["mesh"]["change_fraction"] == pytest.approx(abs(after - before) / after)


def test_couplings_of_three_environments_lead_to_a_boundary_of_each():
    _, steps = worked(three())
    first = solved(steps, "L_2D")[0]

    assert first["expression"].startswith("heat into out with in 1 K above all others, on ")
    assert [one["from"] for one in first["inputs"]] == [
        f"/junction/boundaries/{at}/surface_resistance_m2_k_per_w" for at in (0, 1)
    ]


def test_a_case_leads_to_its_temperature():
    _, steps = worked(drawn())
    of_case = [step for step in steps if step["expression"].startswith("case night")]

    assert [step["symbol"] for step in of_case] == ["Phi", "Phi", "theta"]
    assert of_case[1]["inputs"][0]["from"] == "/junction/cases/0/temperatures/0/temperature_deg_c"
