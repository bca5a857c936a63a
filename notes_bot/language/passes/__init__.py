"""The passes over the pieces of a message, one matter each, and the order they are taken in."""
