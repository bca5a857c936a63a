"""What is asked with a value of its own in free words: topics, spans, plans, corrections, new fields and looks."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import help_text, read_note

SENT = date(2026, 7, 8)
CREW = (
    *("Kestrel", "Dry Creek", "Old Mill East", "La Tranquera", "Molino Viejo", "Baixada", "Santa Rita"),
    *("Harrow Ridge 3", "Tinker's", "North Forty"),
)


def _read(text: str):
    return read_note(text, sent=SENT, fields=CREW)


def _asked(text: str) -> dict[str, object]:
    """The one thing asked, where nothing is noted and nothing is asked back."""
    reading = _read(text)
    assert reading.problems == (), reading.problems
    assert reading.notes == ()
    (command,) = reading.commands
    return {"kind": command.kind, **command.args}


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("i dont get how to send in a lab result, can you walk me thru it", "lab"),
        ("me dá uma ajuda com lab, não sei como passar o resultado", "lab"),
        ("necesito ayuda para mandar lo del laboratorio", "lab"),
        ("me explicás cómo cargo el resultado del lab", "lab"),
        ("como que eu mando o laudo?", "lab"),
        ("help lab", "lab"),
        ("help hg", "hg"),
        ("how do i send you an hg test", "hg"),
        ("need help w the HG stuff", "hg"),
        ("explain the HG test to me", "hg"),
        ("no entiendo bien lo del HG, me ayudás con eso", "hg"),
        ("cómo se manda la prueba HG?", "hg"),
        ("me ajuda com o teste HG que nunca fiz", "hg"),
        ("não entendi como funciona o HG", "hg"),
    ],
)
def test_help_with_the_lab_or_with_a_test(text, topic):
    """Each has a page of its own."""
    assert _asked(text) == {"kind": "help", "topic": topic}


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_the_page_of_a_test(language):
    assert "2.5.7" in help_text("hg", language)


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("give me the rundown of the week for the whole crew", "week"),
        ("how did we do this week, all fields", "week"),
        ("what did everybody find this week", "week"),
        ("send me the weekly rundown", "week"),
        ("quiero un pantallazo de la semana", "week"),
        ("cierre de la semana por favor", "week"),
        ("como fechou a semana, me manda o resumo", "week"),
        ("season's over, give me the rundown on every field for the season", "season"),
        ("wrap up of the season for the crew", "season"),
        ("balance de la temporada de todos los lotes", "season"),
        ("mandame el balance de la campaña", "season"),
        ("fechou a safra, me manda o balanço de todos os talhões da temporada", "season"),
        ("apanhado da safra toda", "season"),
        ("give me the rundown of today", None),
        ("summary for today, busy week", None),
        ("resumo do dia", None),
    ],
)
def test_the_span_of_a_digest(text, span):
    """A week or a season, wherever in the sentence it is told; the day needs no word."""
    told = _asked(text)

    assert (told["kind"], told.get("span")) == ("digest", span)


@pytest.mark.parametrize(
    "text",
    [
        "che y kestrel cómo viene? hace rato que no sé nada",
        "Kestrel cómo anda? no sé nada de ese lote",
        "how's kestrel, haven't heard anything in a while",
        "i know nothing about kestrel, how is it",
    ],
)
def test_nothing_known_is_no_none_seen(text):
    """What nobody said or knows was not looked for on roots."""
    assert _asked(text) == {"kind": "state", "field": "kestrel"}


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("finge que eu não falei nada de santa rita, pode tirar o que mandei", "santa rita"),
        ("faz de conta que não disse nada da baixada", "baixada"),
        ("hagan de cuenta que no dije nada de molino viejo", "molino viejo"),
        ("fingí que no dije nada de la tranquera", "la tranquera"),
        ("pretend i never sent anything on kestrel", "kestrel"),
        ("act like i didn't say anything about tinkers, take it out", "tinkers"),
    ],
)
def test_as_if_nothing_was_sent(text, field):
    """What is to be forgotten is taken back."""
    assert _asked(text) == {"kind": "take_back", "field": field}


@pytest.mark.parametrize(
    ("text", "field", "plants", "total"),
    [
        ("how many? 31 on 6 plants at Kestrel, didn't sort the colors", "kestrel", 6, 31),
        ("how many you ask? 12 white on 5 plants dug at Kestrel", "kestrel", 5, 12),
        ("cuántas? 31 en 6 plantas en la tranquera", "la tranquera", 6, 31),
        ("quantas? 22 em 5 plantas na baixada", "baixada", 5, 22),
        ("history repeating itself at kestrel, 2 0 4 1 3 on five plants", "kestrel", 5, 10),
        ("la historia de siempre en la tranquera, 6 plantas con pala, 12 blancas", "la tranquera", 6, 12),
        ("a história se repete na baixada, 2 0 4 1 3 em 5 plantas", "baixada", 5, 10),
    ],
)
def test_a_note_that_only_sounds_like_a_question(text, field, plants, total):
    """How many, and the answer at once; a history that repeats itself."""
    reading = _read(text)
    (note,) = reading.notes

    assert (reading.commands, reading.problems) == ((), ())
    assert (note.field, note.plants, note.females.total) == (field, plants, total)


@pytest.mark.parametrize(
    ("text", "field", "plans"),
    [
        ("Kestrel: what happens if we go corn, peking, corn, 88788", "kestrel", ["corn Peking corn 88788"]),
        ("what if we ran corn, peking, corn, 88788 on kestrel", "kestrel", ["corn Peking corn 88788"]),
        ("thinking corn, 88788, corn, peking for kestrel", "kestrel", ["corn 88788 corn Peking"]),
        ("would kestrel be ok with corn, peking, corn, peking", "kestrel", ["corn Peking corn Peking"]),
        ("if i go corn peking corn on kestrel what do the eggs do", "kestrel", ["corn Peking corn"]),
        (
            "what about corn, peking, corn, 88788 or corn, 88788, corn, 88788 on kestrel",
            "kestrel",
            ["corn Peking corn 88788", "corn 88788 corn 88788"],
        ),
        ("qué pasa si hacemos maíz, peking, maíz, 88788 en la tranquera", "la tranquera", ["corn Peking corn 88788"]),
        ("y si en la tranquera vamos maíz, peking, maíz?", "la tranquera", ["corn Peking corn"]),
        ("e se na baixada for milho, peking, milho?", "baixada", ["corn Peking corn"]),
        ("tô pensando em milho, 88788, milho, peking na baixada", "baixada", ["corn 88788 corn Peking"]),
    ],
)
def test_crops_in_a_row_are_a_plan(text, field, plans):
    """No source of resistance is put down for the field."""
    made = [[{"88788": "PI 88788"}.get(year, year) for year in plan.split(" ")] for plan in plans]

    assert _asked(text) == {"kind": "rotation", "field": field, "plans": made}


def test_crops_that_were_grown_are_no_plan():
    """Asked about; neither a plan nor this year's seed."""
    reading = _read("kestrel was corn, peking, corn before")

    assert (reading.commands, reading.notes) == ((), ())
    assert [problem.kind for problem in reading.problems] == ["only_words"]


@pytest.mark.parametrize(
    ("text", "what", "value", "old"),
    [
        ("Kestrel: soil wasn't dry like I said, it was moist. can you change that", "moisture", "moist", "dry"),
        ("the soil at kestrel wasn't dry like i told you, it was wet", "moisture", "wet", "dry"),
        ("kestrel wasn't V4 like i put, it was V5", "stage", "V5", "V4"),
        ("kestrel wasn't 6 plants like I said, it was 8", "plants", 8, 6),
        ("it wasn't 12 white at kestrel like i said, only 9", "white", 9, 12),
        ("put Kestrel down as V5, said V4 by mistake", "stage", "V5", "V4"),
        ("put kestrel down as pulled, said dug by mistake", "method", "pulled", "shovel"),
        ("list kestrel at 8 plants, i wrote 6", "plants", 8, 6),
    ],
)
def test_what_was_not_so_is_the_old_value(text, what, value, old):
    told = _asked(text)

    assert (told["kind"], told["field"]) == ("correct", "kestrel")
    assert (told["what"], told["value"], told.get("old")) == (what, value, old)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("tuesdays count from Kestrel should say 3 yellow instead of 30", date(2026, 7, 7)),
        ("fridays count at kestrel was 3 yellow, not 30", date(2026, 7, 3)),
        ("el conteo del martes de la tranquera tiene que decir 3 amarillas en vez de 30", date(2026, 7, 7)),
        ("a contagem de terça da baixada devia ser 3 amarelas em vez de 30", date(2026, 7, 7)),
        ("Kestrel should say 3 yellow instead of 30", None),
    ],
)
def test_the_day_of_the_count_that_is_put_right(text, day):
    """The weekday beside the word for the count."""
    told = _asked(text)

    assert (told["what"], told["value"], told["old"], told.get("date")) == ("yellow", 3, 30, day)


@pytest.mark.parametrize(
    ("text", "plants", "method"),
    [
        ("say a guy only pulls 4 plants and sees nothing, what does that tell him", 4, "pulled"),
        ("if i only dig 6 plants and none show, is it worth anything?", 6, "shovel"),
        ("suppose we dig 3 plants with a shovel and find none. what does it tell us?", 3, "shovel"),
        ("what if i pull 4 and nothing's there, what's that worth", 4, "pulled"),
        ("imagine digging 10 plants and finding nothing, how sure would i be", 10, "shovel"),
        ("si arranco nomás 5 plantas a mano y no veo nada, eso sirve de algo o me engaño solo", 5, "pulled"),
        ("si saco 6 plantas con pala y no hay nada, qué me dice?", 6, "shovel"),
        ("supongamos que arranco 4 plantas y no veo ninguna, eso significa algo", 4, "pulled"),
        ("se eu arrancar 5 pés e não achar nada, isso quer dizer alguma coisa", 5, "pulled"),
        ("se eu tirar 6 plantas na pá e não tiver nada, dá pra confiar?", 6, "shovel"),
    ],
)
def test_a_look_only_supposed(text, plants, method):
    """What it would be worth is asked; nobody looked, with a list of fields or without one."""
    wanted = {"kind": "look_worth", "plants": plants, "method": method}
    assert _asked(text) == wanted
    (command,) = read_note(text, sent=SENT).commands
    assert {"kind": command.kind, **command.args} == wanted


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("aquela minha olhada na Baixada, dá pra confiar ou foi pouca planta?", "baixada"),
        ("my look at kestrel, can i trust it or was it too few plants?", "kestrel"),
        ("esa mirada mía en la tranquera, sirve de algo o fueron pocas plantas?", "la tranquera"),
    ],
)
def test_trust_in_the_last_look(text, field):
    assert _asked(text) == {"kind": "look_worth", "field": field}


def test_a_look_that_was_made_stays_a_note():
    """Beside small talk and a question of whether it is enough."""
    (note,) = _read("say hi to bob. kestrel dug 6 plants none, is that good enough?").notes

    assert (note.field, note.plants, note.outcome) == ("kestrel", 6, "none_seen")


@pytest.mark.parametrize(
    ("text", "field", "acres"),
    [
        ("Kestrel isnt forty acres fyi, its 36.5", "kestrel", 36.5),
        ("North Forty isnt forty acres fyi, its 36.5", "north forty", 36.5),
        ("kestrel ain't 40 ac its 36.5 ac", "kestrel", 36.5),
        ("fyi kestrel's only 36 acres, not 40", "kestrel", 36.0),
        ("kestrel measures 36.5 acres, not the 40 we had", "kestrel", 36.5),
        ("la tranquera no tiene 40 hectáreas, son 36,5", "la tranquera", 90.2),
        ("a baixada não tem 40 ha, são 36,5", "baixada", 90.2),
    ],
)
def test_the_size_it_is_and_the_size_it_is_not(text, field, acres):
    assert _asked(text) == {"kind": "field", "name": field, "acres": acres}


@pytest.mark.parametrize(
    ("text", "given"),
    [
        (
            "tenemos un lote más para seguir, se llama ceibo grande y queda cerca de la tranquera",
            {"name": "ceibo grande", "near": "la tranquera"},
        ),
        (
            "entrou mais um talhão pra gente acompanhar, mata virada, vizinho de baixada, plantado 14/5",
            {"name": "mata virada", "near": "baixada", "planted": date(2026, 5, 14)},
        ),
        (
            "temos mais um talhão pra acompanhar, se chama mata virada e fica perto da baixada",
            {"name": "mata virada", "near": "baixada"},
        ),
        (
            "we've got one more field to watch, it's called Heron Flat and it's next to Kestrel",
            {"name": "heron flat", "near": "kestrel"},
        ),
        (
            "Got us a new one, Pelican Forty, it sits at 41.7032, -93.4415",
            {"name": "pelican forty", "latitude": 41.7032, "longitude": -93.4415},
        ),
        (
            "one more to scout, Pelican Forty, 41.7032 -93.4415",
            {"name": "pelican forty", "latitude": 41.7032, "longitude": -93.4415},
        ),
    ],
)
def test_one_more_field(text, given):
    """Where it lies, by a neighbor or by coordinates; part of its name is of another field."""
    assert _asked(text) == {"kind": "field", **given}


@pytest.mark.parametrize(
    ("text", "field", "variety"),
    [
        ("Kestrel has Tarn 2417 in it this year, thats the one with the Peking resistance", "kestrel", "Tarn 2417"),
        ("they put Tarn 2417 in kestrel this year, it's the peking one", "kestrel", "Tarn 2417"),
        ("seed guy says what's in Kestrel is Delmar 27X, resistant, the Peking kind", "kestrel", "Delmar 27X"),
        ("en la tranquera pusieron Delmar 27X, la resistente, tipo Peking", "la tranquera", "Delmar 27X"),
        ("a semente da baixada esse ano é Delmar 27X, resistente, tipo Peking", "baixada", "Delmar 27X"),
    ],
)
def test_the_seed_of_a_field_told_freely(text, field, variety):
    """Put in it, and no inches; letters that touch the number are of its name."""
    wanted = {"name": field, "variety": variety, "resistance": "resistant", "source": "Peking"}

    assert _asked(text) == {"kind": "field", **wanted}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("eita, mandei sem querer, apaga essa última mensagem", "take_back"),
        ("ih, foi sem querer, cancela essa nota", "take_back"),
        ("uy, se me fue, borrá lo último", "take_back"),
        ("dang, hit send too soon, scratch that last one", "take_back"),
        ("tô perdido aqui, como é que usa isso", "help"),
    ],
)
def test_a_cry_in_front_is_no_name(text, kind):
    """Also without a list of fields."""
    assert _asked(text) == {"kind": kind}
    (command,) = read_note(text, sent=SENT).commands
    assert {"kind": command.kind, **command.args} == {"kind": kind}


@pytest.mark.parametrize(
    ("text", "field"),
    [
        (
            "quiero ver todo lo q se fue encontrando en la tranquera desde la primera vez que lo miramos",
            "la tranquera",
        ),
        ("show me everything that's turned up at kestrel since the first look", "kestrel"),
        ("quero ver tudo que foi achado na baixada desde a primeira olhada", "baixada"),
    ],
)
def test_all_since_the_first_look(text, field):
    assert _asked(text) == {"kind": "history", "field": field}


@pytest.mark.parametrize(
    ("text", "field", "plants"),
    [
        (
            "Baixada, me perguntaram do histórico e eu nem soube responder. 5 pés na pá, 7 brancas e 2 amarelas",
            "baixada",
            5,
        ),
        ("Kestrel, they asked me about the history and i didn't know. dug 5, 7 white", "kestrel", 5),
    ],
)
def test_what_others_asked_is_asked_of_nobody(text, field, plants):
    reading = _read(text)
    (note,) = reading.notes

    assert (reading.commands, reading.problems) == ((), ())
    assert (note.field, note.plants) == (field, plants)


def test_a_note_before_how_to_sample_is_kept():
    """The question does not swallow what was dug."""
    (note,) = _read("Kestrel dug 6, 3 white. how should I sample it this fall?").notes

    assert (note.field, note.plants, note.females.white) == ("kestrel", 6, 3)


def test_varieties_that_let_more_through():
    assert _asked("which varieties are letting more cysts through than they should") == {"kind": "watch"}


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("mejor lo de la tranquera pasámelo para el jueves, mañana llevo a la nena al médico", "la tranquera"),
        ("melhor passar a baixada pra quinta, amanhã levo o menino no médico", "baixada"),
        ("better push kestrel to thursday, tomorrow i gotta take the kid to the doctor", "kestrel"),
    ],
)
def test_better_another_day(text, field):
    """Behind a word for better; the day of the reason is none of the field's."""
    assert _asked(text) == {"kind": "move", "date": date(2026, 7, 9), "field": field}


def test_pulled_up_is_not_pulled():
    """Notes are shown, none is taken back."""
    text = "landlord is asking what all we found at Kestrel over the years. can u pull that up"

    assert _asked(text) == {"kind": "history", "field": "kestrel"}


def test_what_was_said_of_seed_is_no_variety():
    text = "La Tranquera. El dueño pregunta si hay que cambiar de semilla, le dije que espere. 6 plantas con pala, 3 blancas"
    (note,) = _read(text).notes

    assert (note.variety, note.plants, note.females.white) == (None, 6, 3)


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("cuántas hembras? 14 en 6 plantas en molino viejo, con pala", "molino viejo"),
        ("quantas fêmeas? 14 em 6 plantas na santa rita, na pá", "santa rita"),
    ],
)
def test_how_many_females_is_no_name(text, field):
    reading = _read(text)
    (note,) = reading.notes

    assert (reading.commands, note.field, note.plants, note.females.total) == ((), field, 6, 14)


def test_a_mistake_owned_up_to_takes_nothing_back():
    told = _asked("kestrel was pulled not dug, my mistake")

    assert (told["kind"], told["what"], told["value"], told["old"]) == ("correct", "method", "pulled", "shovel")
