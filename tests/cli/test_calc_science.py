"""Calculations against published and independently computed figures, through the command line.

Unless a line says otherwise the inputs are round and the answers were computed apart from this
program, from the formulas of the publications named; tolerance 0.5 % unless given.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from tests.cli.calculating import answer, working_of
from tests.cli.conftest import Cli


@pytest.mark.parametrize(
    ("line", "residual", "uncertainty", "verdict"),
    [
        ("--wet 1000 --dry 155 --water-fraction 0.850", 0.03226, 0.06462, "undecided"),
        # Water of strawberry, tomato and apple: USDA SR28.
        (
            "--wet 1500 --dry 146 --water-fraction 0.9095 --u-fraction 0.005",
            0.07021, 0.0515, "undecided",
        ),
        (
            "--wet 2000 --dry 118 --water-fraction 94.52% --u-fraction 0.005",
            0.07119, 0.0849, "undecided",
        ),
        ("--wet 1200 --dry 440 --water-fraction 0.65", 0.04545, 0.0273, "within"),
        ("--wet 1000 --dry 150 --water-fraction 0.8556", 0.03733, 0.0668, "undecided"),
    ],
)  # fmt: skip
def test_residual_moisture(
    nowhere: Cli, line: str, residual: float, uncertainty: float, verdict: str
) -> None:
    # r = 1 - wet (1 - w) / dry and first-order propagation, JCGM 100:2008, 5.1.2; decision after
    # JCGM 106:2012.
    found = answer(nowhere, f"moisture {line}")
    assert found["residual_moisture"] == pytest.approx(residual, abs=0.00001)
    assert found["standard_uncertainty"] == pytest.approx(uncertainty, abs=0.00006)
    expanded = 2 * found["standard_uncertainty"]
    assert found["low"] == pytest.approx(found["residual_moisture"] - expanded, abs=1e-12)
    assert found["high"] == pytest.approx(found["residual_moisture"] + expanded, abs=1e-12)
    assert found["verdict"] == verdict


def test_moisture_below_zero_is_shown_as_it_is(nowhere: Cli) -> None:
    found = answer(nowhere, "moisture --wet 1000 --dry 148 --water-fraction 0.85")
    assert found["residual_moisture"] == pytest.approx(-0.01351, abs=0.00001)
    assert found["negative"] is True and found["verdict"] == "undecided"
    line = "calc moisture --wet 1000 --dry 148 --water-fraction 0.85"
    page = nowhere(*line.split()).out
    assert "Below zero: the water fraction used does not fit this food." in " ".join(page.split())


def test_moisture_over_the_limit_says_so(nowhere: Cli) -> None:
    found = answer(nowhere, "moisture --wet 1000 --dry 400 --water-fraction 0.8 --u-fraction 0.003")
    assert found["verdict"] == "over"


def test_constant_weight(nowhere: Cli) -> None:
    # Losses over the last weight: 6.3 / 155.2 = 4.059 %, and so on; rule after USP General
    # Notices 8 (from memory).
    found = answer(nowhere, "plateau --weights 163.2,156.9,155.3,155.2,155.2 --resolution 0.1")
    assert found["losses_g"] == pytest.approx([6.3, 1.6, 0.1, 0.0], abs=1e-9)
    assert found["losses_percent"] == pytest.approx([4.06, 1.03, 0.064, 0], abs=0.005)
    assert found["plateau"] is True and found["reason"]


@pytest.mark.parametrize("digit", ["0.1", "1"])
def test_weight_still_falling(nowhere: Cli, digit: str) -> None:
    found = answer(nowhere, f"plateau --weights 163.2,156.9,155.3 --resolution {digit}")
    assert found["plateau"] is False and "still drying" in found["reason"]


def test_constant_weight_within_the_hour_does_not_count(nowhere: Cli) -> None:
    found = answer(nowhere, "plateau --weights 160,155,155 --hours 20,22,22.5")
    assert found["plateau"] is False and "0.5 h" in found["reason"]
    assert answer(nowhere, "plateau --weights 160,155,155 --hours 20;22;23,5")["plateau"] is True


@pytest.mark.parametrize(
    ("line", "tolerance", "wanted"),
    [
        (
            "--volume-ml 3785 --dry 150 --density 1.5 --absorber 300", 0.1,
            {"gas_ml": 3685, "oxygen_cc": 772.0, "residual_oxygen_cc": 472.0, "reserve_cc": 0,
             "oxygen_percent_after": 12.81, "absorber_cc": 300},
        ),
        (
            "--volume-ml 1500 --dry 150 --absorber 300", 0.1,
            {"gas_ml": 1400, "oxygen_cc": 293.3, "residual_oxygen_cc": 0, "reserve_cc": 6.7},
        ),
        # 850 cc of gas at 22 inHg by the gauge, at sea level.
        ("--volume-ml 850 --dry 0 --vacuum-inhg 22", 0.01, {"gas_ml": 850, "oxygen_cc": 47.14}),
        (
            "--volume-ml 2000 --dry 180", 0.1,
            {"oxygen_cc": 393.9, "absorber_cc": 500, "reserve_cc": 106.1, "residual_oxygen_cc": 0,
             "oxygen_percent_after": 0},
        ),
        # Fills of the Intellectual Reserve sheet (secondary copy): wheat, rice, dry milk.
        ("--volume-ml 4000 --dry 3200 --density 1.38", 0.5, {"gas_ml": 1681, "oxygen_cc": 352}),
        ("--volume-ml 4000 --dry 3100 --density 1.45", 0.5, {"gas_ml": 1862, "oxygen_cc": 390}),
        ("--volume-ml 4000 --dry 2300 --density 1.45", 0.5, {"gas_ml": 2414, "oxygen_cc": 506}),
    ],
)  # fmt: skip
def test_absorber(nowhere: Cli, line: str, tolerance: float, wanted: dict[str, float]) -> None:
    # Oxygen 20.95 % of dry air (US Standard Atmosphere, 1976, rounded).
    found = answer(nowhere, f"absorber {line}")
    for key, value in wanted.items():
        assert found[key] == pytest.approx(value, abs=tolerance), key
    assert set(found) >= {
        "gas_ml", "oxygen_cc", "absorber_cc", "residual_oxygen_cc", "reserve_cc",
        "oxygen_percent_after",
    }  # fmt: skip


def test_more_than_the_largest_absorber_is_several(nowhere: Cli) -> None:
    found = answer(nowhere, "absorber --volume-ml 20000 --dry 1800")
    assert found["absorber_cc"] == sum(found["absorbers"]) >= 1.25 * found["oxygen_cc"]
    assert len(found["absorbers"]) > 1


FRUIT = "keep --food-class fruit --dry 150 --rh 0.55 --residual-moisture 0.03"
FOIL = f"{FRUIT} --package foil_pouch --volume-ml 1500 --area-m2 0.12"
LARGE = f"{FRUIT} --package foil_pouch --volume-ml 3785 --area-m2 0.20"
METAL = f"{FRUIT} --package metallised_pouch --volume-ml 1500 --area-m2 0.12"
JAR = f"{FRUIT} --package jar --volume-ml 1900"
BAG = f"{FRUIT} --package vacuum_bag --volume-ml 1500 --area-m2 0.12 --vacuum-inhg 22"
ZIP = f"{FRUIT} --package zip_bag --volume-ml 1500 --area-m2 0.12"


@pytest.mark.parametrize(
    ("line", "low", "mid", "high", "limited_by"),
    [
        (f"{FOIL} --absorber 300 --temp-c 15", 4.18, 14.7, 25, "temperature"),
        (f"{FOIL} --absorber 300 --temp-c 21", 3.22, 10.0, 22.0, "temperature"),
        (f"{FOIL} --absorber 300 --temp-c 30", 1.87, 5.4, 13.5, "temperature"),
        (f"{LARGE} --absorber 300 --temp-c 21", 0.500, 0.750, 1.500, "oxygen"),
        (f"{FOIL} --absorber 0 --temp-c 15", 0.742, 1.137, 2.37, "oxygen"),
        (f"{FOIL} --absorber 0 --temp-c 21", 0.500, 0.750, 1.500, "oxygen"),
        (f"{FOIL} --absorber 0 --temp-c 30", 0.233, 0.402, 0.827, "oxygen"),
        (f"{METAL} --absorber 300 --temp-c 15", 0.752, 2.222, 6.12, "moisture"),
        (f"{METAL} --absorber 300 --temp-c 21", 0.534, 1.524, 5.06, "moisture"),
        (f"{METAL} --absorber 300 --temp-c 30", 0.313, 0.893, 2.97, "moisture"),
        (f"{JAR} --absorber 500 --temp-c 15", 4.89, 15.2, 25, "temperature"),
        (f"{JAR} --absorber 500 --temp-c 21", 3.81, 10.0, 25, "temperature"),
        (f"{JAR} --absorber 500 --temp-c 30", 2.00, 5.4, 13.7, "temperature"),
        (f"{BAG} --temp-c 21", 0.0914, 0.183, 0.594, "moisture"),
        (f"{ZIP} --temp-c 21", 0.0394, 0.102, 0.304, "moisture"),
    ],
)
def test_how_long_a_package_may_keep(
    nowhere: Cli, line: str, low: float, mid: float, high: float, limited_by: str
) -> None:
    # Computed apart from this program from the same class lives and barriers (engineering
    # judgement); tolerance 1 % or half the last digit given.
    found = answer(nowhere, line)
    for key, value in (("low_years", low), ("mid_years", mid), ("high_years", high)):
        # The shortest lives are printed to four figures, 0.0394 and the like.
        half_digit = 0.05 if value >= 10 else 0.005 if value >= 1 else 0.0005
        assert found[key] == pytest.approx(value, rel=0.01, abs=half_digit), key
    assert found["limited_by"] == limited_by
    assert found["quality"] == "quality estimate, not safety"


def test_degrees_fahrenheit_give_the_same(nowhere: Cli) -> None:
    celsius = answer(nowhere, f"{FOIL} --absorber 300 --temp-c 15")
    fahrenheit = nowhere(
        "calc", *FOIL.split(), "--absorber", "300", "--temp-c", "59 F", "--json"
    ).json
    assert celsius == fahrenheit


@pytest.mark.parametrize(
    ("line", "years", "tolerance"),
    [
        ("--life-years 6 --q10 2 --temp-c 26", 4.2426, 0.0005),
        ("--life-years 6 --q10 2 --temp-c 40", 0.7724, 0.0005),
        ("--life-years 6 --q10 2 --temp-c 2", 18.1886, 0.0005),
        ("--life-years 6 --q10 2 --temp-c 5", 18.1886, 0.0005),
        # A year at 22 °C is half a year at 32 and two at 12: rule of thumb (secondary copy).
        ("--life-years 1.0717734625 --q10 2 --temp-c 22", 1.0, 0.0005),
        ("--life-years 1.0717734625 --q10 2 --temp-c 32", 0.5, 0.0005),
        ("--life-years 1.0717734625 --q10 2 --temp-c 12", 2.0, 0.0005),
    ],
)
def test_life_at_a_temperature(nowhere: Cli, line: str, years: float, tolerance: float) -> None:
    found = answer(nowhere, f"temperature {line}")
    assert found["life_years"] == pytest.approx(years, abs=tolerance)
    assert found["refused"] is False


AT_70_F = {
    "1.6": {"60": 1.298, "80": 0.770, "90": 0.578, "100": 0.237, "110": 0.097},
    "2.0": {"60": 1.470, "80": 0.680, "90": 0.454, "100": 0.186, "110": 0.076},
}


@pytest.mark.parametrize("q10", AT_70_F)
def test_life_over_that_at_70_f(nowhere: Cli, q10: str) -> None:
    # The steps of the US Army Natick ration chart (secondary copy) lie within 8 % for Q10 1.6.
    def life(fahrenheit: str) -> float:
        line = ("calc", "temperature", "--life-years", "1", "--q10", q10, "--temp-c")
        found: float = nowhere(*line, f"{fahrenheit} F", "--json").json["life_years"]
        return found

    for fahrenheit, wanted in AT_70_F[q10].items():
        assert life(fahrenheit) / life("70") == pytest.approx(wanted, abs=0.001), fahrenheit


@pytest.mark.parametrize("degrees", ["45.1", "60", "150"])
def test_above_45_c_the_answer_is_no(nowhere: Cli, degrees: str) -> None:
    line = ("calc", "temperature", "--life-years", "6", "--q10", "2", "--temp-c", degrees)
    refused = nowhere(*line, "--json", code=1).json
    assert refused["refused"] is True and refused["life_years"] is None
    assert "no life is given above 45 °C." in nowhere(*line, code=1).out
    assert answer(nowhere, "temperature --life-years 6 --temp-c 45")["refused"] is False


def test_a_warm_place_is_warned_of(nowhere: Cli) -> None:
    line = "calc temperature --life-years 6 --temp-c"
    assert "Above 38 °C" in nowhere(*line.split(), "38.1").out
    assert "Above 38 °C" not in nowhere(*line.split(), "38").out


MONTHS = (16, 16, 17, 18, 20, 23, 26, 26, 23, 20, 18, 16)


def kinetic(parts: list[tuple[float, float]], energy: float, gas: float) -> float:
    """US Pharmacopeia <1160>, weighted by time, summed directly."""
    total = sum(hours for _, hours in parts)
    wear = sum(h * math.exp(-energy / (gas * (c + 273.15))) for c, h in parts) / total
    return energy / gas / -math.log(wear) - 273.15


def test_mean_kinetic_temperature_of_a_year(nowhere: Cli) -> None:
    readings = ",".join(f"{degrees}:1" for degrees in MONTHS)
    found = answer(nowhere, f"mkt --readings {readings}")
    assert found["mean_c"] == pytest.approx(19.917, abs=0.001)
    assert found["mkt_c"] == pytest.approx(20.654, abs=0.001)
    assert found["mkt_life_c"] == pytest.approx(20.347, abs=0.001)
    assert found["hours"] == 12


def test_mean_kinetic_temperature_of_the_printed_example(nowhere: Cli) -> None:
    # Worked example of a stability laboratory (Isopharm): printed 15.7. A maker's page prints
    # 10.1, taking J for kJ.
    found = answer(nowhere, "mkt --readings 20:2,2:4,25:1")
    assert found["mkt_c"] == pytest.approx(15.678, abs=0.01)
    assert found["mean_c"] == pytest.approx(73 / 7, abs=1e-9)


def test_each_reading_counts_for_its_time(nowhere: Cli) -> None:
    parts = [(4.0, 100.0), (31.5, 1.0), (-18.0, 7.5)]
    found = answer(nowhere, "mkt --readings 4:100,31.5:1,-18:7.5 --ea-kj-mol 60")
    assert found["mkt_c"] == pytest.approx(kinetic(parts, 60_000, 8.314472), abs=1e-6)
    assert found["mkt_c"] > found["mean_c"]
    assert found["mean_c"] == pytest.approx((400 + 31.5 - 135) / 108.5)


def test_mean_kinetic_temperature_of_a_file(nowhere: Cli, tmp_path: Path) -> None:
    path = tmp_path / "logger.csv"
    path.write_text(
        "no;when;°F\n1;2026-01-01 00:00;50,0\n2;2026-01-01 06:00;68,0\n"
        "3;soon;70\n4;2026-01-01 10:00;77,0\n",
        encoding="utf-8",
    )
    answered = nowhere("calc", "mkt", "--csv", str(path), "--json")
    found = answered.json
    # The last reading speaks for as long as the one before it.
    parts = [(10.0, 6.0), (20.0, 4.0), (25.0, 4.0)]
    assert found["mkt_c"] == pytest.approx(kinetic(parts, 83_144, 8.3144), abs=1e-6)
    assert (found["hours"], found["fahrenheit"], found["readings"]) == (14, True, 3)
    assert [row["line"] for row in found["bad_rows"]] == [4]
    assert answered.err.splitlines()[1] == "- line 4: the time “soon” cannot be read"


def test_life_used_by_a_year(nowhere: Cli) -> None:
    stays = ",".join(f"{degrees}:1" for degrees in MONTHS)
    found = answer(nowhere, f"life-used --life-years 10 --q10 2 --stays {stays}")
    assert found["used_fraction"] == pytest.approx(0.09580, abs=0.00001)
    assert found["remaining_years_at_21c"] == pytest.approx(10 * (1 - 0.09580), abs=0.0002)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("water --wet 1000 --dry 155", "conservation of mass"),
        ("moisture --wet 1000 --dry 155 --water-fraction 0.85", "jcgm 100:2008"),
        ("plateau --weights 163.2,156.9,155.3", "engineering judgement"),
        ("absorber --volume-ml 2000 --dry 180", "stock sizes of oxygen absorbers"),
        (f"{FOIL} --absorber 300", "what would lengthen it"),
        ("temperature --life-years 6 --temp-c 2", "no credit being given for colder"),
        ("temperature --life-years 6 --temp-c 40", "q10 above that"),
        ("mkt --readings 20:2,2:4", "us pharmacopeia"),
        ("life-used --life-years 10 --stays 20:3,30:1", "sum of"),
    ],
)
def test_the_working_says_how(
    nowhere: Cli, line: str, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = working_of(nowhere, line, monkeypatch)
    assert words in said and "sources of" in said and "1. " in said


def test_every_calculation_has_a_page(nowhere: Cli) -> None:
    for line in (FOIL, JAR, ZIP):
        page = " ".join(nowhere("calc", *line.split()).out.split())
        assert "quality estimate, not safety" in page and "between" in page
        assert "local codes and licensed guidance" in page


@pytest.mark.parametrize(
    ("line", "code", "words"),
    [
        ("moisture --wet 100 --dry 155 --water-fraction 0.85", 3, "155.0 g"),
        ("moisture --wet 1000 --dry 155 --water-fraction 85", 2, "water fraction"),
        ("moisture --wet 1000 --dry 155 --water-fraction 1", 3, "water fraction"),
        ("moisture --wet x --dry 155 --water-fraction 0.85", 2, "wet:"),
        ("moisture --wet 1000 --dry x --water-fraction 0.85", 2, "dry:"),
        ("moisture --wet 1000 --dry 155 --water-fraction 0.85 --u-fraction -1", 2, "uncertainty"),
        ("moisture --wet 1000 --dry 155 --water-fraction 0.85 --resolution 0.01", 2, "0.1 g"),
        ("plateau --weights 155", 3, "two weighings"),
        ("plateau --weights 155,,154", 2, "left out"),
        ("plateau --weights 155,x", 2, "weight 2"),
        ("plateau --weights 155,0", 3, "Reading 2"),
        ("plateau --weights 155,154 --hours 1", 3, "1 hours for 2 weights"),
        ("plateau --weights 155,154 --hours 1,x", 2, "hour 2"),
        ("plateau --weights 155,154 --resolution 0", 2, "0.1 g or more"),
        ("absorber --volume-ml 90 --dry 180", 3, "cannot fit"),
        ("absorber --volume-ml 0 --dry 180", 3, "volume"),
        ("absorber --volume-ml 2000 --dry -1", 2, "dry:"),
        ("absorber --volume-ml 2000 --dry 180 --density 0", 3, "density"),
        ("absorber --volume-ml 2000 --dry 180 --vacuum-inhg 29.95", 3, "barometer"),
        ("absorber --volume-ml 2000 --dry 180 --barometer-inhg 0", 3, "barometer"),
        ("absorber --volume-ml 2000 --dry 180 --absorber -5", 2, "absorber"),
        ("keep --food-class cake --package jar --dry 1 --volume-ml 9", 2, "none of fruit"),
        ("keep --food-class fruit --package tin --dry 1 --volume-ml 9", 2, "none of foil_pouch"),
        (f"{FOIL} --temp-c 46", 3, "no life is given above 45 °C"),
        (f"{FOIL} --temp-c warm", 2, "temperature"),
        (f"{FOIL} --rh 55", 2, "humidity"),
        (f"{FOIL} --area-m2 -1", 2, "area"),
        (f"{FOIL} --vacuum-inhg 40", 3, "more than the barometer"),
        (f"{JAR} --absorber 500 --residual-moisture 0.12", 3, "no best-by is given above 10 %"),
        ("temperature --life-years -1 --temp-c 20", 2, "life"),
        ("temperature --life-years 6 --q10 0.5 --temp-c 20", 3, "Q10"),
        ("temperature --life-years 6 --temp-c -300", 2, "temperature"),
        ("mkt", 2, "--csv or --readings"),
        ("mkt --csv a --readings 20:1", 2, "--csv or --readings"),
        ("mkt --csv no-such-file.csv", 3, "no-such-file.csv cannot be read"),
        ("mkt --csv .", 3, "cannot be read"),
        ("mkt --readings 20", 2, "reading 1"),
        ("mkt --readings 20:1,warm:2", 2, "reading 2"),
        ("mkt --readings 20:-1", 2, "hours of reading 1"),
        ("mkt --readings 20:0", 3, "time of all readings"),
        ("mkt --readings 20:1 --ea-kj-mol 0", 3, "activation energy"),
        ("life-used --life-years 0 --stays 20:1", 3, "life"),
        ("life-used --life-years 10 --stays 50:1", 3, "45 °C"),
        ("life-used --life-years 10 --stays 20", 2, "stay 1"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(
    nowhere: Cli, line: str, code: int, words: str
) -> None:
    found = nowhere("calc", *line.split(), code=code)
    assert words in found.err and found.out == ""
    assert len(found.err.splitlines()) <= 2
