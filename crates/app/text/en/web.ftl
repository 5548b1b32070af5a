# Words of the browser pages: shell, building blocks, headings, labels, errors.
# Sentences of rules and reasons live with their own areas, not here.

## Shell

site-name = Cuffwright
page-title = { $title } · Cuffwright
skip-to-main = Skip to the page
nav-places = Places
nav-within = In { $place }
place-due = Due
place-deck = Deck
place-people = People
place-week = Week
place-kit = Kit
place-year = Year
place-rules = Rules
spot-due = To close
spot-review = Review
spot-people = Swimmers
spot-import = Import

## Cautions, on every page

cautions-heading = Before anybody trains by this
caution-aim = Endurance work for the shoulder may help. In swimmers nobody has shown that it prevents injury, and sets this long lie outside the ranges that youth consensus papers describe.
caution-uninjured = For uninjured swimmers only. Pain stops the set.
caution-water = After the water or hours before it, never right before swimming.
caution-band = Inspect every band before each use, and look away from the line of pull.
caution-adult = Adolescents train under qualified supervision.
caution-log = This supports decisions and keeps a log. It diagnoses nothing and clears nobody: local rules and licensed practice come first.

## Shoulders

shoulder-left = Left shoulder
shoulder-right = Right shoulder
shoulder-left-short = Left
shoulder-right-short = Right
working-both = Both arms
working-midline = Trunk
shoulders-of = Both shoulders of { $name }
availability-full = full
availability-limited = limited
availability-not-yet = not yet
availability-out-today = out today
availability-out-referred = out, referred
availability-review = look again { $date }
availability-key = What the marks say
availability-full-means = takes part in everything
availability-limited-means = takes part within limits that a clinician wrote and signed, or that a rule sets
availability-not-yet-means = a paper, an answer or a measurement is missing
availability-out-today-means = out of shoulder work; a rule may propose the end, a person confirms it
availability-out-referred-means = out until a licensed clinician ends it
water-label = Water
water-undecided = not decided, ask { $name }

## Ropes

rope-sets = { $shoulder }, { $exercise }, { $when }
rope-set-name = Set { $number }, drawn as a rope
rope-held = { $seconds } s
rope-short-cap = of { $cap }
rope-end-cap-seen = to the cap, seen
rope-end-cap-unseen = to the cap, not seen
rope-end-form = form: { $fault }
rope-end-chose = chose to stop
rope-end-pain = pain
rope-end-kit = kit
rope-end-called = called away
rope-fault-left = at the cap still: { $fault }
rope-drawn-held = { $floats ->
    [one] One float, one for each 10 s of the cap; { $held } filled.
   *[other] { $floats } floats, one for each 10 s of the cap; { $held } filled.
}
rope-drawn-unseen = { $floats ->
    [one] One float with a dashed outline, not filled: nobody looked near the end.
   *[other] { $floats } floats with dashed outlines, none filled: nobody looked near the end.
}
rope-mark-cap-seen = A bar closes the rope, with an eye above it.
rope-mark-cap-unseen = A dashed bar closes the rope.
rope-mark-form = An open angle marks where form was lost.
rope-mark-chose = A hollow square marks where the swimmer chose to stop.
rope-mark-pain = A filled octagon marks where pain stopped the set.
rope-mark-kit = A broken ring marks where the kit stopped the set.
rope-mark-called = An arrow marks where the swimmer was called away.
rope-key = How to read a rope
rope-key-floats = One float for each 10 s of the cap, filled as far as form held. A shorter cap has fewer floats.
rope-none = No set on record

## Counts, reasons, proposals

count-of = { $have } of { $need }
count-sessions = { $need ->
    [one] session that counts
   *[other] sessions that count
}
why = Why?
why-rule-link = Rule { $code }
why-source = Source: { $source }
why-strength-published = published
why-strength-core = core practice, no trial behind it
why-strength-common = common practice, no source
why-strength-house = our own decision, for safety or privacy
trace-heading = Reasons, the weightiest first
action-up = One rung up
action-stay = Stay on the rung
action-hold = Hold
action-down = One rung down
action-switch = Harder, not heavier
action-restart = Restart
action-teach = Teach, untimed
action-calibrate = Calibration set
action-leave-out = Leave out for now
action-stop = Stopped today
action-out = Not given
action-ask = A person decides
dose-sets-cap = { $sets } × { $cap } s
dose-rung = rung { $rung }
dose-rung-change = rung { $from } to { $to }
dose-rest = rest { $rest } s
dose-untimed = untimed

## Decisions

decide-open = Decide: { $about }
decide-heading = Your decision
decide-confirm = Confirm the proposal
decide-override = Decide otherwise
decide-instead = Instead
decide-reason = Reason
decide-reason-hint = Needed when you decide otherwise. Kept with your name and the date.
decide-submit = Record the decision
decide-alone = This one is confirmed by itself, never with others.

## Lists, tables, search

list-people = { $n ->
    [one] 1 person
   *[other] { $n } people
}
list-problems = { $n ->
    [one] 1 problem
   *[other] { $n } problems
}
problem-hint = Try: { $hint }
paging = Pages
paging-previous = Previous page
paging-next = Next page
paging-where = Page { $page } of { $pages }
search-label = Name
search-submit = Show
search-clear = Show everybody
filter-any = any

## Due

due-late = { $days ->
    [one] late by 1 day
   *[other] late by { $days } days
}
due-today = today
due-tomorrow = tomorrow
due-owner = For { $owner }
due-close = Close it
owner-practitioner = the practitioner
owner-clinician = a licensed clinician
owner-supervisor = the supervisor
owner-administrator = the administrator

## Outcomes

outcome-done = Recorded
outcome-unchanged = Nothing changed
outcome-refused = Not recorded
outcome-ask = Please confirm

## Errors

error-input-title = That could not be read
error-input-message = Nothing was recorded. What is wrong stands below.
error-missing-title = Not on record
error-missing-message = There is nothing at this address. It may have been renamed, erased, or mistyped.
error-method-title = Not done this way
error-method-message = This address does not take that kind of request. Nothing was recorded.
error-conflict-title = Somebody was faster
error-conflict-message = The record has changed since this page was shown. Nothing was recorded; look again and decide on what stands there now.
error-large-title = The file is too large
error-large-message = Nothing was recorded. Send it in parts, or take out what is not needed.
error-storage-title = The record cannot be reached
error-storage-message = Nothing was recorded. The file of records is busy, full or missing; try again, and if it stays like this look at the window where Cuffwright was started.
error-defect-title = A fault in Cuffwright
error-defect-message = Nothing was recorded. The fault is ours, not yours, and it has been written down.
error-reference = Quote this when you report it: { $reference }
error-status = Status { $status }
error-on-heading = From here
error-back = Back to where you were
error-to-due = To what is due
error-to-people = To the swimmers
