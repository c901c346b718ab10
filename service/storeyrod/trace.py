"""Formulas that can print themselves, and the trace that links every figure to what it came from.

A formula is a plain function of keyword arguments, decorated with its symbol, expression, units and clause. Calculations call
it through a ``Trace``. The silent trace only calls; the recording one also writes a step. Links cost the calculation nothing:
while recording, figures are floats that remember their origin, so arithmetic outside a formula loses the link and the tests
see it.
"""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Generic, Literal, NotRequired, ParamSpec

from typing_extensions import TypedDict

from storeyrod.findings import Fault, Refusal
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.units import UNITS

P = ParamSpec("P")

Kind = Literal["formula", "lookup", "sum", "count", "check", "solved"]

CALLER: Final = "caller"
"""Origin of a value that a calculation was handed without a pointer."""


class ClauseView(TypedDict):
    """Printed clause of a step."""

    document: str
    edition: str
    number: str
    status: str


StepInput = TypedDict("StepInput", {"symbol": str, "value": float, "unit": str, "from": str})
"""One input of a step; ``from`` is a step id or a JSON Pointer into the request."""


class Step(TypedDict):
    """One step of the working."""

    id: str
    kind: Kind
    symbol: str
    expression: str
    name: NotRequired[str]
    clause: ClauseView
    inputs: list[StepInput]
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Formula(Generic[P]):
    """A formula: calls like the function it wraps, and knows how it is printed.

    ``inputs`` maps every argument to its unit code; ``validity`` gives inclusive ranges outside which the formula refuses.
    """

    function: Callable[P, float]
    name: str
    symbol: str
    expression: str
    unit: str
    inputs: Mapping[str, str]
    clause: Clause
    validity: Mapping[str, tuple[float, float]]

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> float:
        """Value of the formula; raises the refusal ``outside-validity`` when an input leaves its range."""
        if self.validity:
            self.check_validity(kwargs)
        return float(self.function(*args, **kwargs))

    def check_validity(self, inputs: Mapping[str, object]) -> None:
        """Refuse with ``outside-validity`` when an input leaves its range."""
        for symbol, (low, high) in self.validity.items():
            value = inputs[symbol]
            if isinstance(value, float | int) and not low <= value <= high:
                label = UNITS[self.inputs[symbol]].label
                detail = (
                    f"{symbol} = {float(value):g} {label} is outside the range {low:g} to {high:g} {label} of {self.clause}; "
                    f"change the input or take {self.symbol} from another source"
                )
                raise Refusal("outside-validity", detail, (Fault(origin_of(value), "outside-validity", detail),))


def formula(
    *,
    symbol: str,
    expression: str,
    unit: str,
    inputs: Mapping[str, str],
    clause: Clause,
    validity: Mapping[str, tuple[float, float]] | None = None,
) -> Callable[[Callable[P, float]], Formula[P]]:
    """Declare a plain function of keyword arguments as a formula; units are codes of the closed table."""

    def declare(function: Callable[P, float]) -> Formula[P]:
        room = function.__module__.removeprefix("storeyrod.").split(".")[0]
        for code in (unit, *inputs.values()):
            UNITS[code]
        return Formula(
            function,
            f"{room}.{function.__name__}",
            symbol,
            expression,
            unit,
            dict(inputs),
            clause,
            dict(validity or {}),
        )

    return declare


class Figure(float):
    """A float that remembers where it came from: a step id, or a JSON Pointer into the request."""

    __slots__ = ("origin",)
    origin: str

    def __new__(cls, value: float, origin: str) -> "Figure":
        """The value with its origin."""
        made = super().__new__(cls, value)
        made.origin = origin
        return made

    def __reduce__(self) -> tuple[type["Figure"], tuple[float, str]]:
        """Survive pickling between processes."""
        return Figure, (float(self), self.origin)


def origin_of(value: object) -> str:
    """Step id or pointer that a value came from; ``caller`` when it has none."""
    return value.origin if isinstance(value, Figure) else CALLER


class Trace:
    """The silent trace: calculates and records nothing."""

    __slots__ = ()

    def call(self, formula: Formula[P], /, *args: P.args, **kwargs: P.kwargs) -> float:
        """Value of a formula; the body of ``Formula.__call__`` again, since every figure of every answer passes here."""
        if formula.validity:
            formula.check_validity(kwargs)
        return float(formula.function(*args, **kwargs))

    def given(self, value: float, pointer: str) -> float:
        """A value taken from the request, in the unit that the next formula wants."""
        return value

    def lookup(self, symbol: str, value: float, unit: str, clause: Clause) -> float:
        """A value read from a table or a named constant."""
        return value

    def sum(self, symbol: str, unit: str, terms: Sequence[float], clause: Clause = GEOMETRY) -> float:
        """Sum of terms, rounded once, so that their order changes nothing."""
        return math.fsum(terms)

    def count(self, symbol: str, terms: Iterable[tuple[str, float, str]]) -> float:
        """Count of things in a layout: (what, how many, pointer) rows, added up."""
        return sum((number for _, number, _ in terms), 0.0)

    def measure(self, symbol: str, unit: str, terms: Iterable[tuple[str, float, str]]) -> float:
        """Total measured on a layout, in one unit: (what, how much, pointer) rows, added up."""
        return math.fsum(amount for _, amount, _ in terms)

    def single(self, symbol: str, unit: str, amount: float, what: Callable[[], str], pointer: str) -> float:
        """One thing counted or measured on a layout; only who writes it down asks what it is called."""
        return amount

    def check(self, symbol: str, value: float, limit: float, unit: str, clause: Clause, *, holds: bool) -> bool:
        """A comparison that decided something: passes ``holds`` through."""
        return holds

    def solved(
        self, symbol: str, value: float, unit: str, how: str, inputs: Iterable[tuple[str, float, str]], clause: Clause
    ) -> float:
        """A figure of a numerical solution: how it was got, and (symbol, value, unit) of what it depends on."""
        return value

    @property
    def steps(self) -> list[Step]:
        """Steps recorded so far; none here."""
        return []


SILENT: Final = Trace()


def _clause_view(clause: Clause) -> ClauseView:
    return {"document": clause.document, "edition": clause.edition, "number": clause.number, "status": clause.status}


def _input(symbol: str, value: float, unit: str) -> StepInput:
    return {"symbol": symbol, "value": float(value), "unit": unit, "from": origin_of(value)}


@dataclass
class Recorder(Trace):
    """The recording trace: one step for every formula, lookup, sum, count, check and solved figure, in order."""

    _steps: list[Step] = field(default_factory=list)

    def call(self, formula: Formula[P], /, *args: P.args, **kwargs: P.kwargs) -> float:
        """Value of a formula, with a step that links each input to its origin."""
        value = formula(*args, **kwargs)
        inputs = [_input(name, float_like(kwargs[name]), unit) for name, unit in formula.inputs.items()]
        made = self._step("formula", formula.symbol, formula.expression, formula.clause, inputs, value, formula.unit)
        made["name"] = formula.name
        return Figure(value, made["id"])

    def given(self, value: float, pointer: str) -> float:
        """The value with its pointer."""
        return Figure(value, pointer)

    def lookup(self, symbol: str, value: float, unit: str, clause: Clause) -> float:
        """The value with a step that cites its table."""
        return Figure(value, self._step("lookup", symbol, symbol, clause, [], value, unit)["id"])

    def sum(self, symbol: str, unit: str, terms: Sequence[float], clause: Clause = GEOMETRY) -> float:
        """Sum of terms, each linked."""
        value = math.fsum(terms)
        inputs = [_input(f"{symbol}_{index + 1}", term, unit) for index, term in enumerate(terms)]
        return Figure(value, self._step("sum", symbol, f"sum({symbol}_i)", clause, inputs, value, unit)["id"])

    def count(self, symbol: str, terms: Iterable[tuple[str, float, str]]) -> float:
        """Count with one input per row of the layout."""
        return self._total("count", symbol, "count", terms)

    def measure(self, symbol: str, unit: str, terms: Iterable[tuple[str, float, str]]) -> float:
        """Total with one input per row of the layout."""
        return self._total("sum", symbol, unit, terms)

    def single(self, symbol: str, unit: str, amount: float, what: Callable[[], str], pointer: str) -> float:
        """Count or total with one input."""
        return self._total("count" if unit == "count" else "sum", symbol, unit, ((what(), amount, pointer),))

    def check(self, symbol: str, value: float, limit: float, unit: str, clause: Clause, *, holds: bool) -> bool:
        """The comparison as a step; its value is 1 when it holds and 0 when not."""
        inputs = [_input(symbol, value, unit), _input("limit", limit, unit)]
        self._step("check", symbol, f"{symbol} against limit", clause, inputs, float(holds), "count")
        return holds

    def solved(
        self, symbol: str, value: float, unit: str, how: str, inputs: Iterable[tuple[str, float, str]], clause: Clause
    ) -> float:
        """The figure, with how it was got in place of an expression."""
        rows = [_input(*one) for one in inputs]
        return Figure(value, self._step("solved", symbol, how, clause, rows, value, unit)["id"])

    @property
    def steps(self) -> list[Step]:
        """Steps recorded so far, oldest first."""
        return self._steps

    def _total(self, kind: Kind, symbol: str, unit: str, terms: Iterable[tuple[str, float, str]]) -> float:
        inputs: list[StepInput] = [
            {"symbol": what, "value": float(amount), "unit": unit, "from": pointer} for what, amount, pointer in terms
        ]
        value = math.fsum(row["value"] for row in inputs)
        return Figure(value, self._step(kind, symbol, f"sum of {symbol}", GEOMETRY, inputs, value, unit)["id"])

    def _step(
        self, kind: Kind, symbol: str, expression: str, clause: Clause, inputs: list[StepInput], value: float, unit: str
    ) -> Step:
        made: Step = {
            "id": f"s{len(self._steps) + 1}",
            "kind": kind,
            "symbol": symbol,
            "expression": expression,
            "clause": _clause_view(clause),
            "inputs": inputs,
            "value": float(value),
            "unit": unit,
        }
        self._steps.append(made)
        return made


def float_like(value: object) -> float:
    """The argument of a formula as a number, keeping its origin."""
    if isinstance(value, float):
        return value
    if isinstance(value, int):
        return float(value)
    raise TypeError(f"formula arguments are numbers, not {type(value).__name__}")
