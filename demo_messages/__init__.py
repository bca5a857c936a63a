"""A season's mail of an invented crew, as raw messages; found as ``notes_bot.demo_messages``.

Written by ``python -m tests.mail_samples.season``; the expected answers stand in ``tests/replies``.
"""
