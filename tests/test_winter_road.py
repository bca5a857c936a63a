"""The winter half over the real road: what is written, what is answered, what is kept."""

from __future__ import annotations

from datetime import UTC, date, datetime
from email import message_from_bytes, policy

import pytest

from notes_bot.reply.segments import segments
from tests.crew_kit import SCOUT, Crew

NOVEMBER = datetime(2026, 11, 20, 17, tzinfo=UTC)
FULL_TEST = (
    "hg kestrel check 210 190 205 170 240, l1 2 0 1 3 0, l2 66 50 71 80 44, l3 0 1 0 0 0, l4 0 0 0 0 0, "
    "l5 {five}, l6 0 2 0 0 1, l7 88 70 60 75 90"
)


@pytest.fixture
def crew(tmp_path):
    made = Crew(tmp_path, NOVEMBER)
    yield made
    made.close()


def _events(crew: Crew, kind: str):
    return [args for _, args in crew.parts.store.events(1, kind)]


def test_a_lab_result_is_read_against_the_place_it_names(crew):
    """2,400 eggs: moderate in Iowa before soybean, low before another crop; both limits carry the place."""
    body = crew.body(crew.note("kestrel eggs 2400 per 100cc iowa"))

    assert body.startswith("Kestrel Bottom: 2,400 eggs/100 cc, moderate in Iowa if soybean is next.")
    assert "Iowa if soybean is next: moderate, 2,001 to 12,000." in body
    assert "Iowa if soybean is not next: low, 1 to 4,000." in body
    assert "2 of them found none" in body


def test_a_lab_result_is_kept_with_its_conversion_and_the_basis(crew):
    """As told and in eggs per 100 cc, side by side."""
    crew.note("lab kestrel 10000 eggs per cup missouri, 20 cores, beans next, oct 20")
    (kept,) = _events(crew, "lab")

    assert (kept["value"], kept["unit"]) == (10000.0, "eggs per cup")
    assert (kept["eggs_per_100cc"], kept["basis"]) == (4000.0, "missouri_cup")
    assert (kept["date"], kept["place"], kept["cores"]) == ("2026-10-20", "Missouri", 20)


def test_without_a_place_no_limit_is_used_and_the_place_is_asked_for(crew):
    """The writer's crew has no place: the answer asks, and a place told later is used."""
    body = crew.body(crew.note("kestrel eggs 2400 per 100cc"))
    assert "In which state or province?" in body
    assert not {"Iowa if", "Ohio", "Missouri"} & set(body.split("\n"))

    crew.note("place ohio")
    body = crew.body(crew.note("lab kestrel"))
    assert "moderate in Ohio" in body


def test_a_place_taken_from_the_crew_is_said_so(crew):
    """Another field's place serves when it is the only one known, and the answer says where it comes from."""
    crew.note("add field mulberry, place ohio")
    body = crew.body(crew.note("kestrel eggs 2400 per 100cc"))

    assert "Ohio taken: the crew's other fields are there." in body


def test_a_doubling_is_no_change_and_a_tenfold_is(crew):
    """Only more than sampling noise is called a change."""
    crew.note("kestrel eggs 1200 per 100cc iowa, oct 20 2024")
    assert "Not a clear change from 1,200" in crew.body(crew.note("kestrel eggs 2400 per 100cc iowa, oct 22 2025"))
    assert "Changed: 10 times the 2,400" in crew.body(crew.note("kestrel eggs 24000 per 100cc iowa, oct 21"))


def test_three_years_give_a_trend(crew):
    """A steady climb is told as one."""
    for year, eggs in ((2022, 100), (2023, 500), (2024, 2500), (2025, 12500)):
        body = crew.body(crew.note(f"kestrel eggs {eggs} per 100cc iowa, oct 20 {year}"))

    assert "Over 4 samples since 20 Oct 2022: 5 times a year" in body


def test_the_same_day_again_takes_the_earlier_results_place(crew):
    """A slip of the thumb is put right by sending the line again."""
    crew.note("kestrel eggs 240 per 100cc iowa, oct 20")
    body = crew.body(crew.note("kestrel eggs 2400 per 100cc iowa, oct 20"))

    assert "Takes the place of 240" in body
    assert "BEFORE AND NOW" not in body


def test_a_sample_of_another_season_is_marked(crew):
    """June against October: counts move within the year."""
    crew.note("kestrel eggs 2000 per 100cc iowa, jun 20 2025")
    assert "another time of year" in crew.body(crew.note("kestrel eggs 2400 per 100cc iowa, oct 20"))


def test_an_hg_test_names_the_type_and_what_else_it_could_be(crew):
    """FI 10 on line 5: two types about as likely, and both in the headline."""
    body = crew.body(crew.note(FULL_TEST.format(five="20 18 25 17 22")))

    assert body.splitlines()[0] == "Kestrel Bottom: HG type 2.5.7 (50%) or 2.7 (50%)."
    assert "near the limit" in body
    assert "PI 88788: does not hold (FI 31)" in body
    assert "Peking: should hold" in body


def test_exactly_ten_shows_both_published_rules(crew):
    """10 or more, or more than 10: the answer says which wording makes it what."""
    body = crew.body(crew.note("hg kestrel check 200 1:20 2:2 3:0 4:0 5:0 6:0 7:0"))

    assert "positive where the rule says 10 or more, negative where it says more than 10" in body


def test_a_failed_check_is_not_rated(crew):
    """45 females on the check: no type, no word on sources, and why."""
    body = crew.body(crew.note("hg kestrel check 45 1:2 2:12 3:1 4:0 5:9 6:1 7:11"))

    assert body.startswith("Kestrel Bottom: HG test not rated, the check failed.")
    assert "below 100 no type is named" in body
    assert "should hold" not in body


def test_a_plan_starts_from_the_last_count_and_this_fields_test(crew):
    """Two plans on the same futures; the difference is called real, and the start is named."""
    crew.note("kestrel eggs 2400 per 100cc iowa, oct 20")
    crew.note(FULL_TEST.format(five="60 58 55 57 52"))
    ask = "rotation kestrel: corn, 88788, corn, peking or corn, 88788, corn, 88788"
    body = crew.body(crew.note(ask))

    assert body.startswith("Kestrel Bottom, 4 years: plan A ends lowest,")
    assert "Start: 2,400 eggs/100 cc, sampled 20 Oct 2026" in body
    assert "PI 88788: FI 31 from this field's test." in body
    assert body == crew.body(crew.note(ask + " "))


def test_a_plan_without_a_count_says_how_to_give_one(crew):
    """No number is made up to start from."""
    assert "no egg count to start from" in crew.body(crew.note("plan kestrel"))


def test_a_sample_plan_comes_with_one_page_to_print(crew):
    """Text that stands alone, and a PDF of one page."""
    from pypdf import PdfReader

    filing = crew.note("sample plan kestrel iowa")
    mail = message_from_bytes(filing.outgoing[0].raw, policy=policy.default)
    (page,) = [part for part in mail.walk() if part.get_content_type() == "application/pdf"]
    (folder := crew.settings.service.folder / "page.pdf").write_bytes(page.get_payload(decode=True))
    read = PdfReader(folder)

    assert "15-20 cores" in crew.body(filing)
    assert len(read.pages) == 1
    assert "Soil carries SCN" in " ".join(read.pages[0].extract_text().split())


def test_zones_come_from_the_seasons_own_spots_and_the_sketch_from_their_coordinates(tmp_path):
    """Infested, clean and suspect ground is bagged apart; spots with coordinates are drawn."""
    crew = Crew(tmp_path, datetime(2026, 7, 8, 17, tzinfo=UTC))
    crew.note("kestrel 42.0611,-93.8705 7/6 dug 6: 12 white 3 yellow")
    crew.note("kestrel 42.0622,-93.8690 7/7 dug 10 shovel none seen")
    body = crew.body(crew.note("sample plan kestrel iowa"))
    crew.close()

    assert "1: females found 6 Jul, 2.5 a plant.\n2: none seen 7 Jul." in body
    assert "shows 2 spots dug this season" in body


@pytest.mark.parametrize(
    "text",
    [
        "kestrel eggs 2400 per 100cc iowa",
        "sample plan kestrel",
        "hg kestrel check 200 1:2 2:60 3:0 4:0 5:30 6:0 7:50",
        "rotation kestrel 3000 eggs: corn, 88788, corn, peking or corn, 88788, corn, 88788 or corn, corn, corn, 88788",
        "kestrel huevos 2400 por 100 cc iowa",
        "rotación kestrel 3000 huevos: maíz, 88788, maíz, peking o maíz, 88788, maíz, 88788",
        "plano de amostragem kestrel",
        "hg kestrel testemunha 200, l1 2, l2 60, l3 0, l4 0, l5 30, l6 0, l7 50",
    ],
)
def test_a_text_message_gets_at_most_two_segments(crew, text, tmp_path):
    """Every winter answer has a short form of one or two text messages that starts with the field."""
    from notes_bot.language import read_note
    from notes_bot.winter_deeds import WINTER

    work = crew.parts.desk._work(
        crew.parts.store.kept(crew.keep(text)), _message(text), crew.parts.store.person_at(SCOUT)
    )
    reading = read_note(text, sent=date(2026, 11, 20), fields=[known.name for known in work.fields])
    work.language = reading.language
    WINTER[reading.commands[0].kind](work, reading.commands[0])
    (letter,) = work.letters

    assert segments(letter.short) <= 2
    assert letter.short.startswith("Kestrel Bottom")


def _message(text: str):
    from notes_bot.model import Message

    return Message(SCOUT, "", text, "<x@phone.example>", NOVEMBER)


def test_two_results_in_one_mail_are_both_answered(crew):
    """Nothing of a message is lost when it asks for two things."""
    body = crew.body(crew.note("kestrel eggs 2400 per 100cc iowa\nold mill eggs 300 per 100cc iowa"))

    assert "Kestrel Bottom: 2,400" in body
    assert "Old Mill East: 300" in body


SUPERVISOR = "supervisor@crew.example"


@pytest.fixture(scope="module")
def season_over(tmp_path_factory):
    """Two fields looked at in July, one beside a check strip; asked about in November."""
    made = Crew(tmp_path_factory.mktemp("over"), datetime(2026, 7, 8, 17, tzinfo=UTC))
    made.note("kestrel 7/6 dug 6 shovel: 12 white 3 yellow")
    made.note(
        "old mill 7/8 R2 moist spade. R var peking 10 pl: 11 20 9 14 30 21 18 9 24 15. check strip 46 61 38 72 55"
    )
    made.clock.walk_to(NOVEMBER)
    made.note("old mill eggs 5200 per 100cc iowa, oct 20")
    yield made
    made.close()


def _kinds(filing) -> list[str]:
    mail = message_from_bytes(filing.outgoing[0].raw, policy=policy.default)
    return [part.get_content_type() for part in mail.walk()]


def test_a_season_report_says_what_was_seen_how_and_what_is_not_sure(season_over):
    """For the supervisor: text, page, pictures and a PDF for the grower."""
    filing = season_over.note("report old mill", SUPERVISOR)
    body = season_over.body(filing)

    assert body.startswith("Old Mill East, season 2026: SCN found, 1 look.")
    assert "8 Jul 2026: 10 plants" in body
    assert "Iowa if soybean is next: moderate" in body
    assert "Only 1 look: the season is thinly known." in body
    assert "label, local codes and your licensed adviser" in body
    assert {"text/html", "image/png", "application/pdf"} <= set(_kinds(filing))


def test_a_report_of_a_farm_tells_each_field_and_the_cautions_once(season_over):
    """All fields in one mail; one that nobody looked at is told as such."""
    body = season_over.body(season_over.note("report all", SUPERVISOR))

    assert body.startswith("Season 2026: 3 fields, SCN found in 2 of them.")
    assert "* Harrow Ridge 3, season 2026: not looked at." in body
    assert body.count("your licensed adviser") == 1


def test_only_a_supervisor_gets_reports_and_the_watch(season_over):
    """A scout is told so."""
    assert season_over.body(season_over.note("report old mill")) == "Only a supervisor can do that.\n"
    assert season_over.body(season_over.note("variety watch")) == "Only a supervisor can do that.\n"


def test_the_watch_names_the_source_that_slips_and_where(season_over):
    """Peking at about a third of the strip in one field: drawn in, and shown beside what was seen."""
    body = season_over.body(season_over.note("watch peking", SUPERVISOR))

    assert "Peking: 1 field with a check strip." in body
    assert "Old Mill East:" in body
    assert "seen 31%" in body


def test_a_report_can_be_made_without_a_message(season_over):
    """The turn of the clock calls it when a season is over."""
    from notes_bot.winter_deeds import season_report

    store = season_over.parts.store
    person = store.person_at(SUPERVISOR)
    reply = season_report(store, store.fields("crew"), person, today=date(2026, 11, 20))

    assert reply.subject == "SCN season 2026: 3 fields"
    assert reply.documents[0].name == "season-2026"


def test_the_digest_of_the_season_carries_the_pages_for_the_growers(season_over):
    """At season end, or asked for: one PDF of the fields looked at."""
    person = season_over.parts.store.person_at(SUPERVISOR)
    mail = message_from_bytes(season_over.parts.rounds.digest_now(person, "season").raw, policy=policy.default)

    assert [part.get_filename() for part in mail.walk() if part.get_content_type() == "application/pdf"] == [
        "season-2026.pdf"
    ]
