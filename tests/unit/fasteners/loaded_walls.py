"""Walls under wind for the tests of need: a peak pressure of 1 kPa on a plain box, so that coefficients can be read off the results."""

from typing import Any

from fastener_requests import BOARD, LONG_BAYS, SLIP

from storeyrod.boards.layout import lay_boards
from storeyrod.fasteners.calculation import loads_of
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.fasteners.schedule import FastenerSchedule, set_fasteners
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.wall.wall import wall_of

BUILDING = {"breadth_m": 40, "depth_m": 40, "height_m": 5}
"""e = min(40, 10) = 10 m: zone A is 2 m long, B reaches to 10 m, C beyond (EN 1991-1-4, 7.2.2, from memory)."""

FRONT = {"side": "front", "offset_mm": 0}


def peak(pressure_pa: float = 1000, building: dict | None = None) -> dict[str, Any]:
    """The same pressure over the height; an airtight wall behind, so that only external coefficients count."""
    return {
        "kind": "peak_pressures",
        "building": building or BUILDING,
        "internal_pressure": {"kind": "on_background"},
        "peak_pressures": [{"height_m": (building or BUILDING)["height_m"], "pressure_pa": pressure_pa}],
    }


def body(*elevations: dict, wind: dict | None, **fastener: Any) -> dict[str, Any]:
    made: dict[str, Any] = {
        "elevations": list(elevations),
        "system": {"board": BOARD, "slip": SLIP, "fastener": fastener, "movement_joint": LONG_BAYS},
        "substrate": {"category": "B"},
    }
    return made | ({"wind": wind} if wind is not None else {})


def scheduled(*elevations: dict, wind: dict | None, factors: dict | None = None, **fastener: Any) -> FastenerSchedule:
    made = body(*elevations, wind=wind, **fastener) | {"partial_factors": factors or {}}
    request = FastenerScheduleRequest.model_validate(made)
    wall = wall_of(request.elevations, request.system)
    return set_fasteners(wall, lay_boards(wall, joint_plans(wall)), loads_of(request))


def declared(design_kn: float) -> dict[str, float]:
    """A declared resistance with this design value: the default partial factor is 2."""
    return {"characteristic_kn": 2.0 * design_kn, "gamma_m": 2.0}


def pulls(mean_of_five_lowest: float) -> list[float]:
    """Fifteen tests."""
    return [mean_of_five_lowest] * 5 + [2.0 * mean_of_five_lowest] * 10


def pieces(schedule: FastenerSchedule) -> dict[str, Any]:
    return {one.piece.id: one for face in schedule.faces for one in face.pieces}


def codes(schedule: FastenerSchedule) -> list[str]:
    return [item["code"] for item in schedule.findings]
