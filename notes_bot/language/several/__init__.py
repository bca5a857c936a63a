"""What is told of several fields at once, or further on of a field whose note was already written."""
