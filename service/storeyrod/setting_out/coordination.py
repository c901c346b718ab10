"""Co-ordinating sizes of whole and half modules, and how many units of a bond cover a square metre."""

from typing import Final

from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.setting_out.bond import BONDS, Kind
from storeyrod.setting_out.models import CoordinatingSize, UnitRates
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.grid import module_of, opening_size, pier_size
from storeyrod.wall.system import System

MODULES: Final = (0.5, 1.0, 1.5, 2.0, 3.0, 4.5, 6.0)
"""Numbers of modules that dimension tables start with."""

_TABLES: Final = Clause("brick dimension tables", "co-ordinating size = work size + joint", "published")


@formula(symbol="CO", expression="n*m", unit="mm", inputs={"n": "count", "m": "mm"}, clause=_TABLES)
def coordinating_size(*, n: float, m: float) -> float:
    """Length of n modules, each with one joint."""
    return n * m


@formula(
    symbol="N",
    expression="k/((l + j)*(h + b))",
    unit="per_m2",
    inputs={"k": "count", "l": "m", "j": "m", "h": "m", "b": "m"},
    clause=GEOMETRY,
)
def units_per_area(*, k: float, l: float, j: float, h: float, b: float) -> float:  # noqa: E741  symbol of the formula
    """Units for each square metre of wall, when a module of one course holds k of them on average."""
    return k / ((l + j) * (h + b))


def coordinating_sizes(system: System, trace: Trace) -> list[CoordinatingSize]:
    """Sizes of n modules: with a joint more for openings, and with a joint less for piers."""
    module = module_of(system, trace)
    perp = trace.given(system.joint.perp_mm, "/system/joint/perp_mm")
    return [_sizes(trace.lookup("n", n, "count", _TABLES), module, perp, trace) for n in MODULES]


def _sizes(n: float, module: float, perp: float, trace: Trace) -> CoordinatingSize:
    return {
        "modules": float(n),
        "co_mm": trace.call(coordinating_size, n=n, m=module),
        "co_plus_mm": trace.call(opening_size, n=n, m=module, j=perp),
        "co_minus_mm": trace.call(pier_size, n=n, m=module, j=perp),
    }


def unit_rates(system: System, trace: Trace) -> UnitRates:
    """Units of the bond for each square metre of wall without ends or openings."""
    straight, header = (_rate(system, kind, trace) for kind in ("stretcher", "header"))
    return {
        "straight_per_m2": straight,
        "header_per_m2": header,
        "face_per_m2": trace.sum("N_face", "per_m2", [straight, header]),
    }


def _rate(system: System, kind: Kind, trace: Trace) -> float:
    def metres(length_mm: float, pointer: str) -> float:
        return trace.given(length_mm * METRES_PER_MILLIMETRE, pointer)

    return trace.call(
        units_per_area,
        k=trace.lookup(f"k_{kind}", float(BONDS[system.bond].per_module(kind)), "count", GEOMETRY),
        l=metres(system.slip.length_mm, "/system/slip/length_mm"),
        j=metres(system.joint.perp_mm, "/system/joint/perp_mm"),
        h=metres(system.slip.height_mm, "/system/slip/height_mm"),
        b=metres(system.joint.bed_mm, "/system/joint/bed_mm"),
    )
