"""Sheets of a request: lay the wall once, then draw each sheet as a display list."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from storeyrod import DATA_EDITION, __version__
from storeyrod.answer import Answer, Assumption, assumptions_of, refuse_cautions, unique
from storeyrod.canonical import fingerprint
from storeyrod.drawings.display_list import Drawing, Sheet
from storeyrod.drawings.elevation import ElevationSubject, elevation_sheet
from storeyrod.drawings.enclosed import findings_within, refusals_within
from storeyrod.drawings.models import AnySheet, DrawingRequest
from storeyrod.drawings.setting_out_sheet import SettingOutSubject, setting_out_sheet
from storeyrod.drawings.slips_sheet import slips_sheet
from storeyrod.drawings.subjects import Kind, Shown, Subject, shown_by
from storeyrod.drawings.title_block import BOARD_PLANES, PLANES, Particulars
from storeyrod.fasteners import calculation as fasteners
from storeyrod.findings import Finding, refuse
from storeyrod.movement_joints import calculation as movement_joints
from storeyrod.movement_joints.width_working import unchecked_width
from storeyrod.slips import calculation as slips
from storeyrod.trace import SILENT, Trace

TAKE_OFF: Final = "/take_off"

FOR_INFORMATION: Final = (
    "A drawing is for information only and is not an approval: check every size on site before cutting or drilling."
)

NAMES: Final[Mapping[Kind, str]] = {"elevation": "Elevation", "setting_out": "Setting out", "slips": "Slips"}
"""What a sheet is called, before the name of its elevation."""

LOOKED_AT: Final[Mapping[Kind, str]] = {
    "elevation": "wall, boards, fasteners, joints",
    "setting_out": "wall, joints, setting out",
    "slips": "wall, joints, slips",
}
"""Whose findings a title block counts."""

NOT_CHECKED: Final[Mapping[Kind, Sequence[str]]] = {
    "elevation": fasteners.NOT_CHECKED,
    "setting_out": (),
    "slips": slips.NOT_CHECKED,
}


def calculate(request: DrawingRequest, trace: Trace = SILENT) -> Answer[Drawing]:
    """Sheets of elevations to scale, one below another: boards and fasteners, setting out, or slips.

    There is one display list for each sheet; a drawing shows no working, so nothing is traced.

    Raises the refusals of the take-off, ``reference-unknown`` for a sheet of an elevation that it does not hold, and
    ``sheet-too-small``.
    """
    with refusals_within(TAKE_OFF):
        shown = shown_by(request.take_off, {sheet.kind for sheet in request.sheets})
    sheets = tuple(_sheets(request, shown))
    findings = findings_within(TAKE_OFF, unique(item for one in shown.values() for item in one.findings))
    if request.options.strict or request.take_off.options.strict:
        refuse_cautions(findings)
    return Answer(sheets, findings, [*assumptions_of(request), *_assumptions(shown)], _not_checked(request, shown))


def _assumptions(shown: Mapping[Kind, Shown]) -> Iterator[Assumption]:
    for one in shown.values():
        for row in one.assumptions:
            moved = row.copy()
            moved["field"] = TAKE_OFF + row["field"]
            yield moved


def _not_checked(request: DrawingRequest, shown: Mapping[Kind, Shown]) -> list[str]:
    by_kind = [sentence for kind in shown for sentence in NOT_CHECKED[kind]]
    return [FOR_INFORMATION, *by_kind, *movement_joints.NOT_CHECKED, unchecked_width(request.take_off.system)]


def _sheets(request: DrawingRequest, shown: Mapping[Kind, Shown]) -> Iterator[Sheet]:
    print_of_take_off = fingerprint(request.take_off)
    drawn: set[str] = set()
    for index, sheet in enumerate(request.sheets):
        pointer = f"/sheets/{index}"
        subject = shown[sheet.kind].subjects.get(sheet.elevation)
        if subject is None:
            detail = "No elevation of the take-off has this id; use one of them."
            raise refuse("reference-unknown", f"{pointer}/elevation", detail)
        said = _particulars(request, sheet, index, print_of_take_off, shown[sheet.kind].findings)
        prefix = f"sheet-{index + 1}:" if sheet.elevation in drawn else ""
        drawn.add(sheet.elevation)
        yield _sheet(subject, sheet.scale, f"{pointer}/scale", said, prefix)


def _sheet(subject: Subject, scale: int | None, pointer: str, said: Particulars, prefix: str) -> Sheet:
    match subject:
        case ElevationSubject():
            return elevation_sheet(subject, scale, pointer, said, prefix)
        case SettingOutSubject():
            return setting_out_sheet(subject, scale, pointer, said, prefix)
        case _:
            return slips_sheet(subject, scale, pointer, said, prefix)


def _particulars(
    request: DrawingRequest, sheet: AnySheet, index: int, print_of_take_off: str, findings: Sequence[Finding]
) -> Particulars:
    project = request.take_off.project
    return Particulars(
        project=(project.name or "") if project is not None else "",
        subject=f"{NAMES[sheet.kind]} {sheet.elevation}",
        scale=sheet.scale or 0,
        sheet=index + 1,
        sheets=len(request.sheets),
        fingerprint=print_of_take_off,
        engine_version=__version__,
        data_edition=DATA_EDITION,
        cautions=_cautions(sheet.elevation, findings),
        looked_at=LOOKED_AT[sheet.kind],
        planes=BOARD_PLANES if sheet.kind == "elevation" else PLANES,
    )


def _cautions(elevation: str, findings: Sequence[Finding]) -> str:
    """How many cautions and stops concern an elevation, or no elevation in particular."""
    levels = [item["level"] for item in findings if item["where"].get("elevation", elevation) == elevation]
    counted = [(levels.count("stop"), "stop"), (levels.count("caution"), "caution")]
    words = [f"{count} {word}{'s' if count > 1 else ''}" for count, word in counted if count]
    return ", ".join(words) or "no cautions"
