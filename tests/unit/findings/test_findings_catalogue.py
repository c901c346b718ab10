"""The catalogues themselves, and how findings and refusals are made from them."""

import pickle

import pytest

from storeyrod.findings import FINDINGS, REFUSALS, Fault, Refusal, finding, refuse


@pytest.mark.parametrize("code", [*FINDINGS, *REFUSALS])
def test_a_code_is_plain_kebab_case(code: str) -> None:
    assert code == code.lower().strip("-")
    assert code.replace("-", "").isalpha()


def test_no_word_means_both_a_finding_and_a_refusal() -> None:
    assert set(FINDINGS) & set(REFUSALS) == set()


@pytest.mark.parametrize("kind", FINDINGS.values(), ids=FINDINGS)
def test_a_finding_says_in_sentences_what_it_means_what_triggers_it_and_what_to_do(kind: object) -> None:
    for sentence in (kind.meaning, kind.trigger, kind.advice):  # type: ignore[attr-defined]
        assert sentence.endswith(".")
        assert len(sentence) < 160


@pytest.mark.parametrize("kind", REFUSALS.values(), ids=REFUSALS)
def test_a_refusal_has_a_title_a_trigger_and_advice(kind: object) -> None:
    assert kind.title  # type: ignore[attr-defined]
    assert not kind.title.endswith(".")  # type: ignore[attr-defined]
    assert kind.trigger.endswith(".")  # type: ignore[attr-defined]
    assert kind.advice.endswith(".")  # type: ignore[attr-defined]


def test_a_finding_takes_level_and_advice_from_the_catalogue() -> None:
    made = finding("sliver", {"elevation": "rear"}, value=10.5, limit=50.0, unit="mm")
    assert made == {
        "code": "sliver", "level": "caution", "where": {"elevation": "rear"}, "advice": FINDINGS["sliver"].advice,
        "value": 10.5, "limit": 50.0, "unit": "mm",
    }  # fmt: skip


def test_what_a_finding_has_not_is_left_out() -> None:
    assert set(finding("sliver", {})) == {"code", "level", "where", "advice"}


def test_a_value_of_nothing_is_still_a_value() -> None:
    assert finding("sliver", {}, value=0.0, limit=0.0)["value"] == 0.0


def test_a_sharper_advice_replaces_the_catalogue_s() -> None:
    assert finding("sliver", {}, advice="Shift the bond by 40 mm.")["advice"] == "Shift the bond by 40 mm."


@pytest.mark.parametrize("code", ["no-such-code", "pitch-mismatch"])
def test_a_finding_outside_the_catalogue_cannot_be_made(code: str) -> None:
    with pytest.raises(KeyError):
        finding(code, {})


@pytest.mark.parametrize("slug", ["no-such-slug", "sliver"])
def test_a_refusal_outside_the_catalogue_cannot_be_made(slug: str) -> None:
    with pytest.raises(KeyError):
        refuse(slug, "", "")


def test_a_refusal_survives_the_way_from_a_worker_process() -> None:
    made = refuse("pitch-mismatch", "/system/board", "75 differs from 76.")
    back = pickle.loads(pickle.dumps(made))
    assert (back.slug, back.detail, back.faults) == (made.slug, made.detail, made.faults)
    assert made.faults == (Fault("/system/board", "pitch-mismatch", "75 differs from 76."),)


def test_a_refusal_reads_as_slug_and_sentence_and_can_be_kept_in_a_set() -> None:
    made = Refusal("pitch-mismatch", "75 differs from 76.")
    assert str(made) == "pitch-mismatch: 75 differs from 76."
    assert len({made, made}) == 1
