"""The command line: builds the real things and holds no logic. Imports are made where needed: reading a note
must not wait for the science."""

from __future__ import annotations

import argparse
import json
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from pathlib import Path
from types import FrameType
from typing import Any

from notes_bot import __version__, clock


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; gives the exit status (0 done, 1 not done, 2 not understood)."""
    parser = _parser()
    chosen = parser.parse_args(argv)
    run: Callable[[argparse.Namespace], int] = chosen.run
    from notes_bot.store.upgrade import DatabaseWrong

    try:
        return run(chosen)
    except DatabaseWrong as error:
        return _wrong(str(error))
    except BrokenPipeError:  # the reader of our output has gone (head, less)
        sys.stderr.close()
        return 1
    except KeyboardInterrupt:
        return 130


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="notes-bot", description="Field-notes assistant for soybean cyst nematode scouting, by text and email."
    )
    parser.add_argument("--version", action="version", version=__version__)
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    demo = commands.add_parser("demo", help="play an invented crew's season over real mail on this machine")
    demo.add_argument("--folder", type=Path, default=Path("notes-bot-demo"), help="where to leave what it made")
    demo.add_argument("--quick", action="store_true", help="the first month only")
    demo.set_defaults(run=_demo)

    init = commands.add_parser("init", help="write a commented settings file to start from")
    init.add_argument("file", nargs="?", type=Path, default=Path("notes-bot.toml"))
    init.set_defaults(run=_init)

    serve = commands.add_parser("serve", help="run the service until it is told to stop")
    serve.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    serve.set_defaults(run=_serve)

    check = commands.add_parser("check", help="read the settings and the database, and say what is there")
    check.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    check.set_defaults(run=_check)

    read = commands.add_parser("read", help="how a note would be understood, without storing it")
    read.add_argument("text", nargs="?", help="the note; - reads it from standard input")
    read.add_argument("--json", action="store_true", help="as data (the note contract)")
    read.add_argument("--sent", type=_day, metavar="DATE", help="day it was sent, as 2026-06-11; today if left out")
    read.add_argument("--fields", nargs="*", default=[], metavar="NAME", help="known fields: names, or a file of them")
    read.add_argument("--language", choices=("en", "es", "pt"), help="do not decide the language, take this")
    read.add_argument("--lines", type=Path, metavar="FILE", help="JSON Lines with text and sent; one reading a line")
    read.set_defaults(run=_read)

    card = commands.add_parser("card", help="print the pocket cards: what to write, one page a language")
    card.add_argument("--folder", type=Path, default=Path(), help="where to leave them (PDF and PNG)")
    card.set_defaults(run=_card)

    foresee = commands.add_parser("foresee", help="where a population is and when to look, from data")
    foresee.add_argument("--json", action="store_true", help="as data (the outlook contract)")
    foresee.add_argument(
        "--lines", type=Path, metavar="FILE", required=True, help="JSON Lines of questions; - is stdin"
    )
    foresee.set_defaults(run=_foresee)

    weather = commands.add_parser("weather", help="bring a temperature file in")
    weather.add_argument("file", type=Path)
    weather.add_argument("--settings", type=Path, default=Path("notes-bot.toml"))
    weather.add_argument("--field", default="", help="the field it is for; all fields if left out")
    weather.add_argument("--units", choices=("C", "F"), default="", help="when the file does not say")
    weather.add_argument("--station", default="", help="which one, when the file holds several")
    weather.set_defaults(run=_weather)
    return parser


# --- reading and foreseeing -------------------------------------------------------------------------


def _read(chosen: argparse.Namespace) -> int:
    from notes_bot.asdata import reading_as_data
    from notes_bot.language import read_note

    if chosen.lines is not None:
        for number, row in _json_lines(chosen.lines):
            text, sent = row.get("text"), row.get("sent")
            if not isinstance(text, str):
                return _wrong(
                    f'line {number}: text is missing: {{"text": "kestrel 6/11 dug 5 none", "sent": "2026-06-11"}}'
                )
            try:
                day = date.fromisoformat(str(sent)[:10]) if sent else clock.today()
            except ValueError:
                return _wrong(f"line {number}: sent is {sent!r}: write a day as 2026-06-11")
            reading = read_note(
                text, sent=day, fields=_names(row.get("fields") or chosen.fields), language=chosen.language
            )
            known = {"id": row["id"]} if "id" in row else {}
            print(json.dumps({**known, **reading_as_data(reading)}, ensure_ascii=False))
        return 0
    if chosen.text is None and len(chosen.fields) > 1:
        chosen.text = chosen.fields.pop()  # "--fields NAMES TEXT": the last one is the note
    if chosen.text is None:
        return _wrong('give the note in quotes: notes-bot read "kestrel 6/11 dug 6, 12 white"')
    text = sys.stdin.read() if chosen.text == "-" else chosen.text
    reading = read_note(text, sent=chosen.sent or clock.today(), fields=_names(chosen.fields), language=chosen.language)
    if chosen.json:
        print(json.dumps(reading_as_data(reading), ensure_ascii=False, indent=2))
    else:
        print("\n".join(_reading_for_people(reading)))
    return 0


def _reading_for_people(reading: Any) -> list[str]:
    from notes_bot.language import spell

    lines = [f"Read as: {spell(note, reading.language)}" for note in reading.notes]
    for command in reading.commands:
        asked = ", ".join(f"{name} {value}" for name, value in command.args.items())
        lines.append(f"Asked: {command.kind}{': ' if asked else ''}{asked}")
    lines += [f"Note: {remark.wrong}" for remark in reading.remarks]
    for problem in reading.problems:
        lines.append(f'Line {problem.where.line}: "{problem.where.text}"')
        lines.append(f"  {problem.wrong}")
        if problem.instead:
            lines.append(f"  This works: {problem.instead}")
    return lines or ["Nothing to keep in this message."]


def _names(given: Sequence[str] | str) -> list[str]:
    """Names as given (one each, or several with commas), or the lines of a file when the one name is a file's."""
    names = [given] if isinstance(given, str) else list(given)
    if len(names) == 1 and Path(names[0]).is_file():
        names = Path(names[0]).read_text("utf-8").splitlines()
    return [name.strip() for line in names for name in line.split(",") if name.strip()]


def _card(args: argparse.Namespace) -> int:
    from notes_bot.reply.card import write

    for path in write(args.folder):
        print(path)
    return 0


def _foresee(chosen: argparse.Namespace) -> int:
    from notes_bot.asdata import BadInput, outlook_as_data, question_from_data
    from notes_bot.outlook import foresee
    from notes_bot.reply import say
    from notes_bot.weather import climate_at

    for number, row in _json_lines(chosen.lines):
        try:
            question = question_from_data(row)
        except BadInput as error:
            return _wrong(f"line {number}: {error}")
        history = question.history
        climate = climate_at(history.latitude, history.longitude)
        outlook = foresee(history, question.temperatures, climate, question.as_of)
        data = outlook_as_data(outlook, question.id, lambda fact: say(fact, "en"))
        if chosen.json:
            print(json.dumps(data, ensure_ascii=False))
        else:
            print("\n".join(_outlook_for_people(data)))
    return 0


def _outlook_for_people(data: dict[str, Any]) -> list[str]:
    lines = [
        f"{data['id'] or 'field'}, {data['as_of']}: {data['stage']}, generation {data['generation'] or 'not known'}"
    ]
    lines += [
        f"  {window['event']} (generation {window['generation'] or '-'}): "
        f"{window['earliest']} - {window['likely']} - {window['latest']}"
        for window in data["windows"]
    ]
    again = data["look_again"]
    lines.append(
        f"  look again {again['earliest']} - {again['likely']} - {again['latest']}: {again['why']}"
        if again
        else f"  no look again: {data.get('why', '')}"
    )
    return [*lines, f"  infested: {data['infested_probability']:.0%}", *(f"  from: {line}" for line in data["basis"])]


# --- the service ------------------------------------------------------------------------------------


def _init(chosen: argparse.Namespace) -> int:
    from notes_bot.settings import STARTER

    try:
        with chosen.file.open("x", encoding="utf-8") as file:
            file.write(STARTER)
    except FileExistsError:
        return _wrong(f"{chosen.file} is there already: name another file, or move it away first")
    except OSError as error:
        return _wrong(f"{chosen.file} cannot be written: {error.strerror}")
    print(f"Wrote {chosen.file}. Put your crew's people and fields in it, then:")
    print(f"  notes-bot check --settings {chosen.file}")
    print(f"  notes-bot serve --settings {chosen.file}")
    return 0


def _serve(chosen: argparse.Namespace) -> int:
    import logging

    from notes_bot.service import Service, ServiceWrong
    from notes_bot.settings import SettingsWrong, read_settings

    try:
        service = Service(read_settings(chosen.settings), clock.now, say=print)
    except SettingsWrong as error:
        return _wrong(str(error))
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(message)s")
    logging.getLogger("mail.log").setLevel(logging.WARNING)  # the listener's own talk of every SMTP line
    logging.getLogger("dkimpy").setLevel(logging.CRITICAL)  # what is wrong with a signature is in the message's reason
    stop = threading.Event()

    def end(_number: int, _frame: FrameType | None) -> None:
        stop.set()

    signal.signal(signal.SIGTERM, end)
    signal.signal(signal.SIGINT, end)
    try:
        service.start()
    except ServiceWrong as error:
        return _wrong(str(error))
    try:
        while not stop.wait(0.5):
            if service.trouble:
                print(f"stopping: {service.trouble}", file=sys.stderr)
                return 1
    finally:
        service.stop()
    return 0


def _check(chosen: argparse.Namespace) -> int:
    from notes_bot.settings import SettingsWrong, read_settings
    from notes_bot.store import Store

    try:
        settings = read_settings(chosen.settings)
    except SettingsWrong as error:
        return _wrong(str(error))
    print(f"settings {chosen.settings}: {len(settings.people)} people, {len(settings.fields)} fields, in order")
    if not settings.database.exists():
        print(f"database {settings.database}: not there yet; serve makes it")
        return 0
    store = Store(settings.database)
    try:
        for state, count in sorted(store.counts().items()):
            print(f"{state}: {count}")
        for held in store.held_messages():
            print(f"held {held.number} from {held.sender}: {held.reason}: {held.first_line}")
        for stuck in store.stuck_messages():
            print(f"stuck {stuck.id} (kept whole, traceback follows)\n{stuck.trouble}")
    finally:
        store.close()
    return 0


def _weather(chosen: argparse.Namespace) -> int:
    from notes_bot.reply import say
    from notes_bot.settings import SettingsWrong, read_settings
    from notes_bot.store import Store
    from notes_bot.weather import WeatherWrong, open_temperatures

    try:
        settings = read_settings(chosen.settings)
        record = open_temperatures(chosen.file, units=chosen.units or None, station=chosen.station or None)
    except (SettingsWrong, WeatherWrong) as error:
        return _wrong(str(error))
    settings.service.folder.mkdir(parents=True, exist_ok=True)
    store = Store(settings.database)
    try:
        store.keep_temperatures(chosen.field.casefold() or "*", record.days, chosen.file.name)
    finally:
        store.close()
    print(f"{len(record.days)} days from {chosen.file} kept for {chosen.field or 'all fields'}")
    for repair in record.repairs:
        print("mended: " + say(repair, "en"))
    return 0


def _demo(chosen: argparse.Namespace) -> int:
    from notes_bot.demo import play

    def say(line: str) -> None:
        print(line, flush=True)

    return play(chosen.folder, say=say, quick=chosen.quick)


# --- small ------------------------------------------------------------------------------------------


def _json_lines(path: Path) -> Iterator[tuple[int, dict[str, Any]]]:
    lines: Iterable[str] = sys.stdin if str(path) == "-" else path.read_text("utf-8").splitlines()
    for number, line in enumerate(lines, start=1):
        if line.strip():
            try:
                row = json.loads(line)
            except json.JSONDecodeError as error:
                raise SystemExit(_wrong(f"line {number} is not JSON: {error}")) from None
            if not isinstance(row, dict):
                raise SystemExit(_wrong(f"line {number} must be a JSON object"))
            yield number, row


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is not a day: write it as 2026-06-11") from None


def _wrong(what: str) -> int:
    print(f"notes-bot: {what}", file=sys.stderr)
    return 2
