# Reasons of the dosing rules. Values arrive ready for the reader: numbers with their unit, dates, names.

## Actions
action-up = One rung up
action-stay = Stay
action-hold = Hold
action-down = One rung down
action-switch = Change, not heavier
action-restart = Restart
action-teach = Teach
action-calibrate = Calibration set
action-leave-out = Left out
action-stop = Stop
action-out = Out
action-ask = Ask

## Progression
progress-form = On { $date } set { $set } ended at { $time } by form: { $fault }. A step up needs { $sets } seen sets of { $cap }.
progress-chose-to-stop = On { $date } the swimmer chose to stop set { $set } at { $time }.
progress-pain-ended = On { $date } set { $set } ended for pain at { $time }.
progress-pain-spoken = On { $date } pain was spoken around the session, so it does not count.
progress-hand-clock = On { $date } a hand-held clock stopped set { $set } at { $time }; its tolerance is { $tolerance }.
progress-device-clock = On { $date } set { $set } is said to have reached its cap of { $cap }, but the clock stopped at { $time }. A device is never more than { $tolerance } off.
progress-fault-left = On { $date } set { $set } reached the cap with a fault still there after the cue: { $fault }.
progress-missing-sets = On { $date } only { $done } of { $wanted } sets were done.
progress-other-rung = On { $date } { $used } was used instead of { $planned }, so the session does not count for either.
progress-incomplete = On { $date } set { $set } was cut off by kit or by being called away. The session says nothing, good or bad.
progress-unseen = On { $date } nobody looked near the end of set { $set }. An unseen cap proves nothing.
progress-pain-not-recorded = On { $date } the pain question was not answered for both shoulders. A missing answer is not a zero.
progress-planned-short = On { $date } the plan asked for fewer sets or a shorter cap. Such a session cannot qualify and takes nothing away.
progress-home = The session on { $date } was at home. Home sessions keep, they do not step up.
progress-before-water = The session on { $date } stood right before the water on an override and is not counted.
progress-qualified = The session on { $date } qualified; { $need } needed.
progress-counted = { $have } of { $need } qualifying sessions, the latest up to { $date }. A re-test of a timed hold differs by 30 s or more, so one more must confirm it.
progress-earned = Reached { $sets } seen sets of { $cap } on { $rung }; earned on { $date } ({ $need } qualifying needed).
progress-up = From { $from } to { $to }: one rung, no more.
progress-switch = From { $from } to { $to }: harder, not heavier.
progress-start-over = Start over: each set lasts as long as form does, and nothing is expected of the first times.
progress-new-rung = New rung. Each set lasts as long as form does.
progress-no-session = No timed session on this rung yet.
progress-step-too-big = First sets of the new rung ended early in { $sessions } sessions, the latest at { $first } (at least { $least } wanted). The step was too big: from { $from } back to { $to }. A rung between the two would help.
progress-too-big-lowest = First sets end early in { $sessions } sessions, the latest at { $first }, and there is no lower rung than { $from }. A person decides what comes before it.
progress-fall = Total time fell by { $share }, from { $before } to { $now }, twice in a row at the same rung. Ask about pain, tiredness and illness. No rung is taken away for it.
progress-plateau = No better total than { $best } of { $since } in { $sessions } sessions. Look at form, sleep, water load and the force of the band; change the variant, not the weight.
progress-no-up-after-pain = No step up before { $until }, after pain.
progress-no-up-now = Nothing steps up now.
progress-held = The step earned on { $date } is held. It is given at the first session that allows it, and lapses after { $weeks } weeks, a longer absence, or pain.
progress-lapsed-weeks = The step earned on { $date } was held too long and has lapsed; the swimmer qualifies again.
progress-lapsed-gap = The step earned on { $date } lapsed with the days away; the swimmer qualifies again.
progress-lapsed-pain = The step earned on { $date } lapsed with pain; the swimmer qualifies again.
progress-lapsed-short = The step earned on { $date } lapsed with a later session that fell short.
progress-enough-steps = At most { $most } exercises step up together. This one waits its turn.

## Ladder
step-top-of-ladder = { $rung } is the last rung of this ladder. Keep it with one or two sets.
step-too-young = { $rung } is for swimmers from { $age } years.
limit-locks-tag = A clinician's limit locks { $tag } until { $until }.
limit-no-sets = A clinician's limit allows no sets until { $until }.
limit-locks-exercise = A clinician's limit locks { $exercise } until { $until }.
rung-unknown = The record names the rung “{ $name }”, which this protocol does not have. Say which rung is meant.
tag-overhead = overhead work
tag-band = elastic resistance
tag-weight = hand weights
tag-closed-chain = weight on the hands
tag-end-range = work at the end of the range
tag-stretch = stretching
tag-ninety-ninety = elbow and shoulder at ninety degrees
tag-anchor = anchored bands

## Two arms
arms-both-must-qualify = This arm qualified, the other has not. Both must qualify; { $side } gates { $exercise }.
arms-apart = Mean set times differ between the arms, { $longer } against { $shorter } ({ $side } shorter), in { $sessions } sessions. Ask before anything steps up.

## Absence
absence-same-rung = { $days } days since the last loaded session: same rung, fewer sets.
absence-rungs-down = { $days } days since the last loaded session: from { $from } down to { $to }.
absence-as-new = { $days } days since the last loaded session: start again like a new swimmer, with a short screening first.
absence-back-swam = Last loaded session on { $last }; healthy and kept swimming.
absence-back-dry = Last loaded session on { $last }; no swimming in between, or nobody said.
absence-back-ill = Last loaded session on { $last }; ill in between.
absence-back-injured = Last loaded session on { $last }; injured in between.
absence-still-returning = Still returning after { $days } days away, until { $until }.
absence-reason-unknown = Nobody has recorded why the swimmer was away. Ask; until then the more careful line of the table is used.
absence-ask-heart = Ask about heart and breathing before the first set.
absence-water-first = Water first: swimming is built up again before dryland is.
absence-teach-once = Away for more than four weeks: shown once more, untimed, before it is timed.
absence-clinicians-word = A clinician has a word before the first session.

## Return from injury
return-two-lower = Week { $week } of the way back: two rungs lower, from { $from } to { $to }.
return-step-back = Pain on { $date } on the way back: one rung lower than { $from }. Tell the clinician.
back-from-out = First session since the shoulder was reopened on { $date }: two sets, one rung lower, this session only.
return-week = Week { $week } of the way back after an injury.
return-by-clinicians-plan = After a dislocation or an operation only the clinician's plan counts. The tool keeps it; it writes none.
return-needs-letter = Away { $days } days for an injury, and no letter of a licensed clinician is on record. Nothing is dosed until there is.

## Teaching and start
teach-not-signed-off = Not signed off yet: 20 s at tempo without a correction. Until then it is taught, not timed ({ $taught } of { $wanted } sessions so far).
teach-first-sessions = Taught { $taught } of { $wanted } times. The first sessions of an exercise are not timed to form loss.
teach-new-variant = A new variant is shown first: 20 s at tempo without a correction, before it is timed.
teach-again = More than eight weeks without this exercise: taught and signed off again before it is timed.
start-calibrate = Begin with one calibration set on { $rung }: { $shortest } to { $longest } in clean form decides, not the table.
start-not-written = No start is written for { $age } years. A person decides.
calibration-one-lower = The calibration set ended at { $time }; { $shortest } to { $longest } is wanted. One rung lower.
calibration-placed = The calibration set was held for { $time }: this is the rung to begin on.
alone-first-step = First step of this line: confirmed by itself.
alone-unseen = Rests on a set that nobody saw: confirmed by itself.
dose-plain = Plain dose: neither timed nor progressed.
sets-beginner = Beginner in the first weeks: two sets.
track-kept-small = Movement kept small: { $note } Ask about slipping every time.
growth-reduced = Week { $week } of the growth hold: fewer sets, a shorter cap and no steps up (the first { $weeks } weeks, and while pain is on record). Limbs are longer now: cue form more, and ask about pain every time.

## Offered or not
offer-support-arm = The support arm counts too: every shoulder that an exercise loads must be allowed.
offer-only-with-finding = Only where screening gave a reason.
stop-session = The session is stopped for today.
stop-all-shoulder = All shoulder exercises are stopped for today.
stop-exercise = This exercise is stopped for today.

## Season
season-deload-week = Week { $week } of the season is a deload week: fewer sets, a shorter cap, no steps up.
season-deload-planned = Planned deload until { $until }: fewer sets, a shorter cap, no steps up.
season-camp = Training camp until { $until }: two sets, no steps up.
season-taper = Taper until { $until }: two sets, no steps up.
season-meet-gap = Meet on { $meet }: nothing loaded within { $hours } hours of it. Days stand for hours, on the cautious side.
season-meet-last-week = Main meet on { $meet }, { $days } days away: one short set, one rung lower, this session only.
season-meet-two-weeks = Main meet on { $meet }, { $days } days away: two sets, shorter cap, no steps up.
season-meet-three-weeks = Main meet on { $meet }, { $days } days away: two sets, no steps up.
