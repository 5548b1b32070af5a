# Whom to ask, the weekly check, and the water of a week.

## Whom to ask

ask-title = Whom to ask this week
ask-lede = Reasons to talk, the one that waits least well first. The order is by kind of reason, then by day and name; nobody is scored, and a reason is no finding.
ask-nobody = Nothing on record asks for a talk.
ask-below = { $n } more below the fold
ask-word = Ask:
ask-talked = Talked
ask-talked-of = Talked with { $name }
ask-saw-substantial = The weekly check of { $date } says that the { $side } shoulder cost training or performance ({ $points } of 100).
ask-saw-stays = The { $side } shoulder was at { $before } and is at { $now } of 100 in the weekly check of { $date }.
ask-saw-hidden-pain = { $exercise } fell by { $share } in two sessions, and all { $answers } answers about pain in four weeks were zero.
ask-saw-one-arm = The { $side } arm was left out or stopped by choice in { $sessions } sessions of four weeks, last on { $date }; the other never was.
ask-saw-times-moved = { $exercise }, { $side }: { $before } s before, { $since } s since { $date }; { $sessions } sessions on this rung.
ask-saw-water-moved = Kilometres a week: { $before } before, { $since } since the week of { $date }.
ask-saw-silence = No weekly check since { $date }, while others answered.
ask-substantial = what could you not do, since when, and what eases it? Contact within two days; then decide about the water.
ask-hidden-pain = how do the sets feel compared with a few weeks ago, how do you sleep, and would you tell me if it hurt a little? Alone, without the coach.
ask-one-arm = why did you stop that side, and what does it feel like when you go on?
ask-stays-or-grows = what makes it come back, and which sets or strokes do you leave out?
ask-drift = what has been different since then: sleep, school, illness, another sport?
ask-water = was the week planned like that, how did the shoulders take it, and what comes next week? With the coach as well.
ask-silence = is everything all right, and what would make the check easier to answer?

## The weekly check

weekly-title = Weekly check
weekly-lede = Four short questions a shoulder, in our own words. Who answers is counted before what was answered.
weekly-link = Weekly check
weekly-answered = { $n } of { $of } have answered since { $from }.
weekly-problems = { $problem } of { $n } who answered have some shoulder problem, { $substantial } a substantial one. That is what was said, not what is.
weekly-too-few = Under { $needed } % have answered, so the week's numbers are not shown: those who answer are not like those who do not.
weekly-table = The squad this week
weekly-enter = enter from paper
weekly-from-paper = Enter from paper, one after the other
weekly-form = Blank form to print
weekly-rule = Scored 0 to 100 by the rule of a published overuse questionnaire as updated in 2020. The wording is ours, so its numbers are not compared with published ones.
col-answered = Answered
record-weekly = Weekly check
check-title = Weekly check of { $name }
check-lede = About the last seven days. If the first answer is the first or the last one, the others need no tick.
check-part = Training this week, as far as this shoulder goes
check-part-0 = I swam everything and never noticed it
check-part-1 = I swam everything but noticed it
check-part-2 = I left things out because of it
check-part-3 = I did not swim because of it
check-less = How much did you leave out or change because of it?
check-less-0 = nothing
check-less-1 = a little
check-less-2 = a good part
check-less-3 = most of it
check-swim = How much slower or less tidy was your swimming because of it?
check-swim-0 = not at all
check-swim-1 = a little
check-swim-2 = clearly
check-swim-3 = a lot
check-felt = How much did it bother you, in the water or out of it?
check-felt-0 = not at all
check-felt-1 = a little
check-felt-2 = clearly
check-felt-3 = a lot
check-pain-left = Worst pain this week, left
check-pain-right = Worst pain this week, right
check-needed = After the answer above this one is needed.
check-nothing = Answer for at least one shoulder.
check-submit-next = Record, and on to the next
check-table = Checks on record, 0 to 100
check-substantial = substantial

## Water

water-title = Water of { $name }
water-link = Water, week by week
water-lede = Kilometres, effort and the change of a week. No ratio of this week to the month: its evidence does not hold, and no zone is called safe.
water-nothing = No week has been written down.
water-table = The last ten weeks
water-gap = nobody wrote it down
water-enter-week = Write down a week
water-enter-session = Write down a practice
water-daily-off = Single practices are not written down in this club.
water-daily-where = Change that
load-week-alone = Week of { $from }: { $km } km. Without all three weeks before it no change is said.
load-week-more = Week of { $from }: { $km } km, { $more } km ({ $share }) more than the mean of the three weeks before.
load-week-less = Week of { $from }: { $km } km, { $more } km ({ $share }) less than the mean of the three weeks before.
load-week-more-km = Week of { $from }: { $km } km, { $more } km more than the mean of the three weeks before, which were too small to divide by.
load-week-less-km = Week of { $from }: { $km } km, { $more } km less than the mean of the three weeks before, which were too small to divide by.
col-week = Week of
col-km = km
col-practices = Practices
col-effort = Effort
col-load = Load
col-more-km = Change, km
col-more-share = Change, %
ask-practices = Practices
ask-week-minutes = Minutes in the water
ask-week-effort = Usual effort, 0 to 10
ask-effort = Effort, 0 to 10
ask-effort-hint = Asked half an hour after: 0 is rest, 10 is everything you had. Effort times minutes is the load.
ask-metres = Metres
ask-minutes = Minutes
record-water-session = One practice in the water
record-water-session-lede = For clubs that write down every practice. What nobody wrote down is a gap, never a zero.
take-daily-off = This club does not write down single practices. Turn it on under Club first.
club-daily = Single practices are written down, day by day
club-daily-hint = Off unless somebody will really do it: half a diary is worse than none.
