"""What sheets of heat and moisture are drawn from: a junction solved once for all its cases, a moisture check worked out once."""

from collections.abc import Collection, Iterator, Mapping, Sequence

from storeyrod.answer import Assumption, assumptions_of
from storeyrod.drawings.enclosed import refusals_within
from storeyrod.drawings.junction_subject import junction_subject
from storeyrod.drawings.models import DrawingRequest, IsothermsSheet, VapourPressureSheet
from storeyrod.drawings.moisture_subject import moisture_subject
from storeyrod.drawings.subjects import WHOLE_JOB, SheetKind, Shown
from storeyrod.junctions import calculation as junctions
from storeyrod.junctions.models import ThermalJunctionRequest
from storeyrod.moisture import calculation as moisture
from storeyrod.moisture.models import CondensationRequest


def heat_shown(request: DrawingRequest) -> Mapping[SheetKind, Shown]:
    """Subjects of the kinds asked for; raises the refusals of the junction and of the moisture check."""
    return dict(_heat_shown(request))


def _heat_shown(request: DrawingRequest) -> Iterator[tuple[SheetKind, Shown]]:
    cases = [sheet.case for sheet in request.sheets if isinstance(sheet, IsothermsSheet)]
    if cases and request.thermal_junction is not None:
        with refusals_within("/thermal_junction"):
            yield "isotherms", _isotherms(request.thermal_junction, cases)
    asked = any(isinstance(sheet, VapourPressureSheet) for sheet in request.sheets)
    if asked and request.condensation_check is not None:
        with refusals_within("/condensation_check"):
            yield "vapour_pressure", _vapour_pressure(request.condensation_check)


def _isotherms(request: ThermalJunctionRequest, cases: Collection[str | None]) -> Shown:
    """A subject for each case by its id; that at the temperatures of the boundaries has none."""
    working = junctions.junction_working(request)
    answer = junctions.answer_of(request, working)
    subjects = {case or WHOLE_JOB: junction_subject(working, answer.result, case) for case in dict.fromkeys(cases)}
    return Shown(subjects, answer.findings, _further(answer.assumptions, assumptions_of(request)), answer.not_checked)


def _vapour_pressure(request: CondensationRequest) -> Shown:
    """One subject, of which each sheet draws the month that it asks for."""
    answer = moisture.calculate(request)
    subject = moisture_subject(moisture.moisture_working(request), answer.result["condensation"])
    return Shown(
        {WHOLE_JOB: subject}, answer.findings, _further(answer.assumptions, assumptions_of(request)), answer.not_checked
    )


def _further(assumptions: Sequence[Assumption], defaults: Sequence[Assumption]) -> list[Assumption]:
    """What was assumed on the way, without the defaults that the drawing lists with its own."""
    return [row for row in assumptions if row not in defaults]
