"""The isotherm sheet: a section through a junction with its materials, temperatures, surroundings and results."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Marker, Sheet, Text, View, box_polygon
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.environment_words import ENDS_FIRST, MIDDLE_FIRST, environment_words
from storeyrod.drawings.free_room import FreeRoom
from storeyrod.drawings.isotherm_lines import (
    ISOTHERM,
    Isotherm,
    figures,
    is_legible,
    isotherm_groups,
    isotherms,
    steps_of,
)
from storeyrod.drawings.led_numbers import RING
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.legend_entries import line_entry
from storeyrod.drawings.lettering import box_around, width_of
from storeyrod.drawings.line_styles import BLANK, LETTERING, LETTERS_SMALL
from storeyrod.drawings.material_hatching import material_groups
from storeyrod.drawings.material_numbers import RINGED, material_numbers
from storeyrod.drawings.ruled_table import table_groups
from storeyrod.drawings.section_outline import AXIS, NO_HEAT, SURFACE, axis_of, outline_groups
from storeyrod.drawings.section_place import AROUND, SectionPlace, section_place
from storeyrod.drawings.section_points import COLDEST, COLDEST_SIZE, POINT, LinesKeptOff, pointed
from storeyrod.drawings.section_subject import SectionSubject
from storeyrod.drawings.section_tables import section_tables
from storeyrod.drawings.sheet_frame import Explained, origin_on, sheet_of_views
from storeyrod.drawings.title_block import Particulars

SHOWS: Final = (
    "a section with its materials, isotherms, points with temperatures, the coldest point of the inside surface, "
    "environments and results"
)

_HEADING: Final = 14.0
_BLANK: Final = 0.7


@dataclass(frozen=True, slots=True)
class _Lettered:
    """Isotherms of a step in K, and what stands over the section: marks in mm of it, groups of paper, what found no room."""

    step: float | None
    lines: Sequence[Isotherm]
    marks: tuple[Group, ...]
    over: tuple[Group, ...]
    left_out: tuple[str, ...]
    missing: tuple[int, int]
    """Environments without words, materials without number."""
    legible: bool


def isotherms_sheet(
    subject: SectionSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. Scale and results of ``said`` are set here."""
    left, bottom, right, top = box = subject.regions.box
    placed = section_place((right - left, top - bottom), partial(section_tables, subject), scale, pointer)
    view = View(origin_on(placed.paper.place(placed.around), box, placed.scale), placed.scale, ())
    lettered = _best_lettered(subject, view, placed)
    section = replace(view, groups=(*_section_groups(subject, lettered.lines, view.scale), *lettered.marks))
    listed = tuple(group for table, at in placed.tables for group in table_groups(table, at))
    paper = View((0.0, 0.0), 1.0, (*lettered.over, *listed))
    told = Explained(
        SHOWS, list(_entries(subject, lettered.step)), [*_notes(subject), *lettered.left_out], of="section"
    )
    named = replace(said, scale=placed.scale, planes=subject.summary, planes_are="results")
    return sheet_of_views(placed.paper, (section, paper), named, told, id_prefix)


def _section_groups(subject: SectionSubject, lines: Sequence[Isotherm], scale: float) -> Iterator[Group]:
    yield from material_groups(subject.regions, subject.materials, scale)
    yield from isotherm_groups(lines)
    yield from outline_groups(subject, scale)


def _best_lettered(subject: SectionSubject, view: View, placed: SectionPlace) -> _Lettered:
    """The closest isotherms that are legible, figures or no figures; numbers and words so that fewest are left out."""
    steps = steps_of(subject.temperatures)
    for step in steps:
        lines = isotherms(subject.temperatures, step, view)
        best = _fewest_missing(partial(_lettered, subject, view, placed, step, lines))
        if best.legible or step == steps[-1]:
            return best
    return _fewest_missing(partial(_lettered, subject, view, placed, None, []))


def _fewest_missing(lettered: Callable[[Sequence[float]], _Lettered]) -> _Lettered:
    """Words of environments in the middle of surfaces, or at their ends where numbers of materials need that."""
    first = lettered(MIDDLE_FIRST)
    return min(first, lettered(ENDS_FIRST), key=lambda one: one.missing) if any(first.missing) else first


def _lettered(
    subject: SectionSubject,
    view: View,
    placed: SectionPlace,
    step: float | None,
    lines: Sequence[Isotherm],
    shares: Sequence[float],
) -> _Lettered:
    """Words in the order of their weight: points, environments, materials, figures of isotherms."""
    room = FreeRoom(_room(placed))
    isotherms_at = [line.on_paper for line in lines]
    axis = [tuple(map(view.on_paper, ends)) for ends in axis_of(subject, view.scale)]
    outline = [*(tuple(map(view.on_paper, (one.start, one.end))) for one in subject.stretches), *axis]
    room.take(*_axis_beyond(subject, view))
    drawn = DrawnLines([*isotherms_at, *outline])
    points = pointed(subject, view, room, LinesKeptOff(DrawnLines(outline), drawn))
    around = environment_words(subject, view, room, shares)
    closed = [(one.start, one.end) for one in subject.stretches if one.environment is None]
    numbered = material_numbers(subject.regions, len(subject.materials), closed, view, room, DrawnLines(isotherms_at))
    figured = [] if step is None else figures(lines, step, room, drawn, _on_paper(subject.regions.box, view))
    over = (
        Group("label-blank", BLANK, tuple(map(_blank, (*points.words, *around.words, *figured)))),
        points.lines,
        *numbered.groups,
        Group("point-words", LETTERING, points.words),
        Group("environment-words", LETTERING, around.words),
        Group("isotherm-figures", LETTERING, tuple(figured)),
    )
    left_out = tuple(_left_out(points.left_out, around.left_out, numbered.left_out, len(lines) - len(figured)))
    missing = around.left_out, numbered.left_out
    return _Lettered(step, lines, points.marks, over, left_out, missing, is_legible(lines, figured, drawn))


def _on_paper(box: Box, view: View) -> Box:
    return *view.on_paper(box[:2]), *view.on_paper(box[2:])


def _axis_beyond(subject: SectionSubject, view: View) -> Iterator[Box]:
    """What an axis takes of the paper beyond the section."""
    _, low, _, high = subject.regions.box
    for start, end in axis_of(subject, view.scale):
        for lower, upper in ((start, (end[0], low)), ((start[0], high), end)):
            (x, foot), (_, top) = view.on_paper(lower), view.on_paper(upper)
            yield x - _BLANK, foot, x + _BLANK, top


def _room(placed: SectionPlace) -> tuple[float, float, float, float]:
    """Field of the paper without heading and tables."""
    left, bottom, right, top = placed.paper.place(placed.around)
    return left - AROUND[0] + 1.0, bottom - AROUND[1] + 1.0, right + AROUND[2] - 1.0, top + AROUND[3] - _HEADING


def _blank(text: Text) -> Item:
    long, high = width_of(text.words, text.height) + _BLANK, text.height + _BLANK
    return box_polygon(box_around(text.at, high, long) if text.turned else box_around(text.at, long, high))


def _left_out(points: int, environments: int, materials: int, lines: int) -> Iterator[str]:
    if points:
        yield f"Points without words, see the table: {points}."
    if environments:
        yield f"Environments without words, see the table: {environments}."
    if materials:
        yield f"Materials without number, told by their hatching: {materials}."
    if lines:
        yield f"Isotherms without figure: {lines}; count from the next one."


def _entries(subject: SectionSubject, step: float | None) -> Iterator[Entry]:
    if step is not None:
        yield line_entry("isotherm", ISOTHERM, f"isotherm, every {step:g} K; figure in °C")
    yield line_entry("surface", SURFACE, "surface: letter of its environment")
    if any(one.environment is None for one in subject.stretches):
        yield line_entry("no-heat", NO_HEAT, "no heat passes: cut or symmetry")
    if subject.turned:
        yield line_entry("axis-of-turning", AXIS, "axis about which the section turns")
    ring = Marker((SYMBOL / 2.0, 0.0), "ring", RING)
    one = Text((SYMBOL / 2.0, 0.0), "1", LETTERS_SMALL, "middle", middle=True, bold=True)
    yield Entry((("material-rings", RINGED, ring), ("material-numbers", LETTERING, one)), "material of the table")
    if subject.points:
        yield Entry((("points", POINT, Marker((SYMBOL / 2.0, 0.0), "upright_cross", 2.2)),), "point: its temperature")
    if subject.coldest is not None and not subject.even:
        cross = Marker((SYMBOL / 2.0, 0.0), "ringed_cross", COLDEST_SIZE)
        yield Entry((("coldest-point", COLDEST, cross),), "coldest point of inside surface")


def _notes(subject: SectionSubject) -> Iterator[str]:
    yield "The closer the hatching, the better a material conducts; from 10 W/(m·K) on it is filled grey."
    yield "Steady temperatures; no solar gain, no moving air, no moisture."
    if subject.turned:
        yield "Half of a section through the axis; heat flows are those of the whole body."
