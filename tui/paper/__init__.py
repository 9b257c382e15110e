"""Paper: the card of a job as a page for a browser, as a file to print, and as lines of text."""
