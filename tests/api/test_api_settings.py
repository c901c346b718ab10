import pytest
from pydantic import ValidationError

from storeyrod.api.settings import Settings


def test_each_setting_is_an_environment_variable(monkeypatch):
    monkeypatch.setenv("STOREYROD_BODY_LIMIT_BYTES", "123")
    monkeypatch.setenv("STOREYROD_ALLOWED_ORIGINS", "https://a.example, https://b.example")
    made = Settings()
    assert made.body_limit_bytes == 123
    assert made.allowed_origins == ("https://a.example", "https://b.example")


def test_settings_do_not_change_once_made():
    with pytest.raises(ValidationError):
        Settings().body_limit_bytes = 5


@pytest.mark.parametrize("name", ["workers", "body_limit_bytes", "items_limit", "time_limit_s"])
def test_a_limit_below_nothing_is_refused_at_start(name):
    with pytest.raises(ValidationError):
        Settings(**{name: -1})


def test_no_origin_is_allowed_by_default():
    assert Settings().allowed_origins == ()
