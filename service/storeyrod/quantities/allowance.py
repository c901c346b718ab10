"""What is ordered: the need, cut waste included, and a share for breakage and loss. Nothing is rounded here."""

from storeyrod.quantities.decimals import written
from storeyrod.quantities.models import OrderUnit
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula


def _with_share(need: float, share: float) -> float:
    """Exact on the numbers as written, so that 3 with a tenth more is 3.3 and not the float after it."""
    return float(written(need) * (1 + written(share)))


@formula(
    symbol="q_order", expression="q*(1 + a)", unit="count", inputs={"q": "count", "a": "fraction"}, clause=GEOMETRY
)
def order_in_pieces(*, q: float, a: float) -> float:
    """Pieces to order for a need of q and a share of a."""
    return _with_share(q, a)


@formula(symbol="q_order", expression="q*(1 + a)", unit="l", inputs={"q": "l", "a": "fraction"}, clause=GEOMETRY)
def order_in_litres(*, q: float, a: float) -> float:
    """Litres to order for a need of q and a share of a."""
    return _with_share(q, a)


@formula(symbol="q_order", expression="q*(1 + a)", unit="kg", inputs={"q": "kg", "a": "fraction"}, clause=GEOMETRY)
def order_in_kilograms(*, q: float, a: float) -> float:
    """Kilograms to order for a need of q and a share of a."""
    return _with_share(q, a)


@formula(symbol="q_order", expression="q*(1 + a)", unit="m", inputs={"q": "m", "a": "fraction"}, clause=GEOMETRY)
def order_in_metres(*, q: float, a: float) -> float:
    """Metres to order for a need of q and a share of a."""
    return _with_share(q, a)


@formula(symbol="q_cut", expression="q - q_net", unit="count", inputs={"q": "count", "q_net": "count"}, clause=GEOMETRY)
def cut_waste(*, q: float, q_net: float) -> float:
    """What cutting adds to the net need q_net, where q pieces are used up."""
    return q - q_net


def ordered(unit: OrderUnit, need: float, share: float, trace: Trace) -> float:
    """Order for a need in a unit."""
    match unit:
        case "count":
            return trace.call(order_in_pieces, q=need, a=share)
        case "l":
            return trace.call(order_in_litres, q=need, a=share)
        case "kg":
            return trace.call(order_in_kilograms, q=need, a=share)
        case "m":
            return trace.call(order_in_metres, q=need, a=share)
