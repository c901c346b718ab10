"""Design resistance of one fastener to pull-out: declared for this substrate, or from tests on it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.fasteners.pull_tests import LEAST_TESTS, MOST_HELD_KN, RULES, Characteristic, characteristic_of
from storeyrod.findings import Finding, Where, finding
from storeyrod.reference.documents import Clause
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.fastener_models import PullOut
from storeyrod.wall.substrate_models import Substrate
from storeyrod.wall.system import System

POINTER: Final = "/system/fastener/pull_out"
HEADS: Final = "/system/fastener/pull_through"

USUAL_KN: Final = 10.0
"""House: several times what guidelines let fixings of insulation hold (1.5 kN), and more than foam holds at any head."""

_DECLARED: Final = Clause(
    "common practice", "value declared for the fastener in this category of substrate", "common_practice"
)
_FACTORED: Final = Clause("EN 1990", "6.3.5(3), design resistance", "memory")


@formula(
    symbol="N_Rd",
    expression="N_Rk/gamma_M",
    unit="kn",
    inputs={"N_Rk": "kn", "gamma_M": "count"},
    clause=_FACTORED,
)
def design_resistance(*, N_Rk: float, gamma_M: float) -> float:  # noqa: N803  symbols of the standard
    """Design resistance of one fastener."""
    return N_Rk / gamma_M


@dataclass(frozen=True, slots=True)
class Resistance:
    """Design resistance of one fastener in kN, what it is from, and what was found; no value where a verdict is withheld."""

    design: float | None
    characteristic: Characteristic | None
    findings: tuple[Finding, ...] = ()


def resistance_of(system: System, substrate: Substrate | None, trace: Trace = SILENT) -> Resistance:
    """Resistance of one fastener of a system in a substrate; nothing is borrowed from another substrate."""
    found = _resistance(system, substrate, trace)
    return replace(found, findings=(*found.findings, *_unusual(system, found.characteristic)))


def _resistance(system: System, substrate: Substrate | None, trace: Trace) -> Resistance:
    pull_out = system.fastener.pull_out
    if pull_out is None or (pull_out.characteristic_kn is None and not pull_out.tests_kn):
        pointer = "/system/fastener" if pull_out is None else POINTER
        return Resistance(None, None, (finding("resistance-missing", {"pointer": pointer}),))
    if pull_out.tests_kn:
        if other := tuple(_other_category(pull_out, substrate)):
            return Resistance(None, None, other)
        found = characteristic_of(pull_out, POINTER, trace)
        return _factored(found, pull_out, tuple(_test_findings(found, pull_out)), trace)
    findings = tuple(_category_findings(pull_out, substrate))
    declared = trace.given(pull_out.characteristic_kn or 0.0, f"{POINTER}/characteristic_kn")
    found = Characteristic(_DECLARED, 0, None if findings else declared)
    return _factored(found, pull_out, findings, trace)


def _factored(found: Characteristic, pull_out: PullOut, findings: tuple[Finding, ...], trace: Trace) -> Resistance:
    if found.value is None:
        return Resistance(None, found, findings)
    factor = trace.given(pull_out.gamma_m, f"{POINTER}/gamma_m")
    return Resistance(trace.call(design_resistance, N_Rk=found.value, gamma_M=factor), found, findings)


def _test_findings(found: Characteristic, pull_out: PullOut) -> Iterator[Finding]:
    where: Where = {"pointer": f"{POINTER}/tests_kn"}
    if found.value is not None and found.tests < LEAST_TESTS:
        yield finding("pull-tests-scarce", where, value=found.tests, limit=LEAST_TESTS, unit="count")
    match found.short:
        case "load-impossible":
            load = max(pull_out.tests_kn)
            at: Where = {"pointer": f"{POINTER}/tests_kn/{pull_out.tests_kn.index(load)}"}
            yield finding("pull-tests-impossible", at, value=load, limit=MOST_HELD_KN, unit="kn")
        case "tests-few":
            yield finding("pull-tests-few", where, value=found.tests, limit=RULES[pull_out.rule].least, unit="count")
        case "scatter-too-large":
            yield finding("pull-tests-scatter", where)
        case "declared-missing":
            yield finding("resistance-missing", {"pointer": POINTER}, advice=_DECLARED_TOO)


_DECLARED_TOO: Final = "The rule general_fixing takes no more than the declared value: give characteristic_kn beside the tests. No number was worked out."


def _other_category(pull_out: PullOut, substrate: Substrate | None) -> Iterator[Finding]:
    """Beside tests a declared value is their cap: it must not be one for another substrate."""
    known = substrate.category if substrate is not None else None
    if pull_out.characteristic_kn is not None and known is not None and pull_out.category not in (None, known):
        yield finding("resistance-other-substrate", {"pointer": f"{POINTER}/category"})


def _category_findings(pull_out: PullOut, substrate: Substrate | None) -> Iterator[Finding]:
    """A declared value holds for one category of substrate."""
    known = substrate.category if substrate is not None else None
    if known is None:
        yield finding("substrate-unknown", {"pointer": "/substrate"})
    elif pull_out.category is not None and pull_out.category != known:
        yield finding("resistance-other-substrate", {"pointer": f"{POINTER}/category"})


def _unusual(system: System, found: Characteristic | None) -> Iterator[Finding]:
    """Values that look like newtons or kilograms in the place of kilonewtons; tests that are withheld for it say so themselves."""
    pull_out, heads = system.fastener.pull_out, system.fastener.pull_through
    said_so = found is not None and found.short == "load-impossible"
    tests = pull_out.tests_kn if pull_out is not None and not said_so else []
    given = {
        f"{POINTER}/characteristic_kn": pull_out.characteristic_kn if pull_out is not None else None,
        f"{POINTER}/tests_kn": max(tests, default=None),
        f"{HEADS}/panel_kn": heads.panel_kn if heads is not None else None,
        f"{HEADS}/joint_kn": heads.joint_kn if heads is not None else None,
    }
    for pointer, value in given.items():
        if value is not None and value > USUAL_KN:
            yield finding("resistance-unusual", {"pointer": pointer}, value=value, limit=USUAL_KN, unit="kn")
