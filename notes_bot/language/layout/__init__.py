"""How a message is set out: tables, forms, mails and signs of the writer's own, written as a plain note is."""
