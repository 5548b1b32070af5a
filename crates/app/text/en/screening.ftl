# Screening days, values that follow from them, re-tests, trials of a test, and paper.

## Places and stations

spot-screening = Screening
spot-weekly = Weekly check
screening-title = Screening day
screening-lede = Baselines, change and a list of what to do. No test here predicts an injury, and nothing is added up to a score.
screening-stations = Stations
screening-after = What comes of it
station-title = Station: { $station }
station-check-in = Questions
station-body = Body size
station-looking = Laxity and looking
station-range = Range
station-strength = Strength
station-endurance = Shoulder endurance
station-trunk = Trunk
station-check-in-what = whether anything hurts now, left and right
station-licensed = only by a licensed clinician
station-check-in-lede = Ask each swimmer alone: what is the worst your shoulder does now, from 0 to 10? Empty means nobody asked.
station-body-lede = Same tester, same time of day, twice. The mean is kept.
station-looking-lede = Reading laxity and looking for wasting is a licensed clinician's. Without a licence that is valid on the day nothing can be entered.
station-range-lede = Before the water or at least four hours after it. Same way of measuring as last time, or the two cannot be compared.
station-strength-lede = Three tries an arm with a rest between. The mean is kept; the lever is measured once.
station-endurance-lede = After strength, never before it. A hold that hurts is stopped and marked as pain.
station-trunk-lede = Seconds until the position is lost.
station-setup = Day, tester and what is offered
station-apply = Use this
station-device = Device and way
station-device-hint = For instance: inclinometer, passive, lying. Values of different ways never share a line.
station-hours = Hours since the last swim
station-hours-hint = One hard swim takes some degrees of range away.
station-hours-range = Between 0 and 1000 hours.
station-measures = Measures
station-how = Enter saves the rows that are complete and goes on to the next empty box. Type p for pain (p 4 with the number), r for refused, - for not tested. Nothing that is not yet saved gets lost.
station-next = Save complete rows, go on
station-all = Save everything that was begun
station-save = Save row
station-save-of = Save the row of { $name }
station-done = { $n } of { $of } done
station-saved = { $n ->
    [0] Nothing new was saved.
    [one] One row was saved.
   *[other] { $n } rows were saved.
}
station-unsaved = { $n ->
    [0] Nothing is left unsaved.
    [one] One row is not saved yet.
   *[other] { $n } rows are not saved yet.
}
station-row-saved = saved
station-row-done = done
station-row-open = not saved yet
station-none = No value?
station-meant = Yes, it is meant
station-correction = entered again at the station
station-locked = Locked.
station-locked-why = Name the licensed clinician who does this station, with the licence's number and last day, and choose “Use this”.
station-hollow-left = Hollow behind the left shoulder
station-hollow-right = Hollow behind the right shoulder
station-hollow-no = none seen
station-hollow-yes = seen
station-pain-left = Left, 0 to 10
station-pain-right = Right, 0 to 10
station-intake = Intake questions
why-none-measured = measured, or nobody tried
why-none-not-tested = not tested
why-none-refused = refused
why-none-pain = stopped for pain
place-sided = { $measure }, { $side } ({ $unit })
place-sided-bare = { $measure }, { $side }
place-whole = { $measure } ({ $unit })
place-whole-bare = { $measure }
place-trial = { $label }, try { $n }

## What a box refuses

screening-wrong-unit = { $unit } measures something else; { $wanted } is wanted here.
screening-not-read = “{ $text }” is no number. A number, or p, r, - for the reason there is none.
screening-impossible = { $label } cannot be that: it lies between { $low } and { $high } { $unit }.
screening-unusual-value = Unusual for { $label }, which mostly lies between { $low } and { $high } { $unit }. If it is right, tick “Yes, it is meant” and save again.
screening-needs-licence = This station takes a licence that is valid on { $date }.
screening-needs-height = The height is needed with the other body sizes.
screening-sitting-taller = The sitting height is not below the height.
screening-pain-scale = Pain is a whole number from 0 to 10.
screening-takes-pain-back = On record this test was stopped for pain. To put a value in its place, tick “Yes, it is meant” and save again; the record keeps both.
screening-unusual-short = unusual
take-licence-over = That licence is not valid on the day of the screening.
ask-clinician-screening = Needed for laxity and a visible hollow only: these are a licensed clinician's.

## Measures

measure-height = Height
measure-sitting_height = Sitting height
measure-body_mass = Body mass
measure-beighton = Laxity score (of 9)
measure-shoulder_er_rom = External rotation range
measure-shoulder_flexion_rom = Flexion range
measure-pec_minor_length = Pectoralis minor length
measure-er_force = External rotation strength
measure-ir_force = Internal rotation strength
measure-lever_arm = Lever arm
measure-posterior_endurance_reps = Posterior endurance, repetitions
measure-posterior_endurance_time = Posterior endurance, hold
measure-stability_touches = Stability test, touches
measure-plank_time = Front plank
measure-side_bridge_time = Side bridge
measure-arc = Arc of rotation

## The plan

plan-title = How long it takes
plan-swimmers = Swimmers
plan-testers = Testers
plan-submit = Work it out
plan-refused = Between 1 and 500 swimmers and at least one tester.
plan-clock = { $hours } h { $minutes } min
plan-sum = { $n } swimmers: { $clock }. { $station } holds the day up.
plan-flowing = Everybody moves on when done: { $sum } min for the first, then { $rest } × { $slot } min for the others = { $total } min.
plan-whistle = On a whistle: ({ $n } + { $s } − 1) = { $waves } slots of { $slot } min = { $total } min ({ $clock }).
plan-more = With one more tester at “{ $station }”: { $total } min ({ $clock }).
plan-slowest = (slowest)
plan-table = Stations, neighbours put together where there are fewer testers
plan-order = Questions first, endurance last: a tired shoulder is a weaker one. Minutes are common practice; see how your own hall does.
col-station = Station
col-minutes = Minutes

## Flags

watch-title = What the screening asks for
watch-lede = Flags ask for attention. They are not added up, and nobody's risk is scored.
watch-screened = { $n } of { $of } swimmers have been screened.
watch-no-score = Heavier flags stand first; there is no score behind the order.
watch-nobody = Nothing on record asks for anything.
watch-below = { $n } more below the fold
watch-fold = A quarter of a squad can be watched; if everybody is watched, nobody is.
flag-refer = Refer
flag-adapt = Adapt
flag-watch = Watch
flag-note = Note
flag-refer-means = somebody licensed looks first
flag-adapt-means = the dose is adapted
flag-watch-means = looked after more closely
flag-note-means = written down, nothing follows
flag-endurance-lowest = { $measure }: the weaker arm ({ $value }) lies in the lowest fifth of the { $n } swimmers within a year of { $age } who were tested the same way by { $date }. Prone lift and row belong into the programme.
flag-endurance-too-few = { $measure }: only { $n } swimmers within a year of { $age } were tested the same way, so a lowest fifth cannot be told.

## One swimmer

values-title = Screening of { $name }
values-lede = What was measured, and what follows from it. Every number answers “why?”.
values-nothing = Nothing has been measured yet.
values-days = Screening days
values-flags = Flags today
values-followed = What follows
values-followed-lede = Worked out from the values of that day. Print that stands beside a value comes from other people than yours; none of its thresholds was validated in swimmers.
values-contested = two records differ; the more careful is shown
values-hollow-left = A hollow was seen behind the left shoulder.
values-hollow-right = A hollow was seen behind the right shoulder.
values-link = Screening, values and flags
worked-less = { $value }, { $side } has less
worked-side = { $side } { $value }
worked-missing = Cannot tell, missing: { $missing }.
worked-missing-side = { $side }: cannot tell, missing: { $missing }.
derived-arc = Arc of rotation
derived-er-difference = External rotation, side difference
derived-ir-difference = Internal rotation, side difference
derived-flexion-difference = Flexion, side difference
derived-adduction-difference = Cross-body range, side difference
derived-arc-difference = Arc, side difference
derived-er-weight = External rotation strength by body weight
derived-ir-weight = Internal rotation strength by body weight
derived-er-torque = External rotation torque
derived-ir-torque = Internal rotation torque
derived-er-torque-mass = External rotation torque by body mass
derived-ir-torque-mass = Internal rotation torque by body mass
derived-ratio = External over internal rotation strength
derived-er-symmetry = External rotation strength, weaker over stronger
derived-ir-symmetry = Internal rotation strength, weaker over stronger
derived-endurance-reps-difference = Posterior endurance, side difference
derived-endurance-time-difference = Posterior endurance hold, side difference
derived-bridge-difference = Side bridge, side difference
derived-pectoral = Pectoralis minor length by height
derived-touches = Touches by height
value-arc = External { $external }° plus internal { $internal }°.
value-difference = { $measure }: left { $left }, right { $right }.
value-share-of-weight = { $force } over the weight of { $mass }.
value-torque = { $force } at a lever of { $lever } cm.
value-torque-mass = { $torque } N m over { $mass }.
value-ratio = External { $external } over internal { $internal }, this way round.
value-symmetry = Weaker { $weaker } over stronger { $stronger }.
value-pectoral = { $length } cm over a height of { $height } cm.
value-touches = { $touches } touches at { $height } m.
beside-within-error = Within the error of the test: sides that differ by less than { $smallest } cannot be told apart ({ $people }; { $source }).
beside-beyond-error = Beyond the error of the test, which is { $smallest } ({ $people }; { $source }).
beside-arc-throwers = In baseball pitchers an arc that lacks more than { $limit }° went with injury; not validated in swimmers.
beside-ir-throwers = In baseball pitchers a lack of { $limit }° and more is spoken of; there it went with twice the injuries, but chance could not be ruled out. Not validated in swimmers.
beside-ir-throwers-share = In baseball pitchers a lack of { $limit }° and more is spoken of; there it went with twice the injuries, but chance could not be ruled out. Not validated in swimmers. Here it is { $share } of the other side's arc.
beside-ratio-girls = Pain-free girls of 14 to 20 years had 0.92 in the mean, lying, arm at 90°.
beside-ratio-boys = Pain-free boys of 14 to 20 years had 0.87 in the mean, lying, arm at 90°.
beside-ratio-both = Pain-free swimmers of 14 to 20 years had 0.92 (girls) and 0.87 (boys) in the mean, lying, arm at 90°.
beside-ratio-flag = Under { $limit }: external rotation comes first. The limit is practice, not a norm.
beside-symmetry-noise = One such index carries about ± { $noise } of noise when each side is measured with { $cv } spread: a rule of ten per cent mostly flags error.

## Re-test

retest-title = Re-test of { $name }
retest-lede = Up or down is said only beyond the error of the test. Everything else cannot be told, whatever the sign.
retest-link = Re-test: what changed
retest-nothing = Nothing was measured twice yet.
retest-sum = { $up } up, { $down } down, { $same } cannot be told.
retest-growth = Growth and training weeks change these values too; a change is not yet an effect.
retest-table = Each measure, previous and present
retest-other-tester = another tester: the error between two is larger
retest-interval = { $low } to { $high }
retest-errors = Errors used
retest-days = At most { $days } days lie between the two tests.
col-previous = Previous
col-now = Present
col-change = Change
col-interval = 95 % interval
col-said = Can be said
change-up = up
change-down = down
change-cannot-tell = cannot tell
intervals-title = Changes beside the error of their tests
intervals-desc = One line a measure: the dot is the change, the bar its 95 per cent interval, in units of the smallest change beyond error. Dots inside the middle band cannot be told from error. The table below says the same in numbers.
intervals-axis = change, in smallest changes beyond error
error-none = No error was published that could be used, and the club has no trial of its own: cannot tell.
error-published = { $source }: { $n } { $people }.
error-own = The club's own trial of { $day }, { $n } people or arms.
error-own-few = The club's own trial of { $day }, { $n } people or arms; twenty and more would make it firm.
people-swimmers-club = club swimmers
people-swimmers-12-24 = swimmers of 12 to 24 years
people-adults = adults
people-adults-pain-free = adults without pain
people-canoeists = elite canoeists, two testers
people-adolescents = adolescents

## The club's own trial

trial-title = Own trials of a test
trial-lede = Test five people or more twice, a day apart, and bring in the table. Your own error beats every printed one.
trial-none = No trial on record: printed errors are used, with their people named.
trial-table = Trials on record
trial-bring = Bring in a trial
trial-measure = Measure
trial-date = Finished on
trial-how = Who tested, and how far apart
trial-how-hint = For instance: Ronja twice, two days apart, inclinometer.
trial-file = Table
trial-file-hint = CSV: a heading line, then a line a person or arm, with columns named “trial 1”, “trial 2” or “test”, “retest”. No names are needed, and none are kept.
trial-submit = Bring it in
trial-not-text = The file is no text in UTF-8.
trial-not-a-table = This line cannot be read as a line of a table.
trial-no-columns = No two columns are named as trials. Found: { $found }. Name them “trial 1”, “trial 2”, or “test”, “retest”.
trial-not-a-number = “{ $text }” is no number. Whoever missed a test is left out of the table.
trial-too-few = under five: not used
trial-few = under twenty: wide limits
trial-no-error = no spread: no error
col-people = People × trials
col-sem = Standard error
col-smallest = Smallest change

## Paper

paper-screening-title = Blank screening form
paper-screening-heading = Screening, one sheet a swimmer
paper-lede = One sheet a swimmer, in the order of the stations.
paper-print = Print with the browser, A4.
paper-blank = Blank once
paper-named = One a swimmer, with names
paper-name = Name
paper-date = Date
paper-tester = Tester
paper-device = Device
paper-hours = Hours since swim
paper-rule = A test that hurts is stopped: write P and the number from 0 to 10. R refused, – not tested. Empty means nobody tried; never write 0 for it.
paper-pain-now = Hurts now, 0 to 10
paper-hollow = Hollow seen
paper-licence = Clinician, licence
paper-notes = Remarks
paper-weekly-title = Blank weekly check
paper-weekly-lede = One sheet a swimmer and week. Answered alone, handed to the practitioner.
paper-weekly-heading = Weekly shoulder check
paper-weekly-rule = One tick a shoulder in each row. If the first answer is the first or the last one, the other rows stay empty. The coach does not see this sheet.
paper-worst-pain = Worst pain this week, 0 to 10
paper-of-ten = of 10
paper-water = Practices swum, and about how many km this week
col-question = This week

## Facts and rules

fact-weekly-answer = Answers of the weekly check are 0, 1, 2 or 3.
fact-weekly-incomplete = An answer is missing that the score needs; a missing answer is not a zero.
fact-weekly-nothing = A weekly check answers for at least one shoulder.
fact-practice-nothing = A practice has metres, minutes or effort.
fact-trial-small = A trial has at least two people and two trials.
fact-trial-ragged = Every line of a trial has the same number of trials.
fact-kind-trial = Own trial of a test
archive-kind-water-session = One practice
archive-kind-weekly-check = Weekly check
archive-kind-trial = Own trial of a test
family-values = Values that follow from a test
family-asking = Whom to ask

## The command line

cli-not-a-station = A station is written NAME=MINUTES, or NAME=MINUTESxTESTERS.
cli-plan-nothing = A day needs at least one swimmer and one tester, and stations with minutes.
cli-plan-too-many = More than 500 swimmers in a day: check the number.
cli-plan-sum = { $n } swimmers: { $minutes } min. “{ $station }” holds the day up.
cli-plan-whistle = On a whistle: ({ $n } + { $s } − 1) = { $waves } slots of { $slot } min = { $total } min.
cli-plan-more = With one more tester at “{ $station }”: { $total } min.
cli-head-testers = Testers
cli-values-on = Screening values on { $day }. Number of swimmers: { $number }.
cli-values-day = Measured on { $day }.
cli-retest-on = Re-tests on { $day }. Number of swimmers: { $number }.
cli-no-error = no error known
cli-no-measure = “{ $wanted }” is no measure of a screening.
cli-trial-future = { $day } has not come yet.
cli-trial-sum = { $measure }: { $people } people or arms, { $trials } trials each. Standard error { $sem }, smallest change beyond error { $smallest }.
cli-trial-recorded = Recorded.
cli-trial-dry = Nothing was recorded.
cli-ask-on = Whom to ask on { $day }: { $number } of { $squad }.
cli-ask-below = Below the fold: { $number }. Show them with --all.
