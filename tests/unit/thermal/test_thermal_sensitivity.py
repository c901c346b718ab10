"""Sensitivities against derivatives by sympy, and by mpmath where a formula has no simple one."""

from typing import Any

import mpmath
import pytest
import sympy

from storeyrod.trace import Recorder
from thermal_requests import SHANK, WALL, air, answer_of, body, bridged, resistance, solid


def rows_of(document: dict[str, Any]) -> dict[str, dict[str, Any]]:
    answer = answer_of({**document, "sensitivity": True})
    return {row["input"]: row for row in answer.result["sensitivity"]}


def derivatives(expression: sympy.Expr, at: dict[str, float]) -> dict[str, float]:
    values = {sympy.Symbol(name): value for name, value in at.items()}
    return {name: float(sympy.diff(expression, sympy.Symbol(name)).subs(values)) for name in at}


PLAIN = {
    "/build_up/surface_internal_m2_k_per_w": ("si", 0.13, 1.0),
    "/build_up/layers/0/thickness_mm": ("d1", 0.215, 1e-3),
    "/build_up/layers/0/conductivity_w_per_m_k": ("l1", 0.77, 1.0),
    "/build_up/layers/1/thickness_mm": ("d2", 0.100, 1e-3),
    "/build_up/layers/1/conductivity_w_per_m_k": ("l2", 0.031, 1.0),
    "/build_up/layers/2/thickness_mm": ("d3", 0.025, 1e-3),
    "/build_up/layers/2/conductivity_w_per_m_k": ("l3", 0.90, 1.0),
    "/build_up/surface_external_m2_k_per_w": ("se", 0.04, 1.0),
}
"""Input: symbol, value in SI, and SI units in one of its own unit."""
FASTENED = PLAIN | {
    "/corrections/fasteners/conductivity_w_per_m_k": ("lf", 17.0, 1.0),
    "/corrections/fasteners/area_mm2": ("A", 19.634954e-6, 1e-6),
    "/corrections/fasteners/count_per_m2": ("n", 6.0, 1.0),
}
TOTAL = sympy.sympify("si + d1/l1 + d2/l2 + d3/l3 + se")
SHANKS = sympy.sympify("4*lf*A*n/(5*d2)") * (sympy.sympify("d2/l2") / TOTAL) ** 2


@pytest.mark.parametrize(
    ("inputs", "expression", "corrections"),
    [(PLAIN, 1 / TOTAL, None), (FASTENED, 1 / TOTAL + SHANKS, {"fasteners": SHANK})],
    ids=["plain", "fastened"],
)
def test_each_input_of_a_wall_agrees_with_the_derivative(inputs, expression, corrections):
    rows = rows_of(body(*WALL, corrections=corrections))
    at = {symbol: value for symbol, value, _ in inputs.values()}
    exact = derivatives(expression, at)
    u_value = float(expression.subs({sympy.Symbol(name): value for name, value in at.items()}))
    assert set(rows) == set(inputs)
    for pointer, (symbol, value, unit) in inputs.items():
        assert rows[pointer]["u_value_change_w_per_m2_k"] == pytest.approx(exact[symbol] * unit, rel=1e-8)
        assert rows[pointer]["relative_change_fraction"] == pytest.approx(exact[symbol] * value / u_value, rel=1e-8)


def test_values_come_in_the_unit_of_their_member():
    row = rows_of(body(*WALL))["/build_up/layers/1/thickness_mm"]
    assert (row["value"], row["unit"]) == (100.0, "mm")


def test_a_bridged_layer_agrees_with_the_derivative_of_the_mean_of_both_limits():
    upper = "1/(f/(R + ra) + (1 - f)/(R + rb))"
    expression = sympy.sympify(f"2/({upper} + R + 1/(f/ra + (1 - f)/rb))")
    exact = derivatives(expression, {"f": 0.15, "ra": 0.8, "rb": 2.5, "R": 0.17})
    rows = rows_of(body(bridged((0.15, 0.8), (0.85, 2.5))))
    here = "/build_up/layers/0/parts"
    assert rows[f"{here}/0/fraction"]["u_value_change_w_per_m2_k"] == pytest.approx(exact["f"], rel=1e-7)
    assert rows[f"{here}/1/fraction"]["u_value_change_w_per_m2_k"] == pytest.approx(-exact["f"], rel=1e-7)
    assert rows[f"{here}/0/resistance_m2_k_per_w"]["u_value_change_w_per_m2_k"] == pytest.approx(exact["ra"], rel=1e-7)
    assert rows["/build_up/surface_internal_m2_k_per_w"]["u_value_change_w_per_m2_k"] == pytest.approx(
        exact["R"], rel=1e-7
    )


def test_shares_in_line_move_together_and_have_one_row():
    expression = sympy.sympify(
        "2/(1/(f/(R + a + c) + (1 - f)/(R + b + d)) + R + 1/(f/a + (1 - f)/b) + 1/(f/c + (1 - f)/d))"
    )
    exact = derivatives(expression, {"f": 0.1, "a": 0.5, "b": 2.0, "c": 1.0, "d": 3.0, "R": 0.17})
    rows = rows_of(body(bridged((0.1, 0.5), (0.9, 2.0)), {**bridged((0.1, 1.0), (0.9, 3.0)), "in_line_with": 0}))
    assert rows["/build_up/layers/0/parts/0/fraction"]["u_value_change_w_per_m2_k"] == pytest.approx(
        exact["f"], rel=1e-7
    )
    assert not [
        pointer for pointer in rows if pointer.startswith("/build_up/layers/1/parts/") and "fraction" in pointer
    ]


def test_emissivity_of_an_air_layer_agrees_with_a_numerical_derivative():
    """1/(R + 1/(1.25 + h/(1/e + 1/0.9 - 1))) with h = 4 sigma 283.15^3, differentiated by mpmath."""
    black = 4 * mpmath.mpf("5.670374419e-8") * mpmath.mpf("283.15") ** 3
    rest = mpmath.mpf("0.17")

    def u_value(e):
        return 1 / (rest + 1 / (mpmath.mpf("1.25") + black / (1 / e + 1 / mpmath.mpf("0.9") - 1)))

    rows = rows_of(body(air(50.0, emissivity_inner=0.05)))
    got = rows["/build_up/layers/0/emissivity_inner"]["u_value_change_w_per_m2_k"]
    assert got == pytest.approx(float(mpmath.diff(u_value, mpmath.mpf("0.05"))), rel=1e-7)


def test_an_emissivity_of_one_has_a_row_too():
    assert rows_of(body(air(50.0, emissivity_inner=1.0)))["/build_up/layers/0/emissivity_inner"]["value"] == 1.0


def test_a_converted_conductivity_gives_rows_for_what_it_is_converted_by():
    """U = 1/(0.17 + d/(lambda exp(4 w))): relative change with w is w times 4 times R/R_T."""
    moisture = {"basis": "by_volume", "content_declared_fraction": 0.0, "content_design_fraction": 0.02}
    layer = {
        "kind": "declared", "name": "board", "thickness_mm": 100.0, "conductivity_declared_w_per_m_k": 0.036,
        "conversion": {"material": "expanded-polystyrene", "moisture": moisture},
    }  # fmt: skip
    share = float(0.1 / (0.036 * mpmath.exp("0.08")))
    row = rows_of(body(layer))["/build_up/layers/0/conversion/moisture/content_design_fraction"]
    assert row["relative_change_fraction"] == pytest.approx(0.08 * share / (0.17 + share), rel=1e-7)


def test_a_tabulated_conductivity_has_a_row_where_it_is_assumed():
    layer = {"kind": "material", "material": "osb-650", "thickness_mm": 12.0}
    rows = rows_of(body(layer, solid(100.0, 0.031)))
    assert rows["/build_up/layers/0/conductivity_w_per_m_k"]["value"] == 0.13


def test_an_input_of_nothing_has_a_change_and_no_relative_one():
    """chi of 0.01 and no fasteners: one more adds 0.01 where corrections count; here they add nothing and are left out."""
    fasteners = {"kind": "declared", "chi_w_per_k": 0.01, "count_per_m2": 0.0}
    row = rows_of(body(resistance(1.0), corrections={"fasteners": fasteners}))["/corrections/fasteners/count_per_m2"]
    assert (row["relative_change_fraction"], row["u_value_change_w_per_m2_k"]) == (0.0, 0.0)


def test_relative_changes_of_resistances_and_conductivities_add_up():
    """U is of degree -1 in all resistances together; thicknesses and surfaces stand for them where nothing is corrected."""
    rows = rows_of(body(*WALL))
    lengths = [row for pointer, row in rows.items() if pointer.endswith(("thickness_mm", "m2_k_per_w"))]
    assert sum(row["relative_change_fraction"] for row in lengths) == pytest.approx(-1.0, rel=1e-7)


@pytest.mark.parametrize("value", [1e-15, 1e-12, 1e-9, 1e-7, 1e-5, 1e-3])
def test_a_resistance_next_to_nothing_moves_u_as_any_other_does(value):
    """dU/dR is -U^2 whatever R: 0.140274 for 100 mm of 0.04 between the surfaces of a wall."""
    answer = answer_of({**body(resistance(value), solid(100.0, 0.04)), "sensitivity": True})
    rows = {row["input"]: row for row in answer.result["sensitivity"]}
    u_value = 1.0 / (0.17 + value + 2.5)
    row = rows["/build_up/layers/0/resistance_m2_k_per_w"]
    assert row["u_value_change_w_per_m2_k"] == pytest.approx(-(u_value**2), rel=3e-8)
    assert row["relative_change_fraction"] == pytest.approx(-u_value * value, rel=3e-8)
    assert row["unit"] == "m2_k_per_w"


def test_a_sheet_of_metal_moves_u_by_its_derivative():
    """A hundredth of a millimetre of 500 W/(m.K): dU/dd = -U^2/500, dU/dlambda = U^2 d/500^2."""
    rows = rows_of(body(solid(0.01, 500.0), solid(100.0, 0.04)))
    squared = 1.0 / (2.67 + 2e-8) ** 2
    assert rows["/build_up/layers/0/thickness_mm"]["u_value_change_w_per_m2_k"] == pytest.approx(
        -squared / 500.0 * 1e-3, rel=1e-6
    )
    assert rows["/build_up/layers/0/conductivity_w_per_m_k"]["u_value_change_w_per_m2_k"] == pytest.approx(
        squared * 1e-5 / 500.0**2, rel=1e-4
    )


@pytest.mark.parametrize("value", [1e-12, 1.0])
def test_the_working_names_the_member_that_moved(value):
    recorder = Recorder()
    answer_of({**body(resistance(value), solid(100.0, 0.04)), "sensitivity": True}, recorder)
    named = [step["clause"]["number"] for step in recorder.steps if "/build_up/layers/0" in step["clause"]["number"]]
    assert len(named) == (3 if value < 1e-3 else 2)
