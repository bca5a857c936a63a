"""One fact beside a plain count, in the many ways people say it, in a clause, a sentence or a line of its own.

Each is read as meant and changes nothing of the count it stands beside.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 15)  # a Wednesday
COUNTED: dict[Language, str] = {
    "en": "Kestrel 6 plants dug, 12 white and 5 yellow",
    "es": "Kestrel 6 plantas con pala, 12 blancas y 5 amarillas",
    "pt": "Kestrel 6 pés com pá, 12 brancas e 5 amarelas",
}
DUG: dict[Language, str] = {
    "en": "Kestrel 6 plants dug",
    "es": "Kestrel 6 plantas con pala",
    "pt": "Kestrel 6 pés com pá",
}
Ways = Mapping[Language, Mapping[Any, tuple[str, ...]]]
"""By language, what is meant and the ways to say it."""
SPRAYED: Ways = {
    "en": {
        ("fungicide", date(2026, 7, 14), None, None): (
            *("sprayed fungicide yesterday", "plane put fungicide on yesterday"),
        ),
        ("fungicide", date(2026, 7, 13), None, None): (
            *("they sprayed it with fungicide on Monday", "the sprayer was in Monday with fungicide"),
        ),
        ("fungicide", date(2026, 7, 13), None, 12): (
            *("fungicide went on Monday, 12 hour REI", "fungicide applied 7/13; 12-hr reentry"),
            *("fungicide on Monday morning, restricted entry 12 hours", "12 h REI from Monday's fungicide"),
        ),
        ("herbicide", None, 3, 24): (*("herbicide 3 days ago, label says 24 h",),),
        ("insecticide", date(2026, 7, 12), None, 48): (*("coop sprayed insecticide 7/12, REI 48h",),),
        ("glyphosate", None, 7, None): (*("had glyphosate a week ago",),),
        ("fungicide", date(2026, 7, 12), None, 12): (
            *("was sprayed Sunday with a fungicide, keep out 12 hours", "spray: fungicide 7/12 REI 12"),
        ),
        ("fungicide", date(2026, 7, 11), None, None): (*("grower ran a fungicide over it Saturday",),),
        ("herbicide", date(2026, 7, 10), None, None): (
            *("got its herbicide on the 10th", "second herbicide pass was July 10"),
        ),
        ("insecticide", None, 2, 24): (*("it was sprayed with insecticide two days ago and the tag says 24 hours",),),
        ("fungicide", date(2026, 7, 9), None, None): (*("they flew on fungicide last Thursday",),),
        ("herbicide", None, 5, None): (*("hit with herbicide 5 days back",),),
        (None, None, 4, None): (*("sprayed 4 days ago",),),
        (None, date(2026, 7, 13), None, None): (*("sprayed Monday",),),
    },
    "es": {
        ("fungicide", date(2026, 7, 14), None, None): (*("aplicaron fungicida ayer", "el avión tiró fungicida ayer"),),
        ("fungicide", date(2026, 7, 13), None, None): (*("le dieron fungicida el lunes", "el fungicida fue el lunes"),),
        ("herbicide", None, 3, 24): (*("herbicida hace 3 días, reingreso 24 h",),),
        ("insecticide", date(2026, 7, 12), None, 48): (*("pulverizado con insecticida el 12/7, reingreso 48 horas",),),
        ("glyphosate", None, 7, None): (*("tiene glifosato de hace una semana",),),
        ("fungicide", date(2026, 7, 12), None, 12): (*("se aplicó fungicida el domingo, 12 horas de reingreso",),),
        (None, date(2026, 7, 13), None, None): (*("fumigaron el lunes",),),
        ("herbicide", date(2026, 7, 10), None, None): (*("pasaron con herbicida el día 10",),),
        ("fungicide", date(2026, 7, 11), None, None): (*("el dueño echó fungicida el sábado",),),
        (None, None, 4, None): (*("fumigado hace 4 días",),),
        ("fungicide", date(2026, 7, 13), None, 12): (*("aplicación de fungicida el 13/7, reingreso a las 12 h",),),
        ("insecticide", None, 2, 24): (*("insecticida hace dos días y la etiqueta pide 24 horas",),),
    },
    "pt": {
        ("fungicide", date(2026, 7, 14), None, None): (*("passaram fungicida ontem", "o avião jogou fungicida ontem"),),
        ("fungicide", date(2026, 7, 13), None, None): (*("aplicaram fungicida na segunda", "o fungicida foi segunda"),),
        ("herbicide", None, 3, 24): (*("herbicida faz 3 dias, reentrada 24 h",),),
        ("insecticide", date(2026, 7, 12), None, 48): (
            *("pulverizado com inseticida dia 12/7, reentrada de 48 horas",),
        ),
        ("glyphosate", None, 7, None): (*("tem glifosato de uma semana atrás",),),
        ("fungicide", date(2026, 7, 12), None, 12): (*("foi aplicado fungicida no domingo, 12 horas de reentrada",),),
        ("herbicide", date(2026, 7, 10), None, None): (*("entraram com herbicida no dia 10",),),
        ("fungicide", date(2026, 7, 11), None, None): (*("o dono bateu fungicida sábado",),),
        (None, None, 4, None): (*("pulverizaram há 4 dias",),),
        ("insecticide", None, 2, 24): (*("inseticida dois dias atrás e o rótulo pede 24 horas",),),
    },
}
"""What was sprayed, its day, days ago, and hours of restricted entry."""
LOOK: Ways = {
    "en": {
        (10, None): (
            *("recheck in 10 days", "plan on another look in 10 d", "needs another look in 10 days or so"),
            *("return in 10 days", "again in 10 days", "next visit in ten days", "follow up in 10 days"),
        ),
        (14, None): (
            *("back in two weeks", "due again in two weeks", "I'd give it two more weeks"),
            *("check back in a fortnight", "another dig in two weeks"),
        ),
        (None, date(2026, 7, 25)): (
            *("I'll be back on the 25th", "will look again July 25", "next look 7/25"),
            *("should go back around July 25", "revisit 7/25", "let's check it again the 25th"),
            *("set it for the 25th",),
        ),
        (7, None): (*("want to see it again in a week",),),
        (12, None): (*("come back to it in 12 days",),),
    },
    "es": {
        (10, None): (
            *("volver en 10 días", "hay que volver a mirar en 10 días", "avisame en 10 días"),
            *("la próxima en 10 días", "lo miro de vuelta en 10 días", "en 10 días otra vez"),
        ),
        (14, None): (*("vuelvo en dos semanas", "otra mirada en dos semanas", "dentro de dos semanas vuelvo"),),
        (None, date(2026, 7, 25)): (
            *("vuelvo el 25", "miro de nuevo el 25 de julio", "próxima visita 25/7", "regreso el 25 de julio"),
        ),
        (7, None): (*("revisar otra vez en una semana",),),
        (12, None): (*("repetir en 12 días",),),
        (15, None): (*("convendría volver en 15 días",),),
    },
    "pt": {
        (10, None): (
            *("voltar em 10 dias", "precisa olhar de novo em 10 dias", "me avisa em 10 dias"),
            *("a próxima em 10 dias", "daqui 10 dias de novo", "em 10 dias outra vez"),
        ),
        (14, None): (*("volto em duas semanas", "outra olhada em duas semanas", "daqui a duas semanas volto"),),
        (None, date(2026, 7, 25)): (
            *("volto dia 25", "olho de novo dia 25 de julho", "próxima visita 25/7", "retorno dia 25 de julho"),
        ),
        (7, None): (*("rever em uma semana",),),
        (12, None): (*("repetir em 12 dias",),),
        (15, None): (*("bom voltar em 15 dias",),),
    },
}
"""The next look: in how many days, or its day."""
WASHED: Ways = {
    "en": {
        True: (
            *("washed", "rinsed them in a bucket", "soaked the roots", "roots washed in the creek"),
            *("dunked them in a pail", "after a good soak", "swished in a bucket", "hosed them off"),
            *("cleaned the roots in water", "with the roots rinsed", "ran water over the roots"),
            *("washed the dirt off", "soaked 20 minutes", "let them soak", "after rinsing"),
            *("floated off the dirt", "washed every one of them", "gave them a rinse", "rinsed under the tap"),
        ),
        False: (
            *("not washed", "didn't wash them", "no bucket", "no water with me", "just shook them"),
            *("only shook the dirt off", "didn't soak", "unwashed", "shaken not washed", "without washing"),
            *("roots only shaken", "no wash", "I had no water", "skipped the wash", "dry shake only"),
            *("knocked the dirt off, no water", "never washed them", "couldn't wash them", "forgot the bucket"),
            *("left the bucket at home",),
        ),
    },
    "es": {
        True: (
            *("lavadas", "las lavé en un balde", "raíces remojadas", "enjuagué las raíces", "con balde de agua"),
            *("después de lavarlas", "lavé bien", "lavadas en la acequia", "metidas en agua"),
            *("remojo de 20 minutos", "las dejé en remojo", "pasadas por agua", "limpié las raíces con agua"),
            *("les di un enjuague",),
        ),
        False: (
            *("sin lavar", "no las lavé", "sin balde", "solo sacudidas", "nomás sacudí", "no tenía agua"),
            *("no llevé balde", "no remojé", "sin agua", "las sacudí nada más", "apenas sacudidas"),
            *("me olvidé el balde", "no pude lavarlas", "raíces sin lavar"),
        ),
    },
    "pt": {
        True: (
            *("lavadas", "lavei num balde", "raízes de molho", "enxaguei as raízes", "com balde de água"),
            *("depois de lavar", "lavei bem", "lavadas no córrego", "mergulhadas na água", "molho de 20 minutos"),
            *("deixei de molho", "passei uma água", "limpei as raízes com água", "dei uma enxaguada"),
        ),
        False: (
            *("sem lavar", "não lavei", "sem balde", "só sacudi", "apenas sacudidas", "não tinha água"),
            *("não levei balde", "sem água", "só bati a terra", "esqueci o balde", "não deu pra lavar"),
            *("raiz sem lavar", "não lavei nenhuma", "só na sacudida"),
        ),
    },
}
"""Roots washed or soaked, or not."""
TOPS: Ways = {
    "en": {
        ("healthy",): (
            *("tops look good", "tops healthy", "no symptoms on top", "tops normal", "canopy looks fine"),
            *("tops fine",),
        ),
        ("interveinal_new",): (*("new leaves yellow between the veins", "green veins, yellow between, upper leaves"),),
        ("edges_old",): (
            *("older leaves yellow on the edges", "leaf margins yellow on the old leaves"),
            *("lower leaves scorched at the edge",),
        ),
        ("stunted",): (*("stunted",),),
        ("patch", "stunted"): (*("stunted in patches",),),
        ("uneven",): (*("uneven stand",),),
        ("wilted",): (*("plants wilting at noon",),),
        ("flash_bands",): (*("yellow bands where the boom overlapped",),),
        ("ring", "yellow"): (*("yellow ring in the middle",),),
        ("early_ripe",): (*("ripening early",),),
        ("yellow",): (*("yellowing", "pale yellow tops"),),
    },
    "es": {
        ("healthy",): (*("parte aérea sana", "se ve bien arriba", "sin síntomas arriba", "hojas sanas"),),
        ("interveinal_new",): (*("hojas nuevas amarillas entre nervaduras",),),
        ("edges_old",): (*("hojas viejas amarillas en el borde",),),
        ("stunted",): (*("achaparradas",),),
        ("patch", "yellow"): (*("un manchón amarillo",),),
        ("uneven",): (*("desparejo",),),
        ("wilted",): (*("marchitas",),),
        ("patch", "stunted"): (*("petisas en manchones",),),
        ("early_ripe",): (*("madurando antes",),),
    },
    "pt": {
        ("healthy",): (*("parte aérea sadia", "em cima tá bonito", "sem sintoma em cima", "folhas sadias"),),
        ("interveinal_new",): (*("folhas novas amarelas entre nervuras",),),
        ("edges_old",): (*("folhas velhas amarelas na borda",),),
        ("stunted",): (*("raquíticas",),),
        ("patch", "yellow"): (*("uma reboleira amarela",),),
        ("uneven",): (*("desuniforme",),),
        ("wilted",): (*("murchas",),),
        ("patch", "stunted"): (*("baixas em reboleira",),),
        ("early_ripe",): (*("madurando antes",),),
    },
}
"""The tops."""
ROOTS: Ways = {
    "en": {
        ("dark",): (*("roots dark", "roots were brown"),),
        ("white",): (*("roots white", "roots nice and white"),),
        ("snapped",): (*("roots snapped", "half the roots stayed in the ground", "roots broke off", "roots tore"),),
        ("stubby",): (*("stubby roots", "roots short and stubby"),),
        ("fine",): (*("fine roots",),),
        ("nodules_few",): (*("few nodules", "hardly any nodules", "nodulation poor"),),
        ("nodules_many",): (*("lots of nodules", "nodulation good"),),
        ("nodules_pink",): (*("nodules pink inside",),),
        ("nodules_brown",): (*("nodules brown inside",),),
        ("nodules_many", "nodules_pink"): (*("nodules plentiful and pink",),),
        ("dark", "fine"): (*("dark fine roots",),),
        ("nodules_few", "nodules_pink"): (*("not many nodules, pink when cut",),),
    },
    "es": {
        ("dark",): (*("raíces oscuras",),),
        ("white",): (*("raíces blancas",),),
        ("snapped",): (*("raíces cortadas", "se cortaron las raíces"),),
        ("stubby",): (*("raíces cortas y gruesas",),),
        ("fine",): (*("raíces finas",),),
        ("nodules_few",): (*("pocos nódulos", "casi sin nódulos", "mala nodulación"),),
        ("nodules_many",): (*("muchos nódulos", "buena nodulación"),),
        ("nodules_pink",): (*("nódulos rosados por dentro",),),
        ("nodules_brown",): (*("nódulos marrones por dentro",),),
    },
    "pt": {
        ("dark",): (*("raízes escuras",),),
        ("white",): (*("raízes brancas",),),
        ("snapped",): (*("raízes arrebentadas", "a raiz quebrou"),),
        ("stubby",): (*("raízes curtas e grossas",),),
        ("fine",): (*("raízes finas",),),
        ("nodules_few",): (*("poucos nódulos", "quase sem nódulo", "nodulação ruim"),),
        ("nodules_many",): (*("muitos nódulos", "boa nodulação"),),
        ("nodules_pink",): (*("nódulos rosados por dentro",),),
        ("nodules_brown",): (*("nódulos marrons por dentro",),),
    },
}
"""Roots and nodules."""
ABSENT: Ways = {
    "en": {
        (): (
            *("no tan", "no brown", "not a tan one", "not a brown one", "no tan ones", "no brown ones"),
            *("didn't see any tan", "didn't see any brown", "didn't see a tan one", "didn't see a brown one"),
            *("did not find tan", "did not find brown", "saw no tan", "saw no brown"),
            *("there weren't any tan ones", "there weren't any brown ones", "none were tan", "none were brown"),
            *("none of them tan", "none of them brown", "never saw tan ones", "never saw brown ones"),
            *("tan: none", "brown: none", "tan none", "brown none", "zero tan", "zero brown", "without any tan"),
            *("without any brown", "but no tan ones yet", "but no brown ones yet", "tan ones not yet"),
            *("brown ones not yet", "nothing tan", "nothing brown", "nothing tan so far", "nothing brown so far"),
            *("haven't seen any tan yet", "haven't seen any brown yet", "not one tan", "not one brown"),
            *("not a single tan female", "not a single brown female", "no sign of tan ones"),
            *("no sign of brown ones", "no tan to be seen", "no brown to be seen", "couldn't find any tan"),
            *("couldn't find any brown", "I saw neither tan nor brown", "I saw neither tan nor brown"),
            *("neither tan nor anything darker", "neither brown nor anything darker", "no tan showing yet"),
            *("no brown showing yet", "tan not seen", "brown not seen", "tan absent", "brown absent"),
            *("tan females: not seen", "brown females: not seen", "looked for tan, none"),
            *("looked for brown, none", "as for tan, none", "as for brown, none"),
        ),
    },
    "es": {
        (): (
            *("ninguna marrón", "ninguna tostada", "no vi marrones", "no vi tostadas", "sin marrones"),
            *("sin tostadas", "no había marrones", "no había tostadas", "nada de marrones", "nada de tostadas"),
            *("ni una marrón", "ni una tostada", "no encontré ninguna marrón", "no encontré ninguna tostada"),
            *("marrones no", "tostadas no", "marrones ninguna", "tostadas ninguna", "marrones: 0", "tostadas: 0"),
            *("todavía no hay marrones", "todavía no hay tostadas", "no aparecieron marrones"),
            *("no aparecieron tostadas", "marrones no se vieron", "tostadas no se vieron", "cero marrones"),
            *("cero tostadas", "ninguna era marrón", "ninguna era tostada", "de marrones nada"),
            *("de tostadas nada", "marrones ni una", "tostadas ni una", "aún sin marrones", "aún sin tostadas"),
        ),
    },
    "pt": {
        (): (
            *("nenhuma marrom", "nenhuma bege", "não vi marrom", "não vi bege", "sem marrom", "sem bege"),
            *("não tinha marrom", "não tinha bege", "nada de marrom", "nada de bege", "nem uma marrom"),
            *("nem uma bege", "não achei nenhuma marrom", "não achei nenhuma bege", "marrom não", "bege não"),
            *("marrom nenhuma", "bege nenhuma", "marrom: 0", "bege: 0", "ainda não tem marrom"),
            *("ainda não tem bege", "não apareceu marrom", "não apareceu bege", "marrom não vi", "bege não vi"),
            *("zero marrom", "zero bege", "nenhuma estava marrom", "nenhuma estava bege", "de marrom nada"),
            *("de bege nada", "marrom nem uma", "bege nem uma", "ainda sem marrom", "ainda sem bege"),
        ),
    },
}
"""Other colors, not seen."""
NONE_SEEN: Ways = {
    "en": {
        "none_seen": (
            *("none", "no females", "nothing", "not a one", "zero", "none seen", "didn't find any", "clean"),
            *("no cysts", "roots clean", "couldn't find a single cyst", "nothing on the roots", "no sign of SCN"),
            *("no SCN", "saw nothing", "didn't see anything", "not one female", "no white ones, no yellow ones"),
            *("looked hard and saw none", "came up empty", "all clean", "every root clean", "no females yet"),
            *("nada", "no cysts that I could see", "can't find any", "nary a cyst", "all six were clean"),
            *("0 females", "females: 0", "no females on any of them", "I found nothing", "zilch"),
            *("negative for cysts", "never found a one", "not seeing any", "no luck finding any"),
            *("none whatsoever", "clean as a whistle", "they were all clean", "none on any plant", "found zero"),
        ),
    },
    "es": {
        "none_seen": (
            *("ninguna", "sin hembras", "nada", "ni una", "cero", "no vi ninguna", "no encontré hembras"),
            *("limpias", "sin quistes", "raíces limpias", "no hallé ni un quiste", "nada en las raíces"),
            *("no vi nada", "ninguna hembra", "miré bien y nada", "todas limpias", "todavía nada", "0 hembras"),
            *("hembras: 0", "ninguna en ninguna planta", "no encontré nada", "no había hembras"),
            *("no aparece nada", "ni rastro de hembras", "nada de nada", "no hay quistes", "cero hembras"),
            *("no se observan hembras",),
        ),
    },
    "pt": {
        "none_seen": (
            *("nenhuma", "sem fêmeas", "nada", "nem uma", "zero", "não vi nenhuma", "não encontrei fêmeas"),
            *("limpas", "sem cistos", "raízes limpas", "não achei nem um cisto", "nada nas raízes"),
            *("não se vê nematoide", "não vi nada", "nenhuma fêmea", "olhei bem e nada", "todas limpas"),
            *("ainda nada", "0 fêmeas", "fêmeas: 0", "nenhuma em nenhuma planta", "nada pra contar"),
            *("não achei nada", "não tinha fêmea", "não apareceu nada", "nem sinal de fêmea", "nada de nada"),
            *("não tem cisto", "zero fêmeas"),
        ),
    },
}
"""None seen on the plants dug."""
NOT_LOOKED: Ways = {
    "en": {
        "not_looked": (
            *("not looked", "didn't look", "didn't dig", "couldn't get in", "too wet to dig", "gate was locked"),
            *("skipped it", "did not check roots", "ran out of daylight", "no time to dig", "didn't get to it"),
            *("drove by only", "just drove past", "never got out of the truck", "rained out"),
            *("couldn't dig, too hard", "not dug, just sprayed", "didn't stop", "no shovel with me"),
            *("stayed out because of the REI", "did not get to this one", "not visited", "no plants pulled"),
            *("no look, road flooded", "only looked from the road", "bridge out, never got there"),
            *("dog wouldn't let me in", "owner said stay out"),
        ),
    },
    "es": {
        "not_looked": (
            *("no miré", "no cavé", "demasiado mojado para cavar", "tranquera cerrada", "lo salteé"),
            *("no revisé raíces", "me quedé sin luz", "no tuve tiempo de cavar", "no llegué", "pasé de largo"),
            *("solo pasé por el camino", "no bajé de la camioneta", "suspendido por lluvia"),
            *("no pude cavar, muy duro", "sin mirar, recién fumigado", "no paré", "sin pala"),
            *("no entré por el reingreso", "no visitado", "no saqué plantas", "camino cortado, no llegué"),
            *("solo desde el camino",),
        ),
    },
    "pt": {
        "not_looked": (
            *("não olhei", "não cavei", "não deu pra entrar", "molhado demais pra cavar", "porteira fechada"),
            *("pulei esse", "não olhei raiz", "fiquei sem luz", "não tive tempo de cavar", "não cheguei"),
            *("passei direto", "só passei pela estrada", "não desci da caminhonete", "suspenso por chuva"),
            *("não deu pra cavar, muito duro", "sem olhar, recém pulverizado", "não parei", "sem enxada"),
            *("não entrei por causa da reentrada", "não visitado", "não arranquei plantas"),
            *("estrada cortada, não cheguei", "só da estrada", "o dono não deixou entrar"),
        ),
    },
}
"""Nobody looked, and why."""


def _told(before: str, way: str) -> Iterator[str]:
    """Behind a comma or a semicolon, and as a sentence and a line of its own."""
    sentence = way[0].upper() + way[1:]
    yield from (f"{before}, {way}", f"{before}; {way}", f"{before}. {sentence}", f"{before}\n{sentence}")


def _read(text: str) -> Note:
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Sumac"))
    asked = [problem.kind for problem in reading.problems]
    assert not asked and not reading.commands and len(reading.notes) == 1, (text, asked, reading.commands)
    return reading.notes[0]


def _spray(note: Note) -> object:
    told = note.spray
    return told and (told.what, told.date, told.days_ago, told.entry_hours)


def _look(note: Note) -> object:
    return note.look_again and (note.look_again.days, note.look_again.date)


FACTS: dict[str, tuple[Ways, Callable[[Note], object]]] = {
    "sprayed": (SPRAYED, _spray),
    "look again": (LOOK, _look),
    "washed": (WASHED, lambda note: note.soaked),
    "tops": (TOPS, lambda note: tuple(sorted(note.tops))),
    "roots": (ROOTS, lambda note: tuple(sorted(note.roots))),
    "absent": (ABSENT, lambda note: note.mostly),
}


@pytest.mark.parametrize("language", ["en", "es", "pt"])
@pytest.mark.parametrize("fact", FACTS)
def test_a_fact_beside_a_count_is_read_and_changes_nothing_of_it(fact: str, language: Language) -> None:
    """In every way, and behind every stop."""
    ways, found = FACTS[fact]
    for meant, said in ways[language].items():
        for text in (text for way in said for text in _told(COUNTED[language], way)):
            note = _read(text)
            assert found(note) == meant, text
            counted = (note.plants, note.females.white, note.females.yellow, note.females.total)
            assert counted == (6, 12, 5, 17), text
            assert (note.method, note.date, note.mostly) == ("shovel", None, ()), text


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_none_seen_is_read_in_every_way(language: Language) -> None:
    """On six plants dug with the shovel."""
    for text in (text for way in NONE_SEEN[language]["none_seen"] for text in _told(DUG[language], way)):
        note = _read(text)
        assert (note.outcome, note.females.total, note.plants, note.method) == ("none_seen", 0, 6, "shovel"), text


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_that_nobody_looked_is_read_in_every_way(language: Language) -> None:
    """Also where only the reason is told."""
    for text in (text for way in NOT_LOOKED[language]["not_looked"] for text in _told("Kestrel", way)):
        note = _read(text)
        assert (note.outcome, note.plants, note.females.total, note.date) == ("not_looked", None, None, None), text
