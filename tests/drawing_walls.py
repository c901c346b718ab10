"""Walls to draw, and their elevation sheets, for the tests of the drawing room."""

from typing import Any

from pydantic import TypeAdapter

from storeyrod.boards.layout import lay_boards
from storeyrod.drawings.display_list import Group, Polygon, Sheet, Text, View
from storeyrod.drawings.elevation import ElevationSubject, elevation_sheet
from storeyrod.drawings.title_block import Particulars
from storeyrod.fasteners.schedule import set_fasteners
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import planned_joints
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of

HOSTILE = "<script>alert('1')</script> \"&\" %41"

SYSTEM: dict[str, Any] = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "rib_pitch_mm": 75},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10},
}


def small_wall(name: str = "garden") -> dict[str, Any]:
    window = {"id": "w1", "kind": "rectangle", "x_mm": 787.5, "y_mm": 750, "width_mm": 910, "height_mm": 450}
    return {"id": name, "width_mm": 2692.5, "height_mm": 1350, "openings": [window]}


def gable(name: str = "gable") -> dict[str, Any]:
    corners = ((0, 0), (7200, 0), (7200, 5025), (3600, 7800), (0, 5025))
    arch = {
        "id": "arch", "kind": "arch", "x_mm": 1000, "width_mm": 1360, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 400,
    }  # fmt: skip
    door = {"id": "door", "kind": "rectangle", "x_mm": 4000, "y_mm": 0, "width_mm": 2260, "height_mm": 2100}
    return {
        "id": name,
        "outline": [{"x_mm": x, "y_mm": y} for x, y in corners],
        "openings": [arch, door],
        "base": {"ground": [{"x_mm": 0, "y_mm": -300}, {"x_mm": 3000, "y_mm": -150}]},
    }


def long_wall() -> dict[str, Any]:
    windows = [
        {
            "id": f"W{storey}{place:02d}",
            "kind": "rectangle",
            "x_mm": 1012.5 + place * 2925,
            "y_mm": 900 + 2700 * storey,
            "width_mm": 1135,
            "height_mm": 1200,
        }
        for storey in range(4)
        for place in range(20)
    ]
    return {"id": "street", "width_mm": 60_000, "height_mm": 11_100, "openings": windows}


WALLS = {
    "small": small_wall(),
    "gable": gable(),
    "long": long_wall(),
    "tiny": {"id": "t", "width_mm": 300, "height_mm": 150},
}


def subject_of(elevation: dict[str, Any]) -> ElevationSubject:
    wall = wall_of([TypeAdapter(Elevation).validate_python(elevation)], System.model_validate(SYSTEM))
    (face,) = wall.faces
    plan = planned_joints(face, wall.system)
    layout = lay_boards(wall, [plan])
    (fasteners,) = set_fasteners(wall, layout).faces
    return ElevationSubject(face, plan, layout.faces[0], fasteners, millimetres(wall.course_pitch))


def particulars(project: str = "Test wall", subject: str = "Elevation") -> Particulars:
    return Particulars(project, subject, 0, 1, 1, "0123456789abcdef" * 4, "0.0.0", "2000-01", "no cautions")


def sheet_of(elevation: dict[str, Any], scale: int | None = None, prefix: str = "") -> Sheet:
    said = particulars(subject=f"Elevation {elevation['id']}")
    return elevation_sheet(subject_of(elevation), scale, "/sheets/0/scale", said, prefix)


def groups_of(sheet: Sheet, role: str) -> list[tuple[View, Group]]:
    return [(view, group) for view in sheet.views for group in view.groups if group.role == role]


def pieces_of(sheet: Sheet) -> list[Polygon]:
    found = [group for role in ("board-full", "board-cut") for _, group in groups_of(sheet, role)]
    return [item for group in found for item in group.items if isinstance(item, Polygon)]


def texts_of(sheet: Sheet, role: str) -> list[tuple[View, Text]]:
    return [(view, item) for view, group in groups_of(sheet, role) for item in group.items if isinstance(item, Text)]
