"""Mail in and out: doors, opening, judging, writing, sending. Knows no science and no note language."""

from notes_bot.mail.beneath import written_beneath
from notes_bot.mail.identity import prove
from notes_bot.mail.manners import may_pass
from notes_bot.mail.opening import open_message
from notes_bot.mail.smtp_out import new_message_id, write_mail

__all__ = ["may_pass", "new_message_id", "open_message", "prove", "write_mail", "written_beneath"]
