# What cannot be worked out, and why: readings, descriptions, plans.

load-unreadable = This is no table: { $detail }.
load-too-long = More than { $most } rows.
load-empty = Nothing to read: no row was found.
load-no-heads = The first row has numbers only. It should name the columns: { $wanted }.
load-no-column = No column for { $wanted }. Columns found: { $found }.
load-two-columns = “{ $one }” and “{ $other }” are the same quantity in two columns. Keep one, in one unit.
load-no-unit = Which unit? Write it into the head, for instance { $wanted }.
load-unit = “{ $unit }” is no unit that fits here. An example that does: { $wanted }.
load-mixed-units = “{ $cell }” is in another unit than its column. Write one unit in the head and none in the cells.
load-blank = An empty cell. A reading that was not taken is left out with its whole row.
load-no-number = “{ $cell }” is not a number.
load-no-length = “{ $text }” is not a length. Write metres, or a unit behind it: 0.30, 30cm, 12in.

load-rest-length = A rest length of { $rest } makes no piece. It lies between 2 cm and 10 m; was another unit meant?
load-negative-force = { $force }: a scale cannot read less than nothing. Take off the empty reading, or leave the row out.
load-too-strong = { $force } is more than any person pulls. Was another unit meant?
load-below-rest = { $length } is not longer than the rest length of { $rest }, so the band is slack. Check the rest length and the units, or leave the row out.
load-beyond-breaking = { $stretch } times the rest length is where rubber breaks. Are length and rest length in the same unit?
load-too-few = Number of readings: { $have }. Two constants and their error take at least { $need }, from 20 per cent longer to as long as the band is used.
load-falls-with-length = Longer, and yet { $drop } weaker than { $shorter }; the scale's error explains { $explained } at most. A mark that slipped, two rows exchanged, or a damaged band.
load-no-pull = Nothing pulled. Number of readings: { $readings }.
load-too-narrow = All readings lie between { $lowest } and { $highest } times the rest length. Spread them further.

load-share = { $load } is no share of strength: it lies between 0 and 1. Per cent belong in a column load_pct.
load-negative-time = { $seconds } s: time does not run backwards.
load-starts-not-rising = Starting times must grow from row to row.
load-longer-than-hour = The plan lasts { $minutes } minutes. The model is for seconds to tens of minutes and is not asked beyond an hour: it says nothing about hours.
load-muscle = “{ $word }” is no muscle group of the table. Known: { $known }.
load-rates = These rates make no muscle: fatigue lies between 0.0001 and 1 per second, recovery between 0.00001 and 0.1, the factor at rest between 1 and 60.
load-every = Points of the trajectory lie at least a hundredth of a second apart.

load-toml = This is not TOML: { $detail }
load-missing = “{ $key }” is missing. { $why ->
    [load-why-rest] It is the length of the slack band between its grips, for a loop all the way round.
    [load-why-band] Add a table [band] with rest_m and its law.
    [load-why-length] Measure it, or describe the [body] it can be estimated from.
    [load-why-anchor] It is the place of the anchor seen from the elbow, outwards, forwards, upwards; inwards is negative.
    [load-why-body] The arm's own weight is part of this load: add a table [body] with sex, mass_kg and stature_m.
    [load-why-height] It is how much higher the hands are than the feet.
    [load-why-arm] Add it, or a table [body]: the arm's own weight belongs to the strength.
    [load-why-strength] A strength is torque_nm, or force_n with lever_m.
    [load-why-lengths] They are the rest lengths that may be cut from this roll.
    [load-why-law] Say how the roll pulls: a_n and b_n, at_double_n, or a calibration file.
   *[other] { $why }
}
load-not-a-number = “{ $key }” should be a number, without quotation marks.
load-not-a-text = “{ $key }” should be a text in quotation marks.
load-not-a-flag = “{ $key }” should be true or false.
load-not-a-table = “{ $key }” should be a table.
load-two-units = “{ $one }” and “{ $other }” say the same in two units. Keep one.
load-unknown-key = “{ $key }” is not known here. { $near ->
    [none] See docs/loads.md for what is.
   *[other] Was “{ $near }” meant?
}
load-no-geometry = Which exercise? “geometry” is one of: { $known }.
load-geometry = “{ $word }” is no geometry. Known: { $known }.
load-tempo = “{ $tempo }” is no tempo. Write seconds out, held and back, for instance "1/0/1".
load-sex = “{ $word }” names no table of the body. Write "female" or "male".
load-no-mass = The body mass is missing, and the load cannot be worked out without it: add mass_kg (or mass_lb) to [body].
load-no-stature = The stature is missing: add stature_m (or stature_cm, stature_in) to [body].
load-body-mass = { $mass } is no body mass. It lies above 0 and up to 300 kg.
load-body-stature = { $stature } is no stature. Was another unit meant?
load-body-tape = { $length } is longer than the person, or nothing. Was another unit meant?
load-no-law = A band has one law: a_n and b_n, or at_double_n, or stiffness_n_per_m, or a calibration file.
load-strands = “{ $word }” is no way for a band to run. Write "single" or "loop".
load-around = A loop cannot run round something { $length } thick.
load-law = This law pulls backwards, or harder than any band.
load-length = { $length } is no length for this. It lies above 0 and below 10 m.
load-anchor = The anchor lies { $length } away. It lies within 10 m.
load-anchor-parts = An anchor has three numbers: outwards, forwards, upwards.
load-angle = { $angle }° lies outside what this joint does.
load-no-movement = The movement ends where it starts, at { $angle }°.
load-weight = { $mass } is no hand weight. It lies between 0 and 30 kg.
load-press = { $force } is no press of a hand. It lies between 0 and 1000 N.
load-wall = At a wall the body stands between 45 and 90°, not at { $angle }°.
load-height = Hands and feet { $height } apart in height: within a metre, and not so that the body tips over.
load-variant = “{ $word }” is no push-up. Known: floor, knees, wall with wall_deg, bench with height_m, feet-raised with feet_height_m.
load-errors = The errors of the inputs are negative, or larger than the inputs can be.
load-test-force = { $force } is no reading of a dynamometer.
load-test-lever = A lever of { $lever } is none, or longer than an arm.
load-test-noise = A re-test error of { $noise } lies outside 0 to 100 %.
load-assumed-rotation = Strength is assumed for rotation only. Measure it for this exercise.
load-assumed-minor = For anybody under 18 no strength is assumed: measure it, or let the starting table stand alone.
load-no-kit = No kit: add [[roll]] with its law and lengths_m, or weights_kg.
load-target = A step from { $low } to { $high } % is none. The lower end lies above 0 and not above the upper.
load-no-swimmers = Nobody: add [[swimmer]] with a body and now_nm, or strength_nm with share_pct.
load-no-load-now = What does { $name } pull now? Add now_nm, or strength_nm with share_pct.
load-no-band-here = No band is pulled in this exercise.
load-no-weight-here = No weight is lifted in this exercise.
load-squad-too-large = More lengths or swimmers than this is meant for.
