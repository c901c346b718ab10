"""Every operation against its own document, with every check of schemathesis on and at least 200 examples each.

One check is adapted: a body that fits the schema may still be refused for what its members say together (an opening
outside its wall). ``positive_data_acceptance`` therefore takes 422 too, and ``only_meaning_refuses`` puts the strength
back: a body that fits the schema is never refused for not fitting it.

One phase is spared where it would only repeat itself: most requests of elevations and a system are part of a take-off's (a site
stands in its project), so the some thousand boundary values of those members are sent to /v1/take-offs and not once more for
each of them. Every operation keeps its examples and 200 generated bodies. Boundary values of a valid job are tried with a quick
search for boards, those of a junction with a quick series of meshes, where they ask for none.
"""

import schemathesis
from schemathesis.config import SchemathesisConfig
from schemathesis.generation.meta import TestPhase

from storeyrod.api.app import create_app
from storeyrod.api.operations import OPERATIONS
from storeyrod.api.settings import Settings
from storeyrod.findings import REFUSALS
from storeyrod.take_off.models import Project, TakeOffRequest

TAKEN_OFF = {*TakeOffRequest.model_fields, *Project.model_fields}
PART_OF_A_TAKE_OFF = [
    operation.path
    for operation in OPERATIONS
    if operation.request is not TakeOffRequest
    and {"elevations", "system"} < set(operation.request.model_fields) <= TAKEN_OFF
]

CONFIG = SchemathesisConfig.from_dict(
    {
        "seed": 7,
        "generation": {"max-examples": 200, "database": "none", "deterministic": True},
        "operations": [
            {"include-path": path, "phases": {"coverage": {"enabled": False}}} for path in PART_OF_A_TAKE_OFF
        ],
        "checks": {
            "positive_data_acceptance": {"expected-statuses": ["2xx", "404", "422"]},
        },
    }
)
APP = create_app(Settings(workers=0, log_requests=False, work_limit=20_000))
SCHEMA = schemathesis.openapi.from_asgi("/openapi.json", APP, config=CONFIG)


def only_meaning_refuses(_context, response, case):
    """A positive body is refused by the word of a room, never by ``request-invalid``."""
    meta = case.meta
    if meta is None or meta.generation.mode.value != "positive" or response.status_code != 422:
        return
    slug = response.json()["type"].rpartition(":")[2]
    assert slug in REFUSALS, f"a body that fits the schema was refused: {response.text[:500]}"


def search_quickly(case):
    """A valid job that tries a boundary value does not search longer for boards, or refine a mesh further, than it must."""
    meta = case.meta
    if meta is None or meta.phase.name != TestPhase.COVERAGE or meta.generation.mode.value != "positive":
        return
    body = case.body if isinstance(case.body, dict) else {}
    for job in (body, body.get("take_off"), body.get("thermal_junction")):
        options = (job.get("options") or {}) if isinstance(job, dict) and {"system", "junction"} & set(job) else None
        if isinstance(options, dict) and options.get("effort", "standard") == "standard":
            job["options"] = {**options, "effort": "quick"}


@SCHEMA.parametrize()
def test_every_operation_keeps_its_contract(case):
    search_quickly(case)
    case.call_and_validate(additional_checks=[only_meaning_refuses])
