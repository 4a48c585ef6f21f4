"""What a burning lamp does to the room: air over hours, and what is above and beside it."""
