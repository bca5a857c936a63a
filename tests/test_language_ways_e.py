"""Ways people ask for something: each concept in many words, in three languages."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language

SENT = date(2026, 7, 8)
CREW = (
    *("Kestrel", "Old Mill", "Cedar Slough", "Dry Creek", "North Forty", "La Tranquera", "Molino Viejo"),
    *("Bajo Grande", "Baixada", "Santa Rita", "Sede Velha", "Lote 7"),
)


def asked(text: str, language: Language = "en") -> list[tuple[str, dict[str, Any]]]:
    """What is asked in a message that holds no note and leaves no question."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")
    assert not reading.notes
    assert not reading.problems
    return [
        (c.kind, {k: v.lower() if isinstance(v, str) else v for k, v in c.args.items() if v is not None})
        for c in reading.commands
    ]


@pytest.mark.parametrize(
    ("language", "text", "field"),
    [
        ("en", "catch me up on dry creek", "dry creek"),
        ("en", "north forty - how are we sitting", "north forty"),
        ("en", "Boss wants to know where old mill stands, what do I tell him", "old mill"),
        ("en", "is kestrel clean or has it got scn", "kestrel"),
        ("en", "sitrep kestrel", "kestrel"),
        ("es", "poneme al día con la tranquera", "la tranquera"),
        ("pt", "lote 7 tá limpo ou tem cisto", "lote 7"),
        ("pt", "Bom dia, poderia me informar como se encontra a Santa Rita?", "santa rita"),
    ],
)
def test_how_a_field_stands_is_asked_in_many_ways(language: Language, text: str, field: str) -> None:
    """Each asks for the state of the field named."""
    assert asked(text, language) == [("state", {"field": field})]


@pytest.mark.parametrize(
    ("language", "text", "field"),
    [
        ("en", "track record on dry creek", "dry creek"),
        ("en", "earlier findings, cedar slough", "cedar slough"),
        ("en", "every visit to old mill, list em", "old mill"),
        ("en", "I forgot what I sent you on north forty, read it back to me would you", "north forty"),
        ("en", "what did the last guy count in kestrel", "kestrel"),
        ("es", "antecedentes de bajo grande", "bajo grande"),
        ("es", "molino viejo ya había tenido quistes otras veces?", "molino viejo"),
        ("pt", "santa rita, visitas passadas", "santa rita"),
        ("pt", "quantas a gente contou na baixada das outras vezes", "baixada"),
    ],
)
def test_what_was_found_before_is_asked_in_many_ways(language: Language, text: str, field: str) -> None:
    """Each asks for the history, and not only how the field stands."""
    assert asked(text, language) == [("history", {"field": field})]


@pytest.mark.parametrize(
    ("language", "text", "field"),
    [
        ("en", "draw me up kestrel so i can see the trend line", "kestrel"),
        ("en", "got a picture of how old mill's counts went?", "old mill"),
        ("en", "visual on old mill counts pls", "old mill"),
        ("es", "necesito una gráfica pal patrón, la de bajo grande", "bajo grande"),
        ("es", "se puede ver la tranquera en barras?", "la tranquera"),
        ("pt", "plota a sede velha", "sede velha"),
        ("pt", "joga as contagens da baixada num gráfico", "baixada"),
    ],
)
def test_a_chart_is_asked_in_many_ways(language: Language, text: str, field: str) -> None:
    """Each asks for the picture of the field."""
    assert asked(text, language) == [("picture", {"field": field})]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Where am I supposed to go next?"),
        ("en", "who's up next for digging"),
        ("en", "got the truck loaded, what fields are up"),
        ("en", "pending visits"),
        ("es", "hay algo vencido?"),
        ("es", "ya cargué la pala, para cuál arranco"),
        ("pt", "qual é o próximo da fila"),
        ("pt", "ta faltando eu ir em qual talhao"),
    ],
)
def test_what_is_due_is_asked_in_many_ways(language: Language, text: str) -> None:
    """Each asks for the list of what is due."""
    assert asked(text, language) == [("due", {})]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "sum up today"),
        ("en", "day in a nutshell"),
        ("en", "what did everybody find today"),
        ("en", "bring me up to speed on today, all fields"),
        ("es", "parte diario"),
        ("es", "pasame lo de hoy en corto"),
        ("pt", "o que rolou hoje nos talhões todos"),
        ("pt", "como foi o dia, em poucas palavras"),
    ],
)
def test_the_digest_is_asked_in_many_ways(language: Language, text: str) -> None:
    """Each asks for the digest, and none is the note of a day."""
    assert asked(text, language) == [("digest", {})]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "need a hand using this thing"),
        ("en", "remind me how this works again"),
        ("en", "hlep"),
        ("en", "Is there a manual for this"),
        ("es", "Soy nuevo, me puede orientar con el uso?"),
        ("es", "cómo tengo que escribir las notas"),
        ("pt", "o que vc sabe fazer"),
        ("pt", "socorro kkk como usa isso"),
    ],
)
def test_help_is_asked_in_many_ways(language: Language, text: str) -> None:
    """Each asks for help, of no topic."""
    assert asked(text, language) == [("help", {})]


@pytest.mark.parametrize(
    ("language", "text", "field"),
    [
        ("en", "un-send my last count", None),
        ("en", "dont save that last one", None),
        ("es", "haga de cuenta que no mandé el último", None),
        ("es", "quitame esa ultima de la tranquera", "la tranquera"),
        ("pt", "não vale o que mandei agora, pode deletar", None),
        ("pt", "tira essa última da baixada", "baixada"),
    ],
)
def test_a_note_is_taken_back_in_many_ways(language: Language, text: str, field: str | None) -> None:
    """Each takes the last note back, of the field where one is named."""
    assert asked(text, language) == [("take_back", {} if field is None else {"field": field})]


@pytest.mark.parametrize(
    ("language", "text", "kind", "field"),
    [
        ("en", "lay off north forty, don't want the nags", "mute", "north forty"),
        ("en", "unsubscribe me from dry creek reminders", "mute", "dry creek"),
        ("es", "ya no ocupo que me este avisando de molino viejo", "mute", "molino viejo"),
        ("pt", "lote 7 não precisa mais ficar cobrando", "mute", "lote 7"),
        ("en", "take kestrel off mute", "resume", "kestrel"),
        ("en", "Why did cedar slough go quiet, turn it back on", "resume", "cedar slough"),
        ("en", "changed my mind, do remind me on kestrel after all", "resume", "kestrel"),
        ("es", "sacale el silencio a molino viejo", "resume", "molino viejo"),
        ("pt", "tira a baixada do silencioso", "resume", "baixada"),
        ("pt", "põe a baixada de volta nos lembretes", "resume", "baixada"),
    ],
)
def test_reminders_are_silenced_and_wanted_again_in_many_ways(
    language: Language, text: str, kind: str, field: str
) -> None:
    """Off mute is no muting."""
    assert asked(text, language) == [(kind, {"field": field})]


@pytest.mark.parametrize(
    ("language", "text", "field"),
    [
        ("en", "dry creek gets a pass this time", "dry creek"),
        ("en", "let old mill go this time, well get it on the next round", "old mill"),
        ("en", "can we forgo north forty this visit? do it next round", "north forty"),
        ("en", "Please leave Old Mill off the list this time only", "old mill"),
        ("es", "esta vuelta molino viejo no, la próxima sí", "molino viejo"),
        ("es", "perdoná al bajo grande por esta, lo vemos en la que viene", "bajo grande"),
        ("pt", "essa volta é sem a sede velha", "sede velha"),
        ("pt", "Favor não incluir a Santa Rita somente nesta rodada", "santa rita"),
    ],
)
def test_a_field_is_left_out_of_one_round_in_many_ways(language: Language, text: str, field: str) -> None:
    """A word for leaving out with a word for this one time skips; alone neither does."""
    assert asked(text, language) == [("move", {"field": field, "skip": True})]


@pytest.mark.parametrize(
    ("language", "text", "told"),
    [
        ("en", "give me 5 more days on cedar slough", {"field": "cedar slough", "days": 5}),
        ("en", "need another week for kestrel", {"field": "kestrel", "days": 7}),
        ("en", "north forty not till 7/17", {"field": "north forty", "date": date(2026, 7, 17)}),
        ("en", "set cedar slough's reminder to 7-22", {"field": "cedar slough", "date": date(2026, 7, 22)}),
        ("en", "can we do dry creek on the 16th instead", {"field": "dry creek", "date": date(2026, 7, 16)}),
        ("en", "old mill tomorrow instead, cant get there today", {"field": "old mill", "date": date(2026, 7, 9)}),
        ("es", "bajo grande mejor el 17/7", {"field": "bajo grande", "date": date(2026, 7, 17)}),
    ],
)
def test_a_reminder_is_put_off_in_many_ways(language: Language, text: str, told: dict[str, Any]) -> None:
    """By days, by "another week", to a day written with a dash, or to another day "instead"."""
    assert asked(text, language) == [("move", told)]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Weekly roundup, friends. Kestrel R4, none on 6 plants."),
        ("en", "kestrel 6 plants none, same as past results"),
        ("en", "dry creek was too wet so no digging today"),
        ("es", "La Tranquera: hojas nuevas amarillas, pH 7,9. No descalcé esta vez."),
        ("pt", "Santa Rita: raízes não examinadas nesta visita."),
        ("en", "Report today\nkestrel 6 plants none"),
        ("en", "kestrel 6 plants 40 white, field is in trouble"),
        ("en", "kestrel 6 plants 3 white, update tomorrow"),
        ("en", "dry creek irrigation back on again, 6 plants 3 white"),
        ("en", "kestrel 6 plants without symptoms this time"),
        ("en", "dry creek 6 plants 3 white, cant get to the back end this time"),
        ("es", "la tranquera 6 plantas nada, ya tuvo quistes antes"),
        ("es", "molino viejo 6 plantas 4 blancas, el lote está en silencio"),
        ("pt", "sede velha 6 pés 2 brancas, pior que ano passado"),
    ],
)
def test_words_that_ask_in_a_note_ask_nothing(language: Language, text: str) -> None:
    """A heading, a comparison and why nobody dug stay a note's."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")
    assert reading.notes
    assert not reading.commands


@pytest.mark.parametrize(
    ("language", "text", "kind", "field"),
    [
        ("en", "give me the skinny on kestrel", "state", "kestrel"),
        ("es", "tirame la justa de bajo grande", "state", "bajo grande"),
        ("en", "dig up my old notes for north forty", "history", "north forty"),
        ("en", "kestrel counts to date", "history", "kestrel"),
        ("es", "qué habíamos encontrado en la tranquera", "history", "la tranquera"),
        ("pt", "o que eu já mandei da baixada", "history", "baixada"),
        ("es", "quiero ver bajo grande dibujado", "picture", "bajo grande"),
        ("en", "what do you need from me today", "due", None),
        ("es", "adónde me mandás hoy", "due", None),
        ("pt", "qual eu faço agora", "due", None),
        ("en", "how'd we do today", "digest", None),
        ("pt", "me conta o dia", "digest", None),
        ("en", "dont know what to say to you", "help", None),
        ("pt", "tô perdido", "help", None),
        ("en", "i sent that by mistake delete it", "take_back", None),
        ("es", "la última no va", "take_back", None),
        ("pt", "não quero mais saber da santa rita", "mute", "santa rita"),
        ("es", "que vuelvan los recordatorios de molino viejo", "resume", "molino viejo"),
    ],
)
def test_the_same_is_asked_in_words_of_other_hands(language: Language, text: str, kind: str, field: str | None) -> None:
    """Idioms of every concept, each of which reads as that concept alone."""
    assert asked(text, language) == [(kind, {} if field is None else {"field": field})]


@pytest.mark.parametrize(
    "text", ["where should i park the truck today", "which road is open tomorrow", "dame el camino de hoy"]
)
def test_a_question_of_a_day_and_no_field_is_no_note(text: str) -> None:
    """What is asked of a day, with no field and nothing found, is asked about and not kept."""
    language: Language = "es" if text.startswith("dame") else "en"
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")
    assert not reading.notes
    assert [problem.kind for problem in reading.problems] == ["nothing_read"]


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("next week remind me about kestrel", 7),
        ("next month remind me about kestrel", 30),
        ("in two weeks remind me about kestrel", 14),
    ],
)
def test_the_span_before_the_reminder_it_puts_off(text, days):
    assert asked(text) == [("move", {"field": "kestrel", "days": days})]
