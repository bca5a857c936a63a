"""Soil: moisture, texture, pH, potassium."""

from __future__ import annotations

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.noting.around import amended
from notes_bot.language.noting.page import Page, lead_of
from notes_bot.model import Moisture

APART = 12
"""Characters between "dry" and "wet" with which one is no turn of the other (judgement)."""
WETTER = ("dry", "moist", "wet")


def on_moisture(page: Page, fact: Fact) -> None:
    """Dry, moist, wet; said of the top or of below; dry here and moist in another sentence is asked about."""
    where, value = fact.first("BELOW") or "", fact.first("MOISTURE")
    dry = next((f for f in page.facts[: fact.at] if f.kind == "moisture" and not f.first("BELOW")), None)
    last = page.moistures[-1] if page.moistures else (where, value)
    if last[0] == where and last[1] != value and amended(page, fact, last[1]):
        page.moistures[-1] = (where, value)  # "wet, i mean dry"
        return
    weak = page.table.has("weak_moisture", fold(page.context.text[fact.start : fact.end]))
    if dry is not None and not where and not weak and not page.spots and "dry" in (value, dry.first("MOISTURE")):
        apart = page.context.sentence(dry) != page.context.sentence(fact) or (
            "wet" in (value, dry.first("MOISTURE")) and fact.start - dry.end > APART
        )
        if apart and value != dry.first("MOISTURE"):
            page.twice("moisture", fact, *(page.context.text[f.start : f.end] for f in (dry, fact)))
    page.moistures.append((where or ("weak" if weak else ""), value))


def moisture(page: Page) -> Moisture | None:
    """What the roots stood in: below the top when both are told, else the wetter."""
    below = [value for where, value in page.moistures if where == "below"]
    plain = [value for where, value in page.moistures if where == ""]
    chosen = below or plain or [value for _, value in page.moistures]
    return max(chosen, key=WETTER.index) if chosen else None


def on_texture(page: Page, fact: Fact) -> None:
    """Sand, loam, clay."""
    texture = fact.first("TEXTURE")
    if page.texture is None or (page.texture != texture and (amended(page, fact, page.texture) or _but(page, fact))):
        page.texture = texture


def _but(page: Page, fact: Fact) -> bool:
    """ "Map says sandy loam, but its clay loam": is it told against what stands before?"""
    said = [x.text for x in scan(lead_of(page.context.text, fact.start))]
    return page.table.has_any("told_against", said[-MOST_AGAINST:])


MOST_AGAINST = 5
"""Words before a texture among which stands what tells it against another one (judgement)."""


def on_acidity(page: Page, fact: Fact) -> None:
    """pH."""
    value = fact.first("NUMBER")
    if value is None:
        page.awaits = fact
        page.keep(fact)
    elif 3 <= value <= 10:
        behind = " ".join(x.text for x in scan(page.context.text[fact.end : fact.end + APART])[:2])
        page.ph = float(value) + (0.5 if page.table.has("and_half", behind) else 0.0)  # "cinco e meio"
    else:
        page.complain("out_of_range", fact)


def on_potassium(page: Page, fact: Fact) -> None:
    """Soil test potassium in ppm."""
    value = fact.first("NUMBER")
    if value is None:
        page.awaits = fact
        page.keep(fact)
    elif 0 < value <= 2000:
        page.k_ppm = float(value)
    else:
        page.complain("out_of_range", fact)


def labelled_before(page: Page, fact: Fact) -> bool:
    """ "pH on the slip was 7.9": the number a label earlier in the sentence still waits for."""
    label, page.awaits = page.awaits, None
    if label is None or len(fact.numbers) != 1 or page.context.sentence(label) != page.context.sentence(fact):
        return False
    value, text = fact.numbers[0], page.context.text
    opening = scan(text[label.start : label.end])
    kinds = {e.type for x in opening[:2] for e in page.table.singles.get(x.text, ())}
    if "POTASSIUM" in kinds and page.k_ppm is None and "ppm" in text[fact.start : fact.end + 6].lower():
        page.k_ppm = float(value)
        return True
    if "PH" in kinds and page.ph is None and 3 <= value <= 10:
        behind = " ".join(x.text for x in scan(text[fact.end : fact.end + APART])[:2])
        page.ph = float(value) + (0.5 if page.table.has("and_half", behind) else 0.0)
        return True
    return False
