"""Whole messages put together from single sentences of many writers: ``python -m tests.put_together [FOLDER]``.

``tests/corpus/sentences`` holds what ten people wrote as single sentences, each with what it means: what brings up a
field ("go"), plants and digging ("dig"), counts, both in one ("digcount"), none seen, not looked, a fact, the next look
("again"), and talk that tells nothing ("aside"). One writer's sentences are put together at random into visits of one
field and of two, parted by stops, lines or commas; their meanings make the expected reading. So a few hundred
sentences are thousands of messages, and what fails in them though each sentence reads by itself is a fault of how the
reader follows a message.

Those of ``sentences/kept`` are not worked on: they measure. (Some sixty of them were seen when talk was first weighed.)
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from notes_bot.language import score
from notes_bot.model import COLOURS, Language

FOLDER = Path(__file__).parent / "corpus" / "sentences"
FIELDS: dict[Language, tuple[str, ...]] = {
    "en": ("Kestrel", "Old Mill East", "Cedar Slough", "Harrow Ridge 3", "Dry Creek"),
    "es": ("El Palenque", "Loma Alta", "La Tapera", "Monte Chico", "Bajo Grande"),
    "pt": ("Mangueira", "Baixada do Ipê", "Retiro Novo", "Palmital", "Santa Rita"),
}
SENT: dict[Language, str] = {"en": "2026-07-14", "es": "2026-01-23", "pt": "2026-01-23"}
PLAIN: dict[Language, tuple[str, str]] = {
    "en": ("6 plants dug with the shovel.", "12 white, 3 yellow."),
    "es": ("6 plantas con pala.", "12 blancas, 3 amarillas."),
    "pt": ("6 plantas com pá.", "12 brancas, 3 amarelas."),
}
_PLAINLY = ({"plants": 6, "method": "shovel"}, {"females": {"white": 12, "yellow": 3}})
"""What the plain sentences mean."""
STYLES = ("stops", "lines", "commas")
Sentence = dict[str, Any]
Row = dict[str, Any]


def sentences_of(file: Path) -> tuple[Language, list[Sentence]]:
    """The language of a file and its sentences."""
    language: Language = file.stem[:2]  # type: ignore[assignment]  # the first letters of its name
    return language, [json.loads(line) for line in file.read_text("utf-8").splitlines() if line.strip()]


def reading_of(field: str, meanings: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """A note of a field of which all this is told."""
    note: dict[str, Any] = {"field": field.lower()}
    for meaning in meanings:
        for key, value in meaning.items():
            if key == "females":
                note[key] = _females(value)
            elif key in ("soil", "spray", "variety"):
                note[key] = {**note.get(key, {}), **{k: v for k, v in value.items() if v is not None}}
            elif key in ("tops", "roots", "mostly"):
                note[key] = sorted({*note.get(key, ()), *value})
            else:
                note[key] = value
    none = note.get("females", {}).get("total") == 0 and "outcome" not in note
    if none or note.get("outcome") == "none_seen":
        return {**note, "outcome": "none_seen", "females": _females({"white": 0})}
    found = any(note.get(key) for key in ("females", "mostly", "per_plant"))
    return {**note, "outcome": "seen"} if found and "outcome" not in note else note


def _females(told: dict[str, int]) -> dict[str, int]:
    """Colors that were told with the others at 0, or only the total."""
    if not any(color in told for color in COLOURS):
        return {"total": told["total"]}
    colors = {color: told.get(color) or 0 for color in COLOURS}
    return {**colors, "total": sum(colors.values())}


def joined(parts: Sequence[str], style: str) -> str:
    """Sentences one behind the other, parted by stops, lines or commas."""
    text = ""
    for part in map(str.strip, parts):
        if not text:
            text = part
        elif style == "lines":
            text += f"\n{part}"
        else:
            stop = "" if text[-1] in ".!?:," else "." if style == "stops" else ","
            text += f"{stop} {part}"
    return text


def row(language: Language, text: str, notes: list[dict[str, Any]]) -> Row:
    """A row as those of the corpora."""
    told = {"text": text, "sent": SENT[language], "fields": FIELDS[language], "language": language}
    return {**told, "reading": {"notes": notes}}


def alone(language: Language, sentence: Sentence, n: int) -> list[Row]:
    """A sentence in a plain note; talk before it, behind it and within."""
    field = FIELDS[language][n % len(FIELDS[language])]
    plants, found = PLAIN[language]
    kind, text, means = sentence["kind"], sentence["text"].replace("{f}", field), sentence["means"]
    head = f"{field}:"
    parts, meanings = {
        "go": ([text, plants, found], [*_PLAINLY]),
        "dig": ([head, text, found], [means, _PLAINLY[1]]),
        "count": ([head, plants, text], [_PLAINLY[0], means]),
        "none": ([head, plants, text], [_PLAINLY[0], means]),
        "digcount": ([head, text], [means]),
        "notlooked": ([head, text], [means]),
    }.get(kind, ([head, plants, found, text], [*_PLAINLY, means]))
    orders = [parts] if kind != "aside" else [parts, [text, head, plants, found], [head, plants, text, found]]
    return [row(language, joined(order, "stops"), [reading_of(field, meanings)]) for order in orders]


def visit(
    language: Language, by_kind: dict[str, list[Sentence]], luck: random.Random, field: str, talk: bool
) -> tuple[list[str], dict[str, Any]]:
    """The sentences of one visit in a random order, and its note."""

    def draw(kind: str) -> Sentence:
        return luck.choice(by_kind[kind])

    told = [draw(kind) for kind in luck.choices(_VISITS, _SHARES)[0]]
    own: set[str] = set()
    more = []
    for _ in range(luck.choice((0, 1, 1, 2))):
        fact = draw("fact")
        if own.isdisjoint(fact["means"]):
            more.append(fact)
        own |= fact["means"].keys()
    more += [draw("again")] if luck.random() < _AGAIN else []
    more += [draw("aside") for _ in range(luck.choice((0, 0, 1, 1, 2)))] if talk else []
    for sentence in more:
        told.insert(luck.randrange(len(told) + 1), sentence)
    texts = [draw("go")["text"], *(sentence["text"] for sentence in told)]
    return [text.replace("{f}", field) for text in texts], reading_of(field, [s["means"] for s in told])


_VISITS = (("dig", "count"), ("digcount",), ("dig", "none"), ("notlooked",))
_SHARES = (35, 35, 22, 8)
_AGAIN = 0.4


def messages(
    language: Language, sentences: Sequence[Sentence], style: str, seed: int, fields: int = 1, talk: bool = False
) -> Iterator[Row]:
    """Messages without end."""
    luck = random.Random(seed)  # the same messages in every run
    by_kind: dict[str, list[Sentence]] = {}
    for sentence in sentences:
        by_kind.setdefault(sentence["kind"], []).append(sentence)
    while True:
        visits = [visit(language, by_kind, luck, name, talk) for name in luck.sample(FIELDS[language], fields)]
        parts = [joined(texts, style) for texts, _ in visits]
        text = joined(parts, luck.choice(("stops", "lines")))
        yield row(language, text, [note for _, note in visits])


def reads_alone(language: Language, sentences: Sequence[Sentence]) -> list[Sentence]:
    """The sentences that are read as meant in a plain note."""
    good = []
    for n, sentence in enumerate(sentences):
        if not any(score.score_reading(r, score.read_row(r)).failures for r in alone(language, sentence, n)):
            good.append(sentence)
    return good


def figures(rows: Sequence[Row]) -> str:
    """Understood, asked about and silently wrong, in hundredths of all data."""
    found = score.score(rows)
    return " / ".join(f"{found.share(count):.1f}" for count in (found.understood, found.asked, found.wrong))


def main(arguments: list[str]) -> int:
    """Print the figures of every writer: sentences alone, talk, and whole messages of one field and of two."""
    folder = Path(arguments[0]) if arguments else FOLDER
    many = 100
    for file in sorted(folder.glob("*.jsonl")):
        language, sentences = sentences_of(file)
        rows = [r for n, s in enumerate(sentences) if s["kind"] != "aside" for r in alone(language, s, n)]
        talk = [r for n, s in enumerate(sentences) if s["kind"] == "aside" for r in alone(language, s, n)]
        wrong = sum(bool(score.score_reading(r, score.read_row(r)).failures) for r in talk)
        sys.stdout.write(
            f"{file.stem}: alone {figures(rows)}; beside talk {100 - 100 * wrong / len(talk):.0f} % whole\n"
        )
        good = reads_alone(language, sentences)
        for name, told, fields in (("all", sentences, 1), ("all", sentences, 2), ("read alone", good, 2)):
            whole = []
            for style in STYLES:
                made = messages(language, told, style, 5, fields)
                whole += [next(made) for _ in range(many // fields)]
            sys.stdout.write(f"    of {name}, {fields} field{'s' * (fields > 1)}: {figures(whole)}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
