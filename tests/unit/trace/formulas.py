"""Every formula of the package, found by walking its modules, with inputs to try it on."""

import importlib
import math
import pkgutil
import random
from collections.abc import Iterator
from typing import Any, Final

import sympy

import storeyrod
from storeyrod.trace import Formula

_FUNCTIONS: Final = {
    name: getattr(sympy, name)
    for name in ("sqrt", "log", "exp", "acos", "asin", "atan", "sin", "cos", "tan", "Min", "Max", "ceiling", "floor", "Abs", "pi")
}  # fmt: skip

RANGES: Final = {
    "mm": (1.0, 5000.0), "mm2": (1.0, 1e6), "m": (0.1, 50.0), "m2": (0.1, 500.0), "m3": (0.001, 5.0),
    "ml": (1.0, 1e4), "l": (0.1, 1e3), "l_per_m2": (0.1, 50.0), "ml_per_m": (1.0, 500.0), "kg": (0.1, 1e4),
    "kg_per_m2": (0.1, 100.0), "kg_per_m3": (100.0, 3000.0), "w_per_m_k": (0.02, 3.0), "m2_k_per_w": (0.02, 6.0),
    "w_per_m2_k": (0.1, 10.0), "w_per_k": (0.0001, 0.01), "k": (250.0, 320.0), "deg_c": (-20.0, 40.0),
    "deg": (0.1, 89.0), "fraction": (0.02, 0.98), "percent": (1.0, 99.0), "count": (1.0, 60.0), "per_m2": (0.5, 60.0),
    "per_m": (0.1, 20.0), "per_k": (0.001, 0.1),
}  # fmt: skip
"""Where inputs of each unit are drawn from; units not named here are drawn from 0.5 to 50."""


def modules() -> Iterator[Any]:
    """Every module of the package below its entry point."""
    for found in pkgutil.walk_packages(storeyrod.__path__, "storeyrod."):
        if not found.name.endswith("__main__"):
            yield importlib.import_module(found.name)


def formulas() -> list[Formula[Any]]:
    """Every formula, once, by name."""
    found = {value.name: value for module in modules() for value in vars(module).values() if isinstance(value, Formula)}
    return [found[name] for name in sorted(found)]


def parsed(formula: Formula[Any]) -> sympy.Expr:
    """The printed expression as sympy reads it: the inputs are its only symbols."""
    names = {symbol: sympy.Symbol(symbol, real=True) for symbol in formula.inputs}
    return sympy.sympify(formula.expression, locals={**_FUNCTIONS, **names})


def drawn(formula: Formula[Any], seed: int) -> dict[str, float] | None:
    """Inputs inside the ranges, and inside the formula's own validity; none where the formula has no value there."""
    chance = random.Random(f"{formula.name} {seed}")
    for _ in range(200):
        inputs = {symbol: _one(formula, symbol, unit, chance) for symbol, unit in formula.inputs.items()}
        try:
            value = formula(**inputs)
        except (ValueError, ZeroDivisionError):
            continue
        if math.isfinite(value):
            return inputs
    return None


def _one(formula: Formula[Any], symbol: str, unit: str, chance: random.Random) -> float:
    low, high = RANGES.get(unit, (0.5, 50.0))
    if symbol in formula.validity:
        valid_low, valid_high = formula.validity[symbol]
        low, high = max(low, valid_low), min(high, valid_high)
        if low > high:
            low, high = valid_low, valid_high
    value = chance.uniform(low, high)
    return float(round(value)) if unit == "count" else value
