"""U-value of the build-up with the fasteners of the schedule, where the request does not say other ones."""

from dataclasses import replace

from storeyrod.answer import Answer
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.thermal.corrections import CorrectionTerms, declared_fasteners, terms_of, undeclared_fasteners
from storeyrod.thermal.models import BuildUp, UValueResult
from storeyrod.thermal.u_value import build_up_u_value
from storeyrod.trace import Trace


def u_value_of(request: TakeOffRequest, build_up: BuildUp, density_per_m2: float, trace: Trace) -> Answer[UValueResult]:
    """U-value of a build-up; ``density_per_m2`` are the fasteners of the schedule over the net area of boards."""
    return build_up_u_value(build_up, "/build_up", _terms(request, density_per_m2, trace), trace)


def _terms(request: TakeOffRequest, density_per_m2: float, trace: Trace) -> CorrectionTerms:
    terms = terms_of(request.corrections, "/corrections", trace)
    if terms.fasteners is not None:
        return terms
    chi = request.system.fastener.chi_w_per_k
    pointer = "/system/fastener"
    if chi is None:
        return replace(terms, fasteners=undeclared_fasteners(pointer, density_per_m2, trace))
    linked = trace.given(chi, f"{pointer}/chi_w_per_k")
    return replace(terms, fasteners=declared_fasteners(pointer, linked, density_per_m2))
