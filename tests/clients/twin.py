"""Either twin behind one face, so that a test holds for both."""

import asyncio

import httpx2

from storeyrod_client import AsyncClient, Client, Retries

ADDRESS = "http://storeyrod.example"
TWINS = ("blocking", "awaiting")

ANSWER = {
    "calculation": {"engine_version": "9.9.9", "data_edition": "2099-01", "fingerprint": "0" * 64},
    "result": {
        "u_value_w_per_m2_k": 0.25,
        "u_value_declared_w_per_m2_k": 0.25,
        "u_value_uncorrected_w_per_m2_k": 0.25,
        "u_value_corrected_w_per_m2_k": 0.25,
        "r_total_m2_k_per_w": 4.0,
        "r_total_declared_m2_k_per_w": 4.0,
        "r_upper_m2_k_per_w": 4.0,
        "r_lower_m2_k_per_w": 4.0,
        "relative_error_fraction": 0.0,
        "surfaces": {"internal_m2_k_per_w": 0.13, "external_m2_k_per_w": 0.04},
        "layers": [],
        "corrections": [],
    },
    "findings": [],
    "assumptions": [],
    "not_checked": [],
}


class Twin:
    """One call per client; a script of answers stands in for the service."""

    def __init__(self, kind, *, script=None, transport=None, address=ADDRESS, chance=0.0, now=0.0, **options):
        self.kind = kind
        self.address = address
        self.sent = []
        self.slept = []
        self._script = iter(script or ())
        self._transport = httpx2.MockTransport(self._answer) if script is not None else transport
        retries = options.pop("retries", {})
        self._options = {"retries": Retries(**{"chance": lambda: chance, "now": lambda: now} | retries), **options}

    def call(self, name, *arguments, **options):
        if self.kind == "blocking":
            return self._blocking(name, arguments, options)
        return asyncio.run(self._awaiting(name, arguments, options))

    def _blocking(self, name, arguments, options):
        with Client(self.address, transport=self._transport, sleep=self.slept.append, **self._options) as client:
            return getattr(client, name)(*arguments, **options)

    async def _awaiting(self, name, arguments, options):
        async def sleep(seconds):
            self.slept.append(seconds)

        async with AsyncClient(self.address, transport=self._transport, sleep=sleep, **self._options) as client:
            return await getattr(client, name)(*arguments, **options)

    def _answer(self, request):
        self.sent.append(request)
        step = next(self._script)
        if isinstance(step, Exception):
            raise step
        return httpx2.Response(step.status_code, headers=step.headers, content=step.content)


def answer(**members):
    """A success as the service sends it."""
    return httpx2.Response(200, json={**ANSWER, **members}, headers={"Request-Id": "r-1"})


def problem(status, slug="some-problem", *, headers=None, **members):
    """A problem as the service sends it."""
    document = {"type": f"urn:storeyrod:problem:{slug}", "title": "T", "status": status, "detail": "D", **members}
    sent = {"Content-Type": "application/problem+json", "Request-Id": "r-7"} | (headers or {})
    return httpx2.Response(status, json=document, headers=sent)
