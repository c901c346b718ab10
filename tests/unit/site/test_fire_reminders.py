"""Reminders of fire codes. Thresholds are data with their documents; here it is how they are read: at a height, or only above it."""

import pytest

from storeyrod.findings import FINDINGS
from storeyrod.reference.tables import rows_of
from storeyrod.site.models import Site
from storeyrod.site.reminders import THRESHOLDS, fire_reminders, is_sensitive, places_of

FLATS = {"use": "flats", "boundary_distance_m": 5}


def said(reaction: str | None = "E", thickness: float = 100.0, **site: object) -> list[dict]:
    return fire_reminders(Site.model_validate({**FLATS, **site}), "/site", reaction, thickness)


def limits(found: list[dict], code: str) -> list[float]:
    return [item["limit"] for item in found if item["code"] == code]


def test_english_flats_under_18_m_have_the_caution_from_11_m_and_not_the_ban() -> None:
    """Regulation 7(2) and the guidance of 2022 (both seen quoted): from 18 m a ban, from 11 m guidance."""
    found = said(jurisdiction="England", top_storey_height_m=17.9)
    assert limits(found, "fire-height-reminder") == [11, 11]
    assert limits(found, "fire-height-stop") == []


def test_at_18_m_the_english_ban_is_named() -> None:
    assert limits(said(jurisdiction="England", top_storey_height_m=18.0), "fire-height-stop") == [18]


@pytest.mark.parametrize(
    ("place", "height", "hard"),
    [
        ("Scotland", 10.99, False), ("Scotland", 11.0, True),
        ("Northern Ireland", 18.0, False), ("Northern Ireland", 18.01, True),
        ("Germany", 22.0, False), ("Germany", 22.01, True),
        ("France", 27.9, False), ("France", 28.0, True),
        ("elsewhere", 10.99, False), ("elsewhere", 11.0, True),
        ("UK", 10.99, False), ("UK", 11.0, True),
    ],
)  # fmt: skip
def test_a_threshold_counts_at_its_height_or_only_above_it(place: str, height: float, hard: bool) -> None:
    found = said(jurisdiction=place, top_storey_height_m=height)
    assert bool(limits(found, "fire-height-stop")) is hard


@pytest.mark.parametrize(("height", "named"), [(12.1, False), (12.3, True)])
def test_forty_feet_are_12_19_m(height: float, named: bool) -> None:
    """International Building Code 1402.5 (from memory): combustible water-resistive barriers over 40 ft."""
    found = said(jurisdiction="US", top_storey_height_m=height)
    assert (12.19 in limits(found, "fire-height-reminder")) is named


def test_foam_plastic_in_the_united_states_is_spoken_of_at_any_height() -> None:
    assert 0.0 in limits(said(jurisdiction="United States", top_storey_height_m=3), "fire-height-reminder")


@pytest.mark.parametrize(
    "missing",
    [{"jurisdiction": "England"}, {"top_storey_height_m": 3}, {"jurisdiction": "Atlantis", "top_storey_height_m": 3}],
)
def test_without_a_known_country_or_a_height_the_strictest_text_is_given(missing: dict) -> None:
    assert "fire-site-unknown" in [item["code"] for item in said(**missing)]


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("england", "england"), (" ENGLAND ", "england"), ("GB-ENG", "england"), ("gb-eng", "england"),
        ("Schottland", "scotland"), ("Écosse", "scotland"), ("ecosse", "scotland"), ("Deutschland", "germany"),
        ("U.S.A.", "united states"), ("Irland", "ireland"), ("POL", "poland"), ("Éire", "ireland"),
    ],
)  # fmt: skip
def test_places_are_known_by_name_in_some_languages_and_by_their_iso_3166_codes(name: str, place: str) -> None:
    assert places_of(name) == (place,)


def test_a_kingdom_stands_for_its_parts() -> None:
    parts = ("england", "scotland", "wales", "northern ireland")
    assert places_of("United Kingdom") == places_of("uk") == places_of("Vereinigtes Königreich") == parts
    assert places_of("Great Britain") == places_of("GROSSBRITANNIEN") == places_of("Großbritannien") == parts[:3]


def test_a_name_that_is_not_known_may_be_any_place() -> None:
    assert (
        set(places_of("Atlantis")) == set(places_of(None)) == {row.jurisdiction for row in THRESHOLDS} - {"everywhere"}
    )


@pytest.mark.parametrize("place", [None, "Atlantis", "UK", "Great Britain", "Schottland"])
@pytest.mark.parametrize("height", [11.0, 17.9])
def test_where_it_may_be_scotland_the_scottish_ban_from_11_m_stands(place: str | None, height: float) -> None:
    """The lowest of the hard heights known here (amendment of 2022, seen quoted)."""
    found = said(jurisdiction=place, top_storey_height_m=height)
    (stop,) = [item for item in found if item["code"] == "fire-height-stop"]
    assert stop["limit"] == 11
    assert "Building (Scotland) Regulations" in stop["advice"]


def test_where_it_may_be_the_united_states_foam_is_spoken_of_at_any_height() -> None:
    """International Building Code 2603.5 (from memory)."""
    assert 0.0 in limits(said(jurisdiction="Atlantis", top_storey_height_m=3), "fire-height-reminder")
    assert 0.0 not in limits(said(jurisdiction="UK", top_storey_height_m=3), "fire-height-reminder")


def test_what_a_place_is_read_as_is_said() -> None:
    advice = [
        item["advice"] for item in said(jurisdiction="UK", top_storey_height_m=12) if "Scotland" in item["advice"]
    ]
    assert advice[0].startswith(
        "Country not known for sure; this is the rule of Scotland, one of the places that it may be."
    )
    assert not [item for item in said(jurisdiction="Scotland", top_storey_height_m=12) if "for sure" in item["advice"]]


@pytest.mark.parametrize(
    ("site", "lacking", "known"),
    [
        ({"jurisdiction": "England"}, ["top_storey_height_m"], ["jurisdiction"]),
        ({"jurisdiction": "Atlantis", "top_storey_height_m": 3}, ["jurisdiction"], ["top_storey_height_m"]),
        ({}, ["jurisdiction", "top_storey_height_m"], []),
    ],
)
def test_of_country_and_height_what_is_missing_is_asked_for_alone(site: dict, lacking: list, known: list) -> None:
    (item,) = [item for item in said(**site) if item["code"] == "fire-site-unknown"]
    assert all(member in item["advice"] for member in lacking)
    assert not any(member in item["advice"] for member in known)
    assert "11 m" not in item["advice"]


def test_no_two_rules_are_each_said_to_be_the_strictest() -> None:
    for site in ({}, {"jurisdiction": "UK", "top_storey_height_m": 12}):
        rules = [item["advice"] for item in said(**site) if "the rule of" in item["advice"]]
        assert len(rules) > 1
        assert not [advice for advice in rules if "strictest" in advice]


def test_thick_foam_is_spoken_of_where_it_may_be_germany() -> None:
    """Notice of 2015: barriers of rendered systems are set out up to 300 mm."""
    codes = {
        place: [item["code"] for item in said("E", 301.0, jurisdiction=place, top_storey_height_m=3)]
        for place in ("Germany", "Atlantis", "France")
    }
    assert ["fire-thickness" in found for found in codes.values()] == [True, True, False]


@pytest.mark.parametrize(
    ("use", "sensitive"),
    [("dwelling", True), ("Hotel, 40 beds", True), ("primary school", True), ("office", False), ("shops and flats", True), ("qx", True), (None, True)],
)  # fmt: skip
def test_an_unknown_use_counts_as_one_where_people_sleep(use: str | None, sensitive: bool) -> None:
    assert is_sensitive(use) is sensitive


@pytest.mark.parametrize("reaction", ["A1", "A2"])
@pytest.mark.parametrize(
    "site",
    [
        {"jurisdiction": "England", "top_storey_height_m": 30, "use": "flats", "boundary_distance_m": 0.2},
        {"jurisdiction": "Scotland", "top_storey_height_m": 30, "use": "hospital", "boundary_distance_m": 0.2},
        {"use": None, "boundary_distance_m": None},
    ],
)
def test_the_class_of_a_bare_board_takes_no_reminder_away(reaction: str, site: dict) -> None:
    """Rules speak of everything in an outer wall: adhesive, slips and fasteners too."""
    codes = [item["code"] for item in said(reaction, **site)]
    combustible = [item["code"] for item in said("E", **site)]
    assert codes == ["fire-class-of-board", *combustible[1:]]
    assert {"fire-height-reminder", "fire-height-stop", "fire-boundary", "fire-use"} <= set(codes)


def test_thick_boards_that_do_not_burn_are_no_thick_foam() -> None:
    assert "fire-thickness" not in [item["code"] for item in said("A1", 400.0, jurisdiction="Germany")]


def test_boards_of_unknown_class_count_as_combustible() -> None:
    assert said(None, jurisdiction="England", top_storey_height_m=3)[0]["code"] == "fire-insulation"


def test_every_reminder_names_its_document_its_date_and_that_local_law_decides() -> None:
    found = [
        item
        for place in sorted({row["name"] for row in rows_of("jurisdiction_names")})
        for item in said(jurisdiction=place, top_storey_height_m=60)
        if item["code"].startswith("fire-height")
    ]
    assert found
    assert all("November 2026" in item["advice"] and "local law decides" in item["advice"] for item in found)


def test_no_text_says_that_a_wall_may_be_built() -> None:
    texts = [row.text for row in THRESHOLDS] + [FINDINGS[code].advice for code in FINDINGS if code.startswith("fire")]
    assert not [text for text in texts for word in ("approved", "safe", "compliant", "passes") if word in text.lower()]


def test_a_taller_building_is_never_reminded_of_less() -> None:
    for place in ("England", "Scotland", "Germany", "France", "US", "Poland", "nowhere"):
        counts = [
            len(said(jurisdiction=place, top_storey_height_m=height)) for height in (0, 8, 11, 13, 18, 22.1, 28, 60)
        ]
        assert counts == sorted(counts)


@pytest.mark.parametrize("place", ["Scotland", "Germany", "US", "England", "France", "UK", "elsewhere"])
def test_a_missing_height_is_read_as_any_height(place: str) -> None:
    """No building is 1000 m high: every threshold lies under it."""

    def heights(found: list[dict]) -> list[str]:
        return [item["code"] for item in found if item["code"].startswith("fire-height")]

    missing = heights(said(jurisdiction=place))
    assert missing == heights(said(jurisdiction=place, top_storey_height_m=1000))
    assert "fire-height-stop" in missing


def test_without_a_height_the_english_ban_is_named() -> None:
    assert [item for item in said(jurisdiction="England") if "regulation 7(2)" in item["advice"]]
