"""Deciding what becomes of a package at fault: by options, and asked on a terminal."""

from __future__ import annotations

import pytest

from stockroom.cli import asking
from tests.cli.conftest import Answer, Cli

SLIGHTLY = ("--feel", "slightly-soft", "--signs", "none", "--hours", "20")


@pytest.fixture
def soft(stocked: Cli) -> Cli:
    """26329A01 found soft on the day after sealing; its sister 26329A02 is suspect."""
    stocked("place", "add", "freezer", "--kind", "freezer", "--temp", "-18")
    tomorrow = stocked.on("2026-11-26")
    tomorrow("check", "26329A01", "soft")
    return tomorrow


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Answers a person gives on a terminal, in order; fill the list."""
    given: list[str] = []
    monkeypatch.setattr(asking, "on_a_terminal", lambda: True)
    monkeypatch.setattr("click.termui.visible_prompt_func", lambda _: given.pop(0))
    return given


def condition(cli: Cli, code: str) -> str:
    """The condition of a package."""
    return str(cli("show", code, "--json").json["condition"])


def nothing_recorded(cli: Cli, answer: Answer) -> None:
    """The package is as suspect as before, and that was said."""
    assert condition(cli, "26329A01") == "suspect"
    assert "Nothing was recorded. Carry it out with --as: " in answer.err


class TestByOptions:
    """Without a terminal nothing is asked."""

    def test_without_answers_the_stricter_counts_and_nothing_is_recorded(self, soft: Cli) -> None:
        before = soft("journal", "--json").out
        answer = soft("decide", "26329A01")
        assert "Discard it. Do not taste it." in answer.out
        assert "How does the food feel? The stricter answer counts; --feel says it." in answer.out
        assert answer.err.endswith("Carry it out with --as: discard.\n")
        assert soft("journal", "--json").out == before
        nothing_recorded(soft, answer)

    def test_answers_make_it_kinder(self, soft: Cli) -> None:
        answer = soft("decide", "26329A01", *SLIGHTLY)
        for words in (
            "Dry it again, to constant weight, and pack it anew. Or: Hold it in the freezer",
            "within 24 hours of sealing, by 2026-11-26",
            "slightly soft within a day of sealing",
            "Suspect now: 26329A02C.",
            "Never taste food to test it.",
        ):
            assert words in answer.out, words
        assert "not said" not in answer.out
        nothing_recorded(soft, answer)

    def test_the_same_in_json(self, soft: Cli) -> None:
        answer = soft("decide", "26329A01", *SLIGHTLY, "--json")
        found = answer.json
        assert answer.err == ""
        assert found["code"] == "26329A01E"
        assert (found["outcome"], found["choices"]) == ("dry_again", ["dry_again", "hold"])
        assert (found["rule"], found["until"]) == ("within_a_day", "2026-11-26")
        assert found["answers"] == {
            "feel": "slightly_soft",
            "signs": "none",
            "hours_since_sealing": "20",
        }
        assert (found["carried_out"], found["codes"], found["not_said"]) == (None, None, None)
        assert found["suspect_sisters"] == ["26329A02C"]
        assert "never-taste" in [one["key"] for one in found["cautions"]]
        assert condition(soft, "26329A01") == "suspect"
        assert soft("decide", "26329A01", "--json").json["not_said"] == "feel"

    def test_the_working_goes_rule_by_rule(self, soft: Cli) -> None:
        page = soft("decide", "26329A01", *SLIGHTLY, "--working").out
        assert "What to do with a soft package" in page and "Only slightly soft?: yes" in page
        found = soft("decide", "26329A01", *SLIGHTLY, "--working", "--json").json
        assert [one["title"] for one in found["workings"]] == ["What to do with a soft package"]

    def test_it_is_carried_out_with_its_place_and_its_sisters(self, soft: Cli) -> None:
        answer = soft(
            "decide", "26329A01", *SLIGHTLY, "--as", "hold", "--place", "freezer", "--sisters",
            "--note", "limp",
        )  # fmt: skip
        assert answer.lines[-1].endswith(
            "hold it in the freezer until the machine is free, with 26329A02C."
        )
        assert "stockroom run again TRAY 26329A01E" in answer.err
        queue = soft("queue", "--json").json
        assert [(one["code"], one["place"]) for one in queue] == [
            ("26329A01E", "freezer"),
            ("26329A02C", "freezer"),
        ]
        found = soft("show", "26329A01", "--json").json
        (decision,) = found["decisions"]
        assert (decision["outcome"], decision["note"]) == ("hold", "limp")
        assert decision["answers"]["feel"] == "slightly_soft"
        assert found["queued"]["state"] == "waiting"
        page = soft("show", "26329A01").out
        assert "Decisions" in page and "Said: feels slightly soft" in page
        soft("undo")
        assert condition(soft, "26329A01") == condition(soft, "26329A02") == "suspect"

    def test_carrying_it_out_answers_in_json(self, soft: Cli) -> None:
        answer = soft("decide", "26329A01", *SLIGHTLY, "--as", "dry-again", "--json")
        assert answer.json["carried_out"].startswith("decided on 26329A01E")
        assert answer.json["codes"] == ["26329A01E"] and answer.err == ""
        assert condition(soft, "26329A01") == "held"

    def test_discarding_needs_no_answers(self, soft: Cli) -> None:
        answer = soft("decide", "26329A01", "--as", "discard")
        assert answer.lines[-1].startswith("Decided on 26329A01E")
        assert condition(soft, "26329A01") == "discarded"

    def test_what_still_snaps_is_packed_anew(self, stocked: Cli) -> None:
        stocked("check", "26329A01", "leak")
        answer = stocked(
            "decide", "26329A01", "--feel", "snaps", "--signs", "none", "--tight", "lost",
            "--as", "repack",
        )  # fmt: skip
        assert "stockroom repack 26329A01E --into" in answer.err
        assert stocked("round", "--json").json["suspect"][0]["doubt"] == "repack"
        made = stocked("repack", "26329A01", "--into", "1xpouch-950-foil,absorber=200")
        assert "as it was, into 1 package, 26329A03A" in made.out
        assert stocked("show", "26329A03", "--json").json["sources"] == ["26329A01E"]
        assert "went into" in stocked("show", "26329A01").out

    def test_a_fruit_may_be_eaten_at_once(self, cli: Cli) -> None:
        cli("run", "new")
        cli("run", "load", "1", "Apple, raw, peeled", "1200")
        cli("run", "dry", "1", "170")
        cli("run", "close")
        cli("pack", "26329A", "--into", "1xjar-950:60")
        later = cli.on("2026-11-28")
        later("check", "26329A01", "soft")
        answer = later(
            "decide", "26329A01", "--feel", "slightly-soft", "--signs", "none", "--as", "use-now"
        )
        assert "stockroom draw 26329A01E" in answer.err
        assert condition(later, "26329A01") == "opened"

    @pytest.mark.parametrize(
        ("code", "words", "said"),
        [
            (3, ("26329A01", *SLIGHTLY, "--as", "repack"), "cannot be put down as repack"),
            (3, ("26329A01", "--as", "hold"), "cannot be put down as hold"),
            (3, ("26329A01", "--feel", "slightly-soft", "--signs", "none", "--as", "hold"),
             "How many hours after sealing"),
            (3, ("26329A01", *SLIGHTLY, "--as", "hold", "--place", "attic"), "no place “attic”"),
            (3, ("26329A02",), "was not itself found soft"),
            (3, ("26329A77",), "no package “26329A77”"),
            (2, ("26329A",), "package code"),
            (2, ("26329A01", "--feel", "crunchy"), "none of snaps"),
            (2, ("26329A01", "--hours", "a day"), "a day"),
            (2, ("26329A01", "--minutes", "-5"), "-5"),
            (2, ("26329A01", "--frozen", "maybe"), "none of yes, no, unknown"),
            (2, ("26329A01", "--as", "eat"), "none of dry_again"),
            (2, (), "Missing argument"),
        ],
    )  # fmt: skip
    def test_refusals_record_nothing(
        self, soft: Cli, code: int, words: tuple[str, ...], said: str
    ) -> None:
        answer = soft("decide", *words, code=code)
        assert said in answer.err and answer.out == ""
        assert condition(soft, "26329A01") == "suspect"

    def test_a_sound_package_is_not_decided_on(self, stocked: Cli) -> None:
        stocked("check", "26329A01", "crisp")
        assert "it is sound" in stocked("decide", "26329A01", code=3).err

    def test_hours_nobody_knows_count_as_too_many(self, soft: Cli) -> None:
        found = soft(
            "decide", "26329A01", "--feel", "slightly-soft", "--signs", "none", "--hours",
            "unknown", "--json",
        ).json  # fmt: skip
        assert found["not_said"] != "hours_since_sealing"


class TestAsked:
    """On a terminal one question after the other."""

    def test_what_matters_is_asked_and_then_what_to_do(self, soft: Cli, answers: list[str]) -> None:
        answers += ["2", "none", "20", "1", "freezer", "y"]
        answer = soft("decide", "26329A01")
        assert answers == []
        assert "How does the food feel? Squeeze it through the package." in answer.err
        assert "2: slightly soft" in answer.err
        assert "How many hours after sealing was it found?" in answer.err
        assert "1: Dry it again" in answer.err and "Nothing was recorded" not in answer.err
        assert answer.lines[-1].endswith("with 26329A02C.")
        assert condition(soft, "26329A01") == condition(soft, "26329A02") == "held"

    def test_nothing_is_recorded_before_a_person_says_so(
        self, soft: Cli, answers: list[str]
    ) -> None:
        answers += ["slightly soft", "1", "5", "nothing"]
        answer = soft("decide", "26329A01")
        assert answers == []
        nothing_recorded(soft, answer)

    def test_an_answer_that_cannot_be_read_is_asked_for_again(
        self, soft: Cli, answers: list[str]
    ) -> None:
        answers += ["7", "s", "slightly_soft", "n", "many", "20", "5", "hold", "attic", "here", "?"]
        answers += ["no"]
        answer = soft("decide", "26329A01")
        assert answers == []
        assert answer.err.count("answer: “") == 5
        assert "place: “attic” cannot be read." in answer.err
        assert condition(soft, "26329A01") == "held"
        assert condition(soft, "26329A02") == "suspect"

    def test_not_known_is_not_asked_twice(
        self, soft: Cli, answers: list[str], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """Enter says that it is not known, and at the end that nothing is to be done yet."""
        monkeypatch.setattr("click.termui.visible_prompt_func", lambda _: "")
        answer = soft("decide", "26329A01", "--signs", "none")
        asked = [line for line in answer.err.splitlines() if "?" in line]
        assert 1 < len(asked) < 8 and len(set(asked)) == len(asked)
        assert "Discard it." in answer.out
        nothing_recorded(soft, answer)

    def test_an_answer_given_as_an_option_is_not_asked(self, soft: Cli, answers: list[str]) -> None:
        answers += ["20", "discard"]
        soft("decide", "26329A01", "--feel", "slightly-soft", "--signs", "none")
        assert answers == []
        assert condition(soft, "26329A01") == "discarded"

    def test_an_answer_against_the_record_is_refused_and_asked_again(
        self, soft: Cli, answers: list[str]
    ) -> None:
        """Soft on the day before: that it snaps now does not undo it."""
        answers += ["snaps", "moist", "mould", "nothing"]
        answer = soft.on("2026-11-27")("decide", "26329A01")
        assert answers == []
        assert "was found soft on 2026-11-26; that it snaps does not undo that." in answer.err
        assert "Found: mould." in answer.out

    def test_said_with_as_it_is_not_asked_again(self, soft: Cli, answers: list[str]) -> None:
        soft("decide", "26329A01", *SLIGHTLY, "--as", "hold")
        assert condition(soft, "26329A01") == "held"

    def test_for_a_program_nothing_is_asked(self, soft: Cli, answers: list[str]) -> None:
        assert soft("decide", "26329A01", "--json").json["not_said"] == "feel"

    def test_leaving_a_question_records_nothing(
        self, soft: Cli, answers: list[str], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def leave(_: str) -> str:
            raise KeyboardInterrupt

        monkeypatch.setattr("click.termui.visible_prompt_func", leave)
        soft("decide", "26329A01", code=130)
        assert condition(soft, "26329A01") == "suspect"
