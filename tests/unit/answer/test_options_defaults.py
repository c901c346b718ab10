"""Options: what an empty object means."""

import pytest
from pydantic import ValidationError

from storeyrod.options import Options


def test_no_option_asks_for_pieces_without_working_and_refuses_nothing() -> None:
    assert Options().model_dump() == {
        "trace": "none", "detail": "pieces", "perps": "nominal", "effort": "standard", "strict": False,
    }  # fmt: skip


@pytest.mark.parametrize(
    "wrong",
    [{"trace": "all"}, {"strict": 1}, {"strict": "true"}, {"speed": "fast"}, {"perps": None}],
    ids=str,
)
def test_an_option_outside_its_list_is_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Options.model_validate(wrong)


def test_options_cannot_be_changed_later() -> None:
    with pytest.raises(ValidationError):
        Options().strict = True  # type: ignore[misc]
