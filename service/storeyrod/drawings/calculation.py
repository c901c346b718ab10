"""Sheets of a request: lay the wall once, then draw each sheet as a display list."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod import DATA_EDITION, __version__
from storeyrod.answer import Answer, assumptions_of, refuse_cautions, unique
from storeyrod.boards.layout import lay_boards
from storeyrod.canonical import fingerprint
from storeyrod.drawings.display_list import Drawing, Sheet
from storeyrod.drawings.elevation import ElevationSubject, elevation_sheet
from storeyrod.drawings.enclosed import findings_within, refusals_within
from storeyrod.drawings.models import DrawingRequest, ElevationSheet
from storeyrod.drawings.title_block import Particulars
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.schedule import set_fasteners
from storeyrod.findings import Finding, refuse
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.placement import planned_joints
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.wall import wall_of

TAKE_OFF: Final = "/take_off"

NOT_CHECKED: Final = (
    "A drawing is for information only and is not an approval: check every size on site before cutting or drilling.",
    *fasteners.NOT_CHECKED,
    *movement_joints.NOT_CHECKED,
)


@dataclass(frozen=True, slots=True)
class _Laid:
    """What sheets are drawn from: subjects by elevation, and what was found."""

    subjects: Mapping[str, ElevationSubject]
    findings: Sequence[Finding]


def calculate(request: DrawingRequest, trace: Trace = SILENT) -> Answer[Drawing]:
    """One display list for each sheet; a drawing shows no working, so nothing is traced.

    Raises the refusals of the take-off, ``reference-unknown`` for a sheet of an elevation that it does not hold, and
    ``sheet-too-small``.
    """
    with refusals_within(TAKE_OFF):
        laid = _laid(request.take_off)
    sheets = tuple(_sheets(request, laid))
    findings = findings_within(TAKE_OFF, laid.findings)
    if request.options.strict or request.take_off.options.strict:
        refuse_cautions(findings)
    return Answer(sheets, findings, assumptions_of(request), list(NOT_CHECKED))


def _laid(take_off: TakeOffRequest) -> _Laid:
    wall = wall_of(take_off.elevations, take_off.system)
    plans = [planned_joints(face, take_off.system) for face in wall.faces]
    layout = lay_boards(wall, plans)
    schedule = set_fasteners(wall, layout)
    pitch, datum = millimetres(wall.gauge.pitch), millimetres(wall.gauge.datum)
    subjects = {
        face.id: ElevationSubject(face, plan, boards, fastened, pitch, datum)
        for face, plan, boards, fastened in zip(wall.faces, plans, layout.faces, schedule.faces, strict=True)
    }
    joint_findings = [item for plan in plans for item in plan.findings]
    return _Laid(subjects, unique([*wall.findings, *joint_findings, *layout.findings, *schedule.findings]))


def _sheets(request: DrawingRequest, laid: _Laid) -> Iterator[Sheet]:
    print_of_take_off = fingerprint(request.take_off)
    drawn: set[str] = set()
    for index, sheet in enumerate(request.sheets):
        pointer = f"/sheets/{index}"
        subject = laid.subjects.get(sheet.elevation)
        if subject is None:
            detail = "No elevation of the take-off has this id; use one of them."
            raise refuse("reference-unknown", f"{pointer}/elevation", detail)
        said = _particulars(request, sheet, index, print_of_take_off, laid)
        prefix = f"sheet-{index + 1}:" if sheet.elevation in drawn else ""
        drawn.add(sheet.elevation)
        yield elevation_sheet(subject, sheet.scale, f"{pointer}/scale", said, prefix)


def _particulars(
    request: DrawingRequest, sheet: ElevationSheet, index: int, print_of_take_off: str, laid: _Laid
) -> Particulars:
    project = request.take_off.project
    return Particulars(
        project=(project.name or "") if project is not None else "",
        subject=f"Elevation {sheet.elevation}",
        scale=sheet.scale or 0,
        sheet=index + 1,
        sheets=len(request.sheets),
        fingerprint=print_of_take_off,
        engine_version=__version__,
        data_edition=DATA_EDITION,
        cautions=_cautions(sheet.elevation, laid.findings),
    )


def _cautions(elevation: str, findings: Sequence[Finding]) -> str:
    """How many cautions and stops concern an elevation, or no elevation in particular."""
    levels = [item["level"] for item in findings if item["where"].get("elevation", elevation) == elevation]
    counted = [(levels.count("stop"), "stop"), (levels.count("caution"), "caution")]
    words = [f"{count} {word}{'s' if count > 1 else ''}" for count, word in counted if count]
    return ", ".join(words) or "no cautions"
