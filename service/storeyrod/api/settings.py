"""Every limit and switch of the service, read once at start from the environment."""

from typing import Annotated

from pydantic import Field, field_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict


class Settings(BaseSettings):
    """Frozen settings; each field is the environment variable ``STOREYROD_<NAME>``."""

    model_config = SettingsConfigDict(env_prefix="STOREYROD_", frozen=True)

    host: Annotated[str, Field(description="Address to listen on.")] = "127.0.0.1"
    port: Annotated[int, Field(ge=0, le=65_535, description="Port to listen on; 0 picks a free one.")] = 8000
    allowed_origins: Annotated[
        tuple[str, ...],
        NoDecode,
        Field(description="Origins of pages that may call; comma-separated, empty by default."),
    ] = ()

    body_limit_bytes: Annotated[int, Field(ge=1, description="Longest request body.")] = 2_000_000
    inline_limit_bytes: Annotated[
        int,
        Field(
            ge=0, description="Longest body of a short calculation read in the event loop; longer ones go to a worker."
        ),
    ] = 50_000
    nesting_limit: Annotated[int, Field(ge=1, le=200, description="Deepest nesting of a request body.")] = 32
    items_limit: Annotated[int, Field(ge=1, description="Most list members in a request body, vertices apart.")] = (
        20_000
    )
    vertices_limit: Annotated[int, Field(ge=1, description="Most points (x_mm, y_mm) in a request body.")] = 20_000
    work_limit: Annotated[int, Field(ge=1, description="Most pieces, slips and fasteners estimated for a request.")] = (
        2_000_000
    )
    errors_limit: Annotated[int, Field(ge=1, description="Most errors listed in one problem.")] = 20

    workers: Annotated[
        int, Field(ge=0, le=256, description="Worker processes for long calculations; 0 calculates in the event loop.")
    ] = 2
    waiting_limit: Annotated[int, Field(ge=0, description="Long requests that may wait for a worker before 503.")] = 8
    time_limit_s: Annotated[float, Field(gt=0, description="Longest calculation of one request in a worker.")] = 20.0
    retry_after_s: Annotated[int, Field(ge=1, description="Retry-After of a 503.")] = 2

    log_requests: Annotated[bool, Field(description="One JSON line on standard error for each request.")] = True

    @field_validator("allowed_origins", mode="before")
    @classmethod
    def _split(cls, value: object) -> object:
        if isinstance(value, str):
            return tuple(origin.strip() for origin in value.split(",") if origin.strip())
        return value
