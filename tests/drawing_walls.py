"""Walls to draw, and their sheets, for the tests of the drawing room."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from storeyrod.drawings.board_map import board_map_sheet
from storeyrod.drawings.cut_sheets import cut_pages, cut_sheet
from storeyrod.drawings.display_list import Group, Polygon, Shapes, Sheet, Text, View
from storeyrod.drawings.elevation import ElevationSubject, elevation_sheet
from storeyrod.drawings.fastener_map import fastener_map_sheet
from storeyrod.drawings.joints_sheet import joints_sheet
from storeyrod.drawings.load_path_sheet import load_path_sheet
from storeyrod.drawings.setting_out_sheet import SettingOutSubject, setting_out_sheet
from storeyrod.drawings.slips_sheet import SlipsSubject, slips_sheet
from storeyrod.drawings.subjects import Kind, Subject, shown_by
from storeyrod.drawings.title_block import Particulars
from storeyrod.drawings.wall_part import part_of
from storeyrod.drawings.wind_sheet import wind_sheet
from storeyrod.take_off.models import TakeOffRequest

HOSTILE = "<script>alert('1')</script> \"&\" %41"

SYSTEM: dict[str, Any] = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "rib_pitch_mm": 75},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10},
}


def small_wall(name: str = "garden") -> dict[str, Any]:
    window = {"id": "w1", "kind": "rectangle", "x_mm": 787.5, "y_mm": 750, "width_mm": 910, "height_mm": 450}
    return {"id": name, "width_mm": 2692.5, "height_mm": 1350, "openings": [window]}


def lined_wall(name: str = "porch") -> dict[str, Any]:
    """Two external corners, soldiers over a lined window, and a base that steps over the ground."""
    lined = {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}
    window = small_wall()["openings"][0] | {"y_mm": 600, "head": "soldier", "reveal": lined}
    return {
        "id": name,
        "width_mm": 2692.5,
        "height_mm": 1500,
        "openings": [window],
        "left_edge": {"kind": "external_corner"},
        "right_edge": {"kind": "external_corner", "to": "other:left"},
        "base": {"ground": [{"x_mm": 0, "y_mm": -200}, {"x_mm": 2692.5, "y_mm": -60}]},
    }


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


def block_gable(name: str = "wing") -> dict[str, Any]:
    """A gable of four storeys between an internal and an external corner, with lined windows under soldiers."""
    corners = ((0, 0), (9890, 0), (9890, 11_250), (4945, 14_250), (0, 11_250))
    lined = {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}
    windows = [
        {
            "id": f"w{storey}{place}",
            "kind": "rectangle",
            "head": "soldier",
            "x_mm": 1002.5 + 2925 * place,
            "y_mm": 900 + 2700 * storey,
            "width_mm": 1135,
            "height_mm": 1200,
            "reveal": lined,
        }
        for storey in range(4)
        for place in range(3)
    ]
    return {
        "id": name,
        "outline": [{"x_mm": x, "y_mm": y} for x, y in corners],
        "openings": [*windows, {"id": "roundel", "kind": "circle", "x_mm": 4945, "y_mm": 12_200, "diameter_mm": 900}],
        "left_edge": {"kind": "internal_corner"},
        "right_edge": {"kind": "external_corner"},
    }


def tower(name: str = "tower") -> dict[str, Any]:
    """Three storeys between an external and an internal corner, with an existing joint."""
    windows = [
        {
            "id": f"w{storey}{place}",
            "kind": "rectangle",
            "x_mm": 1500 + 3000 * place,
            "y_mm": 900 + 2700 * storey,
            "width_mm": 1135,
            "height_mm": 1200,
        }
        for storey in range(3)
        for place in range(4)
    ]
    return {
        "id": name,
        "width_mm": 14_000,
        "height_mm": 9000,
        "storey_levels_mm": [2700, 5400],
        "openings": windows,
        "left_edge": {"kind": "external_corner"},
        "right_edge": {"kind": "internal_corner"},
        "existing_joints_x_mm": [6600],
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


WIND: dict[str, Any] = {
    "kind": "peak_pressures",
    "building": {"breadth_m": 60.5, "depth_m": 12, "height_m": 14.5},
    "internal_pressure": {"kind": "on_background"},
    "peak_pressures": [{"height_m": 14.5, "pressure_pa": 1000}],
}
"""1 kPa all over, and nothing inside. With the wind on the left b = 12 and e = min(12, 29) = 12 m: zone A reaches to 2.4 m from that
end, B to 12 m, C beyond (EN 1991-1-4, 7.2.2, from memory).
"""


DRAWERS: dict[str, Any] = {
    "elevation": elevation_sheet,
    "setting_out": setting_out_sheet,
    "slips": slips_sheet,
    "boards": board_map_sheet,
    "joints": joints_sheet,
    "fasteners": fastener_map_sheet,
    "wind": wind_sheet,
}

IN_THE_WIND = ("fasteners", "wind", "load_path")
"""Kinds of sheets that are drawn with wind unless a test says otherwise."""


def in_the_wind(elevation: dict[str, Any]) -> dict[str, Any]:
    """The wall at the left end of the front."""
    return {"face": {"side": "front", "offset_mm": 0}} | elevation


WALLS = {
    "small": small_wall(),
    "gable": gable(),
    "long": long_wall(),
    "tiny": {"id": "t", "width_mm": 300, "height_mm": 150},
}

ALL_WALLS = WALLS | {"lined": lined_wall(), "block": block_gable()}


def request_of(
    *elevations: dict[str, Any], perps: str = "nominal", system: dict[str, Any] | None = None, **more: Any
) -> TakeOffRequest:
    body = {
        "elevations": elevations,
        "system": SYSTEM | (system or {}),
        "options": {"perps": perps, "effort": "quick"},
        **more,
    }
    return TakeOffRequest.model_validate(body)


def shown_of(kind: Kind, *elevations: dict[str, Any], **more: Any) -> Mapping[str, Subject]:
    return _shown(kind, request_of(*elevations, **more).model_dump_json())


@cache
def _shown(kind: Kind, take_off: str) -> Mapping[str, Subject]:
    """Subjects are laid once: they do not change."""
    return shown_by(TakeOffRequest.model_validate_json(take_off), {kind})[kind].subjects


def subject_of(elevation: dict[str, Any]) -> ElevationSubject:
    return shown_of("elevation", elevation)[elevation["id"]]


def set_out_of(elevation: dict[str, Any], *others: dict[str, Any], **more: Any) -> SettingOutSubject:
    return shown_of("setting_out", elevation, *others, **more)[elevation["id"]]


def slips_of(elevation: dict[str, Any], *others: dict[str, Any], **more: Any) -> SlipsSubject:
    return shown_of("slips", elevation, *others, **more)[elevation["id"]]


def particulars(project: str = "Test wall", subject: str = "Elevation") -> Particulars:
    return Particulars(project, subject, 0, 1, 1, "0123456789abcdef" * 4, "0.0.0", "2000-01", "no cautions")


def sheet_of(
    elevation: dict[str, Any],
    scale: int | None = None,
    prefix: str = "",
    kind: Kind = "elevation",
    direction: str | None = None,
    part: tuple[float | None, float | None] | None = None,
    **more: Any,
) -> Sheet:
    """One sheet; ``part`` is from where to where the fasteners of a wall are drawn."""
    said = particulars(subject=f"Elevation {elevation['id']}")
    if kind == "cut_sheets":
        (subject,) = shown_of(kind, elevation, **more).values()
        first, *_ = cut_pages(subject, scale, "/sheets/0/scale")
        return cut_sheet(first, said, prefix)
    if kind in IN_THE_WIND:
        elevation, more = in_the_wind(elevation), {"wind": WIND} | more
    if kind == "load_path":
        (subject,) = shown_of(kind, elevation, **({"links": []} | more)).values()
        return load_path_sheet(subject, None, "", said, prefix)
    subject = shown_of(kind, elevation, **more)[elevation["id"]]
    if kind == "wind":
        subject = replace(subject, direction=direction)
    if part is not None:
        subject = replace(subject, part=part_of(subject.face, *part, "/sheets/0"))
    return DRAWERS[kind](subject, scale, "/sheets/0/scale", said, prefix)


def cut_sheets_of(*elevations: dict[str, Any], scale: int | None = None, **more: Any) -> list[Sheet]:
    (subject,) = shown_of("cut_sheets", *elevations, **more).values()
    return [cut_sheet(page, particulars(), "") for page in cut_pages(subject, scale, "/sheets/0/scale")]


def groups_of(sheet: Sheet, role: str) -> list[tuple[View, Group]]:
    return [(view, group) for view in sheet.views for group in view.groups if group.role == role]


def pieces_of(sheet: Sheet) -> list[Polygon]:
    found = [group for role in ("board-full", "board-cut") for _, group in groups_of(sheet, role)]
    return [item for group in found for item in group.items if isinstance(item, Polygon)]


def shapes_of(sheet: Sheet, role: str) -> list[Shapes]:
    return [item for _, group in groups_of(sheet, role) for item in group.items if isinstance(item, Shapes)]


def texts_of(sheet: Sheet, role: str) -> list[tuple[View, Text]]:
    return [(view, item) for view, group in groups_of(sheet, role) for item in group.items if isinstance(item, Text)]


def words_of(sheet: Sheet, role: str) -> list[str]:
    return [text.words for _, text in texts_of(sheet, role)]
