"""Names in a message: which words call a field, with a list of the crew's fields or without, and which a variety."""
