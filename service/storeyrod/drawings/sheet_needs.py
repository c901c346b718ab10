"""What sheets need of a request: refused before anything is laid or solved, since that may take as long as a whole take-off."""

from collections.abc import Mapping
from typing import Final

from storeyrod.drawings.models import (
    AnySheet,
    DrawingRequest,
    IsothermsSheet,
    LoadPathSheet,
    VapourPressureSheet,
    WindSheet,
    elevation_of,
)
from storeyrod.drawings.subjects import SheetKind
from storeyrod.findings import refuse
from storeyrod.moisture.models import MonthlyClimate
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.wind.site_models import AnyWind

TAKE_OFF: Final = "take_off"

_MEMBERS: Final[Mapping[str, str]] = {"isotherms": "thermal_junction", "vapour_pressure": "condensation_check"}


def member_of(kind: SheetKind) -> str:
    """Member of the request that a kind of sheet is drawn from."""
    return _MEMBERS.get(kind, TAKE_OFF)


def refuse_unmet(request: DrawingRequest) -> None:
    """Refuse the first sheet that the request does not hold the subject of.

    Raises ``subject-missing``, ``reference-unknown`` for an elevation, case or month that is not there, and ``loads-not-given``.
    """
    for index, sheet in enumerate(request.sheets):
        _refuse_without_subject(sheet, request, f"/sheets/{index}")
    for index, sheet in enumerate(request.sheets):
        match sheet:
            case IsothermsSheet():
                _refuse_unknown_case(sheet, request, f"/sheets/{index}")
            case VapourPressureSheet():
                _refuse_month_of_steady(sheet, request, f"/sheets/{index}")
            case _ if request.take_off is not None:
                _refuse_unknown_elevation(sheet, request.take_off, f"/sheets/{index}")
    if request.take_off is not None:
        _refuse_without_loads(request, request.take_off)


def _refuse_without_subject(sheet: AnySheet, request: DrawingRequest, pointer: str) -> None:
    member = member_of(sheet.kind)
    if getattr(request, member) is None:
        detail = f"The request has no {member}, from which a sheet of kind {sheet.kind} is drawn; give it, or leave out this sheet."
        raise refuse("subject-missing", f"{pointer}/kind", detail)


def _refuse_unknown_case(sheet: IsothermsSheet, request: DrawingRequest, pointer: str) -> None:
    junction = request.thermal_junction
    if sheet.case is None or junction is None or sheet.case in {case.id for case in junction.junction.cases}:
        return
    detail = (
        "No case of the thermal junction has this id; use one of thermal_junction.junction.cases, or leave out case."
    )
    raise refuse("reference-unknown", f"{pointer}/case", detail)


def _refuse_month_of_steady(sheet: VapourPressureSheet, request: DrawingRequest, pointer: str) -> None:
    check = request.condensation_check
    if sheet.month is None or check is None or isinstance(check.climate, MonthlyClimate):
        return
    detail = "The climate of the moisture check is steady and has no months; leave out month."
    raise refuse("reference-unknown", f"{pointer}/month", detail)


def _refuse_unknown_elevation(sheet: AnySheet, take_off: TakeOffRequest, pointer: str) -> None:
    every = {elevation.id for elevation in take_off.elevations}
    if elevation_of(sheet) not in {*every, None}:
        detail = "No elevation of the take-off has this id; use one of them."
        raise refuse("reference-unknown", f"{pointer}/elevation", detail)


def _refuse_without_loads(request: DrawingRequest, take_off: TakeOffRequest) -> None:
    """A sheet shows no wind and no load path that the take-off does not have."""
    for index, sheet in enumerate(request.sheets):
        match sheet:
            case WindSheet():
                _refuse_without_wind(sheet, take_off.wind, f"/sheets/{index}")
            case LoadPathSheet() if not take_off.asks_for_dead_loads:
                detail = "The take-off has no dead loads; give take_off.links, empty where none is declared."
                raise refuse("loads-not-given", f"/sheets/{index}/kind", detail)


def _refuse_without_wind(sheet: WindSheet, wind: AnyWind | None, pointer: str) -> None:
    if wind is None:
        detail = "The take-off has no wind; give take_off.wind, or leave out this sheet."
        raise refuse("loads-not-given", f"{pointer}/kind", detail)
    if sheet.direction is not None and sheet.direction not in wind.directions:
        detail = f"The take-off has no wind on {sheet.direction}; name it in take_off.wind.directions, or ask for another one."
        raise refuse("loads-not-given", f"{pointer}/direction", detail)
