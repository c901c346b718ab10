"""Container image and compose file, without a container engine: linters, and what must hold for the running service."""

import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

from architecture.package import CHECKOUT

DOCKERFILE = CHECKOUT / "docker" / "Dockerfile"
COMPOSE = CHECKOUT / "docker" / "compose.yaml"


def tool(name: str) -> str:
    """A command of this environment."""
    found = shutil.which(name, path=str(Path(sys.executable).parent))
    assert found is not None, f"{name} is not installed; it stands in tests/requirements.lock"
    return found


def test_the_image_file_passes_its_linter() -> None:
    run = subprocess.run([tool("hadolint"), str(DOCKERFILE)], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout


def test_the_compose_file_fits_the_published_schema() -> None:
    command = [tool("check-jsonschema"), "--builtin-schema", "vendor.compose-spec", str(COMPOSE)]
    run = subprocess.run(command, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout


def instructions(stage: int) -> list[str]:
    """Instructions of a build stage, continuation lines joined."""
    text = re.sub(r"\\\n\s*", "", DOCKERFILE.read_text(encoding="utf-8"))
    stages = re.split(r"^(?=FROM )", text, flags=re.MULTILINE)[1:]
    return [line for line in stages[stage].splitlines() if line and not line.startswith("#")]


def test_the_image_runs_as_a_numbered_user_that_owns_nothing() -> None:
    last = instructions(-1)
    assert "USER 10001:10001" in last
    assert not any("chown" in line for line in last)


def test_no_command_of_the_image_goes_through_a_shell() -> None:
    commands = [line for line in instructions(-1) if re.match(r"\s*(?:CMD|ENTRYPOINT)\b", line)]
    assert commands
    assert all('["' in line for line in commands)


def test_the_image_installs_only_what_the_locks_name() -> None:
    installs = [line for line in instructions(0) if "pip install" in line]
    for one in re.findall(r"pip install [^&]*", "\n".join(installs)):
        assert "--require-hashes" in one or ("--no-index" in one and "--no-deps" in one), one


def test_the_image_asks_the_service_whether_it_is_ready() -> None:
    from starlette.testclient import TestClient

    from storeyrod.api.app import create_app
    from storeyrod.api.settings import Settings

    (check,) = [line for line in instructions(-1) if line.startswith("HEALTHCHECK")]
    path = re.search(r"127\.0\.0\.1:8080(/[\w/]+)", check)
    assert path is not None
    with TestClient(create_app(Settings(workers=0, log_requests=False))) as client:
        assert client.get(path[1]).status_code == 200


def test_the_image_starts_the_command_that_the_package_has() -> None:
    (command,) = [line for line in instructions(-1) if line.startswith("CMD")]
    words = re.findall(r'"([^"]+)"', command)
    assert words[:3] == ["python", "-m", "storeyrod"]
    run = subprocess.run([sys.executable, *words[1:4], "--help"], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    assert all(word in run.stdout for word in words[4:] if word.startswith("--"))


@pytest.fixture(scope="module")
def services() -> dict[str, Any]:
    content: dict[str, Any] = yaml.safe_load(COMPOSE.read_text(encoding="utf-8"))
    return content["services"]


def test_every_service_runs_with_the_least_it_needs(services: dict[str, Any]) -> None:
    for name, service in services.items():
        assert service["read_only"] is True, name
        assert service["cap_drop"] == ["ALL"], name
        assert "no-new-privileges:true" in service["security_opt"], name
        assert service["mem_limit"], name
        assert service["pids_limit"], name


def test_a_port_is_open_to_this_machine_only(services: dict[str, Any]) -> None:
    ports = [port for service in services.values() for port in service.get("ports", [])]
    assert all(port.startswith("127.0.0.1:") for port in ports)
