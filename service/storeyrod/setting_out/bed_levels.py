"""How level bed joints have to be along a face, by published tolerances of appearance."""

from typing import Final

from storeyrod.geometry.ticks import millimetres
from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.setting_out.level_models import BedLevelLimit
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face

_ROWS: Final = tuple(rows_of("bed_level_limits"))


@formula(
    symbol="t",
    expression="t_0*L/L_0",
    unit="mm",
    inputs={"t_0": "mm", "L": "m", "L_0": "m"},
    clause=Clause("UK warranty standard", "1.2-S1, pro rata below 5 m", "published"),
)
def pro_rata_limit(*, t_0: float, L: float, L_0: float) -> float:  # noqa: N803  symbols of the formula
    """Limit of a shorter wall in proportion to its length."""
    return t_0 * L / L_0


def bed_level_limits(face: Face, trace: Trace) -> list[BedLevelLimit]:
    """Limits of every document for the length of a face; they differ, and none is chosen."""
    length = trace.given(millimetres(face.length) * METRES_PER_MILLIMETRE, face.pointer)
    made: list[BedLevelLimit] = []
    for row in _ROWS:
        clause = Clause(row["document"], row["number"], row["status"])
        if length > row["to_m"]:
            limit = trace.lookup("t", row["beyond_mm"], "mm", clause)
        elif row["pro_rata"]:
            least, whole = (
                trace.lookup("L_0", row["to_m"], "m", clause),
                trace.lookup("t_0", row["limit_mm"], "mm", clause),
            )
            limit = trace.call(pro_rata_limit, t_0=whole, L=length, L_0=least)
        else:
            limit = trace.lookup("t", row["limit_mm"], "mm", clause)
        made.append({"limit_mm": limit, "source": str(clause), "status": clause.status})
    return made
