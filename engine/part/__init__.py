"""The part in hand: what is to be made, read from a part file or short lines, checked and drawn."""
