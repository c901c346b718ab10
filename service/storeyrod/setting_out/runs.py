"""Bays of a face with their runs: the bay itself and its piers, with the ways in which each comes out, and its marks."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from storeyrod.findings import Finding
from storeyrod.geometry.intervals import Interval, clip
from storeyrod.geometry.ticks import millimetres
from storeyrod.setting_out.bay_frame import BayFrame, bay_frames
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.bond_models import ArrangementOption, BaySetOut, RunSetOut
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, Module
from storeyrod.setting_out.jambs import jamb_findings
from storeyrod.setting_out.marks import plumb_marks, set_out_courses, set_out_rows
from storeyrod.setting_out.piers import ClearCourses, Pier, clear_courses, piers_of
from storeyrod.setting_out.plumb_lines import PlumbLines, plumb_lines
from storeyrod.setting_out.run_options import PierOptions, bay_options
from storeyrod.setting_out.upright_zones import upright_zones
from storeyrod.wall.wall import Wall


@dataclass(frozen=True, slots=True)
class _Ground:
    """What the bays of a face have in common: the face set out, where its courses stand, its plumb lines, and the wall."""

    out: FaceSetOut
    clear: ClearCourses
    lines: PlumbLines
    wall: Wall

    def courses_in(self, bay: BayPerps) -> ClearCourses:
        """Where the courses stand in a bay; those without wall in it are left out."""
        return {number: found for number, runs in self.clear.items() if (found := clip(runs, bay.left, bay.right))}


def bay_set_outs(out: FaceSetOut, wall: Wall) -> tuple[list[BaySetOut], list[Finding]]:
    """Every bay of a face from left to right, with its runs, set-out courses and marks, and what its jambs leave.

    A run is listed where whole courses stand between plumb lines. Courses that end at a rake or an arch have no run of their
    own; the piers below them are listed.
    """
    upright = upright_zones(out.face, wall.system, wall.gauge)
    ground = _Ground(out, clear_courses(out.face, wall.gauge, upright), plumb_lines(out.face, upright), wall)
    rows: list[BaySetOut] = []
    findings: list[Finding] = []
    for bay, frame in zip(out.bays, bay_frames(out, wall.system), strict=True):
        clear, options = ground.courses_in(bay), PierOptions(frame)
        piers = piers_of(bay, clear, ground.lines, wall.gauge)
        rows.append(_bay_row(bay, _runs(bay, frame, clear, piers, options), clear, ground))
        findings += jamb_findings(out.face, frame, piers, options, wall.system)
    return rows, findings


def _bay_row(bay: BayPerps, runs: list[RunSetOut], clear: ClearCourses, ground: _Ground) -> BaySetOut:
    courses = set_out_rows(bay, set_out_courses(ground.out.face, bay, clear, ground.wall), clear, ground.wall)
    marks = plumb_marks(bay, courses, clear, ground.lines, ground.out.start.side)
    return {
        "x_from_mm": millimetres(bay.left),
        "x_to_mm": millimetres(bay.right),
        "arrangement": bay.arrangement,
        "perps_mm": [millimetres(pattern[0].grid.perp) for pattern in bay.patterns],
        "runs": runs,
        "set_out_courses": courses,
        "marks": marks,
    }


def _runs(
    bay: BayPerps, frame: BayFrame, clear: ClearCourses, piers: Sequence[Pier], options: PierOptions
) -> list[RunSetOut]:
    """The bay and its piers; a bay without length or without a whole course has none."""
    if bay.right - bay.left <= HAIRLINE or not clear:
        return []
    whole = _run((bay.left, bay.right), (min(clear), max(clear)), "bay", frame.module, bay_options(frame))
    return [
        whole,
        *(
            _run(pier.ends, (pier.courses[0], pier.courses[-1]), pier.kind, frame.module, options.rows(pier.ends))
            for pier in piers
        ),
    ]


def _run(
    ends: Interval,
    courses: tuple[int, int],
    kind: Literal["bay", "pier", "end_pier"],
    module: Module,
    options: list[ArrangementOption],
) -> RunSetOut:
    return {
        "x_from_mm": millimetres(ends[0]),
        "x_to_mm": millimetres(ends[1]),
        "course_from": courses[0],
        "course_to": courses[1],
        "kind": kind,
        "co_mm": millimetres(off_half_modules(ends[1] - ends[0], module)),
        "options": options,
    }


def off_half_modules(length: float, module: Module) -> float:
    """Length less the nearest whole number of half modules, counted without a last joint (CO-); at least one of them."""
    half = module.length / 2.0
    return length + module.perp - max(1, round((length + module.perp) / half)) * half
