"""The note language as data: the grammar, the word tables and the mistakes. Found as ``notes_bot.grammar``."""
