"""calc sample and calc belief, through the command line."""

from __future__ import annotations

from fractions import Fraction
from math import comb

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy import stats

from tests.cli.calculating import answer, working_of
from tests.cli.conftest import Cli
from tests.domain.sampling_tables import AT_MOST, IMPERFECT, rows


def test_sample_has_its_keys_and_figures(nowhere: Cli) -> None:
    # Hypergeometric distribution: C(17, 12) / C(20, 12) = 6188/125970, computed.
    found = answer(nowhere, "sample --lot 20 --at-most 2 --confidence 0.95")
    assert {"inspect", "detection_probability"} <= set(found)
    assert found["inspect"] == 12
    assert found["detection_probability"] == pytest.approx(1 - 6188 / 125970, abs=1e-12)
    assert found["impossible"] is False
    assert found["sentence"].startswith("Look at 12 of 20, picked at random")
    assert found["passes"][2] == {"soft": 3, "chance": pytest.approx(6188 / 125970, abs=1e-12)}


@pytest.mark.parametrize("percent", AT_MOST)
def test_sample_gives_the_table(nowhere: Cli, percent: int) -> None:
    # Computed from the definition.
    for lot, *cells in rows(AT_MOST[percent])[-3:]:
        for at_most, cell in zip((0, 1, 2, 3, 5), cells, strict=True):
            line = f"sample --lot {lot} --at-most {at_most} --confidence {percent}%"
            assert answer(nowhere, line)["inspect"] == int(cell), line


def test_an_imperfect_check_gives_the_table(nowhere: Cli) -> None:
    # Computed from the definition, after Cameron and Baldock 1998.
    for lot, soft, *cells in rows(IMPERFECT):
        for sensitivity, cell in zip(("1", "0.9", "80 %", ".6"), cells, strict=True):
            line = ("sample", "--lot", lot, "--at-most", str(int(soft) - 1), "--confidence", "0.95")
            found = nowhere("calc", *line, "--sensitivity", sensitivity, "--json").json
            assert found["inspect"] == (None if cell == "-" else int(cell)), (lot, sensitivity)


def test_impossible_is_null_and_says_what_to_do(nowhere: Cli) -> None:
    line = "sample --lot 20 --at-most 1 --confidence 0.95 --sensitivity 0.6"
    found = answer(nowhere, line)
    assert found["inspect"] is None and found["impossible"] is True
    assert found["detection_probability"] == pytest.approx(0.84, abs=1e-12)
    assert "passes" not in found
    page = " ".join(nowhere("calc", *line.split()).out.split())
    assert "look at impossible" in page
    assert "only 84.00 % of the time. Use a better check: open them, weigh them" in page


def test_at_the_limit_the_comparison_is_exact(nowhere: Cli) -> None:
    # The chance with 95 looked at is just 1/20; in binary numbers 1 - 0.95 is less than that.
    assert 1 - 0.95 > 0.05
    assert answer(nowhere, "sample --lot 100 --at-most 0 --confidence 0.95")["inspect"] == 95
    # ISPM 31 prints 56 for two soft of 100 at 80 %; the chance with 55 is just 1/5.
    assert answer(nowhere, "sample --lot 100 --at-most 1 --confidence 0.8")["inspect"] == 55


def test_soft_ones_can_be_allowed_for(nowhere: Cli) -> None:
    # Computed from the definition.
    found = answer(nowhere, "sample --lot 100 --at-most 3 --confidence 0.95 --accept 1")
    assert (found["inspect"], found["accept"]) == (75, 1)
    ways = sum(comb(4, k) * comb(96, 75 - k) for k in (0, 1))
    assert found["detection_probability"] == pytest.approx(1 - ways / comb(100, 75), abs=1e-12)


def test_the_largest_lot_is_answered(nowhere: Cli) -> None:
    found = answer(nowhere, "sample --lot 100000 --at-most 0 --confidence 0.95")
    assert (found["inspect"], found["detection_probability"]) == (95_000, 0.95)
    found = answer(nowhere, "sample --lot 100000 --at-most 99 --confidence 0.95")
    enough, fewer = found["inspect"], found["inspect"] - 1
    assert stats.hypergeom(100_000, 100, enough).pmf(0) <= 0.05
    assert stats.hypergeom(100_000, 100, fewer).pmf(0) > 0.05


@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=30, deadline=None
)
@given(st.integers(1, 60), st.data(), st.integers(1, 99))
def test_sample_agrees_with_a_statistics_library(
    nowhere: Cli, lot: int, data: st.DataObject, percent: int
) -> None:
    at_most = data.draw(st.integers(0, lot - 1))
    found = answer(nowhere, f"sample --lot {lot} --at-most {at_most} --confidence {percent}%")
    missed, nearly = (
        stats.hypergeom(lot, at_most + 1, found["inspect"] - fewer).pmf(0) for fewer in (0, 1)
    )
    assert missed <= 1 - percent / 100 + 1e-9
    assert nearly > 1 - percent / 100 - 1e-9
    assert found["detection_probability"] == pytest.approx(1 - missed, abs=1e-9)


def test_belief_has_its_keys_and_figures(nowhere: Cli) -> None:
    # Beta-binomial distribution with Beta(1, 1): P(none) = 2/7, mean 15/7, computed.
    found = answer(nowhere, "belief --checked 5 --soft 0 --remaining 15")
    assert {
        "mean",
        "low",
        "high",
        "p_none_soft_in_remaining",
        "expected_soft_in_remaining",
    } <= set(found)
    assert found["p_none_soft_in_remaining"] == pytest.approx(2 / 7, abs=1e-12)
    assert found["expected_soft_in_remaining"] == pytest.approx(15 / 7, abs=1e-12)
    assert found["mean"] == pytest.approx(1 / 7, abs=1e-12)
    assert found["prior"] == [1, 1] and found["posterior"] == [1, 6]
    assert found["sentence"] == (
        "Of 15 not looked at, about 2 may be soft; 2 chances in 7 that none is. A belief, not a"
        " guarantee."
    )


@pytest.mark.parametrize(
    ("line", "mean", "low", "high", "upper"),
    [
        ("--checked 8 --soft 0", 0.1000, 0.0028, 0.3363, 0.2831),
        ("--checked 20 --soft 1", 0.0909, 0.0117, 0.2382, 0.2067),
        ("--checked 5 --soft 2", 0.4286, 0.1181, 0.7772, 0.7287),
        ("--checked 5 --soft 1 --prior 1,19", 0.0800, 0.0103, 0.2112, 0.1829),
        ("--checked 12 --soft 0 --prior 1,19", 0.0312, 0.0008, 0.1122, 0.0921),
        ("--checked 5 --soft 0 --prior 0.5,0.5", 0.0833, 0.0001, 0.3794, 0.3057),
        ("--checked 5 --soft 0 --prior 0,5;0,5", 0.0833, 0.0001, 0.3794, 0.3057),
    ],
)
def test_belief_about_the_share(
    nowhere: Cli, line: str, mean: float, low: float, high: float, upper: float
) -> None:
    # Computed from the beta distribution; four digits are stated.
    found = answer(nowhere, f"belief {line}")
    shares = [found[key] for key in ("mean", "low", "high", "upper_95")]
    assert shares == pytest.approx([mean, low, high, upper], abs=5.1e-5)
    assert found["p_none_soft_in_remaining"] is None
    assert found["expected_soft_in_remaining"] is None
    assert found["sentence"].endswith("A belief, not a guarantee.")


@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=30, deadline=None
)
@given(st.integers(0, 50), st.data(), st.integers(0, 500))
def test_belief_agrees_with_a_statistics_library(
    nowhere: Cli, checked: int, data: st.DataObject, remaining: int
) -> None:
    soft = data.draw(st.integers(0, checked))
    line = f"belief --checked {checked} --soft {soft} --prior 0.5,3 --remaining {remaining}"
    found = answer(nowhere, line)
    after = (0.5 + soft, 3 + checked - soft)
    library = stats.betabinom(remaining, *after)
    assert found["p_none_soft_in_remaining"] == pytest.approx(library.pmf(0), rel=1e-8)
    assert found["expected_soft_in_remaining"] == pytest.approx(library.mean(), abs=1e-9)
    # Half a package off, as the library's own chance may lie just under 95 %.
    assert found["most_soft_95"] == pytest.approx(library.ppf(0.95), abs=1)
    shares = (found["low"], found["high"])
    assert shares == pytest.approx(stats.beta(*after).interval(0.95), abs=1e-7)


def page_of(cli: Cli, line: str) -> str:
    """The page of one calculation, its lines joined."""
    return " ".join(cli("calc", *line.split()).out.split())


def test_both_are_explained(nowhere: Cli) -> None:
    page = page_of(nowhere, "sample --lot 20 --at-most 2 --confidence 95%")
    assert "at most 2 of the 20 are soft" in page and "ISPM 31" in page
    assert "look at every package of the lot (engineering judgement)" in page
    assert "not that a food is safe: follow local codes and licensed guidance" in page
    page = page_of(nowhere, "belief --checked 8 --soft 0")
    assert "share soft 10.0 % expected" in page and "Beta(1, 9)" in page
    assert "A belief, not a guarantee." in page and "engineering judgement" in page
    assert "not that a food is safe: follow local codes and licensed guidance" in page


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("sample --lot 20 --at-most 2 --confidence 0.95", "c(20 - 3, 12) / c(20, 12)"),
        ("sample --lot 24 --at-most 2 --confidence 0.95 --sensitivity 0.9", "cameron and baldock"),
        ("sample --lot 24 --at-most 2 --confidence 0.95 --accept 2", "sum over k from 0 to 2"),
        ("belief --checked 5 --soft 0", "own records make a better one"),
        ("belief --checked 5 --soft 1 --remaining 1000", "share expected to be soft"),
    ],
)
def test_the_working_says_how(
    nowhere: Cli, line: str, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = working_of(nowhere, line, monkeypatch)
    assert words in said and "what would change it" in said and "sources of" in said


@pytest.mark.parametrize(
    ("line", "code", "words"),
    [
        ("sample --lot 0 --at-most 0 --confidence 0.95", 2, "lot: “0”"),
        ("sample --lot 100001 --at-most 0 --confidence 0.95", 2, "1 to 100000"),
        ("sample --lot 2.5 --at-most 0 --confidence 0.95", 2, "lot:"),
        ("sample --lot 20 --at-most -1 --confidence 0.95", 2, "at most:"),
        ("sample --lot 20 --at-most 20 --confidence 0.95", 3, "It has to be 0 to 19."),
        ("sample --lot 20 --at-most 2 --confidence 95", 2, "confidence:"),
        ("sample --lot 20 --at-most 2 --confidence 1", 3, "look at every package"),
        ("sample --lot 20 --at-most 2 --confidence 0", 3, "confidence cannot be 0 %"),
        ("sample --lot 20 --at-most 2 --confidence .9 --sensitivity 0", 3, "sensitivity"),
        ("sample --lot 20 --at-most 2 --confidence .9 --sensitivity 1.1", 2, "sensitivity:"),
        ("sample --lot 20 --at-most 2 --confidence .9 --accept 3", 3, "It has to be 0 to 2."),
        ("sample --lot 20 --at-most 2 --confidence .9 --accept x", 2, "accept:"),
        (
            "sample --lot 20 --at-most 2 --confidence .9 --accept 1 --sensitivity .9", 3,
            "needs a check that misses none",
        ),
        ("belief --checked 5 --soft 6", 3, "soft ones among 5 cannot be 6"),
        ("belief --checked -5 --soft 0", 2, "checked:"),
        ("belief --checked 5 --soft some", 2, "soft:"),
        ("belief --checked 5 --soft 1 --prior 1", 2, "two numbers"),
        ("belief --checked 5 --soft 1 --prior 1,2,3", 2, "two numbers"),
        ("belief --checked 5 --soft 1 --prior 1,x", 2, "prior 2"),
        ("belief --checked 5 --soft 1 --prior 0,1", 3, "0 soft and 1 sound"),
        ("belief --checked 5 --soft 1 --remaining -1", 2, "remaining:"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(
    nowhere: Cli, line: str, code: int, words: str
) -> None:
    found = nowhere("calc", *line.split(), code=code)
    assert words in found.err and found.out == ""
    assert len(found.err.splitlines()) <= 2


def test_a_share_typed_as_a_percentage_is_the_same(nowhere: Cli) -> None:
    line = "sample --lot 20 --at-most 2 --confidence"
    share = answer(nowhere, f"{line} 0.95")
    assert nowhere("calc", *line.split(), "95 %", "--json").json == share
    assert share["confidence"] == float(Fraction(95, 100))
