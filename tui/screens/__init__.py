"""The screens of the app. A new one is a Page (tui/screens/page.py) and a line in tui/app.py's SCREENS_BY_NAME.

A Page gives its lines for a width and a height (`body`), acts on typing (`typed`), and names its own keys in a table
of Commands, whose actions are its `action_<id>` methods. The parts to build lines from:

- tui/lines.py: line, wrapped, heading, beside, window (scrolling), fitted; roles are those of tui/look.py
- tui/panes/frame.py: tabs (top line), keys (foot line)
- tui/panes/large_view.py: setting_lines, settings_lines: what is set now, readable from two metres
- tui/widgets/big.py, picture.py, grid.py (tables), warn.py (cautions: strip, column, worst)
- tui/form.py with tui/panes/form_view.py: fields that are edited, for any inputs declaration
"""
