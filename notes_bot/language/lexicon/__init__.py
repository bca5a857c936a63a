"""What is written, word by word: lexemes, the word tables, and pieces with everything they can mean."""
