"""Jambs beside the perps of their bay: how far off they are, and what pieces they leave."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.findings import FINDINGS, Finding, Where, finding
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from storeyrod.setting_out.bay_frame import BayFrame
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, Module
from storeyrod.setting_out.piers import Pier
from storeyrod.setting_out.plumb_lines import End, JambLine
from storeyrod.setting_out.run_options import PierOptions
from storeyrod.wall.face import Face
from storeyrod.wall.system import System

MEETS: Final = 0.5 * TICKS_PER_MM
"""House limit in ticks: a jamb this near to a perp or half bat meets it."""


def off_perps(frame: BayFrame, x: float, end: End) -> float:
    """Signed distance of a jamb from the nearest place where a unit or half bat of the bay ends; right of it is positive.

    ``x`` is a place of the face, and ``end`` the end of the run beside the jamb.
    """
    if not frame.mirrored:
        return _off_units(frame.bay, frame.module, x, end)
    return -_off_units(frame.bay, frame.module, -x, "left" if end == "right" else "right")


def _off_units(bay: BayPerps, module: Module, x: float, end: End) -> float:
    places = [place for pattern in range(len(bay.patterns)) for place in _unit_ends(bay, pattern, module, x, end)]
    return min((x - place for place in places), key=lambda off: (abs(off), off), default=0.0)


def _unit_ends(bay: BayPerps, pattern: int, module: Module, x: float, end: End) -> Iterator[float]:
    """Ends of units near a place, and those of half bats cut from them, on the side where a run ends."""
    inside = min(max(x + (HAIRLINE if end == "left" else -HAIRLINE), bay.left), bay.right)
    stretch = next((one for one in bay.patterns[pattern] if inside <= one.right), bay.patterns[pattern][-1])
    for left, right, kind in stretch.grid.columns(x - module.length, x + module.length):
        if kind is None:
            continue
        yield left if end == "left" else right
        if kind == "stretcher":
            yield right - module.header if end == "left" else left + module.header


def jamb_findings(
    face: Face, frame: BayFrame, piers: Sequence[Pier], options: PierOptions, system: System
) -> list[Finding]:
    """Jambs that miss the perps of their bay and leave a sliver, one finding for jambs in one plumb line."""
    met: dict[tuple[str, End, float], _Left] = {}
    for pier in piers:
        for left in _pieces(pier, options, frame):
            key = left.jamb.opening.pointer, left.jamb.side, left.jamb.x
            if key not in met or left.piece < met[key].piece:
                met[key] = left
    off = [
        left
        for left in met.values()
        if left.piece < frame.limits.shortest - HAIRLINE
        and abs(off_perps(frame, left.jamb.x, left.jamb.ends_run)) > MEETS
    ]
    lines: dict[tuple[float, End, float], list[_Left]] = {}
    for left in off:
        lines.setdefault((left.jamb.x, left.jamb.ends_run, round(left.piece)), []).append(left)
    return [_finding(face, in_line, system) for in_line in lines.values()]


@dataclass(frozen=True, slots=True)
class _Left:
    """A piece that a course of the bond leaves at a jamb."""

    jamb: JambLine
    piece: float


def _pieces(pier: Pier, options: PierOptions, frame: BayFrame) -> Iterator[_Left]:
    ends = options.carried(pier.ends).ends
    for pattern in sorted({number % len(ends) for number in pier.courses}):
        if ends[pattern]:
            first, last = ends[pattern][::-1] if frame.mirrored else ends[pattern]
            for jamb in pier.jambs:
                yield _Left(jamb, first if jamb.ends_run == "left" else last)


def _finding(face: Face, in_line: Sequence[_Left], system: System) -> Finding:
    left = in_line[0]
    where: Where = {
        "pointer": left.jamb.opening.pointer,
        "elevation": face.id,
        "opening": left.jamb.opening.id,
        "x_mm": millimetres(left.jamb.x),
    }
    value, limit = millimetres(left.piece), system.minimum_cut_mm
    advice = FINDINGS["jamb-off-module"].advice
    if len(in_line) > 1:
        advice = f"{len(in_line)} jambs one above another. {advice}"
    return finding("jamb-off-module", where, value=value, limit=limit, unit="mm", advice=advice)
