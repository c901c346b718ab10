"""What every JSON answer carries beside its members: the bytes as received, and the id of the request."""

from pydantic import BaseModel, PrivateAttr


class Received(BaseModel):
    """Base of the generated answers. Members that this version of the client does not know are ignored."""

    _raw_body: bytes = PrivateAttr(default=b"")
    _request_id: str = PrivateAttr(default="")

    @property
    def raw_body(self) -> bytes:
        """The body exactly as the service sent it, unknown members included."""
        return self._raw_body

    @property
    def request_id(self) -> str:
        """The ``Request-Id`` under which the service logged this call."""
        return self._request_id
