"""Sheets of a request: lay the wall once, then draw each sheet as a display list."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from storeyrod import DATA_EDITION, __version__
from storeyrod.answer import Answer, Assumption, assumptions_of, refuse_cautions, unique
from storeyrod.canonical import fingerprint
from storeyrod.drawings.board_map import BoardMapSubject, board_map_sheet
from storeyrod.drawings.cut_sheets import CutPage, CutSheetsSubject, cut_pages, cut_sheet
from storeyrod.drawings.display_list import Drawing, Sheet
from storeyrod.drawings.elevation import ElevationSubject, elevation_sheet
from storeyrod.drawings.enclosed import findings_within, refusals_within
from storeyrod.drawings.fastener_map import FastenerMapSubject, fastener_map_sheet
from storeyrod.drawings.joints_sheet import JointsSubject, joints_sheet
from storeyrod.drawings.load_path_sheet import LoadPathSubject, load_path_sheet
from storeyrod.drawings.models import (
    AnySheet,
    DrawingRequest,
    LoadPathSheet,
    WindSheet,
    elevation_of,
    elevations_shown,
    scale_of,
)
from storeyrod.drawings.setting_out_sheet import SettingOutSubject, setting_out_sheet
from storeyrod.drawings.slips_sheet import SlipsSubject, slips_sheet
from storeyrod.drawings.subjects import WHOLE_JOB, Kind, Shown, Subject, shown_by
from storeyrod.drawings.title_block import BOARD_PLANES, PLANES, Particulars
from storeyrod.drawings.wind_sheet import WindSubject, wind_sheet
from storeyrod.findings import Finding, refuse
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.width_working import unchecked_width
from storeyrod.trace import SILENT, Trace
from storeyrod.wind.site_models import AnyWind

TAKE_OFF: Final = "/take_off"

FOR_INFORMATION: Final = (
    "A drawing is for information only and is not an approval: check every size on site before cutting or drilling."
)

NAMES: Final[Mapping[Kind, str]] = {
    "elevation": "Elevation",
    "setting_out": "Setting out",
    "slips": "Slips",
    "boards": "Boards",
    "joints": "Movement joints",
    "fasteners": "Fasteners",
    "wind": "Wind",
    "cut_sheets": "Cut sheets",
    "load_path": "Load path",
}
"""What a sheet is called, before the name of its elevation."""

LOOKED_AT: Final[Mapping[Kind, str]] = {
    "elevation": "wall, boards, fasteners, joints",
    "setting_out": "wall, joints, setting out",
    "slips": "wall, joints, slips",
    "boards": "wall, joints, boards, cutting",
    "joints": "wall, joints",
    "fasteners": "wall, boards, fasteners, wind",
    "wind": "wall, joints, wind",
    "cut_sheets": "wall, joints, boards, cutting",
    "load_path": "wall, fasteners, wind, weights",
}
"""Whose findings a title block counts."""


def calculate(request: DrawingRequest, trace: Trace = SILENT) -> Answer[Drawing]:
    """Sheets to scale, one below another: an elevation with boards and fasteners, its setting out, slips, boards, movement
    joints, fasteners by stage and zone, or wind; how the boards of the take-off are cut; or its load path.

    There is one display list for each sheet; a drawing shows no working, so nothing is traced.

    Raises the refusals of the take-off, ``reference-unknown`` for a sheet of an elevation that it does not hold,
    ``loads-not-given`` and ``sheet-too-small``.
    """
    _refuse_unknown_elevations(request)
    _refuse_without_loads(request)
    with refusals_within(TAKE_OFF):
        shown = shown_by(request.take_off, {sheet.kind for sheet in request.sheets})
    sheets = tuple(_sheets(request, shown))
    findings = findings_within(TAKE_OFF, unique(item for one in shown.values() for item in one.findings))
    if request.options.strict or request.take_off.options.strict:
        refuse_cautions(findings)
    return Answer(sheets, findings, [*assumptions_of(request), *_assumptions(shown)], _not_checked(request, shown))


def _refuse_unknown_elevations(request: DrawingRequest) -> None:
    """Before anything is laid: that may take as long as a whole take-off."""
    every = {elevation.id for elevation in request.take_off.elevations}
    for index, sheet in enumerate(request.sheets):
        if elevation_of(sheet) not in {*every, None}:
            detail = "No elevation of the take-off has this id; use one of them."
            raise refuse("reference-unknown", f"/sheets/{index}/elevation", detail)


def _refuse_without_loads(request: DrawingRequest) -> None:
    """A sheet shows no wind and no load path that the take-off does not have."""
    for index, sheet in enumerate(request.sheets):
        match sheet:
            case WindSheet():
                _refuse_without_wind(sheet, request.take_off.wind, f"/sheets/{index}")
            case LoadPathSheet() if not request.take_off.asks_for_dead_loads:
                detail = "The take-off has no dead loads; give take_off.links, empty where none is declared."
                raise refuse("loads-not-given", f"/sheets/{index}/kind", detail)


def _refuse_without_wind(sheet: WindSheet, wind: AnyWind | None, pointer: str) -> None:
    if wind is None:
        detail = "The take-off has no wind; give take_off.wind, or leave out this sheet."
        raise refuse("loads-not-given", f"{pointer}/kind", detail)
    if sheet.direction is not None and sheet.direction not in wind.directions:
        detail = f"The take-off has no wind on {sheet.direction}; name it in take_off.wind.directions, or ask for another one."
        raise refuse("loads-not-given", f"{pointer}/direction", detail)


def _assumptions(shown: Mapping[Kind, Shown]) -> Iterator[Assumption]:
    for one in shown.values():
        for row in one.assumptions:
            moved = row.copy()
            moved["field"] = TAKE_OFF + row["field"]
            yield moved


def _not_checked(request: DrawingRequest, shown: Mapping[Kind, Shown]) -> list[str]:
    by_kind = [sentence for one in shown.values() for sentence in one.not_checked]
    return [FOR_INFORMATION, *by_kind, *movement_joints.NOT_CHECKED, unchecked_width(request.take_off.system)]


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A sheet of paper that is asked for: what it shows, and the index of the sheet in the request."""

    asked: AnySheet
    index: int
    subject: Subject | CutPage

    @property
    def pointer(self) -> str:
        """Where its scale stands in the request."""
        return f"/sheets/{self.index}/scale"


def _wanted(request: DrawingRequest, shown: Mapping[Kind, Shown]) -> Iterator[_Wanted]:
    """Sheets of paper in the order of the request; cut sheets take as many as they need."""
    for index, asked in enumerate(request.sheets):
        subject = shown[asked.kind].subjects[elevation_of(asked) or WHOLE_JOB]
        if asked.kind == "wind" and isinstance(subject, WindSubject):
            subject = replace(subject, direction=asked.direction)
        if isinstance(subject, CutSheetsSubject):
            pages = cut_pages(subject, scale_of(asked), f"/sheets/{index}/scale")
            yield from (_Wanted(asked, index, page) for page in pages)
        else:
            yield _Wanted(asked, index, subject)


def _sheets(request: DrawingRequest, shown: Mapping[Kind, Shown]) -> Iterator[Sheet]:
    print_of_take_off = fingerprint(request.take_off)
    every = [elevation.id for elevation in request.take_off.elevations]
    wanted = list(_wanted(request, shown))
    drawn: dict[str, int] = {}
    for number, one in enumerate(wanted, start=1):
        said = _particulars(request, one.asked, print_of_take_off, shown[one.asked.kind].findings)
        named = elevations_shown(one.asked, every) or (WHOLE_JOB,)
        again = any(drawn.setdefault(name, one.index) != one.index for name in named)
        prefix = f"sheet-{number}:" if again else ""
        yield _sheet(one, replace(said, sheet=number, sheets=len(wanted)), prefix)


_DRAWERS: Final[Mapping[type[Subject], Callable[[Any, int | None, str, Particulars, str], Sheet]]] = {
    ElevationSubject: elevation_sheet,
    SettingOutSubject: setting_out_sheet,
    SlipsSubject: slips_sheet,
    BoardMapSubject: board_map_sheet,
    JointsSubject: joints_sheet,
    FastenerMapSubject: fastener_map_sheet,
    WindSubject: wind_sheet,
    LoadPathSubject: load_path_sheet,
}


def _sheet(wanted: _Wanted, said: Particulars, prefix: str) -> Sheet:
    if isinstance(wanted.subject, CutPage):
        return cut_sheet(wanted.subject, said, prefix)
    draw = _DRAWERS[type(wanted.subject)]
    return draw(wanted.subject, scale_of(wanted.asked), wanted.pointer, said, prefix)


def _particulars(
    request: DrawingRequest, asked: AnySheet, print_of_take_off: str, findings: Sequence[Finding]
) -> Particulars:
    project = request.take_off.project
    elevation = elevation_of(asked)
    return Particulars(
        project=(project.name or "") if project is not None else "",
        subject=NAMES[asked.kind] if elevation is None else f"{NAMES[asked.kind]} {elevation}",
        scale=scale_of(asked) or 0,
        sheet=0,
        sheets=0,
        fingerprint=print_of_take_off,
        engine_version=__version__,
        data_edition=DATA_EDITION,
        cautions=_cautions(elevation, findings),
        looked_at=LOOKED_AT[asked.kind],
        planes=BOARD_PLANES if asked.kind in ("elevation", "boards", "fasteners") else PLANES,
    )


def _cautions(elevation: str | None, findings: Sequence[Finding]) -> str:
    """How many cautions and stops concern an elevation, or no elevation in particular; of a whole job, all."""
    levels = [
        item["level"]
        for item in findings
        if elevation is None or item["where"].get("elevation", elevation) == elevation
    ]
    counted = [(levels.count("stop"), "stop"), (levels.count("caution"), "caution")]
    words = [f"{count} {word}{'s' if count > 1 else ''}" for count, word in counted if count]
    return ", ".join(words) or "no cautions"
