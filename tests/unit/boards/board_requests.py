"""Requests for the tests of boards: one system, and walls by a few words."""

from storeyrod.boards.calculation import calculate
from storeyrod.boards.models import BoardLayoutRequest

BOARD = {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "rib_pitch_mm": 75}
SLIP = {"length_mm": 215, "height_mm": 65, "thickness_mm": 20}
BUILD_UP_MM = 123.0
"""Board 100, adhesive 3 and slip 20."""

LONG_BAYS = {"width_mm": 10, "max_spacing_mm": 50_000, "max_boards_count": 100}


def wall(width: float, height: float, **more: object) -> dict:
    return {"id": "wall", "width_mm": width, "height_mm": height, **more}


def window(name: str, x: float, y: float, width: float, height: float) -> dict:
    return {"id": name, "kind": "rectangle", "x_mm": x, "y_mm": y, "width_mm": width, "height_mm": height}


def answer(
    *elevations: dict,
    joints: dict | None = None,
    stock: list[dict] | None = None,
    options: dict | None = None,
    **board: object,
):
    system = {"board": {**BOARD, **board}, "slip": SLIP, "movement_joint": joints or LONG_BAYS}
    request = {"elevations": list(elevations), "system": system, "stock_offcuts": stock or [], "options": options or {}}
    return calculate(BoardLayoutRequest.model_validate(request))


def row_of(found, number: int, elevation: str = "wall") -> list[dict]:
    prefix = f"{elevation}-"
    return [p for p in found.result["pieces"] if p["row"] == number and p["id"].startswith(prefix)]


def spans(pieces: list[dict]) -> list[tuple[float, float]]:
    return [(piece["x_mm"], piece["x_mm"] + piece["width_mm"]) for piece in pieces]


def found_codes(found) -> list[str]:
    return [item["code"] for item in found.findings]


def only(found, code: str) -> dict:
    (item,) = [item for item in found.findings if item["code"] == code]
    return item
