"""What the service says, and what its files must not name."""

import ast
import json
import re
import subprocess
from pathlib import Path

import pytest

from architecture.package import CHECKOUT, PACKAGE, docstring_nodes, files, name_of, tree_of
from storeyrod.reference.documents import DOCUMENTS

PROMISES = re.compile(r"\b(?:approved|safe|safely|compliant|compliance|guaranteed?|certified)\b", re.IGNORECASE)
INDEX_HOSTS = re.compile(
    r"(?:py(?:pi|thonhosted)|npm(?:js)?|crates|rubygems)\.(?:org|com|io)|registry\.\w+\.(?:org|com)"
)
MACHINE_PATHS = re.compile(r"(?:^|[^\w.])/(?:root|home|tmp|Users|opt/py\w*|work/(?:main|shared|venv|\.library))/")
LOCKS = [*CHECKOUT.glob("docker/*.lock"), *CHECKOUT.glob("tests/*.lock")]


@pytest.mark.parametrize("file", files(), ids=name_of)
def test_no_text_of_the_service_promises_what_only_others_can(file: Path) -> None:
    tree = tree_of(file)
    quiet = docstring_nodes(tree)
    said = [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in quiet
    ]
    assert [text for text in said if PROMISES.search(text)] == []


def test_the_published_description_and_the_reference_data_promise_nothing_either() -> None:
    texts = [CHECKOUT / "openapi" / "openapi.json", *PACKAGE.rglob("*.json")]
    assert [(str(path), PROMISES.findall(path.read_text(encoding="utf-8"))) for path in texts
            if PROMISES.search(path.read_text(encoding="utf-8"))] == []  # fmt: skip


def tracked() -> list[Path]:
    """Text files of the checkout under version control."""
    listed = subprocess.run(
        ["git", "-C", str(CHECKOUT), "ls-files", "-z"], capture_output=True, text=True, check=True
    ).stdout.split("\0")
    return [CHECKOUT / name for name in listed if name and (CHECKOUT / name).is_file()]


def readable(path: Path) -> str:
    return path.read_bytes().decode("utf-8", errors="replace")


def test_no_file_names_the_host_of_a_package_index() -> None:
    assert [str(path) for path in tracked() if INDEX_HOSTS.search(readable(path))] == []


def test_no_file_names_a_path_of_a_machine() -> None:
    named = {str(path): MACHINE_PATHS.findall(readable(path)) for path in tracked()}
    assert {path: found for path, found in named.items() if found} == {}


def test_the_top_level_is_the_one_that_was_agreed() -> None:
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "service", "openapi", "tests", "docker", "clients"}
    tops = {path.relative_to(CHECKOUT).parts[0] for path in tracked()}
    assert {top for top in tops if not top.startswith(".")} <= allowed


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.name)
def test_a_lock_has_hashes_and_no_address(lock: Path) -> None:
    text = lock.read_text(encoding="utf-8")
    assert "://" not in text
    assert not re.search(r"^\s*--(?!hash=)", text, re.MULTILINE)
    entries = re.findall(r"^[A-Za-z0-9][^\n]*==[^\n]*(?:\n    [^\n]*)*", text, re.MULTILINE)
    assert len(entries) > 2
    assert [entry.split("\n")[0] for entry in entries if "--hash=sha256:" not in entry] == []


def pins(lock: Path) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for name, version in re.findall(r"^([A-Za-z0-9._-]+)==(\S+)", lock.read_text(encoding="utf-8"), re.MULTILINE):
        found.setdefault(name.lower(), set()).add(version)
    return found


def test_the_locks_hold_what_the_project_pins() -> None:
    import tomllib

    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
    runtime, tests = pins(CHECKOUT / "docker" / "requirements.lock"), pins(CHECKOUT / "tests" / "requirements.lock")
    wanted = project["project"]["dependencies"]
    groups = [one for group in project["dependency-groups"].values() for one in group if isinstance(one, str)]
    for lock, requirements in ((runtime, wanted), (tests, [*wanted, *groups])):
        for requirement in requirements:
            name, exactly, version = re.fullmatch(r"([\w.-]+)(?:\[\w+\])?(==|>=)(.+)", requirement).groups()
            locked = lock[name.lower()]
            assert exactly == ">=" or version in locked, f"{requirement} is not in the lock; see DEVELOPERS.md"


def test_what_runs_in_the_container_is_what_was_tested() -> None:
    tested = pins(CHECKOUT / "tests" / "requirements.lock")
    for lock in ("requirements.lock", "build.lock"):
        for name, versions in pins(CHECKOUT / "docker" / lock).items():
            assert versions == tested[name], name


def test_every_document_cited_in_the_data_exists() -> None:
    def cited(value: object) -> list[str]:
        if isinstance(value, dict):
            own = [value["document"]] if isinstance(value.get("document"), str) else []
            return own + [one for inner in value.values() for one in cited(inner)]
        return [one for inner in value for one in cited(inner)] if isinstance(value, list) else []

    for path in PACKAGE.rglob("*.json"):
        if "reference" in path.parts:
            assert set(cited(json.loads(path.read_text(encoding="utf-8")))) <= set(DOCUMENTS), path.name


def test_every_document_is_cited_somewhere() -> None:
    said = "\n".join(path.read_text(encoding="utf-8") for path in [*PACKAGE.rglob("*.py"), *PACKAGE.rglob("*.json")])
    tests = "\n".join(path.read_text(encoding="utf-8") for path in (CHECKOUT / "tests").rglob("*.py"))
    listed = re.compile(r'\{"key": "[^"]*"')
    everything = listed.sub("", said) + tests
    assert [key for key in DOCUMENTS if key not in everything] == []
