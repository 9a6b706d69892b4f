"""How each kind of container is looked at."""

from __future__ import annotations

import pytest

from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.looking import LOOKING_SOURCES, how_to_look, look_for, looking
from stockroom.domain.working import Standing

KINDS = [(one.value, "") for one in PackageKind] + [("jar", "can-3300")]


@pytest.mark.parametrize(("kind", "key"), KINDS)
def test_each_has_a_line_that_fits_and_ends_in_never_taste(kind: str, key: str) -> None:
    line = how_to_look(kind, key)
    assert line.endswith("Never taste.")
    assert len(line) <= 78


@pytest.mark.parametrize(("kind", "key"), KINDS)
def test_each_has_signs_with_a_source(kind: str, key: str) -> None:
    found = looking(kind, key)
    assert look_for(kind, key) == tuple(one.words for one in found.signs)
    assert len(set(found.signs)) == len(found.signs) >= 5
    assert {one.source for one in found.signs} <= set(LOOKING_SOURCES)
    assert look_for(kind, key)[-1] == "Never taste food to test it."
    assert any("Discard it unopened." in words for words in look_for(kind, key))


@pytest.mark.parametrize(
    ("kind", "key", "said"),
    [
        ("foil_pouch", "", "Squeeze and listen"),
        ("metallised_pouch", "", "Squeeze and listen"),
        ("vacuum_bag", "", "Film tight on hard pieces"),
        ("zip_bag", "", "Press the zip"),
        ("jar", "jar-950", "the glass free of mist"),
        ("jar", "can-3300", "Are both ends flat"),
    ],
)
def test_the_line_goes_by_the_container(kind: str, key: str, said: str) -> None:
    assert said in how_to_look(kind, key)


def test_mist_on_glass_is_published_and_seen_without_opening() -> None:
    """Glass shows moisture that collects inside: NCHFP, Packaging and Storing Dried Foods."""
    (mist,) = [one for one in looking("jar").signs if "Mist" in one.words]
    assert mist.source.standing is Standing.PUBLISHED
    assert "National Center for Home Food Preservation" in mist.source.citation
    assert "without opening" in mist.words
    assert not any("Mist" in words for words in look_for("jar", "can-3300"))


def test_a_loose_pouch_with_an_absorber_need_not_leak() -> None:
    """An absorber takes the fifth of the air that is oxygen, no more (US Standard Atmosphere)."""
    assert any("as most of the air is not oxygen" in words for words in look_for("foil_pouch"))


def test_a_kind_there_is_not_is_no_container() -> None:
    with pytest.raises(KeyError):
        how_to_look("paper_sack")
