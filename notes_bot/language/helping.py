def help_text(topic, language): return ""
