# The timetable around the water: requirements, reasons, plans, rotas.

## What must hold, by kind
requirement-sessions = { $who } gets { $count } sessions
requirement-before-water = { $who }: at least { $hours } h from the end of dryland to the next water
requirement-in-water = { $who }: nobody is in the water and on deck at once
requirement-once-a-day = { $who }: never two loaded sessions on one day
requirement-free-day = { $who }: { $days } between loaded sessions
requirement-hours-between = { $who }: at least { $hours } h from the end of one loaded session to the start of the next
requirement-meet-gap = { $who }: nothing loaded in the last hours before a meet
requirement-planned-fewer = { $who }: fewer sessions around meets and in camps
requirement-week-most = { $who }: no more than { $count } loaded sessions a week
requirement-other-load = { $who }: other loads on the same shoulders count as loaded sessions
requirement-elsewhere = { $who }: not while they are elsewhere
requirement-window = { $who }: only while the place is ours
requirement-closed = { $who }: closed ({ $why }, { $when })
requirement-room = { $who }: room for { $count } at once
requirement-supervision = enough adults for the swimmers
requirement-kit = { $who }: { $count } pieces for all who train at once
requirement-length = { $who }: the slot lasts as long as the session

## Why a time is none
why-other-days = It lies outside the days to plan.
why-no-window = { $place } is not ours at that time.
why-length = The slot has { $has } min and the session needs { $needs } min.
why-in-water = { $who } is in the water: { $water }, { $when }.
why-before-water = { $has } from the end of dryland to the water ({ $water }, { $when }); { $needs } are needed.
why-before-meet = { $has } before { $meet } ({ $grade } meet, { $when }); { $needs } without load are needed.
why-during-meet = { $meet } is on ({ $grade } meet).
why-load-same-day = { $load } the same day is a loaded session already.
why-load-too-near = { $load } ({ $when }) is a loaded session, with { $days } between.
why-elsewhere = { $who } is elsewhere: { $what }, { $when }.
why-closed = { $place } is closed: { $why }.
why-too-many-for-place = { $place } takes { $room } swimmers, and { $who } has { $size }.
why-no-supervisor = { $adults } for { $size } swimmers.
why-kit-short = { $who } needs { $needs } of { $kit }, and there are { $pieces }.
why-same-day = Two loaded sessions of { $who } on one day.
why-too-near = { $who } has another loaded session with { $days } and { $has } between.
why-too-many = { $who } has { $has } loaded sessions in the week; { $most } are the most.
why-more-planned = { $who } has { $has } sessions where { $most } are planned: { $why }.
why-crowded = More groups or swimmers at { $place } than there is room.
why-unwatched = { $adults } for everybody who trains at that time.
why-kit-together = Everybody together needs { $wanted } of { $kit }, and there are { $pieces }.
adults-count = { $count ->
    [0] Nobody to supervise
    [one] One adult
   *[other] { $count } adults
}
free-days-count = { $count ->
    [0] no free day
    [one] one free day
   *[other] { $count } free days
}
fewer-meet-week = one session less in the week of { $meet }
fewer-two-weeks = one session less two weeks before { $meet }
fewer-last-week = one session in the last week before { $meet }
fewer-camp = once or twice in a camp

## What giving up a requirement would buy
buys-fixed = This can never be given up.
buys-other-clash = Without it there is still no plan: something else stands in the way too.
buys-unknown = Time ran out before this could be shown.
buys-plan = Without it there is a plan.
buys-sessions = With { $missing ->
    [one] one session fewer
   *[other] { $missing } sessions fewer
} there is a plan.
buys-missing = With { $missing } more there is a plan.
buys-breaks = Without it there is a plan, in which it would be broken by: { $list }.

## What is rather wanted
prefer-session = a session at all
prefer-directly-after-last = directly after the last practice of the day
prefer-after-last = later after the last practice of the day
prefer-dry-day = a day without water
prefer-before-with-gap = before water, with the gap kept
prefer-wish = the group's own wish
prefer-early-before-meet = early in the last week before a main meet
prefer-late-end = ends after 21:00

## Offers
offer-after-last = the same day, after the last practice
offer-ends-early-enough = the same day, ending early enough before the water
offer-same-day = the same day
offer-other-day = another day
week-activation = Or 5 to 8 easy minutes without times, not logged as a session.
week-evidence = Why not before: tired cuff and blade muscles would meet thousands of strokes. That evidence is indirect; no trial has tested the order, and warm-up programmes of team sports are short and light.
week-overrule = The practitioner may overrule this by name and with a reason. Such a session never counts towards a step up.
week-no-overrule = Nobody may overrule this by signature; the week itself has to change.

## How a file was taken
note-practice-cancelled = { $practice } on { $day } falls out: { $place } is closed.
note-no-windows = No deck hours are described, so any hour from 06:00 to 22:00 counts.
note-no-supervisors = No supervisors are described, so supervision was not part of the question.

## Problems of a described week
described-syntax = This is not TOML: { $detail }
described-syntax-hint = Texts and times stand in quotes or as 17:30:00; each list of entries begins with its name in double brackets, for instance [[practices]].
described-unknown-key = “{ $key }” is not known in { $within }.
described-unknown-key-hint = Nearest: { $near }. Known here: { $allowed }.
described-twice = “{ $key }” and “{ $other }” say the same thing.
described-twice-hint = Leave one of them out.
described-missing = “{ $key }” is missing in { $within }.
described-missing-hint = docs/week.md shows every part of the file with an example.
described-wrong-type = “{ $key }” must be { $wanted ->
    [text] a text
    [number] a number
    [flag] true or false
    [table] a table
   *[other] { $wanted }
}, not { $found }.
described-wrong-type-hint = Times stand as "17:30", days as "Mon" or 2026-03-10, lists in square brackets.
described-out-of-range = “{ $key }” is { $value }, which is outside { $allowed }.
described-out-of-range-hint = The limits are those of the trade's own table of settings, or of common sense.
described-unknown-zone = “{ $zone }” is not a time zone.
described-unknown-zone-hint = Use an IANA name, for instance Europe/Vienna or America/Denver. Nearest: { $near }.
described-bad-day = “{ $value }” is not a day.
described-bad-day-hint = Write Mon, Tuesday, Mon-Fri, weekdays, daily or a date such as 2026-03-10.
described-day-outside = “{ $value }” is not among the days from { $first } to { $last }.
described-day-outside-hint = Widen the days to plan, or leave the entry out.
described-bad-date = “{ $value }” is not a date.
described-bad-date-hint = Write 2026-03-10: year, month, day.
described-bad-time = “{ $value }” is not a time of day.
described-bad-time-hint = Write 17:30, or both at once as 16:00-18:00.
described-skipped-time = { $value } does not exist in this zone.
described-skipped-time-hint = Clocks jump over it that night. Choose the hour before or after.
described-backwards = It ends at { $to }, which is not after its start at { $from }.
described-backwards-hint = Swap the two, or split what runs over midnight into two entries.
described-no-end = An entry of { $within } has a start and no end.
described-no-end-hint = Add “to” or “minutes”.
described-too-long = From { $first } to { $last } is not one week.
described-too-long-hint = One file describes one to seven days. Entries around them may be dated before or after.
described-unknown-name = “{ $name }” is not a { $kind } of this file.
described-unknown-name-hint = Nearest: { $near }. Known: { $known }.
described-duplicate = The { $kind } “{ $name }” is there twice.
described-duplicate-hint = Give each its own name.
described-overlap = { $group } would swim in two practices at once: { $one } and { $other }.
described-overlap-hint = Correct the times, or name the groups of each practice.
described-too-many = { $count } { $kind } are more than the { $most } one week may have.
described-too-many-hint = Check that the file holds one week and not a whole calendar.
described-bad-grade = “{ $value }” is not an importance of a meet.
described-bad-grade-hint = A: the season is built towards it. B: it counts. C: it is trained through.
described-no-groups = No group is described, so there is nobody to plan for.
described-no-groups-hint = Add [[groups]] with name, swimmers, sessions and minutes.
described-at-least = { $group } needs at least { $at-least } sessions and wants { $sessions }.
described-at-least-hint = “at_least” is the fewest that will do and cannot be above “sessions”.
described-blank-reason = An override needs its reason in words.
described-blank-reason-hint = Write override = {"{"} by = "NAME", reason = "WHY" {"}"}.

## Rotas
rota-empty = The file holds no group.
rota-empty-hint = First line: a name for the groups, then the stations. Then one line a group: its name, then minutes at each station.
rota-no-stations = The first line names no station.
rota-unnamed-station = Column { $column } has minutes and no name.
rota-twice = “{ $name }” is there twice.
rota-unnamed-group = This line has minutes and no group.
rota-columns = This line has { $has } columns and the first has { $wanted }.
rota-blank = { $group } at { $station } is blank.
rota-blank-hint = Write 0 where a group does not visit a station: a blank is not taken for it.
rota-not-minutes = { $group } at { $station }: “{ $value }” is not a number of minutes.
rota-not-minutes-hint = Write 4, 4.5 or 4:30, from 0 to 1440.
rota-too-large = That is more visits than a rota may have ({ $most }).
rota-unreadable = The file is not a table: { $detail }
rota-kit-short = { $station } alone needs { $needs } of { $kit }, and there are { $pieces }.
rota-kit-column = “{ $name }” is not a station of the rota.
rota-kit-pieces = “{ $value }” is not a number of pieces.

## What fits
fit-usable = The slot leaves { $clock } of work.
fit-two-arm = two-arm { $number }
fit-one-arm = one-arm { $number }
fit-yes = fits
fit-no = does not fit
fit-as-asked = as asked
fit-two-arms = band between both hands where there is such a set-up
fit-rotating = rotating full dose: one exercise at the full cap each session, the others at 60 s
fit-cap = all at { $number } s
fit-sets = sets: { $number }
fit-split = shared out over { $number } sessions of the week; the longest takes
fit-first = only the first { $number }
fit-never-qualify = can never qualify this way: { $list }
fit-rotation-last = External rotation stands last, where an overrun drops it. Put it earlier.
fit-waves = { $waves ->
    [one] One wave
   *[other] { $waves } waves
} are needed to keep the supervision ratio, each as long.
fit-no-time = The slot leaves no time for work at all.
cli-fit-nothing = No exercise is named.
cli-fit-nothing-hint = Give --two-arm or --one-arm with a number.

## The commands
cli-not-minutes = must be minutes from 0 to 60
cli-rota-refused = { $file } cannot be made into a rota.
cli-rota-group = group
cli-rota-proven = { $minutes } min; no rota is shorter.
cli-rota-gap = { $minutes } min; whether { $least } min can be reached was not settled in time.
cli-week-refused = { $file } cannot be planned.
cli-week-of = { $from } to { $to }, { $zone }
cli-week-proven = A plan; none has more points than its { $points }.
cli-week-gap = A plan with { $points } points; at most { $gap } more were not ruled out in time.
cli-week-no-bound = A plan with { $points } points; how much better one may be was not settled in time.
cli-week-out-of-time = Time ran out before a plan was found or shown to be impossible. Try more with --seconds.
cli-week-clash = There is no plan. These requirements cannot hold together, and without any one of them the others could:
cli-week-clash-maybe-smaller = There is no plan. These requirements cannot hold together; time ran out before the list was as short as can be:
cli-week-plan = Plan
cli-week-preferences = Points, sessions, and what they are for
cli-week-reduced = Fewer on purpose, never counted as missed
cli-week-broken = What the known sessions break
cli-week-moves = Least change: { $kept } stay, { $moves } change
cli-week-new = new
cli-week-out = falls out
cli-week-granted = { $group }, { $time }: yes
cli-week-not-granted = { $group }, { $time }: no
cli-week-overruled = overruled by { $by }: { $reason }; never counts towards a step up
cli-week-refused-times = Times a group cannot have
cli-week-refused-more = And { $more } more; --json lists all.

## The stored week
week-no-club = The record does not say which club it belongs to, so nobody knows the zone of its times.
week-no-club-hint = Say who the club is first.
week-no-club-do = Say who the club is
week-practice = { $squad } practice
week-own-session = dryland
week-stale = The week has changed since it was read.
week-stale-hint = Look again, and decide on what stands there now.
week-unknown-name = “{ $name }” is not in the timetable.
week-end-before-start = It ends at { $to }, which is not after its start at { $from }.
week-not-a-weekday = { $value } is not a day of the week: 1 is Monday, 7 is Sunday.
week-sessions = { $value } sessions a week cannot be: from 0 to 7, and no fewer than the fewest that will do.
week-minutes = { $value } minutes cannot be: from 5 to 240.
week-day-or-date = Give either a day of the week or a date.
week-not-granted = That time cannot be given.
week-not-granted-hint = Only the rule about water may be overruled, by name and with a reason.
week-too-many-changes = That day has had too many sessions set already.
week-no-session = There is no such session.
week-reason-repair = the week changed; least change confirmed
week-reason-wish = moved on request
week-reason-cancelled = taken out
fact-blank = This may not stay blank.

## Feeds
feed-name = Dryland, { $who }
feed-session = Dryland: { $squad }
feed-meet = Meet
feed-meet-summary = { $name } ({ $grade })
feed-sits-out = Sits this one out: another load on the same shoulders.
feed-overruled = Before water by the decision of { $by }. It never counts towards a step up.

## Calendars of others
weekday-1 = every Monday
weekday-2 = every Tuesday
weekday-3 = every Wednesday
weekday-4 = every Thursday
weekday-5 = every Friday
weekday-6 = every Saturday
weekday-7 = every Sunday
calendar-reason = changed in the calendar that was read
calendar-moved = { $what }: moved once, { $day }
calendar-cancelled = { $what }: cancelled once, { $day }
calendar-too-many = { $count } events are more than the { $most } one file may bring. Nothing was stored.
calendar-unreadable = The file cannot be read: { $detail }
calendar-empty = The file holds nothing of these weeks.
calendar-not-read = { $what } is not read here.
calendar-no-start = The event has no start.
calendar-no-end = The event has no end.
calendar-no-uid = The event has no UID, so nobody could tell it from another.
calendar-bad-time = “{ $value }” is not a time.
calendar-bad-day = “{ $value }” is not a day: write Mon, Mon-Fri or 2026-03-10.
calendar-unknown-zone = “{ $value }” stands in a time zone nobody knows.
calendar-whole-day = “{ $value }” is a whole day and has no times.
calendar-rule = “{ $part }” is outside the rules that are read: weekly by days, or daily, with INTERVAL, COUNT, UNTIL.
calendar-utc-rule = A repeated event in UTC would move by an hour when clocks change. Give its times in the club's zone.
calendar-begins-later = It begins on { $day } and has no end. Bring it in when it begins, or give it an end.
calendar-no-exceptions = It has exceptions and no end. Give it an end with UNTIL or COUNT.
calendar-too-many-dates = It stands for more than { $most } dates.
calendar-no-column = There is no column “{ $column }”.
calendar-overlap = { $squad } would swim in two practices at once, the second from { $from }.
calendar-conflict = “{ $words }” is claimed by several facts. Settle that first.

## The year
year-learning = Learning block: everything is taught, nothing is timed to form loss.
year-deload = Lighter week: two sets, shorter caps, no steps up.
year-meet-week = { $meet }: one session less, nothing loaded in its last 48 hours.
year-train-through = { $meet } is trained through; the day before stays free.
year-three-weeks = Three weeks before { $meet }: two sets, no steps up.
year-two-weeks = Two weeks before { $meet }: two sets, shorter caps, one session less.
year-last-week = The last week before { $meet }: one session, one set, early in the week.
year-planned-deload = A lighter week, as planned.
year-planned-camp = Camp: two sets, no steps up, once or twice a week.
year-planned-taper = Taper, as planned: two sets, no steps up.
year-planned-holiday = Holidays: nobody is on deck.
year-planned-exams = Exams: keep, do not build.
year-phase-learning = Learning
year-phase-build = Build
year-phase-deload = Lighter
year-phase-keep = Keep
year-phase-taper = Taper
year-phase-camp = Camp
year-phase-holiday = Holiday

## The pages
spot-week = Week
spot-year = Year
week-lede = { $from } to { $to }. Dryland after the last practice, or hours before it; never right before.
week-turn = Other weeks
week-before = Week before
week-this = This week
week-after = Week after
week-drawing = The week as lanes
week-list = The week in words
week-nothing = Nothing.
week-all = all squads
week-meets = Meets ahead
week-enter = Enter by hand
week-take = Take along
week-feed = Calendar of { $squad }
week-csv = All sessions as a table
week-json = This week as JSON
week-sound = Everything people know of holds.
week-out-of-time = Time ran out before an answer was found. Look again in a moment.
week-nobody-asks = Nobody asks for dryland this week.
week-broken = { $n ->
    [one] One thing no longer holds
   *[other] { $n } things no longer hold
}
week-repair = { $moves ->
    [one] One change mends it
   *[other] { $moves } changes mend it
}; { $kept ->
    [one] one session stays where people know it
   *[other] { $kept } sessions stay where people know them
}
week-repair-confirm = Confirm this repair
week-move-new = new
week-move-to = moves to
week-move-out = falls out
week-unplanned = Not planned yet; { $n ->
    [one] one session is proposed
   *[other] { $n } sessions are proposed
}
week-plan-proven = No plan is better by the points below.
week-plan-gap = A better plan was not ruled out in time.
week-plan-confirm = Set these sessions
week-points = What the points are for
week-points-what = Preference
week-points-sessions = Sessions
week-points-points = Points
week-clash = There is no plan for this week
week-clash-lede = These requirements cannot hold together. Without any one of them the others could:
week-skipped = Left out, because clocks jump over that time: { $what }
week-key-water = water
week-key-gap = nothing loaded: water follows too soon
week-key-dry = dryland
week-key-broken = no longer holds
week-key-fallen = practice falls out
week-key-closed = place closed
week-line-water = Water, { $who }
week-line-fallen = Water, { $who }: falls out ({ $why })
week-line-dry = Dryland, { $who }, { $place }
week-line-broken = { $session }: no longer holds
week-line-overruled = Overruled by { $by }: { $reason }. Never counts towards a step up.
week-line-sit-out = { $n ->
    [one] One swimmer sits out for another load.
   *[other] { $n } swimmers sit out for another load.
}
week-line-closed = { $place } is closed: { $why }
week-line-other = { $what }, { $who }
week-take-out = Take out
week-take-out-sure = Take this session out
week-wish = Ask for a time
week-wish-title = A time asked for
week-wish-lede = For instance 15:20 before the 16:00 practice: the answer says why not, and what would be better.
week-wish-ask = Ask
week-wish-yes = { $squad }, { $when }, { $place }: yes
week-wish-no = { $squad }, { $when }, { $place }: no
week-wish-set = Set it
week-instead-of = What is set instead moves the session of { $was }.
week-wish-told = Whoever keeps the calendar can set it.
week-reason-kept = the reason is on record
week-better = Better
week-no-better = Nothing better was found this week.
week-offer-take = Take this
week-back = Back to the week
week-overrule-open = Overrule by name
week-overrule-hint = Kept with your name. The session is marked everywhere and never counts towards a step up.
week-overrule-do = Overrule
week-overrule-who = Only the practitioner may overrule this.
week-overrule-reason = Overruling needs a reason in words.
week-ask-squad = Squad
week-ask-place = Place
week-ask-pool = Pool
week-ask-from = From
week-ask-to = To
week-ask-time-hint = For instance 17:30
week-ask-days = Days
week-ask-first = First day
week-ask-last = Last day
week-ask-last-hint = Empty when it is one day.
week-ask-why = Why
week-ask-change-day = Day of the practice
week-ask-was = Its usual start
week-ask-was-hint = Empty for an extra practice.
week-ask-now-day = New day
week-ask-now-hint = Empty when the day stays. With no times below, the practice is cancelled.
week-ask-name = What it is called
week-ask-grade = How much it counts
week-ask-starts = First start
week-ask-kind = What it is
week-ask-at-once = Groups at once
week-ask-who = Name
week-ask-ratio = Swimmers this person may watch
week-ask-ratio-hint = Empty for the rule of the protocol.
week-ask-sessions = Sessions a week
week-ask-least = Fewest that will do
week-ask-minutes = Minutes of one session
week-ask-teaching = In teaching
week-ask-exams = These are exams: practices go on
week-grade-a = A: the season is built towards it
week-grade-b = B: it counts
week-grade-c = C: it is trained through
week-other-elsewhere = They are elsewhere, for instance at school
week-other-load = It loads the same shoulders, for instance gym or handball
week-not-a-time = Write a time of day, for instance 17:30.
week-ends-first = It ends before it begins.
week-change-nothing = Give the usual start, or the new times, or both.
week-sheet-closure = A closure
week-sheet-change = A practice moved, cancelled or extra
week-sheet-practice = A weekly practice
week-sheet-meet = A meet
week-sheet-other = School or another load
week-sheet-deck = Deck hours
week-sheet-supervisor = A supervisor
week-sheet-plan = What a squad wants
week-sheet-holiday = Holidays or exams
week-import = Bring in a calendar
week-import-lede = An iCalendar file or a table with squad, day, from and to. It is shown before anything is kept.
week-import-as = What it holds
week-import-practices = Water practices
week-import-loads = Other loads on the same shoulders
week-import-elsewhere = Times at which they are elsewhere
week-import-file = File
week-import-read = Read it
week-import-missing = Choose a file and say what it holds.
week-import-preview = What the file would bring
week-import-count = { $n ->
    [one] One entry
   *[other] { $n } entries
}; nothing is kept yet.
week-import-keep = Keep all of it
week-import-line = Line { $line }
year-lede = What is planned away is never counted as missed.
year-none = No season is on record yet.
year-squads = Squads
year-table = Season of { $squad }
year-week = Week
year-from = From
year-phase = Phase
year-planned = Planned
year-set = Set
year-done = Done by swimmers
year-why = Why
year-now = (now)
year-planned-note = Planned: sessions the rules leave for that week. Set: sessions of the squad in the timetable. Done: every swimmer's sessions, added up.
fact-kind-squad-plan = What a squad wants
fact-kind-deck-hours = Deck hours
fact-kind-supervisor = Supervisor
fact-kind-other-time = School or another load
fact-kind-closure = Closure
fact-kind-holiday = Holidays or exams
fact-kind-practice-change = Practice moved, cancelled or extra
fact-kind-dryland = Dryland session
cli-week-which = Give a file with a described week, or --store with a record.
cli-week-which-hint = cuffwright week FILE.toml plans a described week; cuffwright week --store FILE reads the club's own.
cli-week-nothing-to-confirm = There is nothing to confirm: everything people know of holds, or there is no plan.
cli-week-confirm-by = --confirm needs --by with the name that stands in the record.
cli-week-confirmed = Recorded. Sessions set or changed: { $number }.
