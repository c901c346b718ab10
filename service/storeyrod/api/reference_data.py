"""The reference data that GET addresses give: built once, the same bytes for everyone."""

from dataclasses import asdict
from typing import Any

import orjson

from storeyrod import DATA_EDITION
from storeyrod.api.problem_catalogue import CATALOGUE, ProblemKind
from storeyrod.api.views import Findings, Materials, ProblemView, Standards
from storeyrod.findings import FINDINGS
from storeyrod.reference.documents import DOCUMENTS
from storeyrod.reference.tables import rows_of


def standards() -> bytes:
    """Every document that figures cite."""
    made: Standards = {
        "data_edition": DATA_EDITION,
        "standards": [_typed(asdict(document)) for document in DOCUMENTS.values()],
    }
    return orjson.dumps(made)


def materials() -> bytes:
    """Every tabulated material, and the coefficients by which declared conductivities are converted."""
    made: Materials = {
        "data_edition": DATA_EDITION,
        "materials": [_typed(row) for row in rows_of("materials")],
        "conversions": [_typed(row) for row in rows_of("conductivity_conversions")],
    }
    return orjson.dumps(made)


def findings() -> bytes:
    """Both catalogues."""
    made: Findings = {
        "findings": [_typed(asdict(kind)) for kind in FINDINGS.values()],
        "problems": [problem_view(kind) for kind in CATALOGUE.values()],
    }
    return orjson.dumps(made)


def problems() -> dict[str, bytes]:
    """The explanation of every problem, by slug."""
    return {slug: orjson.dumps(problem_view(kind)) for slug, kind in CATALOGUE.items()}


def problem_view(kind: ProblemKind) -> ProblemView:
    """One entry of the catalogue, as published."""
    return {
        "type": kind.type,
        "slug": kind.slug,
        "status": kind.status,
        "title": kind.title,
        "trigger": kind.trigger,
        "advice": kind.advice,
    }


def _typed(row: dict[str, Any]) -> Any:  # noqa: ANN401  a dataclass's members are the view's members
    return row
