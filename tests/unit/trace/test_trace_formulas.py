"""Three promises of every formula: what it prints is what it computes, its dimension holds, and its range is kept."""

import inspect
import math
from typing import Any

import pint
import pytest
import sympy

from storeyrod.findings import Refusal
from storeyrod.trace import Formula
from storeyrod.units import REGISTRY, UNITS
from unit.trace.formulas import drawn, formulas, parsed

EVERY = pytest.mark.parametrize("formula", formulas(), ids=lambda formula: formula.name)
TRIES = 25


def test_there_are_formulas() -> None:
    assert len(formulas()) > 10


def test_two_formulas_never_share_a_name() -> None:
    from unit.trace.formulas import modules

    functions: dict[str, set[Any]] = {}
    for module in modules():
        for value in vars(module).values():
            if isinstance(value, Formula):
                functions.setdefault(value.name, set()).add(value.function)
    assert {name for name, found in functions.items() if len(found) > 1} == set()


@EVERY
def test_the_inputs_declared_are_the_arguments_of_the_code(formula: Formula[Any]) -> None:
    parameters = inspect.signature(formula.function).parameters
    assert list(parameters) == list(formula.inputs)
    assert {parameter.kind for parameter in parameters.values()} <= {inspect.Parameter.KEYWORD_ONLY}
    assert set(formula.validity) <= set(formula.inputs)


@EVERY
def test_the_expression_names_every_input_and_nothing_else(formula: Formula[Any]) -> None:
    assert {symbol.name for symbol in parsed(formula).free_symbols} == set(formula.inputs)


@EVERY
def test_the_printed_expression_equals_the_code(formula: Formula[Any]) -> None:
    expression = parsed(formula)
    printed = sympy.lambdify([sympy.Symbol(name, real=True) for name in formula.inputs], expression, "mpmath")
    compared = 0
    for seed in range(TRIES):
        inputs = drawn(formula, seed)
        if inputs is None:
            continue
        assert float(printed(*inputs.values())) == pytest.approx(formula(**inputs), rel=1e-8, abs=1e-9)
        compared += 1
    assert compared > TRIES // 2, "no inputs found for which the formula has a value"


@EVERY
def test_the_code_gives_a_float(formula: Formula[Any]) -> None:
    inputs = drawn(formula, 0)
    assert inputs is not None
    assert type(formula(**inputs)) is float


@EVERY
def test_the_dimension_of_the_expression_is_the_declared_unit(formula: Formula[Any]) -> None:
    inputs = drawn(formula, 1)
    assert inputs is not None
    quantities = {name: _quantity(inputs[name], unit) for name, unit in formula.inputs.items()}
    result = _evaluated(parsed(formula), quantities)
    declared = _quantity(1.0, formula.unit)
    assert result.dimensionality == declared.dimensionality, f"{formula.expression} is {result.dimensionality}"
    in_declared = result.to(declared.units).magnitude
    assert in_declared == pytest.approx(formula(**inputs), rel=1e-8, abs=1e-9)


@EVERY
def test_outside_its_validity_the_formula_refuses_and_names_the_range(formula: Formula[Any]) -> None:
    for symbol, (low, high) in formula.validity.items():
        inputs = drawn(formula, 2)
        assert inputs is not None
        for beyond in (low - 1e-6 * max(1.0, abs(low)), high + 1e-6 * max(1.0, abs(high))):
            with pytest.raises(Refusal, match="outside-validity") as caught:
                formula(**{**inputs, symbol: beyond})
            assert symbol in caught.value.detail


@EVERY
def test_on_the_limits_of_its_validity_the_formula_has_a_value(formula: Formula[Any]) -> None:
    inputs = drawn(formula, 2)
    assert inputs is not None
    for symbol, limits in formula.validity.items():
        # A limit of zero is where a quotient has its pole; the bounds of the request fields keep clear of it.
        for limit in (one for one in limits if one != 0.0):
            assert math.isfinite(formula(**{**inputs, symbol: limit}))


def _quantity(value: float, code: str) -> Any:
    """A value with its unit; a temperature on the Celsius scale enters an expression only as what it is: kelvins apart."""
    expression = UNITS[code].pint_expression
    if code == "deg_c":
        return REGISTRY.Quantity(value, "delta_degree_Celsius")
    return REGISTRY.Quantity(value, expression)


def _evaluated(node: sympy.Basic, values: dict[str, Any]) -> Any:
    """Walks the expression with quantities: sums need equal dimensions, functions and exponents need none."""
    if isinstance(node, sympy.Symbol):
        return values[node.name]
    if node.is_number:
        return REGISTRY.Quantity(float(node), "dimensionless")
    arguments = [_evaluated(argument, values) for argument in node.args]
    return _combined(node, arguments)


def _combined(node: sympy.Basic, arguments: list[Any]) -> Any:
    if isinstance(node, sympy.Add):
        return _summed(node, arguments)
    if isinstance(node, sympy.Mul):
        product = arguments[0]
        for argument in arguments[1:]:
            product = product * argument
        return product
    if isinstance(node, sympy.Pow):
        power, exponent = arguments
        return power ** exponent.to("dimensionless").magnitude
    if isinstance(node, sympy.Min | sympy.Max):
        chosen = min if isinstance(node, sympy.Min) else max
        return chosen(argument.to(arguments[0].units) for argument in arguments)
    if isinstance(node, sympy.Abs):
        return abs(arguments[0])
    plain = [argument.to("radian" if _is_angle(argument) else "dimensionless").magnitude for argument in arguments]
    value = float(node.func(*plain))
    return REGISTRY.Quantity(
        value, "radian" if isinstance(node, sympy.asin | sympy.acos | sympy.atan) else "dimensionless"
    )


def _is_angle(quantity: Any) -> bool:
    return bool(quantity.units in (REGISTRY.degree, REGISTRY.radian))


def _summed(node: sympy.Basic, arguments: list[Any]) -> Any:
    total = arguments[0]
    for argument in arguments[1:]:
        try:
            total = total + argument
        except pint.DimensionalityError as error:
            raise AssertionError(f"{node} adds {total.dimensionality} and {argument.dimensionality}") from error
    return total
