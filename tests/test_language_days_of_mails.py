"""Days in mails of prose: of the next visit, of a visit gone on to, and of what is no visit."""

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import LookAgain

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "Dry Creek", "Bajo Grande", "La Tranquera", "Baixada", "Sede Velha")
NOTES = {
    "en": "Dry Creek: dug six, 3 white, R1. ",
    "es": "La Tranquera: 6 plantas con pala, 3 blancas, R1. ",
    "pt": "Sede Velha: cavei 6 com pá, 3 brancas, R1. ",
}


@pytest.mark.parametrize(
    ("language", "said", "look"),
    [
        ("en", "Fourteen days from now I will be back unless the hip says otherwise.", LookAgain(days=14)),
        ("en", "Twelve days from now I drive through there again and will stop.", LookAgain(days=12)),
        ("en", "Next time I am near there is the 18th, will look again then.", LookAgain(date=date(2026, 7, 18))),
        ("en", "I plan a second visit on July 20.", LookAgain(date=date(2026, 7, 20))),
        ("en", "I'll look in again at Dry Creek Saturday.", LookAgain(date=date(2026, 7, 11))),
        ("en", "My next trip out that way is July 22.", LookAgain(date=date(2026, 7, 22))),
        ("en", "In two weeks' time I shall go through the rows again.", LookAgain(days=14)),
        ("es", "El viernes hacemos otro intento.", LookAgain(date=date(2026, 7, 10))),
        ("es", "Dentro de 12 días la vemos de nuevo.", LookAgain(days=12)),
        ("pt", "Na segunda volto lá com o enxadão e faço direito.", LookAgain(date=date(2026, 7, 13))),
        ("pt", "Marquei nova vistoria para 20/7.", LookAgain(date=date(2026, 7, 20))),
        ("pt", "Daqui a 10 dias passo lá outra vez e olho.", LookAgain(days=10)),
    ],
)
def test_a_visit_promised_in_words_of_its_own_is_the_next_look(language, said, look):
    (note,) = (reading := read_note(NOTES[language] + said, sent=SENT, fields=FIELDS)).notes
    assert not reading.problems
    assert (note.look_again, note.date, note.females.total, note.stage) == (look, None, 3, "R1")


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "On Monday the wife will go back to the doctor again."),
        ("en", "My spade handle cracked on the last one, so tomorrow I am at the hardware store."),
        ("en", "Tomorrow I have six jobs to run and it's supposed to blow from noon on."),
        ("es", "Mañana nos toca deshierbar en otra parte."),
        ("pt", "Na próxima semana tenho auditoria."),
        ("es", "Hace dos semanas lo vimos otra vez todo verde."),
    ],
)
def test_what_is_of_others_or_past_is_no_next_look(language, said):
    (note,) = read_note(NOTES[language] + said, sent=SENT, fields=FIELDS).notes
    assert note.look_again is None


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Kestrel yesterday, saturated, did not dig. From there I drove to Dry Creek, and dug five, 4 white.", (7, 7)),
        ("I was at Kestrel on Monday, dug six, 3 white. Afterward I stopped at Dry Creek by myself, dug five.", (6, 6)),
        ("On Monday I dug six at Kestrel, 3 white. The same afternoon I did Dry Creek, dug five, found none.", (6, 6)),
        ("Kestrel yesterday, dug six, 3 white. Dry Creek: same afternoon, dug five, 2 white.", (7, 7)),
        ("Kestrel on Monday, dug six, 3 white. Dry Creek: dug five, 2 white.", (6, None)),
    ],
)
def test_a_visit_gone_on_to_is_of_the_same_day(text, days):
    notes = read_note(text, sent=SENT, fields=FIELDS).notes
    assert [(note.field, note.date and note.date.day) for note in notes] == [
        ("kestrel", days[0]),
        ("dry creek", days[1]),
    ]
    assert notes[1].plants == 5


@pytest.mark.parametrize(
    ("text", "field", "plants"),
    [
        ("Kestrel dug six, 3 white. I stopped at Dry Creek by myself, dug five and found none.", "dry creek", 5),
        ("Dry Creek dug six, 3 white. Later that day we did Kestrel, dug five and found none.", "kestrel", 5),
        (
            "Baixada: 6 plantas com pá, 3 brancas. Depois parei na Sede Velha, cavei cinco e não achei nada.",
            "sede velha",
            5,
        ),
    ],
)
def test_where_somebody_stopped_and_dug_is_another_visit(text, field, plants):
    notes = read_note(text, sent=SENT, fields=FIELDS).notes
    assert len(notes) == 2
    assert (notes[1].field, notes[1].plants, notes[1].outcome) == (field, plants, "none_seen")


def test_how_it_was_done_elsewhere_is_no_visit():
    text = "Kestrel dug six, 3 white. It is just like I did Dry Creek, dug one row and not the next."
    assert [note.field for note in read_note(text, sent=SENT, fields=FIELDS).notes] == ["kestrel"]


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("At Kestrel the clay was wet after Saturday's inch of rain. Ten plants, spade, 14 white.", None),
        ("Kestrel, dug six, 3 white, soil wet from Sunday's storm.", None),
        ("Kestrel dug six, 3 white. Monday's meeting was dull.", None),
        ("Kestrel, Monday's dig: six plants, 3 white.", date(2026, 7, 6)),
    ],
)
def test_the_day_of_rain_or_of_a_meeting_is_not_that_of_the_visit(text, day):
    (note,) = read_note(text, sent=SENT, fields=FIELDS).notes
    assert note.date == day


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("Dry Creek: dug eight, 1 yellow. Can I see the history of Dry Creek? I forget what I sent.", ["history"]),
        ("Dry Creek: dug eight, 1 yellow. Digest for the week, please, before I forget what week it is", ["digest"]),
        ("Dry Creek: dug eight, 1 yellow. I must take back what I told the group about old pasture.", []),
        ("La Tranquera: 6 plantas, 3 blancas. ¿Cómo va Bajo Grande? Ya ni me acuerdo en qué quedamos.", ["state"]),
        ("Sede Velha: cavei 6, 3 brancas. Alguém pode me emprestar uma lupa decente.", []),
        ("Kestrel 4 plants, none. Dry Creek: dug 8, 1 yellow. anyway back at Kestrel on saturday", []),
    ],
)
def test_what_only_sounds_like_a_request_is_none(text, kinds):
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert [command.kind for command in reading.commands] == kinds


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Wednesday and I get to paperwork. Kestrel: went back yesterday. Dug seven, 4 white.", [7]),
        (
            "wednesday thoughts. i looked at Kestrel on friday and dug 6, 3 white. Dry Creek on monday, dug 4, none.",
            [3, 6],
        ),
        ("Buenos días, informe del miércoles. El lunes fuimos a La Tranquera, 5 plantas con pala, 2 blancas.", [6]),
        ("Wednesday. Kestrel dug 6, 3 white. Dry Creek dug 4, none.", [8, 8]),
    ],
)
def test_the_weekday_on_which_it_is_written_gives_way_to_another(text, days):
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems
    assert [note.date and note.date.day for note in reading.notes] == days


def test_the_day_until_which_nobody_may_enter_is_no_next_look():
    text = (
        "Nobody go in Kestrel before tomorrow noon please, insecticide went on today. I did not dig anything up there."
    )
    (note,) = read_note(text, sent=SENT, fields=FIELDS).notes
    assert (note.outcome, note.look_again) == ("not_looked", None)


def test_a_visit_once_something_is_done_is_a_next_look():
    text = "Dry Creek, the gate was chained, so nothing was dug there. The chain comes off on Friday and then I go in."
    (note,) = read_note(text, sent=SENT, fields=FIELDS).notes
    assert (note.date, note.look_again) == (None, LookAgain(date=date(2026, 7, 10)))


@pytest.mark.parametrize(
    ("language", "text", "day"),
    [
        ("es", "El viernes 3 recorrí La Tranquera. Saqué 6 plantas con pala, 4 blancas.", date(2026, 7, 3)),
        ("es", "La Tranquera: el viernes 3 saqué 6 plantas con pala, 4 blancas.", date(2026, 7, 3)),
        ("es", "El lunes 6 pasé por La Tranquera, 6 plantas con pala, 4 blancas.", date(2026, 7, 6)),
        ("pt", "Na sexta 3 estive na Sede Velha. 6 plantas com pá, 4 brancas.", date(2026, 7, 3)),
        ("pt", "Segunda 6 fui na Sede Velha. 6 plantas com pá, 4 brancas.", date(2026, 7, 6)),
        ("en", "Friday 3 we went to Dry Creek. 6 plants spade, 4 white.", date(2026, 7, 3)),
    ],
)
def test_a_weekday_keeps_its_day_of_the_month_before_what_was_done(language, text, day):
    """The number behind the weekday counts nothing where a verb of going, or digging with its own number, follows."""
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert not reading.problems
    (note,) = reading.notes
    assert (note.date, note.plants, note.females.total) == (day, 6, 4)


@pytest.mark.parametrize(
    ("language", "text", "plants", "females"),
    [
        ("es", "La Tranquera viernes 6 blancas", None, 6),
        ("es", "La Tranquera viernes 6 con pala, 3 blancas", 6, 3),
        ("es", "La Tranquera el viernes 6 saqué 3 blancas", 6, 3),
        ("en", "Dry Creek fri 6 dug 3 white", 6, 3),
        ("en", "Dry Creek fri 6 white", None, 6),
        ("pt", "Sede Velha sexta 6 na pá, 3 brancas", 6, 3),
    ],
)
def test_a_number_behind_a_weekday_may_count(language, text, plants, females):
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    (note,) = reading.notes
    assert (note.date, note.plants, note.females.total) == (date(2026, 7, 3), plants, females)


def test_another_day_than_the_weekday_is_asked_about():
    reading = read_note("La Tranquera jueves 6 recorrí, 5 plantas, 3 blancas", sent=SENT, fields=FIELDS, language="es")
    assert [p.kind for p in reading.problems] == ["weekday_mismatch"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "es",
            "En La Tranquera el viernes 3 se aplicó fungicida con 24 horas de reingreso, de modo que esperé hasta el "
            "domingo 5 para hacer la visita. 6 plantas con pala, 4 blancas.",
        ),
        (
            "es",
            "La Tranquera: el viernes 3 aplicaron fungicida, recién el domingo 5 pude entrar. 6 plantas, 4 blancas.",
        ),
        (
            "pt",
            "Na Sede Velha na sexta 3 aplicaram fungicida, então esperei até domingo 5 pra fazer a visita. "
            "6 plantas na pá, 4 brancas.",
        ),
        ("en", "Dry Creek was sprayed Friday with fungicide, so I waited until Sunday to go in. 6 plants, 4 white."),
    ],
)
def test_the_day_of_the_spray_and_that_of_the_visit(language, text):
    """What was waited for is the visit."""
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert not reading.problems
    (note,) = reading.notes
    assert (note.date, note.spray.date, note.spray.what) == (date(2026, 7, 5), date(2026, 7, 3), "fungicide")


def test_so_that_today_i_went_in_is_no_day_held_against_another():
    """ "Así que hoy entré" tells the visit; "igual que ayer" does not."""
    text = "La Tranquera: herbicida hace 3 días, así que hoy entré: 6 plantas con pala, 4 blancas"
    (note,) = read_note(text, sent=SENT, fields=FIELDS, language="es").notes
    assert (note.date, note.spray.days_ago) == (SENT, 3)
    (note,) = read_note("La Tranquera igual que ayer, 6 plantas, 4 blancas", sent=SENT, fields=FIELDS).notes
    assert note.date is None


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "Paso el resumen del viernes 3.\n1) La Tranquera. 6 plantas: 4 blancas.\n2) Bajo Grande. 6 plantas: 0."),
        ("es", "Te paso lo del viernes 3: La Tranquera 6 plantas 4 blancas. Bajo Grande 6 plantas, ninguna."),
        ("pt", "Passo o resumo de sexta 3.\n1) Sede Velha. 6 plantas: 4 brancas.\n2) Baixada. 6 plantas: nenhuma."),
    ],
)
def test_a_summary_passed_on_is_no_next_look(language, text):
    """ "Paso el resumen del viernes" hands it over; "paso el viernes" comes by."""
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert [(note.date, note.look_again) for note in reading.notes] == [(date(2026, 7, 3), None)] * 2
    (note,) = read_note("La Tranquera 6 plantas, 2 blancas, paso el viernes 17", sent=SENT, fields=FIELDS).notes
    assert note.look_again == LookAgain(date=date(2026, 7, 17))


def test_the_day_it_rained_is_not_that_of_the_visit_and_its_number_no_rain():
    """ "El viernes 3 llovió" has no amount; a visit that came to nothing for it keeps its day."""
    (note,) = (
        reading := read_note("El viernes 3 llovió. El lunes 6 recorrí La Tranquera, 5 plantas, 3 blancas", sent=SENT)
    ).notes
    assert (note.date, reading.commands) == (date(2026, 7, 6), ())
    (note,) = read_note("Baixada na sexta choveu, 5 plantas na pá, 3 brancas", sent=SENT, fields=FIELDS).notes
    assert note.date is None
    (note,) = read_note("Baixada ontem choveu demais e não deu pra entrar", sent=SENT, fields=FIELDS).notes
    assert (note.date, note.outcome) == (date(2026, 7, 7), "not_looked")


@pytest.mark.parametrize(
    ("language", "text", "day"),
    [
        ("es", "El pasado viernes 3 estuvimos en La Tranquera, 5 plantas, 3 blancas", date(2026, 7, 3)),
        ("es", "Este viernes 3 fuimos a La Tranquera, 5 plantas, 3 blancas", date(2026, 7, 3)),
        ("en", "Dry Creek: sprayed Friday 3 with herbicide, went in Sunday 5, 5 plants, 3 white", date(2026, 7, 5)),
    ],
)
def test_last_friday_with_its_number_and_a_day_of_spraying_with_one(language, text, day):
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert not reading.problems
    (note,) = reading.notes
    assert (note.date, note.plants) == (day, 5)
