"""Problem documents of RFC 9457: the only shape in which the service says no."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

import orjson

from storeyrod.api.problem_catalogue import CATALOGUE, ProblemKind
from storeyrod.api.reply import PROBLEM_JSON, Reply

ErrorRow = Mapping[str, str]
"""One entry of ``errors``: pointer, code, detail."""

NO_STORE: Final = ("Cache-Control", "no-store")


class Problem(Exception):  # noqa: N818  RFC 9457's word for it
    """A problem to answer with: slug of the catalogue, a sentence that says what is wrong, and what goes beside it."""

    def __init__(
        self,
        slug: str,
        detail: str | None = None,
        *,
        errors: Sequence[ErrorRow] = (),
        left_out: int = 0,
        members: Mapping[str, Any] | None = None,
        headers: tuple[tuple[str, str], ...] = (),
    ) -> None:
        """Fail at once on a slug that the catalogue does not hold."""
        super().__init__(slug)
        self.kind: ProblemKind = CATALOGUE[slug]
        self.detail = detail or f"{self.kind.trigger} {self.kind.advice}"
        self.errors = errors
        self.left_out = left_out
        self.members = members or {}
        self.headers = headers

    def document(self) -> dict[str, Any]:
        """The problem as a JSON object."""
        made: dict[str, Any] = {
            "type": self.kind.type,
            "title": self.kind.title,
            "status": self.kind.status,
            "detail": self.detail,
            **self.members,
        }
        if self.errors:
            made["errors"] = list(self.errors)
        if self.left_out:
            made["errors_left_out_count"] = self.left_out
        return made

    def reply(self) -> Reply:
        """The problem, ready to send."""
        return Reply(self.kind.status, PROBLEM_JSON, orjson.dumps(self.document()), (NO_STORE, *self.headers))


def size_problem(slug: str, what: str, limit: int | float, unit: str) -> Problem:
    """A limit was passed: the sentence and the ``limit`` member name it."""
    kind = CATALOGUE[slug]
    return Problem(
        slug, f"{what}; the limit is {limit:.10g} {unit}. {kind.advice}", members={"limit": limit, "unit": unit}
    )
