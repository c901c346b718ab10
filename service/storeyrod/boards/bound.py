"""How a count of boards stands to its bound, and what of the boards is not laid."""

from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.system import System


@formula(
    symbol="g",
    expression="(n - n_least)/Max(n_least, 1)",
    unit="fraction",
    inputs={"n": "count", "n_least": "count"},
    clause=GEOMETRY,
)
def gap(*, n: float, n_least: float) -> float:
    """How far n boards lie above the least n_least, as a share of that."""
    return (n - n_least) / max(n_least, 1.0)


@formula(
    symbol="A_waste",
    expression="n*l*h + A_stock - A",
    unit="m2",
    inputs={"n": "count", "l": "m", "h": "m", "A_stock": "m2", "A": "m2"},
    clause=GEOMETRY,
)
def waste_area(*, n: float, l: float, h: float, A_stock: float, A: float) -> float:  # noqa: E741, N803  symbols of the formula
    """Area of n boards of l by h and of the stock used, less what is laid of them: kerfs, offcuts and waste."""
    return n * l * h + A_stock - A


def waste_area_of(system: System, boards: float, stock_m2: float, area_m2: float, trace: Trace) -> float:
    """Area of boards of a system and of stock offcuts that is not laid, in m2."""
    board = system.board
    return trace.call(
        waste_area,
        n=boards,
        l=trace.given(board.cover_length_mm * METRES_PER_MILLIMETRE, "/system/board/cover_length_mm"),
        h=trace.given(board.cover_height_mm * METRES_PER_MILLIMETRE, "/system/board/cover_height_mm"),
        A_stock=stock_m2,
        A=area_m2,
    )
