"""What is asked, told of a field or put right, rather than noted of a visit."""
