"""What `--help` says of each command."""

from __future__ import annotations

APP = """tommybar                       the app
tommybar work [OPERATION ...]  one answer at the shell; alone, the list of operations
tommybar M10 tap               the same by a quick line: sizes and words in any order
tommybar check FILE            check a recipe, a part file or a shop file
tommybar part FILE             the plan of a part: set-ups, steps, and what it needs
tommybar sheet ...             the setting card of a job, a recipe or a part, to print
tommybar job ...               a job by the line: where it stands, what comes next, done, a reading
tommybar backup FILE           keep the shop, recipes, parts and jobs in one file
tommybar restore FILE          bring back what a backup holds
tommybar completion SHELL      what bash, zsh or fish needs to complete these words
tommybar man                   the manual page, for `man`
tommybar COMMAND --help        more about a command
tommybar --changes [OPERATION] figures that moved between versions, by how much, and why
tommybar --keys                every key of the app, with the one thing it means
tommybar --version | --help

Options of the app:
  --shop FILE   the shop file to use
  --go TEXT     begin where a quick line leads: --go M10, --go "div 37"
  --light       the light look
  --mouse       let the mouse choose panes and operations, and scroll"""

COMMANDS = {
    "work": """tommybar work                             list the operations
tommybar work OPERATION                   say what an operation takes, with an example
tommybar work OPERATION name=value ...    answer

A value is typed as in the app, with quotes round one that holds blanks: 17, 17.5mm, 3/8, M10x1.25, angle="24d 30m".

  --inch, --mm   what a bare number is in, and what is shown (the shop's)
  --json         the answer as data: unrounded, in mm, degrees, rev/min, N; every caution
  --plain        without boxes or colour, for a screen reader
  --trouble      what goes wrong with this work, and what to check first
  --svg FILE     write the picture; --dxf FILE a scale strip or holes on a circle, in millimetres; - is stdout
  --force        write over a file that is there
  --set-up TEXT  how the work is held: "grip=20, stick_out=40, support=none"; also machine, held_by, rear, power,
                 tap_driven_by, reverse, off_centre
  --part FILE    take material, thread and diameter from a part file where they are not given; it says what it took
  --yes ID, --no ID   answer the question of a caution
  --shop FILE    the shop file to use

Figures go to stdout, cautions to stderr. Exit 0: answered. Exit 2: an input cannot be used; one line says which, and
what would be accepted.""",
    "check": """tommybar check FILE    every mistake of a recipe, a part or a shop file, one line each, with its line

A recipe without mistakes is then worked out for the shop.

  --shop FILE    the shop file to work it out for

Exit 0: no mistake. Exit 1: a step cannot be worked out for this shop. Exit 2: mistakes, or no such file.""",
    "part": """tommybar part FILE    the plan of a part file: what to lay out, how it is held, the steps, the minutes

  --why          under each step the rules that put it where it stands
  --json         the plan as data
  -o FILE        write the plan as a recipe too
  --svg FILE     write the drawing; --dxf FILE the section, in millimetres; - is stdout
  --force        write over a file that is there
  --shop FILE    the shop file to plan for

Exit 2: a mistake in the file, or a part that cannot be made here; one line names the feature and what would do.""",
    "sheet": """tommybar sheet JOB-NUMBER | NAME | FILE.toml    the setting card of a job, a recipe or a part's plan

Two sides of paper for each part: what to lay out, how the work is held, what to set, ticks, limits, and a place for
each reading.

  -o FILE        where to write it: .html prints from a browser, .pdf, or .txt for a line printer; - is stdout
                 (without it: an .html named after the title)
  --as FORMAT    html, pdf or text, where the name does not say it
  --full         behind the card the workings, the sources and every caution
  --a4, --letter the paper of a PDF (Letter with American words, else A4)
  --force        write over a file that is there
  --inch, --mm   the unit to show (the shop's)
  --shop FILE    the shop file to work a recipe or a part out for

Prints the name of the file written. Exit 2: it cannot be made or written; one line says why.""",
    "backup": """tommybar backup FILE    keep the shop file, your recipes, parts and jobs in one file

  --force        write over a file that is there

Each has a check sum in it, and it may be made while the app runs. Exit 2: nothing was written; one line says why.""",
    "restore": """tommybar restore FILE    bring back what a backup holds, here or on another machine

  --force        replace what is here already; a backup of that is kept first, and named

All of the file is checked before anything is replaced. Exit 2: nothing was changed; one line says why.""",
    "job": """tommybar job                  every job: its number, its state, where it stands
tommybar job start RECIPE     begin one
tommybar job where            the step in hand: what to do, what to set, what to measure
tommybar job next             what comes after it
tommybar job read             read the next thing that has to be read, and keep that it is read
tommybar job done             the line or step in hand is done
tommybar job back             take the last one back
tommybar job reading VALUE    keep a reading and say what it means; --turns N, --dial VALUE, --slide NAME tell the dial
tommybar job at PLACE         go to "line 12", "step 4", "hole 7 of line 12"
tommybar job cautions         the cautions of the step; yes ID, no ID answer one that asks
tommybar job note WORDS       keep words of your own

  --job NUMBER   the job meant (the one last worked on)
  --inch, --mm   what a bare number is in, and what is shown (the shop's)
  --anyway       go on past a measure that is not taken, or not in limits

One plain line for each thing, for a screen reader; the same jobs and rules as on the screen. Exit 2: one line says why.""",
    "completion": """tommybar completion bash|zsh|fish    print what the shell needs to complete the words of a line

bash, once for all:  tommybar completion bash >~/.local/share/bash-completion/completions/tommybar
zsh:                 eval "$(tommybar completion zsh)" in ~/.zshrc, behind compinit
fish:                tommybar completion fish >~/.config/fish/completions/tommybar.fish""",
    "man": """tommybar man    print the manual page, made from the declarations of the operations

To keep it:  mkdir -p ~/.local/share/man/man1 && tommybar man >~/.local/share/man/man1/tommybar.1""",
}
