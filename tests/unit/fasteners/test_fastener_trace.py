"""The working of boards and fasteners: every input of every step leads to a step or into the request."""

import pytest
from fastener_requests import request, wall, window

from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners.calculation import calculate
from storeyrod.trace import Recorder


def _reachable(document: object, pointer: str) -> bool:
    for part in pointer.split("/")[1:]:
        if isinstance(document, list):
            document = document[int(part)]
        elif isinstance(document, dict) and part in document:
            document = document[part]
        else:
            return False
    return True


def _steps(calculation, model):
    trace = Recorder()
    calculation(model, trace)
    return trace.steps


REQUEST = request(wall(4800, 2400, openings=[window("a", 1000, 600, 1000, 1200)]), {**wall(1200, 600), "id": "other"})
LAYOUT = BoardLayoutRequest(elevations=REQUEST.elevations, system=REQUEST.system)


@pytest.mark.parametrize(("calculation", "model"), [(calculate, REQUEST), (lay, LAYOUT)])
def test_every_input_leads_to_a_step_or_into_the_request(calculation, model) -> None:
    document, known = model.model_dump(mode="json"), set()
    for step in _steps(calculation, model):
        for item in step["inputs"]:
            origin = item["from"]
            assert origin in known or (origin.startswith("/") and _reachable(document, origin)), (step, item)
        known.add(step["id"])


@pytest.mark.parametrize(("calculation", "model"), [(calculate, REQUEST), (lay, LAYOUT)])
def test_recording_changes_no_figure(calculation, model) -> None:
    assert calculation(model, Recorder()).result == calculation(model).result


def test_totals_of_the_answer_are_the_values_of_steps() -> None:
    trace = Recorder()
    result = calculate(REQUEST, trace).result
    totals = [step["value"] for step in trace.steps if step["symbol"] == "n"]
    assert result["fasteners_count"] in totals
