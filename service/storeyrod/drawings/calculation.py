"""Sheets of a request: lay the wall once, solve the junction once, then draw each sheet as a display list."""

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
from storeyrod.drawings.heat_subjects import heat_shown
from storeyrod.drawings.isotherms_sheet import isotherms_sheet
from storeyrod.drawings.joints_sheet import JointsSubject, joints_sheet
from storeyrod.drawings.load_path_sheet import LoadPathSubject, load_path_sheet
from storeyrod.drawings.models import (
    AnySheet,
    DrawingRequest,
    FastenersSheet,
    IsothermsSheet,
    VapourPressureSheet,
    WindSheet,
    elevation_of,
    elevations_shown,
    scale_of,
)
from storeyrod.drawings.section_subject import SectionSubject
from storeyrod.drawings.setting_out_sheet import SettingOutSubject, setting_out_sheet
from storeyrod.drawings.sheet_needs import TAKE_OFF, member_of, refuse_unmet
from storeyrod.drawings.slips_sheet import SlipsSubject, slips_sheet
from storeyrod.drawings.subjects import KINDS, WHOLE_JOB, SheetKind, Shown, Subject, shown_by
from storeyrod.drawings.title_block import BOARD_PLANES, PLANES, Particulars
from storeyrod.drawings.vapour_pressure_sheet import vapour_pressure_sheet
from storeyrod.drawings.vapour_subject import VapourSubject
from storeyrod.drawings.wall_part import part_of
from storeyrod.drawings.wind_sheet import WindSubject, wind_sheet
from storeyrod.findings import Finding
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.width_working import unchecked_width
from storeyrod.trace import SILENT, Trace

FOR_INFORMATION: Final = (
    "A drawing is for information only and is not an approval: check every size on site before cutting or drilling."
)

NAMES: Final[Mapping[SheetKind, str]] = {
    "elevation": "Elevation",
    "setting_out": "Setting out",
    "slips": "Slips",
    "boards": "Boards",
    "joints": "Movement joints",
    "fasteners": "Fasteners",
    "wind": "Wind",
    "cut_sheets": "Cut sheets",
    "load_path": "Load path",
    "isotherms": "Isotherms",
    "vapour_pressure": "Vapour pressure",
}
"""What a sheet is called, before the name of its elevation."""

LOOKED_AT: Final[Mapping[SheetKind, str]] = {
    "elevation": "wall, boards, fasteners, joints",
    "setting_out": "wall, joints, setting out",
    "slips": "wall, joints, slips",
    "boards": "wall, joints, boards, cutting",
    "joints": "wall, joints",
    "fasteners": "wall, boards, fasteners, wind",
    "wind": "wall, joints, wind",
    "cut_sheets": "wall, joints, boards, cutting",
    "load_path": "wall, fasteners, wind, weights",
    "isotherms": "junction",
    "vapour_pressure": "moisture",
}
"""Whose findings a title block counts."""

MEMBER_NAMES: Final[Mapping[str, str]] = {
    TAKE_OFF: "take-off",
    "thermal_junction": "thermal junction",
    "condensation_check": "moisture check",
}
"""What a fingerprint is of."""


def calculate(request: DrawingRequest, trace: Trace = SILENT) -> Answer[Drawing]:
    """Sheets, one below another: an elevation with boards and fasteners, its setting out, slips, boards, movement joints,
    fasteners by stage and zone, or wind; how the boards of the take-off are cut, or its load path; isotherms of a junction, or
    vapour pressures of a moisture check.

    There is one display list for each sheet; a drawing shows no working, so nothing is traced.

    Raises the refusals of what is drawn, ``subject-missing`` and ``loads-not-given`` for a sheet whose subject is not in the request,
    ``reference-unknown`` for an elevation, case or month that it does not hold, ``part-off-wall``, and ``sheet-too-small``.
    """
    refuse_unmet(request)
    shown = _shown(request)
    sheets = tuple(_sheets(request, shown))
    findings = list(_findings(shown))
    if request.options.strict or (request.take_off is not None and request.take_off.options.strict):
        refuse_cautions(findings)
    return Answer(sheets, findings, [*assumptions_of(request), *_assumptions(shown)], _not_checked(request, shown))


def _shown(request: DrawingRequest) -> Mapping[SheetKind, Shown]:
    """Subjects of the kinds asked for, from the members of the request that they need."""
    kinds = {sheet.kind for sheet in request.sheets}
    made: dict[SheetKind, Shown] = {}
    if request.take_off is not None and not kinds.isdisjoint(KINDS):
        with refusals_within(f"/{TAKE_OFF}"):
            made.update(shown_by(request.take_off, kinds))
    made.update(heat_shown(request))
    return made


def _findings(shown: Mapping[SheetKind, Shown]) -> Iterator[Finding]:
    """Each once, with its pointer into the request."""
    for member in dict.fromkeys(map(member_of, shown)):
        found = (item for kind, one in shown.items() if member_of(kind) == member for item in one.findings)
        yield from findings_within(f"/{member}", unique(found))


def _assumptions(shown: Mapping[SheetKind, Shown]) -> Iterator[Assumption]:
    for kind, one in shown.items():
        for row in one.assumptions:
            moved = row.copy()
            moved["field"] = f"/{member_of(kind)}{row['field']}"
            yield moved


def _not_checked(request: DrawingRequest, shown: Mapping[SheetKind, Shown]) -> list[str]:
    by_kind = [sentence for one in shown.values() for sentence in one.not_checked]
    if request.take_off is None:
        return [FOR_INFORMATION, *by_kind]
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


def _wanted(request: DrawingRequest, shown: Mapping[SheetKind, Shown]) -> Iterator[_Wanted]:
    """Sheets of paper in the order of the request; cut sheets take as many as they need."""
    for index, asked in enumerate(request.sheets):
        subject = _subject(asked, shown[asked.kind].subjects, f"/sheets/{index}")
        if isinstance(subject, CutSheetsSubject):
            pages = cut_pages(subject, scale_of(asked), f"/sheets/{index}/scale")
            yield from (_Wanted(asked, index, page) for page in pages)
        else:
            yield _Wanted(asked, index, subject)


def _subject(asked: AnySheet, subjects: Mapping[str, Subject], pointer: str) -> Subject:
    """The subject of a sheet, as the sheet at ``pointer`` wants it shown."""
    key = asked.case if isinstance(asked, IsothermsSheet) else elevation_of(asked)
    subject = subjects[key or WHOLE_JOB]
    match asked, subject:
        case WindSheet(), WindSubject():
            return replace(subject, direction=asked.direction)
        case FastenersSheet(), FastenerMapSubject():
            return replace(subject, part=part_of(subject.face, asked.x_from_mm, asked.x_to_mm, pointer))
        case VapourPressureSheet(), VapourSubject():
            return replace(subject, asked=None if asked.month is None else asked.month - 1)
        case _:
            return subject


def _sheets(request: DrawingRequest, shown: Mapping[SheetKind, Shown]) -> Iterator[Sheet]:
    prints = {member: fingerprint(getattr(request, member)) for member in dict.fromkeys(map(member_of, shown))}
    every = [elevation.id for elevation in request.take_off.elevations] if request.take_off is not None else []
    wanted = list(_wanted(request, shown))
    drawn: dict[str, int] = {}
    for number, one in enumerate(wanted, start=1):
        said = _particulars(request, one.asked, prints[member_of(one.asked.kind)], shown[one.asked.kind].findings)
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
    SectionSubject: isotherms_sheet,
    VapourSubject: vapour_pressure_sheet,
}


def _sheet(wanted: _Wanted, said: Particulars, prefix: str) -> Sheet:
    if isinstance(wanted.subject, CutPage):
        return cut_sheet(wanted.subject, said, prefix)
    draw = _DRAWERS[type(wanted.subject)]
    return draw(wanted.subject, scale_of(wanted.asked), wanted.pointer, said, prefix)


def _particulars(
    request: DrawingRequest, asked: AnySheet, print_of_member: str, findings: Sequence[Finding]
) -> Particulars:
    project = request.take_off.project if request.take_off is not None else None
    elevation = elevation_of(asked)
    return Particulars(
        project=(project.name or "") if project is not None else "",
        subject=_name_of(asked),
        scale=scale_of(asked) or 0,
        sheet=0,
        sheets=0,
        fingerprint=print_of_member,
        engine_version=__version__,
        data_edition=DATA_EDITION,
        cautions=_cautions(elevation, findings),
        looked_at=LOOKED_AT[asked.kind],
        planes=BOARD_PLANES if asked.kind in ("elevation", "boards", "fasteners") else PLANES,
        fingerprint_of=MEMBER_NAMES[member_of(asked.kind)],
    )


def _name_of(asked: AnySheet) -> str:
    if isinstance(asked, IsothermsSheet) and asked.case is not None:
        return f"{NAMES[asked.kind]}, case {asked.case}"
    elevation = elevation_of(asked)
    return NAMES[asked.kind] if elevation is None else f"{NAMES[asked.kind]} {elevation}"


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
