"""The U-value of a build-up, and what more is asked of it."""

from storeyrod.answer import Answer, assumptions_of, refuse_cautions
from storeyrod.thermal.corrections import terms_of
from storeyrod.thermal.method import refuse_beyond_method, refuse_contradictions
from storeyrod.thermal.models import UValueRequest, UValueResult
from storeyrod.thermal.questions import asks_more, with_questions
from storeyrod.thermal.u_value import answer_of, component_of
from storeyrod.trace import SILENT, Trace


def calculate(request: UValueRequest, trace: Trace = SILENT) -> Answer[UValueResult]:
    """Resistance and U-value of a build-up after ISO 6946, with its corrections.

    Layers are read from the inside as far as the first well-ventilated air layer; the two limits of the combined method
    give the total; corrections count when they add up to 3 % of the plain U-value or more. A build-up for which the method
    does not hold is refused. Then come the temperatures, the thickness for a target, the band and the sensitivities that the
    request asks for.
    """
    refuse_contradictions(request)
    terms = terms_of(request.corrections, "/corrections", trace)
    component = component_of(request.build_up, "/build_up", terms, trace, request.tapered)
    answer = answer_of(request.build_up, "/build_up", component, terms, trace)
    refuse_beyond_method(answer.findings)
    answer.assumptions = assumptions_of(request) + answer.assumptions
    if asks_more(request):
        with_questions(answer, request, component, trace)
    if request.options.strict:
        refuse_cautions(answer.findings)
    return answer
