"""The frame of a window or door as a solid block: its conductivity and its U-value."""

from storeyrod.findings import refuse
from storeyrod.junctions.detail_models import OpeningFrame
from storeyrod.junctions.details.drawing import PARAMETERS
from storeyrod.junctions.details.wall_slices import u_value_of
from storeyrod.reference.documents import Clause
from storeyrod.thermal.resistance import homogeneous
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_BLOCK = Clause("ISO 10211", "equivalent conductivity of a block", "memory")

FRAME = f"{PARAMETERS}/frame"


@formula(
    symbol="lambda_f",
    expression="d / (1 / U - R_si - R_se)",
    unit="w_per_m_k",
    inputs={"d": "m", "U": "w_per_m2_k", "R_si": "m2_k_per_w", "R_se": "m2_k_per_w"},
    clause=_BLOCK,
)
def block_conductivity(*, d: float, U: float, R_si: float, R_se: float) -> float:  # noqa: N803  symbols of the standard
    """Conductivity of a block that has a U-value between its surfaces."""
    return d / (1.0 / U - R_si - R_se)


def frame_heat(frame: OpeningFrame, internal: float, external: float, trace: Trace) -> tuple[float, float]:
    """Conductivity in W/(m.K) of the block, and U-value of the frame in W/(m2.K), one from the other by both surface resistances."""
    d = trace.given(frame.depth_mm * METRES_PER_MILLIMETRE, f"{FRAME}/depth_mm")
    if frame.u_value_w_per_m2_k is None:
        lambda_ = trace.given(frame.conductivity_w_per_m_k, f"{FRAME}/conductivity_w_per_m_k")
        block = trace.call(homogeneous, d=d, lambda_=lambda_)
        return lambda_, u_value_of([internal, block, external], trace)
    pointer = f"{FRAME}/u_value_w_per_m2_k"
    _refuse_unfit(frame, frame.u_value_w_per_m2_k, float(internal + external), pointer)
    u_value = trace.given(frame.u_value_w_per_m2_k, pointer)
    return trace.call(block_conductivity, d=d, U=u_value, R_si=internal, R_se=external), u_value


def _refuse_unfit(frame: OpeningFrame, u_value: float, surfaces: float, pointer: str) -> None:
    if "conductivity_w_per_m_k" in frame.model_fields_set:
        raise refuse("detail-unfit", pointer, "give the U-value of the frame or its conductivity, not both")
    if 1.0 / u_value <= surfaces:
        detail = f"surfaces alone resist {surfaces:g} m2.K/W, so a frame has less than {1.0 / surfaces:.3g} W/(m2.K); check the U-value"
        raise refuse("detail-unfit", pointer, detail)
