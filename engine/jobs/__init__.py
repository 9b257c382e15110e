"""Recipes and jobs: a plan of steps, worked out for a shop, carried through and kept.

    recipe.py     read a recipe's text: every mistake at once, with its line (`read`, `read_file`)
    library.py    the recipes that ship and the person's own (`shelf`, `load`), and adding a step (`with_step`)
    run.py        `resolve(recipe, shop, told=...)`: every step's answer for this shop, as WorkedStep
    journal.py    Journal: start, done, back, move, measured, corrected, answered, acknowledged, history
    progress.py   what the journal returns: Progress (place, readings, told), Reading, Event, JobLine
    wording.py    figures named in the words of a step
    places.py     Place (step and row), and the way from one to the next
    measuring.py  `judge` a reading by its limits, and say so in `sentences`
    slides.py     `dial_move`: how far to turn which handwheel; `dial_position` from turns and dial
    cuts.py       `plan_cuts` after two readings with their dial settings, in `plan_words`
    svg.py        a picture at its true size
    ledger.py     a second record beside the file, a line for each entry; mending.py puts back from it what a disk lost
    pieces.py     several pieces in one job: whose steps, in which order, how many are finished
    holdings.py   what is found out before the work is let go; the clock and the allowance left
    aims.py       where in the limits a cut ends; trials.py what a trial with the mate says; mates.py the mate's readings
    springs.py    what a slide's tool really takes, kept for the lathe; compare.py what came out against what was planned
    store.py      the SQLite file itself: opening, setting a damaged one aside, what a disk refuses
    snapshot.py   a shop kept with its job
    sheet.py      the job as one page to print

Going on with a job: `job = journal.open(number)`, `recipe.read(job.recipe_text, Path(job.recipe_name))`,
`resolve(that, job.shop, told=job.progress.told)`; then `journal.done(number, since=progress.seq)` for every press
of the space bar. A move that another program has overtaken raises MovedOn, whose `progress` is the new state; what
cannot be saved raises NotSaved. Both are one sentence.
"""
