"""What acts on the load path: design suction and design weight of a square metre of wall, and where they are not known."""

from dataclasses import dataclass
from typing import Final

from storeyrod.fasteners.need import PASCALS_PER_KILOPASCAL, design_suction
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.wall.substrate_models import PartialFactors
from storeyrod.weights.layers import Layers
from storeyrod.wind.tabulated import DEFAULTS

_DESIGN: Final = Clause("EN 1990", "6.3.1, design value of an action", "memory")


@formula(
    symbol="g_d",
    expression="gamma*m*g",
    unit="kn_per_m2",
    inputs={"gamma": "count", "m": "kg_per_m2", "g": "kn_per_kg"},
    clause=_DESIGN,
)
def design_weight(*, gamma: float, m: float, g: float) -> float:
    """Design weight on a square metre of wall."""
    return gamma * m * g


@dataclass(frozen=True, slots=True)
class Actions:
    """Design actions in kN/m2: the strongest suction where wind is given, weight of the face and, if known, of the cladding.

    ``local`` tells whether the suction holds on an area as small as a slip; ``parapets`` names the elevations whose
    parapet it leaves out.
    """

    suction: float | None
    local: bool
    parapets: tuple[str, ...]
    face: float
    cladding: float | None


def actions_of(
    schedule: FastenerSchedule, layers: Layers, factors: PartialFactors, gravity: float, trace: Trace
) -> Actions:
    """Actions on a square metre."""
    gamma = trace.given(factors.weight, "/partial_factors/weight")
    return Actions(
        _suction(schedule, factors, trace),
        _is_local(schedule, trace),
        _parapets(schedule),
        trace.call(design_weight, gamma=gamma, m=layers.face, g=gravity),
        None if layers.cladding is None else trace.call(design_weight, gamma=gamma, m=layers.cladding, g=gravity),
    )


def _suction(schedule: FastenerSchedule, factors: PartialFactors, trace: Trace) -> float | None:
    if schedule.wind is None:
        return None
    patches = [patch for face in schedule.wind.plan.faces for patch in face.patches]
    if not patches:
        return None
    strongest = max((patch.suction for patch in patches), key=float)
    suction = trace.given(strongest / PASCALS_PER_KILOPASCAL, origin_of(strongest))
    return trace.call(design_suction, gamma=trace.given(factors.wind, "/partial_factors/wind"), w_s=suction)


def _is_local(schedule: FastenerSchedule, trace: Trace) -> bool:
    """Slips, their bond and the face of a board are loaded on areas under a square metre, whatever loads a fastener."""
    wind = schedule.loads.wind
    if wind is None:
        return False
    small = DEFAULTS["area_one"]
    area = trace.given(wind.loaded_area_m2, "/wind/loaded_area_m2")
    return trace.check("A", area, small.read(trace), "m2", small.clause, holds=area <= small.value)


def _parapets(schedule: FastenerSchedule) -> tuple[str, ...]:
    if schedule.wind is None:
        return ()
    return tuple(face.face.id for face in schedule.wind.plan.faces if face.assessed_to is not None)
