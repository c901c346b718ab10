"""Requests for the tests of fasteners: one system, and walls by a few words."""

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest

BOARD = {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "rib_pitch_mm": 75}
SLIP = {"length_mm": 215, "height_mm": 65, "thickness_mm": 20}
LONG_BAYS = {"width_mm": 10, "max_spacing_mm": 50_000, "max_boards_count": 100}


def wall(width: float, height: float, **more: object) -> dict:
    return {"id": "wall", "width_mm": width, "height_mm": height, **more}


def window(name: str, x: float, y: float, width: float, height: float) -> dict:
    return {"id": name, "kind": "rectangle", "x_mm": x, "y_mm": y, "width_mm": width, "height_mm": height}


def request(*elevations: dict, board: dict | None = None, **fastener: object) -> FastenerScheduleRequest:
    system = {
        "board": {**BOARD, **(board or {})},
        "slip": SLIP,
        "fastener": fastener,
        "movement_joint": LONG_BAYS,
    }
    return FastenerScheduleRequest.model_validate({"elevations": list(elevations), "system": system})


def answer(*elevations: dict, board: dict | None = None, **fastener: object):
    return calculate(request(*elevations, board=board, **fastener))


def places(found, piece: str) -> list[tuple[float, float]]:
    return [(row["x_mm"], row["y_mm"]) for row in found.result["positions"] if row["piece"] == piece]


def stages(found, piece: str) -> list[str]:
    return [row["stage"] for row in found.result["positions"] if row["piece"] == piece]


def found_codes(found) -> list[str]:
    return [item["code"] for item in found.findings]


def only(found, code: str) -> dict:
    (item,) = [item for item in found.findings if item["code"] == code]
    return item
