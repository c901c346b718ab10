"""What the GET addresses give, and the problem document: shapes of the answers that no calculation makes."""

from typing import Annotated, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.thermal.material_models import ConversionRow, MaterialRow


class Status(TypedDict):
    """State of the service."""

    status: Annotated[str, Field(description="live or ready.")]


class DocumentView(TypedDict):
    """A document that figures come from."""

    key: Annotated[str, Field(description="Short name, as clauses cite it.")]
    title: Annotated[str, Field(description="Title, or what it is.")]
    edition: Annotated[str, Field(description="Year or edition; empty where there is none.")]
    use: Annotated[str, Field(description="What it is used for here.")]
    status: Annotated[
        str, Field(description="How it is known: published, memory, common_practice, independent_calculation or house.")
    ]


class Standards(TypedDict):
    """Documents that figures, formulas and examples cite."""

    data_edition: Annotated[str, Field(description="Edition of the reference data.")]
    standards: Annotated[list[DocumentView], Field(description="The documents.")]


class Materials(TypedDict):
    """Tabulated materials, each with its source."""

    data_edition: Annotated[str, Field(description="Edition of the reference data.")]
    materials: Annotated[list[MaterialRow], Field(description="The materials.")]
    conversions: Annotated[
        list[ConversionRow], Field(description="Coefficients for layers of kind declared; see their member conversion.")
    ]


class FindingView(TypedDict):
    """A remark that an answer may carry."""

    code: Annotated[str, Field(description="Its word.")]
    level: Annotated[str, Field(description="stop: a verdict is withheld; caution; info.")]
    meaning: Annotated[str, Field(description="What it says.")]
    trigger: Annotated[str, Field(description="What sets it off.")]
    advice: Annotated[str, Field(description="What to do.")]


class ProblemView(TypedDict):
    """A problem that a request may be answered with."""

    type: Annotated[str, Field(description="The type member of its documents.")]
    slug: Annotated[str, Field(description="Its word; explained at /v1/problems/{slug}.")]
    status: Annotated[int, Field(description="HTTP status.")]
    title: Annotated[str, Field(description="What it is.")]
    trigger: Annotated[str, Field(description="What sets it off.")]
    advice: Annotated[str, Field(description="What to do.")]


class Findings(TypedDict):
    """Both catalogues: remarks in answers, and problems instead of answers."""

    findings: Annotated[list[FindingView], Field(description="Remarks that stand in an answer.")]
    problems: Annotated[list[ProblemView], Field(description="Problems that stand in place of an answer.")]


class ComparedFigure(TypedDict):
    """One printed figure beside ours."""

    pointer: Annotated[str, Field(description="JSON Pointer into the answer.")]
    expected: Annotated[float | str | bool, Field(description="Printed in the document.")]
    got: Annotated[float | str | bool, Field(description="Calculated now; the word absent when nothing stands there.")]
    tolerance: Annotated[
        float, Field(description="Difference allowed; half a unit of the last printed place unless a reason is given.")
    ]
    reason: NotRequired[Annotated[str, Field(description="Why the tolerance is what it is.")]]
    passed: Annotated[bool, Field(description="Whether the difference is inside the tolerance.")]


class SelfTest(TypedDict):
    """One worked example, calculated now."""

    id: Annotated[str, Field(description="Name of the example.")]
    title: Annotated[str, Field(description="What it is about.")]
    document: Annotated[str, Field(description="Where it is printed.")]
    example: Annotated[str, Field(description="Its number or place in the document.")]
    status: Annotated[str, Field(description="How the document is known.")]
    operation: Annotated[str, Field(description="Operation that was run.")]
    passed: Annotated[bool, Field(description="Whether every figure agrees.")]
    figures: Annotated[list[ComparedFigure], Field(description="Every figure compared.")]


class SelfTests(TypedDict):
    """Every worked example of the reference data, calculated now."""

    engine_version: Annotated[str, Field(description="Version of the service.")]
    data_edition: Annotated[str, Field(description="Edition of the reference data.")]
    passed_count: Annotated[int, Field(description="Examples whose figures all agree.")]
    failed_count: Annotated[int, Field(description="The others.")]
    self_tests: Annotated[list[SelfTest], Field(description="In the order of the reference data.")]


class ErrorView(TypedDict):
    """One place of the request at fault."""

    pointer: Annotated[
        str,
        Field(description="JSON Pointer into what was sent; of a missing member, the place where it would stand."),
    ]
    code: Annotated[str, Field(description="Rule that was broken, in kebab-case.")]
    detail: Annotated[str, Field(description="The rule and what to do.")]


class Position(TypedDict):
    """Place in the text of the body."""

    line: Annotated[int, Field(description="Line, from 1.")]
    column: Annotated[int, Field(description="Byte of the line, from 1.")]
    offset: Annotated[int, Field(description="Byte of the body, from 0.")]


class ProblemDocument(TypedDict):
    """A problem document of RFC 9457."""

    type: Annotated[str, Field(description="urn:storeyrod:problem:<slug>; explained at /v1/problems/{slug}.")]
    title: Annotated[str, Field(description="What it is; the same for every problem of a type.")]
    status: Annotated[int, Field(description="HTTP status.")]
    detail: Annotated[str, Field(description="What is wrong this time and what to do; not for parsing.")]
    errors: NotRequired[Annotated[list[ErrorView], Field(description="Places at fault.")]]
    errors_left_out_count: NotRequired[Annotated[int, Field(description="Errors beyond those listed.")]]
    position: NotRequired[Annotated[Position, Field(description="Where reading stopped.")]]
    available: NotRequired[Annotated[list[str], Field(description="Media types of the operation.")]]
    limit: NotRequired[Annotated[float, Field(description="The limit that was passed.")]]
    unit: NotRequired[Annotated[str, Field(description="Unit of the limit.")]]
    retry_after_s: NotRequired[Annotated[int, Field(description="Seconds to wait, as in Retry-After.")]]
