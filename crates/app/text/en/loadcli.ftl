# The commands that work out loads, in words for a terminal.

cli-load-refused = { $file } cannot be worked out. Number of problems: { $number }.
cli-load-refused-hint = Nothing was stored. Each line names its place. docs/loads.md has an example of every file.
cli-band-head = One strand, measured at a rest length of { $rest } m: { $n } readings from { $low } to { $high } % longer.
cli-band-law = Force = a (l - l^-2) + b (1 - l^-3) with l = length / rest length: a = { $a } N (standard error { $asd }), b = { $b } N ({ $bsd }){ $correlation ->
    [none] .
   *[other] , correlation { $correlation }: never one without the other.
}
cli-band-held = A free fit would have made a constant negative; it was held at zero.
cli-band-residual = Readings lie { $sd } N about the curve (one standard deviation).
cli-band-double = At double length: { $force } N, give or take { $sd } N in use.
cli-band-columns = longer %, force N, curve ± N, new reading 95 % N
cli-band-above = above the readings: not to be used
cli-band-readings = Readings: line, length m, force N, off the curve N
cli-band-plot = Force against stretch
cli-torque-head = { $geometry }, tempo { $tempo }
cli-torque-peak = Peak { $torque } N m at { $angle }° (95 %: { $low } to { $high } N m; kit ± { $kit }, body ± { $body }).
cli-torque-mean = Mean over the arc { $mean } N m; work { $work } J; { $impulse } N m s in one repetition.
cli-torque-stretch = The band is stretched to between { $low } and { $high } times its rest length.
cli-torque-share = { $share } % of the { $is ->
    [measured] measured strength
   *[other] assumed strength of an adult
} of { $strength } N m (95 %: { $low } to { $high } %).
cli-torque-endurance = An adult's static load of that share lasts { $seconds } s, within { $low } to { $high } s: a wide prior, not a promise.
cli-torque-at = Asked for: angle °, torque N m
cli-torque-plot = Torque against angle
cli-torque-x = angle, °
cli-torque-y = torque, N m
cli-torque-hands = Both hands carry { $share } % of body weight (± { $sd }), each { $each } N. { $foundation ->
    [published] Published between these heights.
   *[other] Beyond any measurement: an upper estimate.
} It ranks variants; it is no torque at the shoulder.
cli-caution = { $caution ->
    [stretched-beyond-200-percent] The band is stretched beyond 200 %: not to be offered.
    [slack-in-part-of-the-movement] The band is slack in a part of the movement.
    [tables-are-of-adults] Masses and lengths come from tables of adults.
    [no-published-load] Nobody has published a load to check this by.
   *[other] { $caution }
}
cli-fatigue-head = { $name }: fatigue { $f } and recovery { $r } per second, { $rest } times at rest.
cli-fatigue-failed = Falls short of the load after { $seconds } s.
cli-fatigue-never = Never falls short of the load in this plan.
cli-fatigue-endless = { $share } % of strength could be held without end.
cli-fatigue-columns = from s, to s, load % of strength, left afterwards %
cli-fatigue-valid = Good for comparing plans within one session. It says nothing about hours, clears nobody and foresees no pain.
cli-fatigue-x = time, s
cli-fatigue-y = share of rested strength
cli-fatigue-plot = What is left, and what is asked
cli-ladder-head = { $geometry }: { $n } rungs, steps aimed at { $low } to { $high } %.
cli-ladder-columns = Rung, peak N m, error of the kit, share of strength
cli-ladder-step = + { $size } % (± { $sd }){ $fit ->
    [small] , less than aimed at
    [too-large] , more than aimed at: the kit has a gap here
   *[other] {""}
}
cli-ladder-spare = Between the rungs, for an easier step
cli-ladder-not-offered = Not offered to this body
cli-ladder-why = { $why ->
    [past-calibration] Stretched beyond what was measured.
    [past-200-percent] Stretched beyond 200 %.
    [slack] Slack at the end of the movement.
   *[other] It makes no sense here.
}
cli-ladder-same = not to be told apart from { $others }
cli-cut-head = Cut { $n } lengths, of { $of } that were looked at: { $next } of { $swimmers } swimmers then have a rung to stand on and a next one.
cli-cut-proof = { $proof ->
    [proven] Proven: nothing gives more of them a rung, and nothing does as much with fewer lengths.
   *[other] Not proven: at most { $gap } % more might be possible.
}
cli-cut-columns = Cut: roll and length, pieces for the busiest session, swimmers on it now
cli-cut-swimmers = Swimmer, pulls now N m, one below, to stand on, next
cli-cut-none = none
cli-cut-safety = Join a loop so that no knot lies across the line to a face. Pull every new piece to its longest ten times, eyes away from the line, before anybody uses it. An adult checks every door anchor. Ask about latex.
