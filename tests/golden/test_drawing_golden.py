"""Sheets against pictures kept in this folder: the display list, one item a line, and the SVG.

Set STOREYROD_WRITE_GOLDEN=1 to write them anew, then look at the drawing and at the difference before committing it.
"""

import os
from collections.abc import Iterator
from dataclasses import asdict
from difflib import unified_diff
from pathlib import Path

import pytest

from drawing_moisture import wet
from drawing_sections import corner
from drawing_walls import gable, lined_wall, particulars, sheet_of, small_wall, tower
from storeyrod.answer import Answer
from storeyrod.drawings.display_list import Sheet
from storeyrod.drawings.isotherms_sheet import isotherms_sheet
from storeyrod.drawings.svg import write
from storeyrod.drawings.vapour_pressure_sheet import vapour_pressure_sheet

HERE = Path(__file__).parent

QUICK = {"effort": "quick"}
"""One layout and one heuristic, so that a better search moves no picture."""

SHEETS = {
    "small_wall": sheet_of(small_wall()),
    "gable": sheet_of(gable()),
    "lined_wall_setting_out": sheet_of(lined_wall(), kind="setting_out", perps="equalised"),
    "lined_wall_slips": sheet_of(lined_wall(), kind="slips", perps="equalised"),
    "gable_boards": sheet_of(gable(), kind="boards", options=QUICK),
    "small_wall_cut_sheets": sheet_of(small_wall(), kind="cut_sheets", options=QUICK),
    "tower_joints": sheet_of(
        tower(), kind="joints", system={"movement_joint": {"at_storeys": True, "storey_width_mm": 20}}
    ),
    "small_wall_fasteners": sheet_of(small_wall(), kind="fasteners", options=QUICK),
    "gable_part_fasteners": sheet_of(gable(), kind="fasteners", part=(1500, 5000), options=QUICK),
    "gable_wind": sheet_of(gable(), kind="wind"),
    "small_wall_load_path": sheet_of(
        small_wall(),
        kind="load_path",
        links=[
            {"link": "board_core", "action": "suction", "resistance_kn_per_m2": 42, "gamma_m": 2},
            {"link": "slip_bond", "action": "suction", "resistance_kn_per_m2": 4, "gamma_m": 2},
        ],
        options=QUICK,
    ),
    "corner_isotherms": isotherms_sheet(corner(), None, "", particulars(subject="Isotherms"), ""),
    "wall_vapour_pressure": vapour_pressure_sheet(wet(), None, "", particulars(subject="Vapour pressure"), ""),
}
DOCUMENTS = ("small_wall", "lined_wall_slips", "small_wall_cut_sheets", "small_wall_fasteners", "corner_isotherms")


def listing(sheet: Sheet) -> Iterator[str]:
    """The display list as text."""
    yield f"sheet {sheet.width:g} x {sheet.height:g}: {sheet.title}"
    for view in sheet.views:
        yield f"view at {view.origin[0]:.3f}, {view.origin[1]:.3f}, 1:{view.scale:g}"
        for group in view.groups:
            yield f"  {group.role} {group.id}".rstrip()
            for item in group.items:
                yield f"    {type(item).__name__} " + ", ".join(
                    f"{key} {shown(value)}" for key, value in asdict(item).items()
                )


def shown(value: object) -> str:
    """A value with its numbers to the thousandth, so that the last digit of a machine's arithmetic does not show."""
    match value:
        case bool() | str():
            return str(value)
        case float() | int():
            return f"{round(value, 3) + 0.0:g}" if abs(value) < 1e5 else f"{value:.3f}"
        case tuple() | list():
            return "(" + " ".join(map(shown, value)) + ")"
    raise TypeError(value)


def compare(path: Path, text: str) -> None:
    """Fail with a readable difference."""
    if os.environ.get("STOREYROD_WRITE_GOLDEN"):
        path.write_text(text, encoding="utf-8")
    kept = path.read_text(encoding="utf-8")
    difference = list(unified_diff(kept.splitlines(), text.splitlines(), path.name, "drawn now", lineterm="", n=1))
    if difference:
        pytest.fail("\n".join(difference[:80]), pytrace=False)


@pytest.mark.parametrize("name", SHEETS)
def test_the_display_list_is_as_it_was(name):
    compare(HERE / f"{name}.txt", "\n".join(listing(SHEETS[name])) + "\n")


@pytest.mark.parametrize("name", DOCUMENTS)
def test_the_svg_is_as_it_was(name):
    compare(HERE / f"{name}.svg", write(Answer((SHEETS[name],))).decode())
