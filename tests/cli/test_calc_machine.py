"""calc leak through the command line: keys, verdicts, units, refusals."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Cli

U = "--volume-l 40 --from-mbar 0.30 --to-mbar 0.60 --seconds 600"


def test_the_rate_has_its_keys_and_no_verdict_is_invented(nowhere: Cli) -> None:
    # Computed: 40 L x 0.30 mbar / 600 s.
    found = nowhere("calc", "leak", *U.split(), "--json").json
    assert {"mbar_l_per_s", "verdict"} <= set(found)
    assert found["mbar_l_per_s"] == pytest.approx(0.020, abs=1e-12)
    assert found["mbar_per_min"] == pytest.approx(0.03, abs=1e-12)
    assert found["millitorr_per_min"] == pytest.approx(22.5, abs=0.05)
    assert found["cm3_per_min"] == pytest.approx(1.184, abs=0.0005)
    assert (found["verdict"], found["dry_empty"]) == ("none", None)
    assert "dry and empty" in found["reason"]
    assert not nowhere.path.exists()


@pytest.mark.parametrize(
    ("extra", "verdict"),
    [
        ("--dry-empty", "within"),
        ("--not-dry", "none"),
        ("--dry-empty --seconds 599", "over"),
        ("--dry-empty --to-mbar 0.601", "over"),
    ],
)
def test_a_verdict_needs_a_dry_and_empty_chamber(nowhere: Cli, extra: str, verdict: str) -> None:
    # Limit of 0.02 mbar L/s: Parenteral Society, Technical Monograph 7 (secondary copy).
    line = f"calc leak {U} {extra} --json"
    assert nowhere(*line.split()).json["verdict"] == verdict


def test_millitorr_are_converted(nowhere: Cli) -> None:
    # Computed: 30 L x 0.150 Torr / 300 s = 0.015 Torr L/s = 0.0200 mbar L/s.
    found = nowhere(
        "calc", "leak", "--volume-l", "30", "--from-mbar", "300 mTorr", "--to-mbar", "450 micron",
        "--seconds", "300", "--json",
    ).json  # fmt: skip
    assert found["torr_l_per_s"] == pytest.approx(0.015, abs=1e-12)
    assert found["mbar_l_per_s"] == pytest.approx(0.0200, abs=1e-5)


@pytest.mark.parametrize(
    ("extra", "shape", "ratio"),
    [
        ("--between-mbar 0.45", "straight", 1.0),
        ("--between-mbar 0.4 --between-seconds 200", "straight", 1.0),
        ("--between-mbar 0.5", "levels off", 0.5),
    ],
)
def test_a_reading_in_between_tells_the_shape(
    nowhere: Cli, extra: str, shape: str, ratio: float
) -> None:
    found = nowhere("calc", "leak", *U.split(), *extra.split(), "--json").json
    assert found["shape"] == shape
    assert found["second_to_first"] == pytest.approx(ratio, abs=1e-12)


def test_the_page_says_what_it_means_and_where_the_limit_is_from(nowhere: Cli) -> None:
    page = " ".join(nowhere("calc", "leak", *U.split(), "--dry-empty", "--working").out.split())
    assert "within: The rate is within 0.02 mbar L/s" in page
    assert "Technical Monograph 7" in page and "published" in page
    assert "40 L x (0.6 mbar - 0.3 mbar) / 600 s" in page
    quiet = nowhere("calc", "leak", *U.split()).out
    assert "not said" in quiet and "none: Nobody said" in quiet


@pytest.mark.parametrize(
    ("extra", "code", "said"),
    [
        ("--to-mbar 0.30", 3, "did not rise: 0.3 mbar, then 0.3 mbar"),
        ("--to-mbar 0.2", 3, "did not rise"),
        ("--seconds 0", 3, "more than 0 s"),
        ("--seconds -600", 2, "seconds"),
        ("--volume-l 0", 3, "more than 0 L"),
        ("--volume-l forty", 2, "volume"),
        ("--from-mbar 0.3bar", 2, "first pressure"),
        ("--to-mbar 1101", 2, "last pressure"),
        ("--between-mbar 0.7", 3, "does not lie between"),
        ("--between-mbar 0.45 --between-seconds 600", 3, "after 600 s of 600 s"),
        ("--between-seconds 300", 2, "--between-mbar"),
    ],
)
def test_what_is_no_test_is_refused(nowhere: Cli, extra: str, code: int, said: str) -> None:
    answer = nowhere("calc", "leak", *U.split(), *extra.split(), code=code)
    assert answer.out == "" and said in answer.err
