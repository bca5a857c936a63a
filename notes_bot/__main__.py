"""``python -m notes_bot`` is ``notes-bot``."""

from notes_bot.cli import main

raise SystemExit(main())
