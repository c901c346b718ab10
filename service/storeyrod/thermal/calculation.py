"""The U-value of a build-up."""

from storeyrod.answer import Answer, assumptions_of, refuse_cautions
from storeyrod.thermal.corrections import terms_of
from storeyrod.thermal.models import UValueRequest, UValueResult
from storeyrod.thermal.u_value import build_up_u_value
from storeyrod.trace import SILENT, Trace


def calculate(request: UValueRequest, trace: Trace = SILENT) -> Answer[UValueResult]:
    """Resistance and U-value of a build-up after ISO 6946, with its corrections.

    Layers are read from the inside as far as the first well-ventilated air layer; the two limits of the combined method
    give the total; corrections count when they add up to 3 % of the plain U-value or more.
    """
    terms = terms_of(request.corrections, "/corrections", trace)
    answer = build_up_u_value(request.build_up, "/build_up", terms, trace)
    answer.assumptions = assumptions_of(request) + answer.assumptions
    if request.options.strict:
        refuse_cautions(answer.findings)
    return answer
