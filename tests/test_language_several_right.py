"""Several values put right in one message, of one field or two, and what only looks like it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Larch Siding", "Osier", "Quince Hollow")
SENT = date(2026, 7, 15)
NOUNS = {
    "en": {"white": "white", "yellow": "yellow", "tan": "tan", "brown": "brown", "plants": "plants"},
    "es": {"white": "blancas", "yellow": "amarillas", "tan": "beige", "brown": "marrones", "plants": "plantas"},
    "pt": {"white": "brancas", "yellow": "amarelas", "tan": "beges", "brown": "marrons", "plants": "plantas"},
}
PAIRS = (
    (("white", 16, 11), ("yellow", 2, 5)),
    (("plants", 8, 6), ("brown", 3, 13)),
    (("tan", 5, 15), ("plants", 9, 7)),
)
"""Two data: what, its value, what was written."""
COUNTS = {
    "en": [
        "pls edit F {a}={x} {b}={y}",
        "fix F {a}={x}, {b}={y}",
        "fix F: {a} {x}, {b} {y}",
        "fix F: {x} {a} and {y} {b}",
        "change F to {x} {a} and {y} {b}",
        "change F {a} to {x} and {b} to {y}",
        "F: change {a} to {x}, {b} to {y}",
        "change {a} from {o} to {x} and {b} from {q} to {y} on F",
        "F {a} {o} -> {x}, {b} {q} -> {y}",
        "F {a} should be {x} and {b} {y}",
        "F {a} should be {x} and {b} should be {y}",
        "F should be {x} {a} and {y} {b}",
        "F {a} {x} not {o}, {b} {y} not {q}",
        "F: {x} {a} not {o} and {y} {b} not {q}",
        "F: {x} {a} {y} {b}, not {o} {a} {q} {b}",
        "F was {x} {a} and {y} {b}, not {o} and {q}",
        "correction F: {a} {x}, {b} {y}",
        "correction F\n{a}: {x}\n{b}: {y}",
        "fix F\n{x} {a}\n{y} {b}",
        "fix F\n- {a} {x}\n- {b} {y}",
        "fix {a} on F to {x} and {b} to {y}",
        "make F {a} {x} and {b} {y}",
        "I put {o} {a} and {q} {b} on F, it was {x} {a} and {y} {b}",
        "F: I had {o} {a} and {q} {b}, should be {x} {a} and {y} {b}",
        "oops, F {a} was {x} and {b} was {y}",
        "correct F: {a}: {x}; {b}: {y}",
        "F: {a} {x} (not {o}), {b} {y} (not {q})",
        "F: {a} {x} instead of {o} and {b} {y} instead of {q}",
        "fix {a} on F to {x} and {b} on G to {y}",
        "F {a} should be {x}, G {b} should be {y}",
        "F {a} {x} not {o}; G {b} {y} not {q}",
        "change F {a} to {x} and G {b} to {y}",
        "please change {a} to {x} and {b} to {y} for F",
        "F: {a} = {x} (was {o}), {b} = {y} (was {q})",
        "fix F: not {o} {a} but {x}, not {q} {b} but {y}",
        "F {a} was {x} not {o} and {b} was {y} not {q}",
        "edit F {a}:{x} {b}:{y}",
    ],
    "es": [
        "corregí F: {a}={x} {b}={y}",
        "corregí F: {a} {x}, {b} {y}",
        "cambiá en F {a} a {x} y {b} a {y}",
        "cambia las {a} de F a {x} y las {b} a {y}",
        "cambiá las {a} de {o} a {x} y las {b} de {q} a {y} en F",
        "F: {x} {a} y {y} {b}, no {o} {a} y {q} {b}",
        "F: {a} {x} no {o}, {b} {y} no {q}",
        "F: eran {x} {a} y no {o}, y {y} {b} y no {q}",
        "corrección F: {a} {x}, {b} {y}",
        "corrección F\n{a}: {x}\n{b}: {y}",
        "corregí F\n{x} {a}\n{y} {b}",
        "en F no eran {o} {a} sino {x}, y no {q} {b} sino {y}",
        "F: puse {o} {a} y {q} {b}, eran {x} {a} y {y} {b}",
        "las {a} de F son {x}, no {o}, y las {b} {y}, no {q}",
        "corregí las {a} de F a {x} y las {b} de G a {y}",
        "F: {a} {o} -> {x}, {b} {q} -> {y}",
        "cambiá F: {x} {a} en vez de {o}, {y} {b} en vez de {q}",
        "F debería ser {x} {a} y {y} {b}",
        "corrige F, {a} son {x} y {b} son {y}",
        "F {a} {x} no {o}; G {b} {y} no {q}",
    ],
    "pt": [
        "corrige F: {a}={x} {b}={y}",
        "corrige F: {a} {x}, {b} {y}",
        "muda no F {a} pra {x} e {b} pra {y}",
        "troca as {a} do F pra {x} e as {b} pra {y}",
        "muda as {a} de {o} pra {x} e as {b} de {q} pra {y} no F",
        "F: {x} {a} e {y} {b}, não {o} {a} e {q} {b}",
        "F: {a} {x} não {o}, {b} {y} não {q}",
        "F: eram {x} {a} e não {o}, e {y} {b} e não {q}",
        "correção F: {a} {x}, {b} {y}",
        "correção F\n{a}: {x}\n{b}: {y}",
        "corrige F\n{x} {a}\n{y} {b}",
        "no F não eram {o} {a} e sim {x}, e não {q} {b} e sim {y}",
        "F: coloquei {o} {a} e {q} {b}, eram {x} {a} e {y} {b}",
        "as {a} do F são {x}, não {o}, e as {b} {y}, não {q}",
        "corrige as {a} do F pra {x} e as {b} do G pra {y}",
        "F: {a} {o} -> {x}, {b} {q} -> {y}",
        "corrige F: {x} {a} em vez de {o}, {y} {b} em vez de {q}",
        "F deveria ser {x} {a} e {y} {b}",
        "arruma o F, {a} são {x} e {b} são {y}",
        "F {a} {x} não {o}; G {b} {y} não {q}",
    ],
}
"""Ways to put two counts right; F and G are fields."""
WORDED = {"en": ("moist", "dry"), "es": ("húmedo", "seco"), "pt": ("úmido", "seco")}
WORDS = {
    "en": [
        "change F to {s} and {m}",
        "fix F: {s}, {m}",
        "F should be {s} and {m}",
        "F: {s} not {s0}, {m} not {m0}",
        "F was {s} and {m}, not {s0} and {m0}",
        "correction F: stage {s}, soil {m}",
        "change F from {s0} to {s} and from {m0} to {m}",
        "fix F\n{s}\n{m}",
        "fix F: {m} and white 16",
        "change F to {s} and the white to 16",
        "F: I put {s0} and {m0}, it was {s} and {m}",
    ],
    "es": [
        "cambiá F a {s} y {m}",
        "corregí F: {s}, {m}",
        "F debería ser {s} y {m}",
        "F: {s} no {s0}, {m} no {m0}",
        "F estaba en {s} y {m}, no {s0} y {m0}",
        "corrección F: estadio {s}, suelo {m}",
        "corregí F\n{s}\n{m}",
        "corregí F: {m} y blancas 16",
        "F: puse {s0} y {m0}, era {s} y {m}",
    ],
    "pt": [
        "muda F pra {s} e {m}",
        "corrige F: {s}, {m}",
        "F deveria ser {s} e {m}",
        "F: {s} não {s0}, {m} não {m0}",
        "F estava em {s} e {m}, não {s0} e {m0}",
        "correção F: estádio {s}, solo {m}",
        "corrige F\n{s}\n{m}",
        "corrige F: {m} e brancas 16",
        "F: coloquei {s0} e {m0}, era {s} e {m}",
    ],
}
"""Ways to put a stage and how moist the soil was right."""


def forms() -> Iterator[tuple[str, set[tuple[str, str, Any]], set[tuple[str, str, Any]]]]:
    """Each message, what is put right in it, and the old values told."""
    one, other = "larch siding", "osier"
    for language, ways in COUNTS.items():
        nouns = NOUNS[language]
        for (a, x, o), (b, y, q) in PAIRS:
            for way in ways:
                second = other if "G" in way else one
                named = way.replace("F", "Larch Siding").replace("G", "Osier")
                text = named.format(a=nouns[a], b=nouns[b], x=x, y=y, o=o, q=q)
                yield text, {(one, a, x), (second, b, y)}, {(one, a, o), (second, b, q)} if "{o}" in way else set()
        moist, dry = WORDED[language]
        for way in WORDS[language]:
            text = way.replace("F", "Larch Siding").format(s="R4", s0="R3", m=moist, m0=dry)
            told = {"{s}": ("stage", "R4", "R3"), "{m}": ("moisture", "moist", "dry"), "16": ("white", 16, None)}
            here = [datum for sign, datum in told.items() if sign in way]
            old = {(one, what, was) for what, _, was in here if was is not None} if "{m0}" in way else set()
            yield text, {(one, what, value) for what, value, _ in here}, old


def _put_right(text: str) -> tuple[set[tuple[Any, ...]], set[tuple[Any, ...]]]:
    """What is put right, and the old values."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems and not reading.notes
    assert {command.kind for command in reading.commands} <= {"correct"}
    now = {tuple(c.args.get(key) for key in ("field", "what", "value")) for c in reading.commands}
    old = {tuple(c.args.get(key) for key in ("field", "what", "old")) for c in reading.commands if "old" in c.args}
    return now, old


@pytest.mark.parametrize(("text", "now", "old"), list(forms()))
def test_several_values_in_one_message_are_a_correction_each(
    text: str, now: set[tuple[str, str, Any]], old: set[tuple[str, str, Any]]
) -> None:
    assert _put_right(text) == (now, old)


@pytest.mark.parametrize(
    ("text", "now"),
    [
        ("change Osier to R4 and moist, I filled those in from memory", {("stage", "R4"), ("moisture", "moist")}),
        ("osier: 4 white 9 yellow, not 4 yellow 9 white", {("white", 4), ("yellow", 9)}),
        ("sorry to bother, fix Osier white to 10 and tan to 4", {("white", 10), ("tan", 4)}),
        ("edit osier w=10 y=4 t=2", {("white", 10), ("yellow", 4), ("tan", 2)}),
        ("fix osier: 8 pl, 10 w, R4", {("plants", 8), ("white", 10), ("stage", "R4")}),
        ("corrige Osier: 10 b 4 a", {("white", 10), ("yellow", 4)}),
        ("muda no Osier de R3 pra R4 e de seco pra úmido", {("stage", "R4"), ("moisture", "moist")}),
    ],
)
def test_more_ways_to_put_several_values_right(text: str, now: set[tuple[str, Any]]) -> None:
    assert _put_right(text)[0] == {("osier", *right) for right in now}


@pytest.mark.parametrize(
    "text",
    [
        "Osier. Powder where there ought to be soil. 6 plants, 12 white.",
        "Osier. Should be gone over again five days from now. 6 plants, 12 white.",
        "Osier. Should be looked at again in five days. 6 plants, 12 white.",
        "Osier. It should be checked again next week. 6 plants, 12 white.",
        "Osier. Flicked the dirt off with a paintbrush rather than use water. 6 plants, 12 white.",
        "Osier\nDust where there ought to be soil\n6 pl 12 w",
        "Osier: 6 plants, 12 white. Powder where there ought to be soil.",
        "Osier, should be gone over again five days from now, 6 plants, 12 white",
        "Osier. Rain was supposed to be here. 6 plants, 12 white.",
        "Osier 6 plants should be enough, 12 white",
        "Osier should be R4 by now, 6 plants, 12 white",
        "Had to fix the truck, osier 6 plants 12 white",
        "hay que arreglar el camión, osier 6 plantas 12 blancas",
        "Osier. Tuve que cambiar la rueda. 6 plantas, 12 blancas.",
        "Osier. Debería llover más. 6 plantas, 12 blancas.",
        "Osier. Polvo donde debería haber suelo. 6 plantas, 12 blancas.",
        "Osier. Hay que volver a mirarlo, debería ser en cinco días. 6 plantas, 12 blancas.",
        "osier, tive que trocar o pneu, 6 plantas, 12 brancas",
        "Osier. Pó onde deveria ser terra. 6 plantas, 12 brancas.",
        "osier 6 plants -> 12 white, R3",
        "make a plan, 6 plants, 12 white osier",
        "osier moist not dry, 6 plants, 12 white",
        "osier: 6 plants not pulled, dug, 12 white",
        "osier signal was off, 6 plants, 12 white",
        "osier me equivoqué de camino, 6 plantas, 12 blancas",
        "numbers look off this year. osier 6 plants, 12 white",
    ],
)
def test_a_plain_note_puts_nothing_right(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not any(command.kind == "correct" for command in reading.commands)
    assert [(note.field, note.plants, note.females.total) for note in reading.notes] == [("osier", 6, 12)]


@pytest.mark.parametrize(
    ("text", "what", "value", "old"),
    [
        ("osier is dry, the wet was a slip of mine", "moisture", "dry", "wet"),
        ("the wet was a typo, osier is dry", "moisture", "dry", "wet"),
        ("osier was R4, the R3 was my mistake", "stage", "R4", "R3"),
        ("osier: 16 white, the 6 was a typo", "white", 16, 6),
        ("osier had 16 white, the 6 was a slip", "white", 16, 6),
        ("osier estaba seco, lo de mojado fue un error mío", "moisture", "dry", "wet"),
        ("o osier tava úmido, seco foi engano", "moisture", "moist", "dry"),
        ("didn't use the spade on Osier like I said, we worked em loose by hand", "method", "eased", "shovel"),
        ("we didn't use a spade at osier, pulled them", "method", "pulled", "shovel"),
        ("en osier no usé la pala, las aflojé con la mano", "method", "eased", "shovel"),
        ("no osier não usei pá, soltei com a mão", "method", "eased", "shovel"),
    ],
)
def test_one_value_and_the_slip_it_replaces(text: str, what: str, value: Any, old: Any) -> None:
    assert _put_right(text) == ({("osier", what, value)}, {("osier", what, old)})


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("didn't use the spade at osier, pulled 6, 12 white", "pulled"),
        ("osier didn't use the shovel, 6 plants 12 white", "pulled"),
        ("Osier. Didn't use the spade, worked em loose by hand. 6 plants, 12 white.", "eased"),
        ("Osier: não usei pá, soltei com a mão. 6 plantas, 12 brancas", "eased"),
    ],
)
def test_a_tool_not_used_in_a_note(text: str, method: str) -> None:
    (note,) = read_note(text, sent=SENT, fields=FIELDS).notes
    assert (note.method, note.plants, note.females.total) == (method, 6, 12)


@pytest.mark.parametrize(
    "text",
    [
        "I swapped white and yellow on osier, 9 yellow 4 white",
        "white and yellow are backwards on osier: 4 white 9 yellow",
        "I had white and yellow backwards on osier. 4 white, 9 yellow.",
        "flipped the whites and yellows on osier, its 4 white 9 yellow",
        "en osier cambié blancas y amarillas, son 4 blancas y 9 amarillas",
        "troquei brancas e amarelas no osier, são 4 brancas e 9 amarelas",
    ],
)
def test_two_colors_that_were_swapped(text: str) -> None:
    assert _put_right(text)[0] == {("osier", "white", 4), ("osier", "yellow", 9)}


def test_two_colors_swapped_without_their_numbers_are_asked_about() -> None:
    reading = read_note("swap white and yellow on osier", sent=SENT, fields=FIELDS)
    assert reading.problems and not reading.notes and not reading.commands


@pytest.mark.parametrize(
    "text",
    [
        "osier white and yellow mixed, 6 plants, 9 white 4 yellow",
        "osier white and yellow mixed up, 6 plants, 9 white 4 yellow",
        "osier switched to the spade, 6 plants, 9 white 4 yellow",
    ],
)
def test_two_colors_of_a_note_were_not_swapped(text: str) -> None:
    (note,) = read_note(text, sent=SENT, fields=FIELDS).notes
    assert (note.plants, note.females.white, note.females.yellow) == (6, 9, 4)


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("you have the wrong bean for Osier, I wrote Fenwick 30 but the tag says Fenwick 33", "osier"),
        ("the seed at Osier is FX 33, I had it down wrong as FX 30", "osier"),
        ("turns out it's not Fenwick 30 in Osier, checked the planter sheet, it's Fenwick 33", "osier"),
        ("fijate que la variedad de la última nota quedó como Fenwick 30 y es Fenwick 33", None),
        ("en osier la semilla no es Fenwick 30, es Fenwick 33", "osier"),
        ("a semente do osier não é Fenwick 30, é Fenwick 33", "osier"),
        ("osier seed tag says Fenwick 33, I put Fenwick 30", "osier"),
    ],
)
def test_a_variety_put_right_by_its_number(text: str, field: str | None) -> None:
    (now,), (old,) = _put_right(text)
    assert now[:2] == old[:2] == (field, "variety")
    assert (now[2][-2:], old[2][-2:]) == ("33", "30")


@pytest.mark.parametrize(
    "text",
    [
        "osier has Fenwick 30 on the east and Fenwick 33 on the west",
        "Osier Fenwick 30 not Fenwick 33, 6 plants 12 white",
    ],
)
def test_two_varieties_of_a_note(text: str) -> None:
    assert not read_note(text, sent=SENT, fields=FIELDS).commands


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("That visit was on Saturday, I only got around to texting it today", None),
        ("the osier visit was saturday, only texted it today", "osier"),
        ("osier was saturday, I'm only sending it today", "osier"),
        ("esa visita fue el sábado, recién hoy la mando", None),
        ("foi no sábado, só tô mandando hoje", None),
    ],
)
def test_a_visit_sent_late(text: str, field: str | None) -> None:
    assert _put_right(text) == ({(field, "date", date(2026, 7, 11))}, set())


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("set Osier planted to May 6", "field"),
        ("forgot to tell you osier got planted on may 6", "field"),
        ("poné la siembra de Osier el 6 de mayo", "field"),
        ("Osier planting date should be May 6", "correct"),
        ("change Osier planting date from May 5 to May 6", "correct"),
        ("muda o plantio do Osier pra 6 de maio", "correct"),
        ("cambiá la fecha de siembra de Osier al 6 de mayo", "correct"),
    ],
)
def test_the_day_a_field_was_planted(text: str, kind: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.notes and not reading.problems
    (command,) = reading.commands
    assert command.kind == kind
    told = command.args["planted"] if kind == "field" else command.args["value"]
    assert told == date(2026, 5, 6) and (kind == "field" or command.args["what"] == "planted")


@pytest.mark.parametrize(
    ("text", "now"),
    [
        ("fix osier's plants to 8 and larch siding's to 6", {("osier", "plants", 8), ("larch siding", "plants", 6)}),
        (
            "osier was 14 white not 12 and larch siding was 9 not 6",
            {("osier", "white", 14), ("larch siding", "white", 9)},
        ),
        ("osier deveria ser R4 e larch siding R3", {("osier", "stage", "R4"), ("larch siding", "stage", "R3")}),
        ("it wasn't 12 white and 5 yellow at osier, it was 14 and 3", {("osier", "white", 14), ("osier", "yellow", 3)}),
        (
            "osier: not 12 white and 5 yellow but 14 white and 3 yellow",
            {("osier", "white", 14), ("osier", "yellow", 3)},
        ),
        ("puse 12 blancas y 5 amarillas en osier pero eran 14 y 3", {("osier", "white", 14), ("osier", "yellow", 3)}),
        ("my osier numbers were off, it's 14 white and 3 yellow", {("osier", "white", 14), ("osier", "yellow", 3)}),
        ("Osier counts need fixing: 14 white, 3 yellow", {("osier", "white", 14), ("osier", "yellow", 3)}),
        ("los números de osier están mal: 14 blancas, 3 amarillas", {("osier", "white", 14), ("osier", "yellow", 3)}),
        ("os números do osier estão errados: 14 brancas, 3 amarelas", {("osier", "white", 14), ("osier", "yellow", 3)}),
    ],
)
def test_what_is_counted_said_once_and_what_was_sent_said_to_be_wrong(text: str, now: set[tuple[Any, ...]]) -> None:
    assert _put_right(text)[0] == now
