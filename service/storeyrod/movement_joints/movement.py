"""Movement at a joint: closing and opening apart, since moisture comes in one direction only.

With an installation temperature, heating from it closes joints and cooling from it opens them. Without one the face may have
had either end of the range when its joints were sealed, so the whole range may come in one direction; from widest to
narrowest it still comes once only.
"""

from dataclasses import dataclass
from typing import Final, Literal, NamedTuple

from storeyrod.findings import refuse
from storeyrod.movement_joints.coefficients import COEFFICIENTS, clause_of
from storeyrod.reference.documents import GEOMETRY, HOUSE, Clause
from storeyrod.trace import Trace, formula
from storeyrod.units import MILLIMETRES_PER_MICROMETRE
from storeyrod.wall.movement import Movement

MOVEMENT: Final = "/system/movement_joint/movement"
"""Pointer of the member that gives movement."""

Moisture = Literal["moisture_expansion_mm_per_m", "moisture_shrinkage_mm_per_m"]
"""Member of a movement, and of a row of coefficients, that gives moisture movement in one direction."""

_APART: Final = Clause(
    "cladding design exercises", "closing and opening apart, moisture in its own direction", "published"
)


@formula(
    symbol="e",
    expression="alpha*(T_high - T_low) + m",
    unit="mm_per_m",
    inputs={"alpha": "mm_per_m_k", "T_high": "deg_c", "T_low": "deg_c", "m": "mm_per_m"},
    clause=_APART,
)
def strain(*, alpha: float, T_high: float, T_low: float, m: float) -> float:  # noqa: N803  symbols of the formula
    """Movement of each metre by temperature and moisture in one direction."""
    return alpha * (T_high - T_low) + m


@formula(
    symbol="m",
    expression="m_e + m_s",
    unit="mm_per_m",
    inputs={"m_e": "mm_per_m", "m_s": "mm_per_m"},
    clause=GEOMETRY,
)
def moisture_both_ways(*, m_e: float, m_s: float) -> float:
    """Moisture movement from fully dry to fully wet."""
    return m_e + m_s


@formula(
    symbol="M",
    expression="e*L + n*M_d",
    unit="mm",
    inputs={"e": "mm_per_m", "L": "m", "n": "count", "M_d": "mm"},
    clause=_APART,
)
def movement(*, e: float, L: float, n: float, M_d: float) -> float:  # noqa: N803  symbols of the formula
    """Movement of a length L, with a drift of the structure M_d in n directions."""
    return e * L + n * M_d


class Way(NamedTuple):
    """Movement in one direction, or from widest to narrowest: per metre, directions of drift, and in all, in mm."""

    strain: float
    drifts: float
    movement: float


@dataclass(frozen=True, slots=True)
class JointMovement:
    """Movement that a joint must take."""

    closing: Way
    opening: Way
    total: Way


class _Coefficients(NamedTuple):
    expansion: float
    growth: float
    shrinkage: float


def joint_movement(given: Movement, length_m: float, trace: Trace) -> JointMovement:
    """Movement at a joint into which a length of wall moves.

    Raises ``temperatures-contradictory`` and ``expansion-unclear``.
    """
    low, high = _temperatures(given, trace)
    alpha, growth, shrinkage = _coefficients(given, trace)
    made = given.installation_temperature_deg_c
    installed = None if made is None else trace.given(made, f"{MOVEMENT}/installation_temperature_deg_c")
    start_low, start_high = (low, high) if installed is None else (installed, installed)
    closing = trace.call(strain, alpha=alpha, T_high=high, T_low=start_low, m=growth)
    opening = trace.call(strain, alpha=alpha, T_high=start_high, T_low=low, m=shrinkage)
    moisture = trace.call(moisture_both_ways, m_e=growth, m_s=shrinkage)
    total = trace.call(strain, alpha=alpha, T_high=high, T_low=low, m=moisture)
    ways = [_way(e, n, given, length_m, trace) for e, n in ((closing, 1.0), (opening, 1.0), (total, 2.0))]
    return JointMovement(*ways)


def _way(e: float, directions: float, given: Movement, length_m: float, trace: Trace) -> Way:
    n = trace.lookup("n", directions, "count", GEOMETRY)
    drift = trace.given(given.drift_mm, f"{MOVEMENT}/drift_mm")
    return Way(e, n, trace.call(movement, e=e, L=length_m, n=n, M_d=drift))


def _temperatures(given: Movement, trace: Trace) -> tuple[float, float]:
    low, high, installed = (
        given.temperature_min_deg_c,
        given.temperature_max_deg_c,
        given.installation_temperature_deg_c,
    )
    if low > high:
        detail = f"The lowest temperature, {low:g}, is over the highest, {high:g} degrees; exchange them."
        raise refuse("temperatures-contradictory", f"{MOVEMENT}/temperature_min_deg_c", detail)
    if installed is not None and not low <= installed <= high:
        detail = f"Joints are sealed at {installed:g} degrees, outside the range of the face, {low:g} to {high:g}; widen the range."
        raise refuse("temperatures-contradictory", f"{MOVEMENT}/installation_temperature_deg_c", detail)
    return trace.given(low, f"{MOVEMENT}/temperature_min_deg_c"), trace.given(high, f"{MOVEMENT}/temperature_max_deg_c")


def _coefficients(given: Movement, trace: Trace) -> _Coefficients:
    if (given.expansion_um_per_m_k is None) == (given.material is None):
        detail = "Give expansion_um_per_m_k, or the material whose coefficient is to be used, not both and not neither."
        raise refuse("expansion-unclear", MOVEMENT, detail)
    growth = _moisture(given, "moisture_expansion_mm_per_m", trace)
    shrinkage = _moisture(given, "moisture_shrinkage_mm_per_m", trace)
    return _Coefficients(_expansion(given, trace), growth, shrinkage)


def _expansion(given: Movement, trace: Trace) -> float:
    if given.expansion_um_per_m_k is not None:
        coefficient = given.expansion_um_per_m_k * MILLIMETRES_PER_MICROMETRE
        return trace.given(coefficient, f"{MOVEMENT}/expansion_um_per_m_k")
    row = COEFFICIENTS[str(given.material)]
    tabulated = row["expansion_um_per_m_k"] * MILLIMETRES_PER_MICROMETRE
    return trace.lookup("alpha", tabulated, "mm_per_m_k", clause_of(row))


def _moisture(given: Movement, member: Moisture, trace: Trace) -> float:
    value: float | None = getattr(given, member)
    if value is not None:
        return trace.given(value, f"{MOVEMENT}/{member}")
    tabulated, clause = moisture_assumed(given, member)
    return trace.lookup("m", tabulated, "mm_per_m", clause)


def moisture_assumed(given: Movement, member: Moisture) -> tuple[float, Clause]:
    """Moisture movement where the request gives none, in mm per m: of the material's row, or else none."""
    row = COEFFICIENTS.get(str(given.material))
    if row is None or member not in row:
        return 0.0, HOUSE
    return row[member], clause_of(row)
