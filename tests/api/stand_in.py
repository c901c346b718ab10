"""Operations that misbehave on request: what HTTP does must not depend on a room behaving well."""

import os
import time
from dataclasses import replace
from typing import Annotated, Literal

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Answer, Closed
from storeyrod.api.envelope import Calculation
from storeyrod.api.operations import OPERATIONS, Operation, write_json
from storeyrod.findings import Fault, Refusal
from storeyrod.options import Options
from storeyrod.trace import SILENT, Trace
from storeyrod.units import WHOLE, count, figure, identifier, quantity, words


class StandInPlain(Closed):
    kind: Literal["plain"]
    thickness_mm: Annotated[float, quantity("mm", 1.0, 100.0, "Thickness.")]


class StandInMaterial(Closed):
    """Its discriminator's value is also the name of a member."""

    kind: Literal["material"]
    material: Annotated[str, words(20, "Name.")]
    thickness_mm: Annotated[float, quantity("mm", 1.0, 100.0, "Thickness.")]


class StandInEnd(Closed):
    """Has a ``kind``, but stands in no union."""

    kind: Literal["free", "to"]
    to: Annotated[str | None, identifier("Name.")] = None


class StandInRequest(Closed):
    behave: Literal["well", "nan", "infinity", "none", "fault", "refuse", "sleep", "die"] = "well"
    layers: Annotated[
        list[Annotated[StandInPlain | StandInMaterial, Field(discriminator="kind")]],
        Field(max_length=1000, fail_fast=True, description="Layers."),
    ] = []
    end: StandInEnd = StandInEnd(kind="free")
    loose: Annotated[
        list[Annotated[int, count(1, 5, "Number."), WHOLE]], Field(max_length=1000, description="No fail_fast.")
    ] = []
    pace_mm: Annotated[float, quantity("mm", 1.0, 10.0, "Never sent in these tests.")] = 5.0
    units_count: Annotated[int, count(0, 10_000_000, "What to claim as work."), WHOLE] = 0
    options: Options = Options()


class StandInResult(TypedDict):
    total_mm: Annotated[float, figure("mm", "Sum of thicknesses.")]
    remark: Annotated[str, Field(description="A text that holds the word null.")]


_FIGURES = {"nan": float("nan"), "infinity": float("inf"), "none": None}


def calculate(request: StandInRequest, trace: Trace = SILENT) -> Answer:
    total = sum(layer.thickness_mm for layer in request.layers)
    if request.behave == "fault":
        raise ZeroDivisionError("planted")
    if request.behave == "sleep":
        time.sleep(2.0)
    if request.behave == "die":
        os._exit(3)
    if request.behave == "refuse":
        faults = tuple(Fault(f"/layers/{index}/nothing/here", "refused-here", "planted") for index in range(30))
        raise Refusal("outside-validity", "planted refusal", (Fault("/pace_mm", "first", "planted"), *faults))
    return Answer({"total_mm": _FIGURES.get(request.behave, total), "remark": "a text with null in it"})


def write_text(answer: Answer, calculation: Calculation, trace: Trace) -> bytes:
    return f"{answer.result['total_mm']} mm".encode()


def units_claimed(request: StandInRequest) -> int:
    return request.units_count


SHORT = Operation(
    "/v1/stand-ins",
    "computeStandIn",
    "A stand-in",
    "thermal",
    StandInRequest,
    StandInResult,
    calculate,
    work=units_claimed,
)
LONG = replace(SHORT, path="/v1/long-stand-ins", operation_id="computeLongStandIn", cost="long")
DRAWN = replace(
    SHORT,
    path="/v1/drawn-stand-ins",
    operation_id="drawStandIn",
    writers={"application/json": write_json, "text/plain": write_text},
)
WITH_STAND_INS = (*OPERATIONS, SHORT, LONG, DRAWN)
