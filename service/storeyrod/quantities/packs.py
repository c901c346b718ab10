"""Whole packs for an order: the only rounding of a quantity, made last and upwards."""

import math
from typing import Final

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.quantities.decimals import written
from storeyrod.quantities.models import OrderUnit
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula


def _whole_packs(order: float, pack: float, tolerance: float) -> float:
    return float(max(0, math.ceil(written(order) / written(pack) - written(tolerance))))


_EXPRESSION: Final = "Max(0, ceiling(q_order/q_pack - tolerance))"


@formula(
    symbol="n_packs",
    expression=_EXPRESSION,
    unit="count",
    inputs={"q_order": "count", "q_pack": "count", "tolerance": "count"},
    clause=GEOMETRY,
)
def packs_of_pieces(*, q_order: float, q_pack: float, tolerance: float) -> float:
    """Packs of q_pack pieces."""
    return _whole_packs(q_order, q_pack, tolerance)


@formula(
    symbol="n_packs",
    expression=_EXPRESSION,
    unit="count",
    inputs={"q_order": "l", "q_pack": "l", "tolerance": "count"},
    clause=GEOMETRY,
)
def packs_of_litres(*, q_order: float, q_pack: float, tolerance: float) -> float:
    """Packs of q_pack litres."""
    return _whole_packs(q_order, q_pack, tolerance)


@formula(
    symbol="n_packs",
    expression=_EXPRESSION,
    unit="count",
    inputs={"q_order": "kg", "q_pack": "kg", "tolerance": "count"},
    clause=GEOMETRY,
)
def packs_of_kilograms(*, q_order: float, q_pack: float, tolerance: float) -> float:
    """Packs of q_pack kilograms."""
    return _whole_packs(q_order, q_pack, tolerance)


@formula(
    symbol="n_packs",
    expression=_EXPRESSION,
    unit="count",
    inputs={"q_order": "m", "q_pack": "m", "tolerance": "count"},
    clause=GEOMETRY,
)
def packs_of_metres(*, q_order: float, q_pack: float, tolerance: float) -> float:
    """Rolls of q_pack metres."""
    return _whole_packs(q_order, q_pack, tolerance)


def whole_packs(unit: OrderUnit, order: float, pack: float, trace: Trace) -> float:
    """Packs for an order in a unit, a whole number; none for an order of nothing."""
    guard = trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY)
    match unit:
        case "count":
            return trace.call(packs_of_pieces, q_order=order, q_pack=pack, tolerance=guard)
        case "l":
            return trace.call(packs_of_litres, q_order=order, q_pack=pack, tolerance=guard)
        case "kg":
            return trace.call(packs_of_kilograms, q_order=order, q_pack=pack, tolerance=guard)
        case "m":
            return trace.call(packs_of_metres, q_order=order, q_pack=pack, tolerance=guard)
