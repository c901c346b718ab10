"""Base trim: the level runs of the foot of the cladding, their steps, and the stock lengths they are cut from."""

import math
from collections.abc import Sequence
from itertools import pairwise

from storeyrod.geometry.ticks import ROUNDING_GUARD, millimetres, ticks
from storeyrod.quantities.lines import Need
from storeyrod.quantities.models import BaseTrim, TrimRun, TrimStock
from storeyrod.quantities.stock_cutting import Stock, cut_from_stock
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face
from storeyrod.wall.system import System

STOP_ENDS_AT_STEP = 2
"""One closes the lower run, one the upper."""


@formula(symbol="q_net", expression="L/s", unit="count", inputs={"L": "m", "s": "m"}, clause=GEOMETRY)
def stock_lengths(*, L: float, s: float) -> float:  # noqa: N803  symbol of the formula
    """Stock lengths of s in a length L, without cut waste."""
    return L / s


@formula(
    symbol="n_least",
    expression="ceiling(q - tolerance)",
    unit="count",
    inputs={"q": "count", "tolerance": "count"},
    clause=GEOMETRY,
)
def least_lengths(*, q: float, tolerance: float) -> float:
    """Whole stock lengths that no cutting can do without."""
    return math.ceil(q - tolerance)


def base_trim_of(faces: Sequence[Face], system: System, trace: Trace) -> tuple[BaseTrim, Need]:
    """Trim of some faces, cut together, and what is used up."""
    runs = [(face, run) for face in faces for run in face.base_runs()]
    stock_mm = system.trims.base_stock_mm
    plan = cut_from_stock([right - left for _, (left, right, _) in runs], ticks(stock_mm), ticks(system.trims.kerf_mm))
    length = _length(runs, trace)
    stock = trace.given(stock_mm * METRES_PER_MILLIMETRE, "/system/trims/base_stock_mm")
    net = trace.call(stock_lengths, L=length, s=stock)
    guard = trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY)
    pointer = faces[0].pointer if len(faces) == 1 else "/elevations"
    used = trace.count("lengths", [("stock lengths used up", float(len(plan.stocks)), pointer)])
    steps = sum(_steps(face) for face in faces)
    row: BaseTrim = {
        "runs": [_run(face, run) for face, run in runs],
        "length_m": length,
        "steps_count": steps,
        "stop_ends_count": STOP_ENDS_AT_STEP * steps,
        "splices_count": plan.splices,
        "stock_length_mm": stock_mm,
        "lengths_count": len(plan.stocks),
        "lengths_lower_bound_count": int(trace.call(least_lengths, q=net, tolerance=guard)),
        "cutting": _alike(plan.stocks),
    }
    return row, Need("base_trim", net, used)


_Level = tuple[float, float, float]
"""Left, right and height of a run, in ticks."""


def _length(runs: Sequence[tuple[Face, _Level]], trace: Trace) -> float:
    terms = [
        (
            f"run of {face.id} at {millimetres(height):g} mm",
            millimetres(right - left) * METRES_PER_MILLIMETRE,
            face.pointer,
        )
        for face, (left, right, height) in runs
    ]
    return trace.measure("L_base", "m", terms)


def _run(face: Face, run: _Level) -> TrimRun:
    left, right, height = run
    return {
        "elevation": face.id,
        "x_from_mm": millimetres(left),
        "x_to_mm": millimetres(right),
        "y_mm": millimetres(height),
        "length_mm": millimetres(right - left),
    }


def _steps(face: Face) -> int:
    """Places where one run ends and the next goes on at another height."""
    return sum(before[1] == after[0] and before[2] != after[2] for before, after in pairwise(face.base_runs()))


def _alike(stocks: Sequence[Stock]) -> list[TrimStock]:
    counts: dict[Stock, int] = {}
    for stock in stocks:
        counts[stock] = counts.get(stock, 0) + 1
    return [
        {
            "pieces_mm": [millimetres(piece) for piece in stock.pieces],
            "rest_mm": millimetres(stock.rest),
            "count": number,
        }
        for stock, number in sorted(
            counts.items(), key=lambda item: (item[0].rest, [-piece for piece in item[0].pieces])
        )
    ]
