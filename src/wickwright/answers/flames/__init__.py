"""How lamps burn where they stand, and what that does to the room and to the seat of the glass."""
