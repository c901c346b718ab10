"""Traces that answer the same calculation for other inputs: one by one, or for many draws at once.

Every value of a request enters a calculation through ``Trace.given`` with its pointer. These traces hand out another value
there, so that a search, a sensitivity or a band asks the one calculation there is, and none is written twice.
"""

from collections.abc import Callable, Mapping
from typing import Any, Final, ParamSpec, cast

from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Figure, Formula, Recorder, Trace

P = ParamSpec("P")

_BY_ELEMENT: Final = ("Max", "Min", "sqrt", "exp", "log")
"""Functions of a formula that take one number at a time; all else is arithmetic, which takes arrays as they are."""


class Inputs(Trace):
    """Collects what a calculation takes from its request: pointer and value, in the unit of the formula."""

    __slots__ = ("values",)

    def __init__(self) -> None:
        self.values: dict[str, float] = {}

    def given(self, value: float, pointer: str) -> float:
        """The value, noted."""
        self.values[pointer] = value
        return value


class Varied(Trace):
    """Hands out other values at some pointers; formulas are not held to their ranges, which steps may leave by a hair."""

    __slots__ = ("values",)

    def __init__(self, values: Mapping[str, Any]) -> None:
        self.values = values

    def given(self, value: float, pointer: str) -> float:
        """The other value, where there is one."""
        return cast(float, self.values.get(pointer, value))

    def call(self, formula: Formula[P], /, *args: P.args, **kwargs: P.kwargs) -> float:
        """Value of a formula, whatever its range."""
        return formula.function(*args, **kwargs)


class Samples(Varied):
    """The same for arrays of draws: every figure is an array of one length, or a number where nothing is drawn."""

    __slots__ = ()

    def call(self, formula: Formula[P], /, *args: P.args, **kwargs: P.kwargs) -> float:
        """Value of a formula for every draw."""
        function: Callable[..., Any] = formula.function
        if any(word in formula.expression for word in _BY_ELEMENT):
            import numpy  # noqa: PLC0415  only draws need it

            function = numpy.vectorize(function)
        return cast(float, function(*args, **kwargs))

    def sum(self, symbol: str, unit: str, terms: Any, clause: Clause = GEOMETRY) -> float:  # noqa: ANN401  arrays
        """Sum of terms, draw by draw."""
        return cast(float, sum(terms))

    def check(self, symbol: str, value: float, limit: float, unit: str, clause: Clause, *, holds: Any) -> bool:  # noqa: ANN401  arrays
        """Holds when it holds for every draw."""
        return all(holds) if hasattr(holds, "__iter__") else bool(holds)


class Relinked(Recorder):
    """Writes into the working of another recorder, and links some members of the request to steps instead."""

    def __init__(self, recorder: Recorder, linked: Mapping[str, float]) -> None:
        super().__init__(recorder.steps)
        self._linked = linked

    def given(self, value: float, pointer: str) -> float:
        """The value with its pointer, or the one of the step that found it."""
        return self._linked[pointer] if pointer in self._linked else Figure(value, pointer)


def on_other_inputs(trace: Trace) -> bool:
    """Whether a trace hands out other inputs than the request's, which was checked before."""
    return isinstance(trace, Varied | Relinked)


def on_plain_numbers(trace: Trace) -> bool:
    """Whether a trace neither records nor draws, so that limits may be taken by the kernel."""
    return not isinstance(trace, Recorder | Samples)
