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
page-action-up = One rung up
page-action-stay = Stay on the rung
page-action-hold = Hold
page-action-down = One rung down
page-action-switch = Harder, not heavier
page-action-restart = Restart
page-action-teach = Teach, untimed
page-action-calibrate = Calibration set
page-action-leave-out = Leave out for now
page-action-stop = Stopped today
page-action-out = Not given
page-action-ask = A person decides
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
error-to-people = To the swimmers

## Errors of the door

error-refused-title = That is not possible
error-refused-message = Nothing was recorded. It contradicts what is on record, or a rule that nobody may go past.
error-foreign-title = This form is not ours
error-foreign-message = Nothing was recorded. The form came from another site, or from a page that was open since before Cuffwright was last started. Load the page again and send it from there.
error-elsewhere-title = Asked under another name
error-elsewhere-message = Cuffwright answers on this machine only, under the address that it printed when it started.
error-slow-title = It took too long to arrive
error-slow-message = Nothing was recorded. Send it again.
error-not-loopback = { $address } is not an address of this machine alone.
error-not-loopback-hint = Serve on 127.0.0.1 or [::1]; for phones add --lan, which encrypts. Health data of minors do not cross a network in plain text.
error-certificate = There is no certificate to serve with: { $detail }.
error-certificate-hint = Look at the file that is named. Without --certificate the laptop makes its own.
error-bind = { $address } cannot be taken: { $detail }.
error-bind-hint = Another program may hold the port. Choose another one, or port 0 for any free one.

## Done

done-recorded = It is on record.
done-emergency = The sign is on record. Do what stands below now.
done-decided = The decision is on record, with the proposal and your reason.
done-together = Everything that was marked is confirmed.
done-session = The session is on record. What comes of it stands here and on each swimmer's page.
done-imported = The file is on record.
done-import-unchanged = Every row was on record already: 0 added.
done-corrected = The correction is on record; what it replaces is kept beside it.
done-taken-back = It is taken back; what stood there is kept, with your reason.
done-nothing-marked = No line was marked, so nothing was confirmed.

## Days

weekday-monday = Mon
weekday-tuesday = Tue
weekday-wednesday = Wed
weekday-thursday = Thu
weekday-friday = Fri
weekday-saturday = Sat
weekday-sunday = Sun

## The day

due-title = { $n ->
    [0] Nothing to close
    [one] One thing to close
   *[other] { $n } things to close
}
due-lede = { $day }. Each goes when the fact it asks for is on record, and only then.
due-nothing = Nothing is open.
due-jumps = What is open, and where on this page
due-waiting = { $n ->
    [one] 1 proposal to review
   *[other] { $n } proposals to review
}
due-to-settle = { $n ->
    [one] 1 record to settle
   *[other] { $n } records to settle
}
due-ahead = { $n ->
    [one] 1 more lies further ahead
   *[other] { $n } more lie further ahead
}
due-of-one = Open for this swimmer
due-kit = Inspect it; the last look was { $day }.
due-kit-never = Inspect it; nobody has written down a look yet.
stretch-late = Late
stretch-today = Today
stretch-tomorrow = Tomorrow
stretch-week = Later this week
stretch-ahead = Further ahead
tally-label = { $n ->
    [one] Both shoulders of 1 swimmer, counted
   *[other] Both shoulders of { $n } swimmers, counted
}

## Nothing on record yet

first-title = Begin with the roster
first-lede = Nothing is on record yet. Three steps lead to the first doses.
first-roster = Bring in the swimmers
first-roster-how = A spreadsheet as you keep it, CSV or XLSX, columns in any order: names and dates of birth are enough. You see every row before anything is stored.
first-roster-do = Bring in a roster
first-screening = Bring in consents and screening values, or write them down
first-screening-how = Nobody gets a dose before the papers are there. What is missing stands on the first page, with the form that closes it.
first-session = Teach, sign off, write down sessions
first-session-how = From the first timed set on, every next dose is proposed with its reason, and you confirm it or decide otherwise.
first-demo = To look around first, start the invented club:
first-rules = Or read the rules and where each number comes from

## People

people-lede = { $n ->
    [one] 1 swimmer. Each shoulder stands for itself: left on the left, right on the right.
   *[other] { $n } swimmers. Each shoulder stands for itself: left on the left, right on the right.
}
people-nobody = Nobody fits this search.
filter-squad = Squad
filter-state = Availability
filter-track = Track
track-youth = Under 14
track-hypermobile = Hypermobile
track-growth = Growth hold
track-return = Way back
track-newcomer = Newcomer
person-unnamed = Swimmer without a name
person-born = born { $year }
person-club-number = no. { $number }
limit-in-force = Limit signed by { $name }, until { $until }.

## One swimmer

person-lede = { $apart }; { $age } years. { $open ->
    [0] Nothing is open.
    [one] One thing is open.
   *[other] { $open } things are open.
}
person-due = To close
person-next-heading = Next session
person-next-none = No timed set is proposed.
person-next = { $name }, next session
person-on = Look at another day
person-other-day = This is how it stands for { $day }.
person-to-today = Back to today
shoulder-both = Both shoulders
shoulder-person = The whole person
quick-pain = Record pain or a sign
quick-other = Record something else
questions-open = Today's three questions have no answer yet. Nobody starts without them.
holds-heading = What holds back
hold-ends = It ends by { $by }.
hold-review = Look again on { $date }.
tracks-heading = Tracks, limits, remarks
track-return-week = week { $week }.
limit-locks = Locked: { $what }.
limit-sets = { $n ->
    [one] At most 1 set.
   *[other] At most { $n } sets.
}
limit-cap = No set longer than { $cap } s.
limit-pain = Covers one-sided pain up to { $pain }.
water-written = { $advice } ({ $by }, { $day })
ring-contact = { $name }, { $relation }:
ring-nobody = No contact is on record.
ring-practitioner = Practitioner { $name }:
ring-note = Emergency card: { $note }
settle-heading = To settle
settle-unreadable = One record cannot be read and is not used ({ $kind }).
settle-contested = { $n ->
    [one] One record stands against another correction of the same fact; the more cautious reading is used.
   *[other] { $n } records stand against other corrections of the same fact; the more cautious reading is used.
}
settle-look = Look at it
not-given = { $n ->
    [one] Not given: 1 line
   *[other] Not given: { $n } lines
}
teach-lines = { $n ->
    [one] To be taught, untimed: 1 line
   *[other] To be taught, untimed: { $n } lines
}
teach-caption = Taught, not timed, until signed off
teach-taught = Taught
teach-sign-off = Signed off
col-record = Record
not-given-caption = Not given next session
rung-used-instead = { $used } used, { $planned } planned
context-after-practice = after practice
context-rested = rested
context-home = at home
tempo-beat = { $out } s out, { $back } s back
tempo-beat-held = { $out } s out, { $hold } s held, { $back } s back
tempo-hold = held still
tempo-circles = circles, turned every { $every } s
decide-nothing = Give nothing
decide-rung = Rung { $rung }
decide-sets = Sets, if fewer
decide-sets-same = as proposed
decide-cap = Longest set in seconds, if shorter

## On record

past-heading = On record
past-sessions = Sessions
past-pain = Pain and signs
past-decisions = Decisions
past-growth = Growth
past-screenings = Last screening
past-screening = Last screening
past-all-facts = Every fact as it was written down
past-more = { $n ->
    [one] 1 earlier session
   *[other] { $n } earlier sessions
}
decision-confirmed = confirmed: { $rung }
decision-overridden = decided otherwise: { $decided } instead of { $proposed }. { $reason }
screening-caption = Screening of { $day }, tested by { $tester }
screening-not-tested = not tested: { $reason }
screening-refused = did not want to
screening-pain = stopped for pain
screening-unusual = outside the usual
screening-usual-note = “Usual” catches slips of the pen. It is no norm and says nothing about anybody's health.
col-day = Day
col-when = When
col-signs = Signs
col-line = Line
col-decided = Decided
col-by = By
col-height = Height, cm
col-sitting = Sitting, cm
col-mass = Mass, kg
col-measure = Value
col-whole = Whole
col-unit = Unit
col-usual = Usual
col-exercise = Exercise
col-side = Side
col-what = What
col-why = Why
col-kind = Kind
col-content = Content
col-field = Field
col-value = Value

## Facts

facts-title = { $name }: facts
facts-lede = Every fact as it was written down. None is ever changed; what replaces one names it and says why.
facts-caption = Facts that hold, newest first
facts-back = Back to the swimmer
facts-all = All facts of this swimmer
fact-title = { $kind }: { $name }
fact-caption = As it was written down
fact-written = Written by { $by } on { $device }, { $when }.
fact-corrects = This is a correction: { $reason }
fact-contested = contested
fact-contested-do = Two corrections of one fact hold. Take back the one that is wrong; until then the more cautious reading is used.
fact-why = Why
fact-take-back = Take it back
fact-take-back-how = For what should never have been written: another swimmer, another day, a slip. It stops to hold; it stays on record with your reason.
fact-take-back-do = Take it back
fact-only-swimmer = This is the only record of who the swimmer is. Correct it by the roster; do not take it back.
fact-kind-swimmer = Who the swimmer is
fact-kind-session = Session
fact-kind-set = Set
fact-kind-decision = Decision
fact-kind-club = Club
fact-kind-practice = Water practice
fact-kind-season = Season
fact-kind-period = Period
fact-kind-meet = Meet
fact-kind-kit-piece = Piece of kit
fact-kind-inspection = Inspection
set-correct = Put this set right
set-seconds = Seconds
set-end = Ended by
set-fault = Fault
set-seen-ask = Seen?
set-seen-unsaid = not said
set-seen = seen
set-unseen = not seen
set-end-cap = the cap
set-end-form = form
set-end-chose = chose to stop
set-end-pain = pain
set-end-kit = kit
set-end-left = called away

## Recording

record-title = { $what }: { $name }
record-refused = Something is missing or cannot be; it stands below. What you typed is still there.
record-submit = Record it
record-leave = Leave it
record-heading = Record
record-put-right = Put a fact right, or take it back
record-pain = Pain or a sign
record-pain-lede = As it was spoken or seen. A shoulder that was not asked about stays “not asked”: that is not a zero.
record-guardian = Guardian told
record-guardian-lede = Who told the guardian, and on which day.
record-water = Water advice
record-water-lede = What is allowed in the water, in plain words for the coach. Out of dryland says nothing about the water by itself.
record-reopening = End of “out today”
record-reopening-lede = You confirm that this shoulder takes part again. “Out, referred” is ended by a licensed clinician's letter and never here.
record-talk = A talk took place
record-talk-lede = That it took place and what had asked for it. What was said stays between you.
record-illness = Illness
record-illness-lede = With fever nobody trains; two days without symptoms come first.
record-absence = Absence
record-absence-lede = Why, and whether there was swimming meanwhile. The next dose depends on it.
record-ban = Told not to train
record-ban-lede = By a doctor or a guardian. It holds until its last day.
record-referral = Referral
record-referral-lede = That the letter is written. Out until an answer comes.
record-answer = Answer to a referral
record-answer-lede = That an answer came, and when. What may be done again stands in a clearance or a limit, which is its own record.
record-clearance = Clearance
record-clearance-lede = A licensed clinician's letter and nothing else: name, licence number, and a licence valid on that day.
record-limit = Signed limit
record-limit-lede = What a licensed clinician allows and locks. Refused without a licence valid on the day it was signed.
record-taught = Exercise taught
record-taught-lede = Untimed, short sets. Nothing is timed before the exercise is signed off.
record-sign-off = Exercise signed off
record-sign-off-lede = 20 s at tempo without one correction. From here on sets may be timed.
record-growth = Growth measure
record-growth-lede = The mean of two readings where two were taken.
record-screening = Screening
record-screening-lede = A number, or in words why there is none: “pain”, “refused”, or the reason it was not tested. Empty means nobody tried.
record-water-week = Kilometres in a week
record-water-week-lede = Swum distance from Monday to Sunday.
record-consent = Consent
record-consent-lede = As signed on paper: each item for itself. What is not ticked was refused or not asked.
record-withdrawal = Consent taken back
record-withdrawal-lede = Acts from that day on. The newest consent is the one that is taken back.
record-intake = Intake questions
record-intake-lede = A question that was not answered stays open; it is never read as a no.
reason-answer-came = The answer came.
reason-taken-back = Consent was taken back.
answer-of = { $side }, letter of { $day }

choice-choose = Choose
choice-none = none
choice-yes = Yes
choice-no = No
choice-unknown = Not answered
choice-side-unknown = Not known, or not of one side
pain-not-asked = not asked
pain-when-before = before a session
pain-when-during = during a set
pain-when-during-of = during { $exercise }
pain-when-after = after a session
pain-when-next-morning = the next morning
pain-when-follow-up = a later follow-up
pain-when-other = at another time
pain-kind-unstated = not said (read as joint or one side)
pain-kind-joint = in the joint, or on one side
pain-kind-ache = muscle ache on both sides
absence-healthy = healthy: holiday, school, travel
absence-illness = ill
absence-injury = injured
injury-none = no injury, only the question
injury-dislocation = dislocation
injury-operation = operation
injury-other = another injury
signs-emergency = Emergency: stop everything
signs-same-day = To be seen the same day
signs-within-a-week = To be seen within a week
signs-talk = Worth a talk
consent-needed = Without these nobody takes part
consent-asked-apart = Asked apart

ask-date = Day
ask-by = Who
ask-pain-when = When it was spoken
ask-pain-left = Left shoulder, 0 to 10
ask-pain-right = Right shoulder, 0 to 10
ask-pain-kind = Kind of pain
ask-pain-kind-hint = When in doubt leave it at “not said”: that is the more careful reading.
ask-pain-exercise = Exercise, if it was during a set
ask-signs = Signs, reported or seen
ask-sign-side = Shoulder of the signs
ask-sign-side-hint = Signs without a side hold both shoulders.
ask-pain-asked = How it was asked
ask-pain-asked-hint = For instance alone, by fingers, in front of the others.
ask-first-day = First day
ask-last-day = Last day
ask-open-end = Empty while it goes on.
ask-fever = Fever
ask-bed-days = Days in bed
ask-symptom-free = First day without symptoms
ask-symptom-free-hint = Empty while there are any.
ask-first-day-away = First day away
ask-last-day-away = Last day away
ask-absence-why = Why
ask-kept-swimming = Kept swimming meanwhile
ask-who-said = Who said so
ask-letter-day = Day of the letter
ask-shoulder = Shoulder
ask-urgency = How soon
ask-which-letter = Which letter
ask-answer-day = Day the answer came
ask-clinician = Clinician's name
ask-licence = Licence number
ask-licence-until = Licence valid until
ask-injury = What had been injured
ask-daily-life = No pain in daily life
ask-range-gap = Largest difference of range to the other side, degrees
ask-strength-share = External rotation strength, % of the other side
ask-half-water = Weeks at half the usual water without pain
ask-signed = Day signed
ask-locked-tags = Locked kinds of work
ask-locked-exercises = Locked exercises
ask-most-sets = Most sets
ask-longest-set = Longest set, seconds
ask-covered-pain = One-sided pain the limit covers
ask-covered-pain-hint = “Not asked” means that it covers none.
ask-clinicians-words = What the clinician wrote
ask-exercise = Exercise
ask-height = Height, cm
ask-sitting-height = Sitting height, cm
ask-mass = Body mass, kg
ask-unusual = Unusual values are meant
ask-unusual-hint = Tick it only after looking at the number once more.
ask-tester = Tester
ask-measure = { $what }, { $side } ({ $unit })
ask-measure-whole = { $what } ({ $unit })
ask-hollow = A hollow was seen behind
ask-monday = Monday of the week
ask-km = Kilometres
ask-signer = Who signed
ask-relation = Relation to the swimmer
ask-relation-hint = Write “self” for an adult's own signature.
ask-granted = Granted
ask-granted-hint = Nothing is ticked for anybody.
ask-text-version = Version of the text
ask-pain-12-months = Shoulder pain in the last 12 months
ask-dislocation = A shoulder that came out or slipped, ever
ask-operation = A shoulder operation, ever
ask-signs-asked = Every question about signs was asked and answered
ask-signs-asked-hint = Without this the list of signs counts as not asked.
ask-advice = What is allowed in the water
ask-advice-hint = Plain words, no reasons: this is what the coach reads.
ask-talk-about = What had asked for it
ask-sound = Is it sound?

take-needed = This is needed.
take-future = This day lies ahead. Only what has happened can be on record.
take-not-a-day = This is not a day. Write it as 2026-03-09.
take-not-a-number = This is not a number.
take-not-whole = This is not a whole number.
take-not-a-choice = This is not one of the choices.
take-not-monday = This day is not a Monday.
take-nothing-said = Give a number for at least one shoulder, or tick a sign. If nobody was asked there is nothing to record.
take-nothing-measured = No value is given, and no reason for a missing one.
take-no-letter = No referral waits for this answer.
take-answer-early = The answer cannot come before the letter.
take-no-consent = No consent is on record that could be taken back.
take-unusual = Unusual for { $what }, which mostly lies between { $low } and { $high } { $unit }. If it is right, tick the box at the end.

## Review

review-title = Proposals to review
review-lede = For { $day }: { $alone ->
    [0] none by itself
    [one] one by itself
   *[other] { $alone } by themselves
}, { $together ->
    [0] none to accept together.
    [one] one that may be accepted with others.
   *[other] { $together } that may be accepted together.
}
review-alone = Each by itself
review-alone-why = A first step, an unseen set, pain within 14 days, under 14, hypermobile, or a question that no rule answers.
review-together = May be accepted together
review-together-why = Nothing is marked for you. Open “Why?” where you doubt, leave unmarked what you want to decide by itself.
review-mark-all = { $n ->
    [one] Mark the one
   *[other] Mark all { $n }
}
review-mark-none = Mark none
review-confirm-marked = Confirm what is marked
review-to-line = Decide by itself
review-none = No proposal is waiting. The next ones come with the next session on record.
review-none-do = To the swimmers

## Session by hand

spot-session = Write down a session
session-title = Write down a session
session-lede-who = First the day, the place, and who was there. Nothing is recorded yet.
session-lede-sets = Then the answers and the sets of each. A row left empty is a set that was not done. All of it is stored, or nothing.
session-who = Who was there
session-all = Everybody
session-to-sets = To the sets
session-submit = Record the session
session-questions = The three questions, and pain afterwards
session-before-left = Before, left
session-before-right = Before, right
session-after-left = After, left
session-after-right = After, right
session-effort = Last effort, 0-10
session-new = Anything new since last time?
session-nothing-new = no
session-something-new = yes: asked about next
session-used = Rung really used
session-nothing-planned = No timed set was planned for this swimmer.
session-nobody = Nobody of those named is on record.
session-plan-changed = What was planned has changed since this page was shown. Load the page again.
session-place = { $name }, { $exercise }, { $side }, set { $set }
ask-session-day = Day of the session
ask-session-context = Where it stood
ask-before-water = Right before the water, by whose decision and why
ask-before-water-hint = Leave empty otherwise. Such a session is kept and does not count.

## Kit

kit-lede = Every piece, what it loads, and when it was looked at. A band is known by its measured force.
kit-none = No kit is on record.
kit-none-do = Bring in a list of kit
kit-band = Band
kit-weight = Hand weight
kit-ball = Ball
kit-mat = Mat
kit-anchor = Anchor
kit-other = Other
kit-force = { $force } at double length
kit-length = { $length } m at rest
kit-pieces = { $n ->
    [one] 1 piece
   *[other] { $n } pieces
}
kit-since = since { $day }
kit-latex = contains latex
kit-no-latex = free of latex
kit-latex-unknown = latex not known, so counted as yes
kit-never = Nobody has written down a look yet.
kit-sound = Sound on { $day } ({ $by }). Look again by { $next }.
kit-unsound = Not sound on { $day } ({ $by }): out of use.
kit-withdrawn = Withdrawn on { $day }: { $why }
kit-look = Write down a look at { $mark }
kit-is-sound = Sound
kit-is-not-sound = Not sound: out of use

## Rules

spot-exercises = Exercises
spot-sources = Sources
rules-lede = Every rule and every number the tool uses, what a club may change, and how firm the ground under it is.
rules-families = Families of rules
rules-parameters = Numbers
rules-all = All rules
family-papers = Consent and papers
family-signs = Urgent signs
family-pain = Pain
family-screening = Screening findings
family-growth = Growth and age
family-laxity = Lax joints
family-teaching = Teaching
family-dose = Dose
family-progression = Progression
family-absence = Absence
family-return = Return from injury
family-season = Season
family-water = Water
ground-heading = How firm the ground is
ground-revision = revision { $revision }
ground-words = No trial has shown that this programme, or any other, prevents shoulder injury in swimmers. What is published is marked; most of the rest is how the trade works, and some of it has no source at all.
ground-count = { $parameters ->
    [one] 1 number
   *[other] { $parameters } numbers
}, { $notes ->
    [one] 1 sentence about an exercise
   *[other] { $notes } sentences about exercises
}
strength-published = published
strength-computed = computed from published numbers
strength-from-memory = published, from memory, not verified
strength-core = core practice, no trial behind it
strength-common = common practice, no source
rule-title = { $code }: { $name }
rule-checks = What it checks, and what follows
rule-matters = Why it matters
rule-except = When it does not apply
rule-example = Example
rule-ground = Strength of evidence
rule-source = Source
rule-parameters = Numbers it reads
sources-lede = What the marks “published” rest on, and how much of each source was seen.
source-seen = Seen: { $seen }
exercises-lede = What is done, how, on which ladder, and what ends a set.
exercises-all = All exercises
group-cuff = Rotator cuff
group-scapula = Shoulder blade
group-trunk = Trunk
group-mobility = Mobility, only with a finding
group-balance = Balance
arms-one = One arm at a time: left and right are dosed apart, and the weaker gates.
arms-both = Both arms together.
arms-midline = No arm works: held on the midline.
exercise-cautions = Cautions
exercise-arms = Arms
exercise-kit = Kit
exercise-set-up = Start
exercise-movement = Movement
exercise-errors = Usual errors
exercise-tempo = Tempo
exercise-dose = Dose
exercise-cap = Longest set
exercise-cap-s = { $cap } s
exercise-tags = Kinds of work
exercise-evidence = What is known
exercise-ladder = Ladder, easiest first
exercise-faults = Faults that end a set, the frequent ones first
rung-not-heavier = Harder, not heavier.
rung-from-age = From { $age } years.
col-parameter = Number
col-allowed = A club may set
col-ground = Ground
col-rules = Read by
col-level = Level
col-rung = Rung
col-name = Name in the file
col-notes = Remarks
col-fault = Fault
col-seen-as = What one sees
col-cue = What to say once

## Who the club is

first-club = Say who the club is
first-club-how = Name, who answers for the shoulders, units, time zone.
first-club-do = Describe the club
club-title = The club
club-lede = Asked once. Dates, units and the names on letters follow from it.
club-name = Name of the club
club-practitioner = Practitioner who answers for the squad
club-phone = Telephone of the practitioner
club-zone = Time zone
club-zone-hint = By its name, for instance Europe/Lisbon.
club-zone-unknown = This time zone is not known.
club-units = Units
club-metric = kg, cm, N
club-imperial = lb, in, lbf
club-reason = The club's description changed.

## Bringing in a file

bring-title = Bring in a file
bring-lede = A spreadsheet as you keep it. You see every row, every problem and every change before anything is stored.
bring-file = File
bring-file-hint = CSV or XLSX, up to 24 MB, columns in any order.
bring-kind = What it lists
bring-kind-detect = Tell by its headers
bring-kind-roster = Swimmers
bring-kind-screening = Screening values
bring-kind-kit = Kit
bring-kind-sets = Past set times
bring-dates = Order of dates
bring-dates-detect = Tell by the file
bring-dates-dmy = Day first: 31.12.2026
bring-dates-mdy = Month first: 12/31/2026
bring-dates-hint = Choose it where days and months cannot be told apart. Nothing is guessed.
bring-context = Where the sessions were held
bring-context-detect = The list says so
bring-context-hint = For past set times only. Only like is compared with like, so nothing is assumed.
bring-look = Look at it first
bring-look-again = Look again
bring-otherwise = Read it otherwise
bring-other-file = Another file
bring-no-file = Choose a file first.
bring-gone = The file is no longer held. Choose it again; nothing was stored.
bring-refused = Nothing was stored. What is in the way stands below.
bring-preview = { $name }: what it would change
bring-unreadable = The file cannot be read as a list. Nothing was stored.
bring-counts = { $kind }: { $rows ->
    [one] 1 row
   *[other] { $rows } rows
}. It would add { $added ->
    [one] 1 fact
   *[other] { $added } facts
}, correct { $corrected }, and leave { $unchanged } as they are. Nothing is stored yet.
bring-blocked = { $n ->
    [one] One problem is in the way. Mend it in the file and bring it in again: all rows are stored or none.
   *[other] { $n } problems are in the way. Mend them in the file and bring it in again: all rows are stored or none.
}
bring-nothing-new = Every row is on record already.
bring-confirm-nothing = Confirm: 0 added
bring-confirm = { $n ->
    [one] Store it: 1 fact
   *[other] Store it: { $n } facts
}
bring-unusual-first = Unusual values stand above. Tick the box if they are meant.
bring-whole-file = the file
bring-weight-blocks = In the way
bring-weight-ask = Unusual
bring-weight-note = Note
bring-more = { $n ->
    [one] 1 more is not shown.
   *[other] { $n } more are not shown.
}
bring-rows = Row by row
bring-row-blocked = in the way
bring-row-corrects = corrects what is on record
bring-row-adds = adds
bring-row-unchanged = on record already
bring-row-nothing = says nothing to record
bring-corrections = What would be corrected
col-row = Row
col-column = Column
col-problem = Problem
col-suggestion = Suggestion
col-about = About
col-outcome = Outcome
col-before = Before
col-after = After
