# The season, the set times, and whom to ask.

## Season
board-title = The season
board-lede = { $from } to { $to }. Every figure has its range; what fewer than five people stand behind is not shown.
board-nothing = Nothing of this season is on record yet.
board-hidden = Not shown: fewer than five people stand behind it.
board-figures = What the season showed
board-head-range = 95 % range
board-adherence = Attendance
board-adherence-says = { $attended } of { $offered } sessions that were held for each swimmer's squad since the swimmer's first.
board-exposure = Exposure
board-exposure-value = { $km } km, { $sessions } sessions
board-exposure-says = { $km } km of { $water } swimmers, { $sessions } swimmer-sessions on land of { $people }, form held for { $hours } hours.
board-problems = Shoulder problems
board-problems-says = Reports of pain of three or more of ten, or of a sign, on a shoulder that had none for a fortnight. Swimmers who had any: { $people }.
board-per-km = Problems per 1000 km
board-per-km-says = As reported, not as diagnosed. Several problems of one swimmer make the range too narrow.
board-per-session = Problems per 1000 sessions on land
board-ratio = Against the season before
board-ratio-holds = { $now } now, { $before } then. The range holds 1, no difference: none is claimed.
board-ratio-differs = { $now } now, { $before } then. The range does not hold 1. Other things changed too: a difference is not yet an effect.
board-ratio-none = No season before is on record to compare with.
board-rungs = Steps gained
board-rungs-value = { $mean } a line
board-rungs-says = { $higher } of { $lines } lines ended higher than they began, { $lower } lower. Steps follow rules and not only strength.
board-power = What it cannot show
board-power-says = With { $n } problems a season, two seasons would show a reduction only from { $percent } % on, in four of five cases. A smaller effect, good or bad, would stay unseen.
board-power-none = With { $n } problems a season, two seasons could not show any reduction at all.
board-sore = Who was sore, month by month
board-sore-lede = Of those who were asked in a month, how many said at least once that a shoulder hurt. Who is asked more, says so more.
board-head-month = Month
board-head-asked = Asked
board-head-sore = Sore
board-head-share = Share
board-strength = Strength
board-strength-lede = A line through all tests, each shoulder with a value of its own. Without swimmers outside the programme nobody can say what of it is growth, practice of the test, or training.
board-strength-says = From { $start } at the start; { $tests } tests of { $shoulders } shoulders, { $people } swimmers.
board-a-month = { $value } a month
board-sore-caption = Month by month
board-strength-up = The range lies above zero: it rose.
board-strength-down = The range lies below zero: it fell.
board-strength-open = The range holds zero: it cannot be told whether it moved.
board-strength-unsound = The fit did not settle; nothing is claimed.
board-not-told = Cannot be told. { $why }

## Set times
set-times-title = Set times
set-times-lede = What to expect next time, and how far such words were right before. Set times only; nothing here foresees an injury.
set-times-counts = { $sets } sets of { $lines } lines of { $swimmers } swimmers: form lost in { $lost }, { $reached } seen to reach the cap, { $other } ended for kit or a call.
set-times-informative = Ended for pain: { $pain }; chose to stop: { $chose }. They count as “at least so long”, and may say more than that.
set-times-unseen = Caps that nobody saw: { $unseen }. They are unknown and left out; taken for caps they would make the squad look stronger than it is.
set-times-elsewhere = At home or right before the water: { $elsewhere }. They are not compared.
set-times-none = There is no model yet: { $why }
set-times-model = What goes with longer and shorter sets
set-times-head-what = What
set-times-head-factor = Time is multiplied by
set-times-by-set = each further set
set-times-by-rest = rest doubled
set-times-by-level = one rung up
set-times-by-weeks = a further week on the rung
set-times-by-rested = rested, not after practice
set-times-dropped = The record tells nothing of: { $what }.
set-times-spread = From set to set a swimmer's time varies by a factor of { $within }; between lines by { $between } (one standard deviation).
set-times-next = Next time
set-times-next-lede = For the dose proposed now. The range holds four times of five.
set-times-head-swimmer = Swimmer
set-times-head-line = Exercise
set-times-head-rung = Rung
set-times-head-first = First set, cap or no cap
set-times-head-first-chance = First set reaches the cap
set-times-head-all = All sets reach it
set-times-head-rests = Rests on
set-times-seconds = { $median } s ({ $low } to { $high })
set-times-of-cap = { $percent } % of { $cap } s
set-times-rests = { $n ->
    [0] no set yet: the squad's spread
    [one] one set
   *[other] { $n } sets
  }
set-times-record = Were such words right?
set-times-record-lede = For each fortnight of the last twelve weeks, from what was known before it: the chance said for each set to reach its cap, and whether it did.
set-times-record-none = No set of the last twelve weeks can be judged yet.
set-times-head-said = Said
set-times-head-sets = Sets
set-times-head-came = Came true
set-times-head-agrees = Right
set-times-agrees = yes
set-times-agrees-not = no: outside the range
set-times-record-whole = { $n } predictions: { $said } % said on average, { $came } % came true.
set-times-record-off = As a whole they were off by more than chance explains (p { $p }): do not lean on them.
set-times-record-fine = As a whole they were not off by more than chance explains.
set-times-record-better = Mean squared error { $brier }; always saying the average would have { $mean }.
set-times-percent-range = { $value } % ({ $low } to { $high })

## Whom to ask
signal-times-fell = Set times of { $exercise } { $side } have fallen: { $before } s before, { $since } s since { $from } ({ $sessions } sessions on this rung). Ask how the shoulder is, and look at the form.
signal-water-moved = Kilometres a week have moved: { $before } before, { $since } since the week of { $from }. Ask what changed.
signal-zeros = The last { $zeros } answers on pain were all zero, and times of { $exercise } { $side } fell from { $before } s to { $since } s. Ask again, in other words and alone.
signal-one-arm = { $exercise }: only { $side } was done in { $times } of the last four sessions. Ask about the other arm.
signal-by-chance = { $charts } charts are kept. By chance alone { $expected } of them would speak at least once in a season of { $readings } readings each; still learning: { $learning }.
load-more = { $percent } % more than the week before
load-less = { $percent } % less than the week before
load-alike = as the week before
load-not-compared = not compared: too few or too light weeks before
load-not-recorded = a week is not on record
spot-season = Season
spot-set-times = Set times

board-no-bound = no bound
board-range = { $low } to { $high }
board-as-table = The same as a table
board-fewer-than-five = fewer than five
board-rungs-range = { $range } % of lines higher
board-sore-axis = Sore, %
set-times-axis-said = Said, %
set-times-axis-came = Came true, %
set-times-perfect = always right

## Charts and load
spot-charts = Charts and load
charts-title = Charts and load
charts-lede = Each shoulder's own line against its own past. A chart that speaks is a reason to ask, never a verdict; one that is silent proves nothing.
charts-quiet = No chart speaks, and no pattern stands out.
charts-below = More:
load-title = Kilometres, week by week
load-lede = What is on record of the last four full weeks. No ratio of a short to a long mean: it says little more than the last week does.
load-none = No kilometres of the last four weeks are on record.
load-swimmer = Swimmer
load-four-ago = Four weeks ago, km
load-three-ago = Three, km
load-two-ago = Two, km
load-last = Last week, km
load-change = Change
load-gap = not on record
set-times-next-caption = Line by line
set-times-record-caption = Class by class
set-times-model-caption = One thing changed, the others kept
load-caption = Swimmer by swimmer
