"""Signs of plants, roots and soil that are denied, to come, of another time or of something else, beside a plain count.

Ways to say so are put together with what is said: none of it is read, and the count stays as it is.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import LANGUAGES, Language, Note

SENT = date(2026, 7, 15)  # a Wednesday
COUNTED: dict[Language, str] = {
    "en": "6 plants, 12 white",
    "es": "6 plantas, 12 blancas",
    "pt": "6 plantas, 12 brancas",
}
SIGNS: dict[Language, tuple[str, ...]] = {
    "en": (
        *(
            "yellowing",
            "yellow leaves",
            "chlorosis",
            "stunting",
            "stunted plants",
            "wilting",
            "wilted plants",
        ),
        *(
            "patches",
            "bad spots",
            "rings",
            "unevenness",
            "leaf symptoms",
            "dark roots",
            "snapped roots",
        ),
        *(
            "broken roots",
            "stubby roots",
            "brown nodules",
        ),
    ),
    "es": (
        *(
            "amarillamiento",
            "hojas amarillas",
            "clorosis",
            "enanismo",
            "plantas enanas",
            "plantas petisas",
        ),
        *(
            "marchitez",
            "plantas marchitas",
            "manchones",
            "anillos",
            "raíces oscuras",
            "raíces cortadas",
        ),
        *("nódulos marrones",),
    ),
    "pt": (
        *(
            "amarelamento",
            "folhas amarelas",
            "clorose",
            "nanismo",
            "plantas baixas",
            "murcha",
            "plantas murchas",
        ),
        *(
            "reboleiras",
            "manchas",
            "anéis",
            "raízes escuras",
            "raízes quebradas",
            "nódulos marrons",
        ),
    ),
}
DENIED: dict[Language, tuple[str, ...]] = {
    "en": (
        *(
            "no {}",
            "no {} at all",
            "no sign of {}",
            "no signs of {} yet",
            "no {} that I could see",
        ),
        *(
            "didn't see any {}",
            "didn't notice any {}",
            "didnt see {}",
            "saw no {}",
            "can't say I saw any {}",
        ),
        *(
            "never saw any {}",
            "without {}",
            "without any {}",
            "free of {}",
            "zero {}",
            "no {} to speak of",
        ),
        *(
            "no real {}",
            "not any {}",
            "no {} anywhere",
            "there was no {}",
            "there were no {}",
        ),
        *(
            "there weren't any {}",
            "I saw no {}",
            "couldn't find any {}",
            "no {} showing",
            "haven't seen any {}",
        ),
        *(
            "not seeing any {}",
            "no more {}",
            "I don't see any {}",
            "nothing in the way of {}",
            "not a bit of {}",
        ),
    ),
    "es": (
        *(
            "sin {}",
            "no hay {}",
            "no había {}",
            "no vi {}",
            "no se ve {}",
            "no se ven {}",
            "nada de {}",
        ),
        *(
            "ni rastro de {}",
            "sin señales de {}",
            "sin signos de {}",
            "no noté {}",
            "no le vi {}",
        ),
        *(
            "no encontré {}",
            "no aparece {}",
            "no presenta {}",
            "no presentan {}",
            "tampoco hay {}",
        ),
        *(
            "ningún rastro de {}",
            "cero {}",
            "no observé {}",
            "no se observa {}",
            "no tiene {}",
        ),
        *(
            "por suerte no hay {}",
            "todavía no hay {}",
            "aún sin {}",
        ),
    ),
    "pt": (
        *(
            "sem {}",
            "não tem {}",
            "não tinha {}",
            "não vi {}",
            "não se vê {}",
            "nada de {}",
            "nem sinal de {}",
        ),
        *(
            "sem sinal de {}",
            "sem sinais de {}",
            "não notei {}",
            "não achei {}",
            "não encontrei {}",
        ),
        *(
            "não apareceu {}",
            "não apresenta {}",
            "também não tem {}",
            "nenhum sinal de {}",
            "zero {}",
        ),
        *(
            "não observei {}",
            "não observou-se {}",
            "ainda não tem {}",
            "ainda sem {}",
            "graças a Deus não tem {}",
        ),
        *("não deu pra ver {}",),
    ),
}
"""Ways to deny a sign."""
SAID_OF: dict[Language, dict[str, tuple[str, ...]]] = {
    "en": {
        "plants": (
            "yellow",
            "stunted",
            "wilted",
            "uneven",
        ),
        "ground": (
            "dry",
            "wet",
            "moist",
            "muddy",
        ),
        "roots": (
            "white",
            "dark",
            "stubby",
        ),
        "beans": (
            "R3",
            "V6",
        ),
    },
    "es": {
        "plantas": (
            "amarillas",
            "petisas",
            "marchitas",
        ),
        "tierra": (
            "seca",
            "mojada",
            "húmeda",
        ),
        "raíces": (
            "blancas",
            "oscuras",
            "cortas",
        ),
        "soja": ("en R3",),
    },
    "pt": {
        "plantas": (
            "amarelas",
            "baixas",
            "murchas",
        ),
        "terra": (
            "seca",
            "molhada",
            "úmida",
        ),
        "raízes": (
            "brancas",
            "escuras",
            "curtas",
        ),
        "soja": ("em R3",),
    },
}
"""What is told of, and how it is."""
NOT_SO: dict[Language, tuple[str, ...]] = {
    "en": (
        *(
            "{of} not {how}",
            "{of} {is_} not {how}",
            "{of} {is_} not {how} at all",
            "{of} {is_} not {how} yet",
        ),
        *(
            "{of} {is_} no longer {how}",
            "{of} aren't {how}",
            "the {of} weren't {how}",
        ),
        *(
            "{of} don't look {how}",
            "{of} never {how}",
            "not {how}",
            "wouldn't call the {of} {how}",
        ),
        *(
            "{of} {was} {how} last year",
            "{of} used to be {how}",
            "last time the {of} {was} {how}",
        ),
        *(
            "two weeks ago the {of} {was} {how}",
            "{of} had been {how} before the rain",
            "{of} will be {how} soon",
        ),
        *(
            "{of} will be {how} by friday",
            "{of} could get {how} if this keeps up",
        ),
        *(
            "if the {of} get {how} let me know",
            "{of} might turn {how} later",
        ),
        *(
            "afraid the {of} will be {how} before long",
            "before the {of} get {how}",
        ),
        *(
            "hope the {of} don't get {how}",
            "neighbor's {of} {is_} {how}",
            "the neighbor's {of} look {how}",
        ),
        *(
            "{of} next door {is_} {how}",
            "across the road the {of} {is_} {how}",
            "his {of} {is_} {how}",
        ),
        *(
            "the corn is {how}",
            "corn across the road {how}",
            "the {of} in the other field {is_} {how}",
        ),
        *(
            "my garden is {how}",
            "grass in the ditch is {how}",
            "should the {of} be {how}?",
        ),
        *("what if the {of} {is_} {how}?",),
    ),
    "es": (
        *(
            "{of} no {is_} {how}",
            "{of} no {is_} {how} todavía",
            "{of} no {how}",
        ),
        *(
            "{of} ya no {is_} {how}",
            "no {is_} {how}",
            "no diría que {of} {is_} {how}",
        ),
        *(
            "{of} {was} {how} la semana pasada",
            "{of} {was} {how} el año pasado",
            "en junio {of} {was} {how}",
        ),
        *(
            "la vez pasada {of} {was} {how}",
            "hace dos semanas {of} {was} {how}",
            "{of} va a estar {how} pronto",
        ),
        *(
            "{of} va a quedar {how} si sigue así",
            "si {of} se pone {how} avisame",
            "ojalá {of} no se ponga {how}",
        ),
        *(
            "{of} puede ponerse {how} más adelante",
            "antes de que {of} se ponga {how}",
        ),
        *(
            "{of} del vecino {is_} {how}",
            "lo del vecino {is_} {how}",
            "{of} de enfrente {is_} {how}",
        ),
        *(
            "el maíz está {how}",
            "{of} del otro lote {is_} {how}",
            "el pasto de la banquina está {how}",
        ),
        *(
            "¿{of} {is_} {how}?",
            "¿y si {of} {is_} {how}?",
        ),
    ),
    "pt": (
        *(
            "{of} não {is_} {how}",
            "{of} não {is_} {how} ainda",
            "{of} não {how}",
            "{of} não tá {how}",
        ),
        *(
            "{of} já não {is_} {how}",
            "não {is_} {how}",
            "não diria que {of} {is_} {how}",
        ),
        *(
            "{of} {was} {how} semana passada",
            "{of} {was} {how} no ano passado",
            "em junho {of} {was} {how}",
        ),
        *(
            "da última vez {of} {was} {how}",
            "faz duas semanas {of} {was} {how}",
            "{of} vai ficar {how} logo",
        ),
        *(
            "{of} vai ficar {how} se continuar assim",
            "se {of} ficar {how} me avisa",
        ),
        *(
            "tomara que {of} não fique {how}",
            "{of} pode ficar {how} mais pra frente",
            "antes que {of} fique {how}",
        ),
        *(
            "{of} do vizinho {is_} {how}",
            "do vizinho {is_} {how}",
            "{of} da frente {is_} {how}",
        ),
        *(
            "o milho está {how}",
            "{of} do outro talhão {is_} {how}",
            "o pasto da beira está {how}",
        ),
        *(
            "{of} {is_} {how}?",
            "será que {of} {is_} {how}?",
        ),
    ),
}
"""Ways to say that it is not so: denied, to come, of another time, of something else, asked."""
IS: dict[Language, tuple[tuple[str, str], tuple[str, str]]] = {
    "en": (("is", "was"), ("are", "were")),
    "es": (("está", "estaba"), ("están", "estaban")),
    "pt": (("está", "estava"), ("estão", "estavam")),
}
"""To be, now and then, of one and of several."""
OTHERS = ("corn", "grass", "garden", "maíz", "pasto", "milho")

TOLD_ELSEWHERE: dict[Language, tuple[str, ...]] = {
    "en": (
        *(
            "not sprayed yet",
            "hasn't been sprayed",
            "no fungicide yet",
            "no herbicide yet",
        ),
        *(
            "no glyphosate yet",
            "no fungicide on it",
            "no herbicide on it",
            "no glyphosate on it",
        ),
        *(
            "they haven't put fungicide on",
            "they haven't put herbicide on",
            "they haven't put glyphosate on",
        ),
        *(
            "didn't get its fungicide",
            "didn't get its herbicide",
            "didn't get its glyphosate",
        ),
        *(
            "they will spray fungicide friday",
            "they will spray herbicide friday",
        ),
        *(
            "they will spray glyphosate friday",
            "might need a fungicide",
            "might need a herbicide",
        ),
        *(
            "might need a glyphosate",
            "thinking about a fungicide",
            "thinking about a herbicide",
        ),
        *(
            "thinking about a glyphosate",
            "should get fungicide next week",
            "should get herbicide next week",
        ),
        *(
            "should get glyphosate next week",
            "neighbor sprayed fungicide yesterday",
        ),
        *(
            "neighbor sprayed herbicide yesterday",
            "neighbor sprayed glyphosate yesterday",
        ),
        *(
            "the neighbor put fungicide on monday",
            "the neighbor put herbicide on monday",
        ),
        *(
            "the neighbor put glyphosate on monday",
            "corn got fungicide on monday",
        ),
        *(
            "corn got herbicide on monday",
            "corn got glyphosate on monday",
            "fungicide on the corn yesterday",
        ),
        *(
            "herbicide on the corn yesterday",
            "glyphosate on the corn yesterday",
        ),
        *(
            "was it sprayed with fungicide?",
            "was it sprayed with herbicide?",
        ),
        *(
            "was it sprayed with glyphosate?",
            "did they spray fungicide here?",
        ),
        *(
            "did they spray herbicide here?",
            "did they spray glyphosate here?",
        ),
        *(
            "if they spray fungicide tell me",
            "if they spray herbicide tell me",
        ),
        *(
            "if they spray glyphosate tell me",
            "no fungicide was applied",
            "no herbicide was applied",
        ),
        *(
            "no glyphosate was applied",
            "never sprayed any fungicide",
            "never sprayed any herbicide",
        ),
        *(
            "never sprayed any glyphosate",
            "wind kept them from spraying fungicide",
        ),
        *(
            "wind kept them from spraying herbicide",
            "wind kept them from spraying glyphosate",
        ),
        *(
            "last year it had fungicide",
            "last year it had herbicide",
            "last year it had glyphosate",
        ),
        *(
            "fungicide price is up",
            "herbicide price is up",
            "glyphosate price is up",
        ),
        *(
            "sprayer is parked at the gate",
            "next time I will dig",
            "next time I will pull",
        ),
        *(
            "next time I will ease",
            "should have pulled them",
            "should have dug them",
            "should have eased them",
        ),
        *(
            "next time bring a shovel",
            "next time bring a spade",
            "next time bring a fork",
        ),
        *(
            "forgot to bring the shovel back to the shop",
            "forgot to bring the spade back to the shop",
        ),
        *("forgot to bring the fork back to the shop",),
        *(
            "borrowed dad's shovel for the corn",
            "borrowed dad's spade for the corn",
        ),
        *(
            "borrowed dad's fork for the corn",
            "neighbor pulled his",
            "neighbor dug his",
            "neighbor eased his",
        ),
        *(
            "dad always pulled his",
            "dad always dug his",
            "dad always eased his",
        ),
        *(
            "would have pulled more but it rained",
            "would have dug more but it rained",
        ),
        *(
            "would have eased more but it rained",
            "if I had a bucket I'd soak them",
            "next time I'll soak them",
        ),
        *(
            "need to wash the truck",
            "washed my hands after",
            "soaked to the skin",
        ),
        *(
            "the shovel needs sharpening",
            "the spade needs sharpening",
            "the fork needs sharpening",
        ),
        *(
            "found somebody's shovel",
            "found somebody's spade",
            "found somebody's fork",
        ),
        *(
            "next year I want resistant beans",
            "next year I want susceptible beans",
        ),
        *(
            "should plant a resistant variety",
            "should plant a susceptible variety",
        ),
        *(
            "is it a resistant variety?",
            "is it a susceptible variety?",
            "last year was resistant beans",
        ),
        *(
            "last year was susceptible beans",
            "not sure if it's resistant",
            "not sure if it's susceptible",
        ),
        *(
            "salesman pushes Peking",
            "salesman pushes PI 88788",
            "they say Peking is failing",
        ),
        *(
            "they say PI 88788 is failing",
            "last year it was Peking",
            "last year it was PI 88788",
        ),
        *(
            "next year Peking",
            "next year PI 88788",
            "thinking of Peking for next year",
        ),
        *(
            "thinking of PI 88788 for next year",
            "reading about Peking",
            "reading about PI 88788",
        ),
        *(
            "the resistant ones cost more",
            "the susceptible ones cost more",
            "other field is resistant",
        ),
        *(
            "other field is susceptible",
            "no need to come back in two weeks",
            "won't be back friday",
        ),
        *(
            "won't be back in two weeks",
            "don't recheck friday",
            "don't recheck in two weeks",
            "no recheck",
        ),
        *(
            "not coming back friday",
            "not coming back in two weeks",
            "rain in 10 days",
            "rain friday",
        ),
        *(
            "rain in two weeks",
            "rain next week",
            "hope it rains next week",
            "county fair in 10 days",
        ),
        *(
            "county fair friday",
            "county fair in two weeks",
            "county fair next week",
        ),
        *(
            "school starts in 10 days",
            "school starts friday",
            "school starts next week",
            "payday in 10 days",
        ),
        *(
            "payday next week",
            "vacation in 10 days",
            "vacation next week",
            "truck goes in the shop in 10 days",
        ),
        *(
            "truck goes in the shop friday",
            "truck goes in the shop next week",
        ),
        *(
            "the boss wants a report friday",
            "the boss wants a report next week",
            "we plant wheat next week",
        ),
        *("call me next week",),
    ),
    "es": (
        *(
            "sin fungicida todavía",
            "sin herbicida todavía",
            "sin glifosato todavía",
        ),
        *(
            "todavía no le echaron fungicida",
            "todavía no le echaron herbicida",
        ),
        *(
            "todavía no le echaron glifosato",
            "no se aplicó fungicida",
            "no se aplicó herbicida",
        ),
        *(
            "no se aplicó glifosato",
            "no tiene fungicida",
            "no tiene herbicida",
            "no tiene glifosato",
        ),
        *(
            "van a aplicar fungicida el viernes",
            "van a aplicar herbicida el viernes",
        ),
        *(
            "van a aplicar glifosato el viernes",
            "la semana que viene va fungicida",
        ),
        *(
            "la semana que viene va herbicida",
            "la semana que viene va glifosato",
            "habría que darle fungicida",
        ),
        *(
            "habría que darle herbicida",
            "habría que darle glifosato",
            "capaz necesita fungicida",
        ),
        *(
            "capaz necesita herbicida",
            "capaz necesita glifosato",
            "el vecino echó fungicida ayer",
        ),
        *(
            "el vecino echó herbicida ayer",
            "el vecino echó glifosato ayer",
        ),
        *(
            "al maíz le dieron fungicida el lunes",
            "al maíz le dieron herbicida el lunes",
        ),
        *(
            "al maíz le dieron glifosato el lunes",
            "¿le echaron fungicida?",
            "¿le echaron herbicida?",
        ),
        *(
            "¿le echaron glifosato?",
            "si aplican fungicida avisame",
            "el año pasado tuvo fungicida",
        ),
        *(
            "el año pasado tuvo herbicida",
            "el año pasado tuvo glifosato",
            "nunca le echaron fungicida",
        ),
        *(
            "nunca le echaron herbicida",
            "nunca le echaron glifosato",
            "el fungicida está caro",
        ),
        *(
            "el herbicida está caro",
            "el glifosato está caro",
            "no vuelvo el viernes",
        ),
        *(
            "no vuelvo la semana que viene",
            "el patrón vuelve en 10 días",
            "el patrón vuelve el viernes",
        ),
        *(
            "el patrón vuelve la semana que viene",
            "lluvia en 10 días",
            "lluvia el viernes",
        ),
        *(
            "lluvia la semana que viene",
            "ojalá llueva en 10 días",
            "ojalá llueva el viernes",
        ),
        *(
            "ojalá llueva la semana que viene",
            "la fiesta es en 10 días",
            "la fiesta es el viernes",
        ),
        *(
            "la fiesta es la semana que viene",
            "cobro en 10 días",
            "cobro la semana que viene",
        ),
        *(
            "el ingeniero viene en 10 días",
            "el ingeniero viene el viernes",
        ),
        *(
            "el ingeniero viene la semana que viene",
            "llamame en 10 días",
            "llamame la semana que viene",
        ),
        *(
            "la camioneta va al taller en 10 días",
            "la camioneta va al taller el viernes",
        ),
        *("la camioneta va al taller la semana que viene",),
    ),
    "pt": (
        *(
            "sem fungicida ainda",
            "sem herbicida ainda",
            "sem glifosato ainda",
            "ainda não passaram fungicida",
        ),
        *(
            "ainda não passaram herbicida",
            "ainda não passaram glifosato",
            "não foi aplicado fungicida",
        ),
        *(
            "não foi aplicado herbicida",
            "não foi aplicado glifosato",
            "vão aplicar fungicida na sexta",
        ),
        *(
            "vão aplicar herbicida na sexta",
            "vão aplicar glifosato na sexta",
            "semana que vem vai fungicida",
        ),
        *(
            "semana que vem vai herbicida",
            "semana que vem vai glifosato",
            "precisava de fungicida",
        ),
        *(
            "precisava de herbicida",
            "precisava de glifosato",
            "o vizinho passou fungicida ontem",
        ),
        *(
            "o vizinho passou herbicida ontem",
            "o vizinho passou glifosato ontem",
        ),
        *(
            "no milho passaram fungicida segunda",
            "no milho passaram herbicida segunda",
        ),
        *(
            "no milho passaram glifosato segunda",
            "passaram fungicida?",
            "passaram herbicida?",
        ),
        *(
            "passaram glifosato?",
            "se aplicarem fungicida me avisa",
            "se aplicarem herbicida me avisa",
        ),
        *(
            "se aplicarem glifosato me avisa",
            "ano passado teve fungicida",
            "ano passado teve herbicida",
        ),
        *(
            "ano passado teve glifosato",
            "nunca passaram fungicida",
            "nunca passaram herbicida",
        ),
        *(
            "nunca passaram glifosato",
            "galão de fungicida jogado na valeta",
        ),
        *(
            "galão de herbicida jogado na valeta",
            "galão de glifosato jogado na valeta",
            "o fungicida tá caro",
        ),
        *(
            "o herbicida tá caro",
            "o glifosato tá caro",
            "não volto sexta",
            "não volto semana que vem",
        ),
        *(
            "chuva em 10 dias",
            "chuva sexta",
            "chuva semana que vem",
            "tomara que chova em 10 dias",
        ),
        *(
            "tomara que chova sexta",
            "tomara que chova semana que vem",
            "a festa é em 10 dias",
        ),
        *(
            "a festa é sexta",
            "a festa é semana que vem",
            "recebo em 10 dias",
            "recebo semana que vem",
        ),
        *(
            "o agrônomo vem em 10 dias",
            "o agrônomo vem sexta",
            "o agrônomo vem semana que vem",
        ),
        *(
            "me liga em 10 dias",
            "me liga semana que vem",
            "a caminhonete vai pra oficina em 10 dias",
        ),
        *(
            "a caminhonete vai pra oficina sexta",
            "a caminhonete vai pra oficina semana que vem",
        ),
    ),
}
"""A spray, a seed, a way of digging or a next look that is denied, to come, of another time or of somebody else."""


def beside(language: Language, said: str) -> Iterator[str]:
    """What is said beside a count: in a clause, a sentence behind or before it, a line of its own."""
    count, opened = COUNTED[language], said[0].upper() + said[1:]
    yield f"Kestrel {count}, {said}"
    yield f"Kestrel: {count}. {opened}."
    yield f"Kestrel. {opened}. {count[0].upper()}{count[1:]}."
    yield f"Kestrel\n{count}\n{said}"


def denials() -> Iterator[tuple[Language, str]]:
    """Each way to deny with each sign."""
    for language in LANGUAGES:
        for way, sign in itertools.product(DENIED[language], SIGNS[language]):
            yield from ((language, text) for text in beside(language, way.format(sign)))


def of_else() -> Iterator[tuple[Language, str]]:
    """Each way to say that it is not so with each thing told of."""
    for language in LANGUAGES:
        for way, (of, hows) in itertools.product(NOT_SO[language], SAID_OF[language].items()):
            is_, was = IS[language][of.endswith("s")]
            for how in hows:
                said = way.format(of=of, how=how, is_=is_, was=was)
                if any(other in said for other in OTHERS) and of in ("roots", "raíces", "raízes", "beans", "soja"):
                    continue
                yield from ((language, text) for text in beside(language, said))


def told_elsewhere() -> Iterator[tuple[Language, str]]:
    """Each of what is told of no spray, seed, digging or next look of this field, beside a count."""
    for language in LANGUAGES:
        for said in TOLD_ELSEWHERE[language]:
            yield from ((language, text) for text in beside(language, said))


def only_counted(text: str, language: Language) -> Note:
    """The note read, of which nothing is told but its count, and perhaps that the tops are healthy."""
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Sumac"), language=language)
    assert not reading.problems, text
    (note,) = reading.notes
    found = (note.plants, note.females.white, note.females.total, note.outcome)
    assert found == (6, 12, 12, "seen"), text
    assert set(note.tops) <= {"healthy"}, text
    assert set(note.roots) <= {"nodules_few"}, text
    told = (note.soil.moisture, note.stage, note.look_again, note.method, note.soaked, note.spray, note.variety)
    assert told == (None,) * len(told), text
    assert (note.soil.texture, note.soil.ph, note.soil.k_ppm) == (None, None, None), text
    assert note.mostly == (), text
    assert note.date in (None, SENT), text
    assert {command.kind for command in reading.commands} <= {"help"}, text  # "what if the beans are R3?" on a line
    return note


def some(cases: Iterator[tuple[Language, str]], count: int) -> list[tuple[Language, str]]:
    """Some of many, the same in every run."""
    return random.Random(5).sample(list(cases), count)


@pytest.mark.parametrize("language,text", some(denials(), 300))
def test_a_sign_that_is_denied_is_not_read(language: Language, text: str) -> None:
    only_counted(text, language)


@pytest.mark.parametrize("language,text", some(of_else(), 400))
def test_what_is_not_so_in_the_field_now_is_not_read(language: Language, text: str) -> None:
    only_counted(text, language)


@pytest.mark.parametrize("language,text", some(told_elsewhere(), 300))
def test_what_is_done_elsewhere_or_not_at_all_is_not_read(language: Language, text: str) -> None:
    only_counted(text, language)


@pytest.mark.heavy
def test_all_that_is_done_elsewhere_or_not_at_all() -> None:
    for language, text in told_elsewhere():
        only_counted(text, language)


@pytest.mark.parametrize(
    "said,spray",
    [
        ("no entry for 12 hours, fungicide yesterday", ("fungicide", date(2026, 7, 14), 12)),
        ("fungicide went on Monday, corn is next", ("fungicide", date(2026, 7, 13), None)),
        ("not sure which herbicide they used Monday", ("herbicide", date(2026, 7, 13), None)),
        ("the sheet says sprayed insecticide, July 11, 4 hour reentry", ("insecticide", date(2026, 7, 11), 4)),
    ],
)
def test_a_spray_that_was_done_is_read(said: str, spray: tuple[str, date, int | None]) -> None:
    (note,) = read_note(f"Kestrel 6 plants, 12 white, {said}", sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert note.spray is not None
    assert (note.spray.what, note.spray.date, note.spray.entry_hours) == spray


@pytest.mark.parametrize(
    "said,day",
    [
        ("won't be back before Friday", date(2026, 7, 17)),
        ("don't forget to recheck Friday", date(2026, 7, 17)),
        ("not done here, back Friday", date(2026, 7, 17)),
    ],
)
def test_a_next_look_behind_a_denial_of_else_is_read(said: str, day: date) -> None:
    (note,) = read_note(f"Kestrel 6 plants, 12 white, {said}", sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert note.look_again is not None
    assert note.look_again.date == day


@pytest.mark.heavy
def test_every_way_to_deny_a_sign() -> None:
    for language, text in denials():
        only_counted(text, language)


@pytest.mark.heavy
def test_every_way_to_say_that_it_is_not_so() -> None:
    for language, text in of_else():
        only_counted(text, language)


@pytest.mark.parametrize(
    "text,tops,roots",
    [
        ("Kestrel 6 plants 12 white, no yellowing but stunted", ("stunted",), ()),
        ("Kestrel 6 plants none tops yellow", ("yellow",), ()),
        ("Kestrel 6 plants no females tops yellow roots dark", ("yellow",), ("dark",)),
        ("Kestrel 6 plants, no females, plants stunted", ("stunted",), ()),
        ("Kestrel not dug yellow patches in the low end", ("yellow", "patch"), ()),
        ("Kestrel 6 plants 12 white no nodules roots dark", (), ("dark", "nodules_few")),
        ("Kestrel 6 plants 12 white no yellow plants stunted", ("stunted",), ()),
        ("Kestrel 6 plants 12 white. No doubt about the yellow patch", ("yellow", "patch"), ()),
        ("Kestrel 6 plants 12 white no rain, leaves wilted", ("wilted",), ()),
        ("Kestrel 6 plants 12 white. Didn't wash roots dark", (), ("dark",)),
        ("Kestrel 6 plants 12 white. You can't help but see the stunting", ("stunted",), ()),
    ],
)
def test_what_is_told_behind_a_denial_stands(text: str, tops: tuple[str, ...], roots: tuple[str, ...]) -> None:
    (note,) = read_note(text, sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert (set(note.tops), set(note.roots)) == (set(tops), set(roots))


@pytest.mark.parametrize(
    "said,tops",
    [
        ("plants look stunted to me", ("stunted",)),
        ("stunted by the road", ("stunted",)),
        ("wilted along the ditch", ("wilted",)),
        ("yellow leaves where the truck was parked", ("yellow",)),
        ("plants stunted like the neighbor said", ("stunted",)),
        ("a little wilted if anything", ("wilted",)),
        ("wilted before the rain came", ("wilted",)),
        ("stunted, corn next to it is fine", ("stunted",)),
    ],
)
def test_a_place_or_a_doubt_leaves_a_sign_as_it_is(said: str, tops: tuple[str, ...]) -> None:
    (note,) = read_note(f"Kestrel 6 plants, 12 white, {said}", sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert note.tops == tops


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 6 plants, no cysts or yellowing",
        "Kestrel 6 plants none seen, no stunting or wilting",
        "Kestrel 6 plantas, ni hembras ni manchones",
    ],
)
def test_signs_denied_in_one_breath_with_the_females(text: str) -> None:
    (note,) = read_note(text, sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert (note.outcome, note.females.total) == ("none_seen", 0)
    assert set(note.tops) <= {"healthy"}
