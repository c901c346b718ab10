"""The worked house of the full example: an invented rear extension."""

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

from storeyrod.take_off.models import TakeOffRequest

_FULL = Path(__file__).parents[3] / "openapi" / "examples" / "computeTakeOff" / "full.json"
_REQUEST: dict[str, Any] = json.loads(_FULL.read_text(encoding="utf-8"))


def house(**changes: Any) -> dict[str, Any]:
    """The request document with members replaced."""
    return {**deepcopy(_REQUEST), **changes}


def asked_for(**changes: Any) -> TakeOffRequest:
    return TakeOffRequest.model_validate(house(**changes))
